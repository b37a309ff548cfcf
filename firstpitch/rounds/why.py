"""Why each step of a round stands where it stands, in short plain sentences."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from firstpitch.rounds.causes import Frame, Support, frame_of
from firstpitch.rounds.improve import Scale, moved
from firstpitch.rounds.model import FINISH, Model, Window, index_problem
from firstpitch.rounds.types import Plan, Problem, Wait
from firstpitch.rounds.wording import clock, listed, need_words

NAMED = 2  # so many steps are named in a sentence, the rest counted
COMMON = 0.25  # a need that more than this share of the steps have is not told of each of them
FEW = 5


def why(problem: Problem, plan: Plan) -> Mapping[str, tuple[str, ...]]:
    """For each step of the round, by id and in order, sentences on why it stands there.

    They say what comes first, what it waited for, what rests on it, what it starts and what goes on meanwhile, what it must come before,
    and what walking its place in the round saves [s]. ValueError when the plan is not a valid round of this problem.
    """
    model = index_problem(problem)
    index = {step.id: i for i, step in enumerate(model.steps)}
    unknown = [timed.step for timed in plan.steps if timed.step not in index]
    if unknown:
        raise ValueError(f"the plan has the step {unknown[0]}, which the problem does not have")
    ends = {index[timed.step]: timed.end for timed in plan.steps}
    view = _View(model, ends, frame_of(model, ends))
    return {model.steps[i].id: tuple(_sentences(view, i)) for i in view.order}


@dataclass(frozen=True)
class _View:
    """A round with what each of its needs rests on."""

    model: Model
    ends: Mapping[int, int]
    frame: Frame

    @cached_property
    def order(self) -> tuple[int, ...]:
        """The steps in the order they are done."""
        return tuple(sorted(self.ends, key=lambda i: self.ends[i]))

    @cached_property
    def scale(self) -> Scale:
        """Weighs other orders that keep what the needs rest on."""
        return Scale(self.model, self.frame)

    @cached_property
    def rests(self) -> Mapping[int, frozenset[int]]:
        """For each step, the later steps that rest on what it sets or starts."""
        found: dict[int, set[int]] = {i: set() for i in self.ends}
        for support in self.frame.supports:
            if support.setter is not None and support.window.step not in (FINISH, support.setter.step):
                found[support.setter.step].add(support.window.step)
        for wait in self.model.awaits:
            if wait.step in self.ends:
                found[wait.starter].add(wait.step)
        return {i: frozenset(later) for i, later in found.items()}

    @cached_property
    def shared_titles(self) -> frozenset[str]:
        """Titles that more than one step of the round has."""
        titles = [self.model.steps[i].title for i in self.ends]
        return frozenset(t for t in titles if titles.count(t) > 1)

    def name(self, step: int) -> str:
        """A step in quotation marks, with its kit where another step is called the same."""
        spec = self.model.steps[step]
        return f"“{spec.title}” ({spec.kit_name})" if spec.title in self.shared_titles else f"“{spec.title}”"

    def names(self, steps: Iterable[int]) -> str:
        """Some steps by name and the rest counted."""
        return listed([self.name(i) for i in steps], NAMED)

    @cached_property
    def sharers(self) -> Counter[tuple[int, frozenset[str]]]:
        """How many steps of the round need each condition to have one of some values."""
        needs = {(w.step, w.condition, w.values) for w in self.model.windows if w.step in self.ends}
        return Counter((condition, values) for _, condition, values in needs)

    def common(self, window: Window) -> bool:
        """Whether so many steps have this need (a door unlocked, the round begun) that it says little about any one of them."""
        return self.sharers[window.condition, window.values] > max(FEW, COMMON * len(self.ends))

    def supports_of(self, step: int) -> Iterator[Support]:
        """What the needs of a step rest on, once each."""
        return (s for s in self.frame.supports if s.window.step == step)


def _sentences(view: _View, step: int) -> Iterator[str]:
    yield from _first(view, step)
    yield from _waited(view, step)
    yield from _unlocks(view, step)
    yield from _starts(view, step)
    yield from _before(view, step)
    yield _walk(view, step)


def _harm(view: _View, window: Window) -> str:
    """The harm of the guard that makes this a need; empty when a step or wait asks for it itself."""
    if window in view.model.by_step[window.step]:
        return ""
    harms = {guard.id: guard.harm for guard in view.model.problem.guards}
    own = [s for s in view.model.setters_by_step[window.step] if s.lag == window.a]
    for guard in view.model.guards:
        sides = dict(guard.never)
        makes = any(s.value in sides.get(s.condition, ()) and s.condition != window.condition for s in own)
        if makes and window.values.isdisjoint(sides.get(window.condition, window.values)):
            return harms[guard.id]
    return ""


def _first(view: _View, step: int) -> Iterator[str]:
    """What comes first: for the sake of a guard with the harm, else the two that fewest others rest on (the closest to this step)."""
    plain: set[int] = set()
    warned: dict[str, list[int]] = {}
    for support in view.supports_of(step):
        setter = support.setter
        if setter is None or setter.step == step or setter.lag or view.common(support.window):
            continue
        harm = _harm(view, support.window)
        if not harm:
            plain.add(setter.step)
        elif setter.step not in warned.setdefault(harm, []):
            warned[harm].append(setter.step)
    told = {i for steps in warned.values() for i in steps}
    close = sorted(plain - told, key=lambda i: (len(view.rests[i]), -view.ends[i]))
    if close:
        yield f"{view.names(close)} {'comes' if len(close) == 1 else 'come'} first."
    for harm, steps in warned.items():
        yield f"{view.names(steps)} {'comes' if len(steps) == 1 else 'come'} first. Otherwise: {harm}"


def _waited(view: _View, step: int) -> Iterator[str]:
    model, start = view.model, view.ends[step] - view.model.seconds[step]
    over = {w.id: (view.ends[i] + w.seconds, w.title) for i in view.ends for w in _waits(model, i)}
    for end, title in sorted(over[w] for w in _wanted(view, step)):
        if end == start:
            yield f"It begins the moment “{title}” is over, at {clock(end)}."
        else:
            yield f"“{title}” has to be over first: it is, at {clock(end)}."
    at = view.order.index(step)
    ready, place = (view.ends[view.order[at - 1]], model.place[view.order[at - 1]]) if at else (0, model.start_place)
    idle = start - ready - model.walk[place][model.place[step]]
    if idle:
        yield f"You stand and wait {idle} s before it."


def _wanted(view: _View, step: int) -> set[str]:
    """The waits that have to be over before a step: those it awaits, and those that bring about what it needs."""
    wanted = set(view.model.steps[step].awaits)
    for support in view.supports_of(step):
        setter = support.setter
        if setter is None or setter.step == step or not setter.lag or view.common(support.window):
            continue
        name = view.model.conditions[setter.condition]
        for wait in _waits(view.model, setter.step):
            if wait.seconds == setter.lag and any((e.condition, e.value) == (name, setter.value) for e in wait.sets):
                wanted.add(wait.id)
    return wanted


def _waits(model: Model, step: int) -> list[Wait]:
    return [w for w in model.problem.waits if w.id in model.steps[step].starts]


def _unlocks(view: _View, step: int) -> Iterator[str]:
    later = sorted(view.rests[step], key=lambda i: view.ends[i])
    if later:
        yield f"{view.names(later)} {'rests' if len(later) == 1 else 'rest'} on it."
    ends = [s.window for s in view.frame.supports if s.window.step == FINISH and s.setter and s.setter.step == step]
    if ends:
        yield f"The round has to end with {listed([need_words(view.model, w) for w in ends], NAMED)}."


def _starts(view: _View, step: int) -> Iterator[str]:
    begun = view.ends[step]
    for wait in _waits(view.model, step):
        over = begun + wait.seconds
        meanwhile = [i for i in view.order if begun <= view.ends[i] - view.model.seconds[i] < over]
        others = f"; meanwhile {view.names(meanwhile)}" if meanwhile else ""
        yield f"It starts “{wait.title}”, which takes {clock(wait.seconds)}{others}."


def _before(view: _View, step: int) -> Iterator[str]:
    """What it must come before: for each need of its own the step that would soonest undo it."""
    plain: dict[int, Window] = {}
    warned: dict[str, dict[int, None]] = {}
    for support in view.supports_of(step):
        later = None if view.common(support.window) else _spoiler(view, support.window)
        if later is None:
            continue
        harm = _harm(view, support.window)
        if harm:
            warned.setdefault(harm, {})[later] = None
        else:
            plain.setdefault(later, support.window)
    told = {i for steps in warned.values() for i in steps}
    soonest = sorted(plain.keys() - told, key=lambda i: view.ends[i])
    for later in soonest[:NAMED]:
        yield f"It comes before {view.name(later)}, because it needs {need_words(view.model, plain[later])}."
    if soonest[NAMED:]:
        yield f"It also comes before {view.names(soonest[NAMED:])}."
    for harm, steps in warned.items():
        yield f"It comes before {view.names(steps)}. Otherwise: {harm}"


def _spoiler(view: _View, window: Window) -> int | None:
    """The step that soonest after this need undoes it, by itself or by a wait it starts."""
    over = view.ends[window.step] + (window.b if window.b > window.a else window.a + 1)
    acts = [
        (view.ends[s.step] + s.lag, s.step)
        for s in view.model.by_condition[window.condition]
        if s.step in view.ends and s.step != window.step and s.value not in window.values
    ]
    return min((act for act in acts if act[0] >= over), default=(0, None))[1]


def _walk(view: _View, step: int) -> str:
    model, order = view.model, view.order
    at = order.index(step)
    here = model.place[step]
    before = model.place[order[at - 1]] if at else model.start_place
    if before == here:
        return "No walk: the step before it is at the same place." if at else "No walk: the round begins at this place."
    rest = [i for i in order if i != step]
    adds = model.detour(rest, at, step)
    lo, hi = view.scale.reach(order, at, at + 1)
    elsewhere = {p: model.detour(rest, p - (p > at), step) for p in range(lo, hi + 1) if p not in (at, at + 1)}
    walked = f"The walk to it adds {adds} s" if adds else "It is on the way: the walk to it adds nothing"
    if not elsewhere:
        return f"{walked}; it can stand nowhere else in this order."
    least = min(elsewhere.values())
    if least > adds:
        return f"{walked}; anywhere else it would add {least} s or more."
    if least == adds:
        return f"{walked}; nowhere else would it add less."
    return walked + _price(view, order, at, [p for p, more in elsewhere.items() if more < adds])


def _price(view: _View, order: Sequence[int], at: int, places: Sequence[int]) -> str:
    """What it would cost to stand where the walk is shorter."""
    ends = [view.scale.ends(moved(order, at, at + 1, p)) for p in places]
    totals = [max(e.values()) for e in ends if e is not None]
    later = min(totals, default=None)
    total = max(view.ends.values())
    if later is None:
        return "; it can stand nowhere else in this order."
    if later > total:
        return f"; where it would add less, the round would end {later - total} s later."
    return "."
