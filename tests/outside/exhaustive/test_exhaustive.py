"""The planner against plain enumeration of every order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest

from firstpitch.rounds import Plan, Problem, Step, TimedStep, plan_round, replay
from tests.random_rounds import random_problem

Key = tuple[int, int, int]


def moments(problem: Problem, done: list[TimedStep], step: Step) -> Iterator[int]:
    """Every second at which the step could usefully start: from its arrival until all that is running is over."""
    steps = {s.id: s for s in problem.steps}
    waits = {w.id: w for w in problem.waits}
    place = steps[done[-1].step].place if done else problem.start_place
    base = (done[-1].end if done else 0) + problem.walks[place][step.place]
    running = [t.end + waits[w].seconds for t in done for w in steps[t.step].starts]
    yield from range(base, max([base, *(r + 1 for r in running)]) + 1)


def best_by_trying_everything(problem: Problem) -> Key | None:
    """(-worth, total, breaks) of the best round, or None; every order of every subset, judged by the replay checker."""
    limit = None if problem.minutes is None else int(problem.minutes * 60)
    best: Key | None = None

    def extend(done: list[TimedStep]) -> None:
        nonlocal best
        total = done[-1].end if done else 0
        if limit is not None and total > limit:
            return
        if not replay(problem, done):
            key = _key(problem, done)
            best = key if best is None else min(best, key)
        taken = {t.step for t in done}
        for step in problem.steps:
            if step.id in taken:
                continue
            for start in moments(problem, done, step):
                trial = [*done, TimedStep(step.id, start, start + step.seconds)]
                if not replay(problem, trial, whole=False):
                    extend(trial)

    extend([])
    return best


def _key(problem: Problem, done: list[TimedStep]) -> Key:
    steps = {s.id: s for s in problem.steps}
    taken = [steps[t.step] for t in done]
    worth = sum(s.worth for s in taken if s.level != "must")
    breaks = sum(a.topic != b.topic for a, b in pairwise(taken))
    return -worth, done[-1].end if done else 0, breaks


@pytest.mark.parametrize("block", range(10))
def test_plan_round_is_optimal_on_small_problems(block: int) -> None:
    """On 200 random problems of up to eight steps the planner's worth, time and breaks are those of the best of all orders."""
    for seed in range(block * 20, block * 20 + 20):
        problem = random_problem(seed, most_steps=5 if seed % 4 else 8)
        expected = best_by_trying_everything(problem)
        result = plan_round(problem)
        if expected is None:
            assert not isinstance(result, Plan), f"seed {seed}: enumeration finds no round"
            continue
        assert isinstance(result, Plan), f"seed {seed}: enumeration finds {expected}, the planner {result}"
        assert not replay(problem, result.steps), f"seed {seed}"
        assert (-result.worth, result.total, result.breaks) == expected, f"seed {seed}"
        assert result.proven
