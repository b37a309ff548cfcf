"""The planner's stow against every possible stow, and against another solver."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import numpy as np
import pytest

from bench.highs import by_highs
from bench.loads import LOCKERS, listed, outfit
from firstpitch.outfit import Load, LoadItem, Placed, Stow, plan_stow
from firstpitch.outfit.stow import StowProblem, evaluate, stow_problem


def _small(seed: int) -> StowProblem:
    """Six things of different sorts for four lockers, with limits that bite."""
    chance = random.Random(seed)
    things = tuple(
        LoadItem(
            f"thing-{n}",
            f"Thing {n}",
            round(chance.uniform(1, 14), 1),
            (0.4, 0.3, round(chance.uniform(0.1, 0.3), 2)),
            reach=chance.choice(("any", "any", "inside")),  # type: ignore[arg-type]
        )
        for n in range(6)
    )
    chosen = sorted(chance.sample(range(len(LOCKERS)), 4))
    full = outfit(things)
    lockers = tuple(replace(full.van.plan.lockers[n], limit=chance.choice((12.0, 18.0, 25.0))) for n in chosen)
    van = replace(full.van, plan=replace(full.van.plan, lockers=lockers))
    today = Stow((Placed("thing-0", lockers[0].id),)) if seed % 3 == 0 else None
    return stow_problem(replace(full, van=van, load=Load("small", things), stow=today))


def _best_of_all(problem: StowProblem) -> float | None:
    """The least points of all stows that keep every limit, by trying each of them; None when there is none."""
    best = None
    choices = [np.flatnonzero(row) for row in problem.allowed]
    for places in itertools.product(*choices):
        counts = np.zeros(problem.allowed.shape, dtype=np.int64)
        for item, locker in enumerate(places):
            counts[item, locker] = 1
        points = _points(problem, counts)
        if points is not None and (best is None or points < best):
            best = points
    return best


def _points(problem: StowProblem, counts: np.ndarray) -> float | None:
    """Points of a stow from the definition, None where it breaks a limit."""
    loads = problem.mass @ counts
    if (loads > problem.limit + 1e-9).any() or (problem.volume @ counts > problem.room * (1 + 1e-9)).any():
        return None
    if problem.base_mass + loads.sum() > problem.outfit.van.masses.mtplm:
        return None
    nose = problem.noses[0].base.low + problem.noses[0].share @ loads
    low, high = problem.band.preferred
    if problem.band.ruling is not None and nose > problem.band.ruling:
        return None
    moved = 0 if problem.today is None else int(np.maximum(problem.today - counts, 0).sum())
    outside = max(0.0, low - nose) + max(0.0, nose - high)
    return float(problem.cost @ loads + 1000 * outside + abs(problem.y @ loads) + 3 * moved)


@pytest.mark.parametrize("seed", range(24))
def test_plan_against_every_stow(seed: int) -> None:
    """Six things in four lockers: no stow of all is better than the planned one, and where none exists none is claimed."""
    problem = _small(seed)
    best = _best_of_all(problem)
    plan = plan_stow(problem.outfit, tolerance=0.0)
    if best is None:
        assert plan.left
        return
    assert not plan.left
    assert plan.proven
    assert plan.points == pytest.approx(best, abs=0.05)


@pytest.mark.parametrize("seed", [5, 23, 30])
def test_least_left_at_home_against_every_stow(seed: int) -> None:
    """Where not everything goes in, no smaller mass could be left at home."""
    problem = _small(seed)
    assert _best_of_all(problem) is None
    plan = plan_stow(problem.outfit, tolerance=0.0)
    masses = {item.id: item.mass for item in problem.items}
    left = sum(masses[item] * number for item, number in plan.left)
    least = min(
        sum(problem.mass[list(home)])
        for size in range(1, 7)
        for home in itertools.combinations(range(6), size)
        if _without(problem, home)
    )
    assert left == pytest.approx(least, abs=0.002)


def _without(problem: StowProblem, home: tuple[int, ...]) -> bool:
    choices = [[-1] if i in home else np.flatnonzero(row).tolist() for i, row in enumerate(problem.allowed)]
    for places in itertools.product(*choices):
        counts = np.zeros(problem.allowed.shape, dtype=np.int64)
        for item, locker in enumerate(places):
            if locker >= 0:
                counts[item, locker] = 1
        if _points(problem, counts) is not None:
            return True
    return False


@pytest.mark.parametrize(("items", "seed"), [(25, 1), (40, 2), (60, 2)])
def test_plan_against_another_solver(items: int, seed: int) -> None:
    """Twenty-five to sixty things in fourteen lockers: planner and HiGHS agree, each within the other's proven bound."""
    problem = stow_problem(outfit(listed(items, seed)))
    other = by_highs(problem, seconds=20.0, gap=0.3)
    plan = plan_stow(problem.outfit, tolerance=0.3, seconds=20.0)
    assert plan.points >= other.bound - 0.5
    assert plan.bound <= other.points + 0.5
    if plan.proven and other.proven:
        assert plan.points == pytest.approx(other.points, abs=0.7)
    assert not evaluate(problem, problem.counts(plan.stow)).breaches
    assert plan.proven or other.proven
