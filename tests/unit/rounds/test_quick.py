"""A round at once."""

from __future__ import annotations

import pytest

from firstpitch.rounds import Clash, Plan, plan_round, quick_round, replay
from firstpitch.rounds.replan import Change, let_go, remaining_problem
from tests.demo_rounds import NAMES, demo_round
from tests.random_rounds import random_problem


@pytest.mark.parametrize("seed", range(250))
def test_quick_round_is_a_round(seed: int) -> None:
    """Whatever is found at once keeps every rule, ends within the minutes and is never better than what the planner proves."""
    problem = random_problem(seed)
    quick = quick_round(problem)
    if not isinstance(quick, Plan):
        return
    assert replay(problem, quick.steps) == ()
    assert problem.minutes is None or quick.total <= problem.minutes * 60 + 1e-6
    best = plan_round(problem)
    assert isinstance(best, Plan)
    assert quick.worth <= best.worth_bound
    assert quick.bound <= quick.total


def test_quick_round_finds_most_of_the_rounds_there_are() -> None:
    """Of the small random problems that have a round, at least nine in ten are answered with one at once."""
    problems = [random_problem(seed) for seed in range(150)]
    possible = [p for p in problems if isinstance(plan_round(p), Plan)]
    found = [p for p in possible if isinstance(quick_round(p), Plan)]
    assert len(found) >= 0.9 * len(possible)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("late", [3.0, 10.0])
def test_late_by_minutes_leaves_out_only_what_is_no_must(name: str, late: float) -> None:
    """Going on from the middle with fewer minutes: the rest keeps every rule, ends in time and holds every must that was left."""
    van = demo_round(name)
    done = van.plan.steps[:40]
    now = done[-1].end
    minutes = (van.plan.total - now) / 60 - late
    rest = remaining_problem(van.problem, done, now, Change(minutes_left=minutes))
    plan = quick_round(rest)
    assert isinstance(plan, Plan)
    assert replay(rest, plan.steps) == ()
    assert plan.total <= minutes * 60


def test_minutes_too_short_for_the_musts_clash() -> None:
    """Two minutes are too short for the musts of a van, and the answer says so in minutes."""
    van = demo_round("wren")
    clash = quick_round(remaining_problem(van.problem, (), 0, Change(minutes_left=2.0)))
    assert isinstance(clash, Clash)
    assert clash.least_seconds is not None
    assert clash.found_seconds is not None
    assert 120 < clash.least_seconds <= clash.found_seconds


def test_musts_that_can_no_longer_be_done_are_let_go() -> None:
    """When the only step that switches something on is ruled out, a must that needs it falls away instead of ending the round."""
    van = demo_round("wren")
    without = frozenset({"mains-inlet.plug_in"})
    rest, lost = let_go(remaining_problem(van.problem, (), 0, Change(without_steps=without)))
    plan = quick_round(rest)
    assert "water-heater.heat_mains" in lost
    assert isinstance(plan, Plan)
    assert replay(rest, plan.steps) == ()
    assert "mains-inlet.plug_in" not in {t.step for t in plan.steps}
    assert next(left.reason for left in plan.left_out if left.step in without).endswith("cannot be done today.")
