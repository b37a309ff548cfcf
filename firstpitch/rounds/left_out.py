"""Why steps are not in the round, and what taking each in would cost."""

from __future__ import annotations

from collections.abc import Mapping

from firstpitch.rounds.choose import needs_of
from firstpitch.rounds.model import Model
from firstpitch.rounds.reach import hopeless
from firstpitch.rounds.types import LeftOut
from firstpitch.rounds.wording import need_words


def left_out(model: Model, able: frozenset[int], ends: Mapping[int, int]) -> tuple[LeftOut, ...]:
    """Each step that is not in the round, in sheet order."""
    lacking: dict[str, str] = {}
    for missing in model.problem.missing:
        lacking.setdefault(missing.step, missing.what)
    found: list[LeftOut] = []
    for index, step in enumerate(model.steps):
        if index in ends:
            continue
        if step.id in lacking:
            found.append(LeftOut(step.id, lacking[step.id], None))
        elif index not in able:
            found.append(LeftOut(step.id, f"It cannot be done: {_obstacle(model, index, able)}.", None))
        else:
            found.append(_by_choice(model, index, ends))
    return tuple(found)


def _obstacle(model: Model, step: int, able: frozenset[int]) -> str:
    """What keeps a step from ever being done, in words."""
    needs = hopeless(model, step, able)
    if needs:
        return f"nothing on this van brings about {need_words(model, needs[0])}"
    titles = {w.id: w.title for w in model.problem.waits}
    begun = {w for i in able for w in model.steps[i].starts}
    never = [titles.get(w, w) for w in model.steps[step].awaits if w not in begun]
    return f"nothing starts “{never[0]}”, which has to be over first" if never else "it changes one thing twice at once"


def _by_choice(model: Model, step: int, ends: Mapping[int, int]) -> LeftOut:
    cost = extra_seconds(model, step, ends)
    total = max(ends.values(), default=0)
    if model.limit is not None and total + cost > model.limit:
        minutes, seconds = divmod(cost, 60)
        reason = f"No time: it would add about {minutes} min {seconds:02d} s."
    elif model.limit is not None:
        reason = "No round with it was found that keeps to the minutes and loses nothing worth as much."
    else:
        reason = "No round with it was found that loses nothing worth as much."
    return LeftOut(model.steps[step].id, reason, cost)


def extra_seconds(model: Model, step: int, ends: Mapping[int, int]) -> int:
    """About what taking ``step`` into the round would add [s]: its own time, the least detour, and the steps it rests on."""
    order = list(ends)
    needed = _with_needs(model, step, ends)
    return sum(model.seconds[i] + min(model.detour(order, at, i) for at in range(len(order) + 1)) for i in needed)


def _with_needs(model: Model, step: int, ends: Mapping[int, int]) -> set[int]:
    needed, todo = {step}, [step]
    while todo:
        for ways in needs_of(model, todo.pop()):
            open_ways = [w for w in ways if w not in needed]
            if open_ways and not any(w in ends or w in needed for w in ways):
                cheapest = min(open_ways, key=lambda w: (model.seconds[w], w))
                needed.add(cheapest)
                todo.append(cheapest)
    return needed
