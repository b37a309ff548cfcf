"""Wishes for a round: a step to come first or last, a step to leave out. Each becomes conditions of the problem itself.

A step wished first is asked for by every step that nothing about it rests on; a step wished last bars every step that need not follow
it. So the planner keeps the wish as it keeps any other need, and a wish that cannot be is explained by the facts that clash.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from firstpitch.rounds.choose import needs_of
from firstpitch.rounds.model import Model, Window, index_problem
from firstpitch.rounds.orders import Contradiction, Orders, guard_windows, infer
from firstpitch.rounds.reach import reachable
from firstpitch.rounds.types import Effect, Literally, Missing, Problem, Step

AHEAD, PAST = "still-to-come", "past"
_Asked = Iterator[tuple[int, Iterable[int], str]]
_More = Callable[[int], Iterable[int]]


def with_wishes(
    problem: Problem, first: Sequence[str] = (), last: Sequence[str] = (), without: Sequence[str] = ()
) -> Problem:
    """The problem with wishes: steps ``first`` (in this order), steps ``last`` (in this order), steps to do ``without``.

    A step wished first comes as soon as what it rests on is done, one wished last is followed only by what must follow it; both are
    musts from then on. A must that is to be left out stays a must, so the planner says that it clashes. Rounds of the new problem are
    rounds of the old one. ValueError for a step that the problem does not have, or that stands in two wishes.
    """
    index = {step.id: i for i, step in enumerate(problem.steps)}
    wished = [*first, *last, *without]
    unknown = next((name for name in wished if name not in index), None)
    if unknown is not None:
        raise ValueError(f"there is no step “{unknown}” on this van")
    twice = next((name for name in wished if wished.count(name) > 1), None)
    if twice is not None:
        raise ValueError(f"“{problem.steps[index[twice]].title}” stands in more than one wish; keep one")
    if not wished:
        return problem
    left_out = tuple(Missing(name, f"You left out “{problem.steps[index[name]].title}”.") for name in without)
    model = index_problem(replace(problem, missing=(*problem.missing, *left_out)))
    view = _View(model)
    needs: dict[int, list[Literally]] = {}
    for wish, needing, value in (*_first(view, [index[f] for f in first]), *_last(view, [index[e] for e in last])):
        for step in needing:
            needs.setdefault(step, []).append(Literally(_condition(problem, wish), frozenset({value})))
    pinned = [index[name] for name in (*first, *last)]
    return replace(
        model.problem,
        steps=tuple(_with(step, needs.get(i, []), i in pinned) for i, step in enumerate(problem.steps)),
        start={**problem.start, **{_condition(problem, i): AHEAD for i in pinned}},
        labels={**problem.labels, **dict(_labels(problem, index, first, last))},
    )


def _condition(problem: Problem, step: int) -> str:
    return f"wish.{problem.steps[step].id}"


def _with(step: Step, needs: Sequence[Literally], pinned: bool) -> Step:
    if not (needs or pinned):
        return step
    sets = (*step.sets, Effect(f"wish.{step.id}", PAST)) if pinned else step.sets
    level = "must" if pinned else step.level
    return replace(step, requires=(*step.requires, *needs), sets=sets, level=level)


def _labels(
    problem: Problem, index: Mapping[str, int], first: Sequence[str], last: Sequence[str]
) -> Iterator[tuple[str, str]]:
    for names, place in ((first, "first"), (last, "last")):
        for name in names:
            yield f"wish.{name}", f"“{problem.steps[index[name]].title}”, which you wish to have {place}"


class _View:
    """A model with what the wishes ask of it: which steps can be done, the orders that always hold, all needs of each step."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.able = reachable(model, range(len(model.steps)))
        self.orders = _orders(model, self.able)
        self.guarded: dict[int, list[Window]] = {}
        for window in guard_windows(model):
            self.guarded.setdefault(window.step, []).append(window)

    def makers(self, window: Window) -> Iterator[int]:
        """The steps that bring about what a need asks."""
        return (s.step for s in self.model.by_condition[window.condition] if s.value in window.values)

    def rests_on(self, step: int) -> frozenset[int]:
        """``step`` and every step that it may rest on, by itself or through others."""
        found = {i for i in self.able if self.orders is not None and self.orders.precedes(i, step)}
        return self._closed({step}, self._helpers) | found

    def followed_by(self, step: int) -> frozenset[int]:
        """``step`` and every step that may have to follow it, because it always does or to leave the van as it should be."""
        found = {i for i in self.able if self.orders is not None and self.orders.precedes(step, i)}
        return self._closed({step, *found}, self._menders)

    def _closed(self, steps: set[int], more: _More) -> frozenset[int]:
        todo = list(steps)
        while todo:
            for step in more(todo.pop()):
                if step in self.able and step not in steps:
                    steps.add(step)
                    todo.append(step)
        return frozenset(steps)

    def _helpers(self, step: int) -> Iterator[int]:
        for ways in needs_of(self.model, step):
            yield from ways
        for window in self.guarded.get(step, ()):
            if self.model.start[window.condition] not in window.values:
                yield from self.makers(window)

    def _menders(self, step: int) -> Iterator[int]:
        """The steps that put right what the finish forbids and this step needs or sets."""
        model = self.model
        held = [(w.condition, w.values) for w in (*model.by_step[step], *self.guarded.get(step, ()))]
        held += [(s.condition, frozenset({s.value})) for s in model.setters_by_step[step]]
        for condition, values in held:
            for window in model.finish:
                if window.condition == condition and not values <= window.values:
                    yield from self.makers(window)


def _orders(model: Model, able: frozenset[int]) -> Orders | None:
    """The orders that hold in every round of all that can be done; None when there is no such round."""
    try:
        return infer(model, able)
    except Contradiction:
        return None


def _first(view: _View, steps: Sequence[int]) -> _Asked:
    """For each wish, the steps that have to find it past."""
    free: set[int] = set()
    for step in steps:
        free |= view.rests_on(step)
        yield step, [i for i in range(len(view.model.steps)) if i not in free], PAST


def _last(view: _View, steps: Sequence[int]) -> _Asked:
    """For each wish, the steps that have to find it still to come; a later wish has to find it past where it can."""
    for at, step in enumerate(steps):
        free = frozenset[int]().union(*(view.followed_by(later) for later in steps[at:]))
        yield step, [i for i in range(len(view.model.steps)) if i not in free], AHEAD
        yield step, [later for later in steps[at + 1 :] if later not in view.rests_on(step)], PAST
