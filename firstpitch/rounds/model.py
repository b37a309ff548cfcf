"""The planning problem with numbers for names, for the search, the bound and the exact solver.

Every change and every need is written relative to the end of a step: a *setter* acts at ``end[step] + lag``; a *window* asks that a
condition has one of some values over ``[end[step] + a, end[step] + b)``, or at that one instant where ``a == b``.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from firstpitch.rounds.types import Problem, Step

FINISH = -1


@dataclass(frozen=True)
class Setter:
    """Sets ``condition`` to ``value`` at ``end[step] + lag``."""

    step: int
    lag: int
    condition: int
    value: str


@dataclass(frozen=True)
class Window:
    """``condition`` in ``values`` over ``[end[step] + a, end[step] + b)``; ``step`` FINISH means the end of the round."""

    step: int
    a: int
    b: int
    condition: int
    values: frozenset[str]


@dataclass(frozen=True)
class Await:
    """``end[step] - seconds[step] >= end[starter] + lag``."""

    step: int
    starter: int
    lag: int


@dataclass(frozen=True)
class IndexedGuard:
    """``never`` as (condition, values) pairs."""

    id: str
    never: tuple[tuple[int, frozenset[str]], ...]


@dataclass(frozen=True)
class Model:
    """A problem by index. ``barred`` steps can never be done: the van lacks something, or they change one condition twice at once."""

    problem: Problem
    conditions: tuple[str, ...]
    setters: tuple[Setter, ...]
    windows: tuple[Window, ...]
    finish: tuple[Window, ...]
    awaits: tuple[Await, ...]
    guards: tuple[IndexedGuard, ...]
    barred: frozenset[int]
    wait_ends: tuple[tuple[int, int], ...]

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps, by index."""
        return self.problem.steps

    @cached_property
    def seconds(self) -> tuple[int, ...]:
        """How long each step takes [s]."""
        return tuple(s.seconds for s in self.steps)

    @cached_property
    def limit(self) -> int | None:
        """The whole seconds that the round may take; None for no limit."""
        minutes = self.problem.minutes
        return None if minutes is None else math.floor(minutes * 60 + 1e-6)

    @cached_property
    def musts(self) -> frozenset[int]:
        """Steps that have to be in the round."""
        return frozenset(i for i, s in enumerate(self.steps) if s.level == "must")

    @cached_property
    def place(self) -> tuple[int, ...]:
        """The place of each step, by index."""
        index = {p.id: n for n, p in enumerate(self.problem.places)}
        return tuple(index[s.place] for s in self.steps)

    @cached_property
    def walk(self) -> tuple[tuple[int, ...], ...]:
        """Whole seconds between places, by index."""
        ids = [p.id for p in self.problem.places]
        return tuple(tuple(self.problem.walks[a][b] for b in ids) for a in ids)

    @cached_property
    def start_place(self) -> int:
        """Index of the place where the presenter begins."""
        return [p.id for p in self.problem.places].index(self.problem.start_place)

    @cached_property
    def topic(self) -> tuple[int, ...]:
        """A number per topic, by step."""
        topics = {t: n for n, t in enumerate(dict.fromkeys(s.topic for s in self.steps))}
        return tuple(topics[s.topic] for s in self.steps)

    @cached_property
    def start(self) -> tuple[str, ...]:
        """The start value of each condition."""
        return tuple(self.problem.start.get(c, "") for c in self.conditions)

    @cached_property
    def by_condition(self) -> tuple[tuple[Setter, ...], ...]:
        """The setters of each condition."""
        found: list[list[Setter]] = [[] for _ in self.conditions]
        for setter in self.setters:
            found[setter.condition].append(setter)
        return tuple(tuple(s) for s in found)

    @cached_property
    def by_step(self) -> tuple[tuple[Window, ...], ...]:
        """The windows of each step."""
        found: list[list[Window]] = [[] for _ in self.steps]
        for window in self.windows:
            found[window.step].append(window)
        return tuple(tuple(w) for w in found)

    @cached_property
    def awaits_of(self) -> tuple[tuple[Await, ...], ...]:
        """What each step awaits."""
        found: list[list[Await]] = [[] for _ in self.steps]
        for wait in self.awaits:
            found[wait.step].append(wait)
        return tuple(tuple(w) for w in found)

    def detour(self, order: Sequence[int], at: int, step: int, begin: int | None = None) -> int:
        """The extra walking [s] to visit ``step`` just before position ``at`` of this order of other steps.

        The walk begins at the place ``begin``, or where the round begins.
        """
        here = self.place[step]
        first = self.start_place if begin is None else begin
        come = self.place[order[at - 1]] if at else first
        if at == len(order):
            return self.walk[come][here]
        go = self.place[order[at]]
        return self.walk[come][here] + self.walk[here][go] - self.walk[come][go]

    @cached_property
    def setters_by_step(self) -> tuple[tuple[Setter, ...], ...]:
        """The setters of each step, its waits' included."""
        found: list[list[Setter]] = [[] for _ in self.steps]
        for setter in self.setters:
            found[setter.step].append(setter)
        return tuple(tuple(s) for s in found)


def index_problem(problem: Problem) -> Model:
    """Number the problem. ValueError when two steps start the same wait."""
    names: dict[str, int] = {c: n for n, c in enumerate(problem.start)}
    for step in problem.steps:
        for condition in (*(r.condition for r in step.requires), *(e.condition for e in step.sets)):
            names.setdefault(condition, len(names))
    for literal in (
        *(s for w in problem.waits for s in w.sustains),
        *problem.finish,
        *(n for g in problem.guards for n in g.never),
    ):
        names.setdefault(literal.condition, len(names))
    for wait in problem.waits:
        for effect in wait.sets:
            names.setdefault(effect.condition, len(names))
    starter = _starters(problem)
    lacking = {m.step for m in problem.missing}
    setters = tuple(_setters(problem, names, starter))
    twice = {s.step for s, n in Counter(Setter(s.step, s.lag, s.condition, "") for s in setters).items() if n > 1}
    return Model(
        problem=problem,
        conditions=tuple(names),
        setters=setters,
        windows=tuple(_windows(problem, names, starter)),
        finish=tuple(Window(FINISH, 0, 0, names[f.condition], f.values) for f in problem.finish),
        awaits=tuple(_awaits(problem, starter)),
        guards=tuple(_guards(problem, names)),
        barred=frozenset(i for i, s in enumerate(problem.steps) if s.id in lacking or i in twice),
        wait_ends=tuple((starter[w.id], w.seconds) for w in problem.waits if w.id in starter),
    )


def _guards(problem: Problem, names: dict[str, int]) -> Iterator[IndexedGuard]:
    """Guards with one side per condition; those that ask two values of one condition at once can never be broken."""
    for guard in problem.guards:
        sides: dict[int, frozenset[str]] = {}
        for literal in guard.never:
            index = names[literal.condition]
            sides[index] = sides.get(index, literal.values) & literal.values
        if all(sides.values()):
            yield IndexedGuard(guard.id, tuple(sides.items()))


def _starters(problem: Problem) -> dict[str, int]:
    starter: dict[str, int] = {}
    for index, step in enumerate(problem.steps):
        for wait in step.starts:
            if wait in starter:
                raise ValueError(f"the wait {wait} is started by two steps")
            starter[wait] = index
    return starter


def _setters(problem: Problem, names: dict[str, int], starter: dict[str, int]) -> Iterator[Setter]:
    for index, step in enumerate(problem.steps):
        for effect in step.sets:
            yield Setter(index, 0, names[effect.condition], effect.value)
    for wait in problem.waits:
        if wait.id in starter:
            for effect in wait.sets:
                yield Setter(starter[wait.id], wait.seconds, names[effect.condition], effect.value)


def _windows(problem: Problem, names: dict[str, int], starter: dict[str, int]) -> Iterator[Window]:
    for index, step in enumerate(problem.steps):
        for need in step.requires:
            yield Window(index, -step.seconds, 0, names[need.condition], need.values)
    for wait in problem.waits:
        if wait.id in starter:
            for need in wait.sustains:
                yield Window(starter[wait.id], 0, wait.seconds, names[need.condition], need.values)


def _awaits(problem: Problem, starter: dict[str, int]) -> Iterator[Await]:
    length = {w.id: w.seconds for w in problem.waits}
    for index, step in enumerate(problem.steps):
        for wait in step.awaits:
            yield Await(index, starter.get(wait, index), length.get(wait, 0))
