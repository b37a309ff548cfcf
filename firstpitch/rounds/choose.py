"""Which steps to take when the minutes are short: the most worth, with all that those steps rest on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstpitch.rounds.model import Model


@dataclass(frozen=True)
class Choice:
    """Steps to try, a proven upper bound on the worth of any round that fits, and the seconds these steps take."""

    steps: frozenset[int]
    worth_bound: int
    seconds: int
    proven: bool


def needs_of(model: Model, step: int) -> Iterator[tuple[int, ...]]:
    """For each need of ``step`` that the start does not fulfil: the steps of which at least one must be taken too."""
    for window in model.by_step[step]:
        if model.start[window.condition] not in window.values:
            yield tuple({s.step for s in model.by_condition[window.condition] if s.value in window.values})
    for wait in model.awaits_of[step]:
        yield (wait.starter,)


def choose(model: Model, able: frozenset[int], seconds: int, seed: int) -> Choice | None:
    """The set of most worth whose steps alone fit ``seconds``, with what they rest on; None when even the musts do not fit.

    Walking and waiting are left out, so the worth is an upper bound for every real round within ``seconds``.
    """
    from ortools.sat.python import cp_model

    cp = cp_model.CpModel()
    taken = {i: cp.new_bool_var(f"in{i}") for i in sorted(able)}
    for i, lit in taken.items():
        if i in model.musts:
            cp.add(lit == 1)
        for ways in needs_of(model, i):
            cp.add_bool_or([~lit, *(taken[w] for w in ways if w in taken and w != i)])
    for window in model.finish:
        if model.start[window.condition] not in window.values:
            makers = {s.step for s in model.by_condition[window.condition] if s.value in window.values}
            cp.add_bool_or([taken[m] for m in sorted(makers) if m in taken])
    cp.add(sum(model.seconds[i] * lit for i, lit in taken.items()) <= seconds)
    worth = sum(_worth(model, i) * lit for i, lit in taken.items())
    length = sum(model.seconds[i] * lit for i, lit in taken.items())
    most = sum(model.seconds[i] for i in taken) + 1
    cp.maximize(worth * most - length)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed % 2**31
    solver.parameters.max_deterministic_time = 2.0
    status = solver.solve(cp)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    steps = frozenset(i for i, lit in taken.items() if solver.value(lit))
    bound = -(-int(solver.best_objective_bound + most - 1) // most)
    worth_bound = max(bound, sum(_worth(model, i) for i in steps))
    length_taken = sum(model.seconds[i] for i in steps)
    return Choice(steps, worth_bound, length_taken, status == cp_model.OPTIMAL)


def _worth(model: Model, step: int) -> int:
    return 0 if step in model.musts else model.steps[step].worth


def worth_of(model: Model, steps: frozenset[int]) -> int:
    """The worth of the should and may steps among ``steps``."""
    return sum(_worth(model, i) for i in steps)
