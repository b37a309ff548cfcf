"""The proof of a stow: what the relaxation says is true of every stow, and the same question has the same answer."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from bench.loads import listed, measured, outfit
from firstpitch.outfit.stow import evaluate, stow_problem
from firstpitch.outfit.stow.problem import Counts, StowProblem
from firstpitch.outfit.stow.program import POINTS, program
from firstpitch.outfit.stow.prove import prove
from firstpitch.outfit.stow.relaxed import relaxed
from firstpitch.outfit.stow.search import search


def every_stow(problem: StowProblem) -> list[Counts]:
    """All stows of single things that keep every limit."""
    found = []
    for places in itertools.product(*(np.flatnonzero(row) for row in problem.allowed)):
        counts = np.zeros(problem.allowed.shape, dtype=np.int64)
        counts[np.arange(len(places)), places] = 1
        if not evaluate(problem, counts).breaches:
            found.append(counts)
    return found


@pytest.mark.parametrize("seed", range(8))
def test_no_stow_is_better_than_the_relaxation_says(seed: int) -> None:
    """No stow has fewer points than the relaxation's, and one that uses a place has at least as many more as it says."""
    problem = stow_problem(outfit(measured(4, seed), lockers=5))
    made = program(problem)
    least = relaxed(made, POINTS)
    stows = every_stow(problem)
    assert stows
    assert least is not None
    for counts in stows:
        dearest = max(least.extra[key] for key, number in made.lies(counts).items() if number)
        assert evaluate(problem, counts).points >= least.points + dearest - 0.01


def test_the_relaxation_of_what_cannot_be_stowed_has_no_answer() -> None:
    """Sixty things do not go into two lockers, and it says so rather than give a bound."""
    assert relaxed(program(stow_problem(outfit(listed(60, 1), lockers=2))), POINTS) is None


@pytest.mark.parametrize("make", [listed, measured])
def test_what_is_proven_is_within_the_tolerance_of_the_best(make: object) -> None:
    """A stow proven to 5 points is sound and lies within 5 of one proven to a hundredth; neither bound is above the other's stow."""
    problem = stow_problem(outfit(make(14, 3)))  # type: ignore[operator]
    start = search(problem, rounds=0)
    rough, fine = (prove(problem, start, seconds=30.0, tolerance=t, seed=0) for t in (5.0, 0.01))
    assert rough.answer == fine.answer == "best"
    assert rough.counts is not None
    assert not evaluate(problem, rough.counts).breaches
    assert fine.points - 0.02 <= rough.points <= fine.points + 5.0
    assert rough.bound <= fine.points + 0.02


def test_the_same_question_has_the_same_answer() -> None:
    """Twice the same load and seed: the same thing in the same locker."""
    problem = stow_problem(outfit(measured(20, 4)))
    first, second = (prove(problem, search(problem, rounds=0), seconds=30.0, tolerance=5.0, seed=1) for _ in range(2))
    assert first.answer == second.answer == "best"
    assert first.counts is not None
    assert (first.counts == second.counts).all()
