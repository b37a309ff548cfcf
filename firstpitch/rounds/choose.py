"""Which steps to take when the minutes are short: the most worth, with all that those steps rest on."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Contradiction, infer


@dataclass(frozen=True)
class Choice:
    """Steps to try, a proven upper bound on the worth of any round that fits, and the seconds these steps take."""

    steps: frozenset[int]
    worth_bound: int
    seconds: int
    proven: bool


@dataclass(frozen=True)
class Lesson:
    """These steps were found not to go together, unless one of the others is taken too."""

    together: tuple[int, ...]
    unless: tuple[int, ...]


def learn(model: Model, able: frozenset[int], steps: frozenset[int]) -> Lesson | None:
    """Why a chosen set of steps has no order, as far as forced orders tell; None when they tell nothing."""
    try:
        infer(model, steps)
    except Contradiction as clash:
        window = clash.window
        makers: set[int] = set()
        if window is not None:
            makers = {s.step for s in model.by_condition[window.condition] if s.value in window.values}
        unless = tuple(sorted((makers & able) - steps))
        together = tuple(sorted((clash.steps & steps) - model.musts))
        return Lesson(together, unless) if together or unless else None
    return None


def needs_of(model: Model, step: int) -> Iterator[tuple[int, ...]]:
    """For each need of ``step`` that the start does not fulfil: the steps of which at least one must be taken too."""
    for window in model.by_step[step]:
        if model.start[window.condition] not in window.values:
            makers = [s for s in model.by_condition[window.condition] if s.value in window.values]
            if not any(s.step == step and s.lag <= window.a for s in makers):
                yield tuple(dict.fromkeys(s.step for s in makers if s.step != step))
    for wait in model.awaits_of[step]:
        yield () if wait.starter == step else (wait.starter,)


def finish_needs(model: Model) -> Iterator[tuple[tuple[int | None, ...], tuple[int, ...]]]:
    """For each finish condition: what spoils it (None: the start; else steps) and the steps of which one must then be taken too."""
    for window in model.finish:
        setters = model.by_condition[window.condition]
        makers = tuple({s.step for s in setters if s.value in window.values})
        own = {
            s.step: max(o.lag for o in setters if o.step == s.step and o.value in window.values)
            for s in setters
            if s.step in makers
        }
        spoilers: list[int | None] = [
            s.step for s in setters if s.value not in window.values and own.get(s.step, -1) <= s.lag
        ]
        if model.start[window.condition] not in window.values:
            spoilers.append(None)
        if spoilers:
            yield tuple(dict.fromkeys(spoilers)), makers


def choose(
    model: Model, able: frozenset[int], seconds: int, seed: int, lessons: Sequence[Lesson] = ()
) -> Choice | None:
    """The set of most worth whose steps alone fit ``seconds``, with what they rest on; None when even the musts do not fit.

    Walking and waiting are left out, so without ``lessons`` the worth is an upper bound for every real round within ``seconds``.
    """
    from ortools.sat.python import cp_model

    cp = cp_model.CpModel()
    taken = {i: cp.new_bool_var(f"in{i}") for i in sorted(able)}
    _rest_on(model, cp, taken)
    for lesson in lessons:
        cp.add_bool_or([*(~taken[i] for i in lesson.together), *(taken[i] for i in lesson.unless)])
    cp.add(sum(model.seconds[i] * lit for i, lit in taken.items()) <= seconds)
    cp.maximize(sum(weight(model, i) * lit for i, lit in taken.items()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed % 2**31
    solver.parameters.max_deterministic_time = 2.0
    status = solver.solve(cp)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    steps = frozenset(i for i, lit in taken.items() if solver.value(lit))
    most = max(most_worth(model, solver.best_objective_bound), worth_of(model, steps))
    return Choice(steps, most, sum(model.seconds[i] for i in steps), status == cp_model.OPTIMAL)


def _rest_on(model: Model, cp: Any, taken: Mapping[int, Any]) -> None:
    """All musts are in, and with each step and with the finish whatever they cannot do without."""
    for i, lit in taken.items():
        if i in model.musts:
            cp.add(lit == 1)
        for ways in needs_of(model, i):
            cp.add_bool_or([~lit, *(taken[w] for w in ways if w in taken)])
    for spoilers, makers in finish_needs(model):
        mended = [taken[m] for m in makers if m in taken]
        for spoiler in spoilers:
            if spoiler is None:
                cp.add_bool_or(mended)
            elif spoiler in taken:
                cp.add_bool_or([~taken[spoiler], *mended])


def surely(model: Model, able: frozenset[int]) -> frozenset[int]:
    """The musts and every step without which one of them, or the finish, could not be: they are in every valid round."""
    needs = [
        [s.step for s in model.by_condition[w.condition] if s.value in w.values and s.step in able]
        for w in model.finish
        if model.start[w.condition] not in w.values
    ]
    sure = set(model.musts).union(*(set(makers) for makers in needs if len(set(makers)) == 1))
    todo = list(sure)
    while todo:
        for ways in needs_of(model, todo.pop()):
            makers = [w for w in ways if w in able]
            if len(makers) == 1 and makers[0] not in sure:
                sure.add(makers[0])
                todo.append(makers[0])
    return frozenset(sure)


def weight(model: Model, step: int) -> int:
    """What a step counts in a choice: its worth first and, where worth is equal, its seconds against it."""
    return _worth(model, step) * _one_worth(model) - model.seconds[step]


def most_worth(model: Model, bound: float) -> int:
    """The most worth of steps whose weights sum to no more than ``bound``."""
    return math.floor((bound + sum(model.seconds) + 1e-6) / _one_worth(model))


def _one_worth(model: Model) -> int:
    """More than all seconds together, so that no seconds outweigh a worth of one."""
    return sum(model.seconds) + 1


def _worth(model: Model, step: int) -> int:
    return 0 if step in model.musts else model.steps[step].worth


def worth_of(model: Model, steps: frozenset[int]) -> int:
    """The worth of the should and may steps among ``steps``."""
    return sum(_worth(model, i) for i in steps)
