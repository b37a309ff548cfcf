"""Going on from the middle of a round: what was done, what is running, what has changed since."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from firstpitch.rounds.model import index_problem
from firstpitch.rounds.reach import reachable
from firstpitch.rounds.types import Effect, Literally, Missing, Problem, Step, TimedStep, Wait

NOW = "now"
BEGUN = Effect("now.begun", "yes")
RAIN = "now.rain"


@dataclass(frozen=True)
class Change:
    """What is different from the plan.

    ``minutes_left`` None: no limit. ``without_kit``: kit whose steps cannot be done now. ``without_steps``: single steps that cannot
    (no gas: those on gas), or that somebody left for another day. ``indoors_for`` seconds: no outside step begins before that.
    ``overrides``: conditions that are known to be otherwise than the steps done would make them.
    """

    minutes_left: float | None = None
    without_kit: frozenset[str] = frozenset()
    without_steps: frozenset[str] = frozenset()
    indoors_for: int = 0
    overrides: tuple[tuple[str, str], ...] = ()


def state_at(problem: Problem, done: Sequence[TimedStep], now: int) -> dict[str, str]:
    """The value of each condition at second ``now``, from the steps done and the waits over by then."""
    steps = {s.id: s for s in problem.steps}
    waits = {w.id: w for w in problem.waits}
    known = [(steps[t.step], t.end) for t in done if t.step in steps]
    changes = [(end, e) for step, end in known for e in step.sets]
    changes += [(end + waits[w].seconds, e) for step, end in known for w in step.starts for e in waits[w].sets]
    state = dict(problem.start)
    for _, effect in sorted((c for c in changes if c[0] <= now), key=lambda c: c[0]):
        state[effect.condition] = effect.value
    return state


def running_at(problem: Problem, done: Sequence[TimedStep], now: int) -> tuple[tuple[Wait, int], ...]:
    """The waits under way at second ``now``, each with its seconds left."""
    steps = {s.id: s for s in problem.steps}
    waits = {w.id: w for w in problem.waits}
    left = ((waits[w], t.end + waits[w].seconds - now) for t in done if t.step in steps for w in steps[t.step].starts)
    return tuple((wait, seconds) for wait, seconds in left if seconds > 0)


def remaining_problem(problem: Problem, done: Sequence[TimedStep], now: int, change: Change) -> Problem:
    """The rest of a round as a problem of its own, its second 0 being ``now`` (less the one second of the step ``now``).

    The first step is ``now`` itself, where the presenter stands; it carries on the waits that are under way. Waits that are over count as
    awaited. Steps done are gone; steps that the change rules out are no longer musts and cannot be done.
    """
    taken = {t.step for t in done}
    running = running_at(problem, done, now)
    place = next((s.place for t in reversed(done) for s in problem.steps if s.id == t.step), problem.start_place)
    waits = [replace(wait, seconds=left) for wait, left in running]
    if change.indoors_for > 0:
        waits.append(Wait(RAIN, NOW, "Staying indoors", change.indoors_for))
    over = _waits_over(problem, done, now)
    inside = {p.id for p in problem.places if p.inside}
    rest = [
        _still(step, over, wet=change.indoors_for > 0 and step.place not in inside, able=not _ruled_out(step, change))
        for step in problem.steps
        if step.id not in taken
    ]
    first = Step(
        NOW, NOW, "You", rest[0].topic if rest else "papers", "Where you are now", place, 1, "must", 0, sets=(BEGUN,)
    )
    carried = {w.id for w in waits}
    return replace(
        problem,
        start_name="under way",
        start={**state_at(problem, done, now), **dict(change.overrides), BEGUN.condition: "no"},
        start_place=place,
        steps=(replace(first, starts=tuple(w.id for w in waits)), *rest),
        waits=(*waits, *(w for w in problem.waits if w.id not in carried and w.id not in over)),
        minutes=change.minutes_left,
        missing=(*problem.missing, *_cannot(rest, change)),
    )


def _waits_over(problem: Problem, done: Iterable[TimedStep], now: int) -> frozenset[str]:
    steps = {s.id: s for s in problem.steps}
    waits = {w.id: w for w in problem.waits}
    return frozenset(
        w for t in done if t.step in steps for w in steps[t.step].starts if t.end + waits[w].seconds <= now
    )


def _still(step: Step, over: frozenset[str], *, wet: bool, able: bool) -> Step:
    awaits = tuple(w for w in step.awaits if w not in over)
    return replace(
        step,
        level=step.level if able else "may",
        requires=(*step.requires, Literally(BEGUN.condition, frozenset({BEGUN.value}))),
        awaits=(*awaits, RAIN) if wet else awaits,
    )


def _ruled_out(step: Step, change: Change) -> bool:
    return step.kit in change.without_kit or step.id in change.without_steps


def _cannot(steps: Iterable[Step], change: Change) -> Iterable[Missing]:
    return [
        Missing(
            s.id,
            f"{s.kit_name} cannot be used today."
            if s.kit in change.without_kit
            else f"“{s.title}” cannot be done today.",
        )
        for s in steps
        if _ruled_out(s, change)
    ]


def let_go(problem: Problem) -> tuple[Problem, tuple[str, ...]]:
    """The problem with every must that can never be done made a ``may``, and the ids of those: under way, the rest must go on."""
    model = index_problem(problem)
    lost = model.musts - reachable(model, range(len(model.steps)))
    steps = tuple(replace(s, level="may") if i in lost else s for i, s in enumerate(problem.steps))
    return replace(problem, steps=steps), tuple(problem.steps[i].id for i in sorted(lost))


def back_to_clock(sequence: Sequence[TimedStep], now: int) -> tuple[TimedStep, ...]:
    """Steps of a remaining round on the clock of the whole one; the step ``now`` is left away."""
    return tuple(TimedStep(t.step, t.start + now - 1, t.end + now - 1) for t in sequence if t.step != NOW)


def kit_without_supply(problem: Problem, conditions: Mapping[str, str]) -> frozenset[str]:
    """Kit with a step that needs any of ``conditions`` to have that value: what falls away when, say, the gas has run out."""
    wanted = set(conditions.items())
    return frozenset(
        s.kit for s in problem.steps for need in s.requires if any((need.condition, v) in wanted for v in need.values)
    )
