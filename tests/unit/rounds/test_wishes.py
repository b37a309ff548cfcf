"""Wishes: a step first, a step last, a step left out."""

from __future__ import annotations

import pytest

from firstpitch.rounds import Clash, Plan, plan_round, quick_round, replay, with_wishes
from tests.demo_rounds import NAMES, demo_round
from tests.random_rounds import random_problem


def _order(plan: Plan | Clash | None) -> list[str]:
    assert isinstance(plan, Plan)
    return [t.step for t in plan.steps]


def test_no_wish_changes_nothing() -> None:
    """Without a wish the problem stays as it is."""
    problem = random_problem(1)
    assert with_wishes(problem) is problem


@pytest.mark.parametrize("name", NAMES)
def test_a_step_wished_first_comes_first(name: str) -> None:
    """A step that rests on nothing but being there is the first of the round, and the round keeps every rule."""
    problem = demo_round(name).problem
    plan = quick_round(with_wishes(problem, first=["handbrake.show"]))
    order = _order(plan)
    assert order.index("handbrake.show") <= 1
    assert isinstance(plan, Plan)
    assert replay(problem, plan.steps) == ()


def test_what_it_rests_on_still_comes_before() -> None:
    """Lighting the hob first brings only what the hob needs before it: gas, door, alarms and the like, no beds and no shower."""
    problem = demo_round("wren").problem
    order = _order(quick_round(with_wishes(problem, first=["hob.light"])))
    before = set(order[: order.index("hob.light")])
    assert {"cylinder-valve.open", "hob.lift_lid"} <= before
    assert not {"lounge-bed.show", "shower.show", "toilet.use"} & before


def test_a_step_wished_last_is_followed_only_by_what_must_follow() -> None:
    """With the bed last, the van is shut and coupled after it, and nothing else is shown."""
    problem = demo_round("wren").problem
    plan = quick_round(with_wishes(problem, last=["lounge-bed.show"]))
    order = _order(plan)
    after = set(order[order.index("lounge-bed.show") + 1 :])
    assert "entrance-door.lock_up" in after
    assert not {"smoke-alarm.test", "toilet.use", "space-heater.thermostat", "awning-rail.show"} & after
    assert isinstance(plan, Plan)
    assert replay(problem, plan.steps) == ()


def test_two_wishes_keep_their_order() -> None:
    """Two steps wished first come in the order they were wished."""
    problem = demo_round("wren").problem
    order = _order(quick_round(with_wishes(problem, first=["wheel-offside.nuts", "handbrake.show"])))
    assert order.index("wheel-offside.nuts") < order.index("handbrake.show") <= 3
    order = _order(quick_round(with_wishes(problem, last=["smoke-alarm.test", "blinds.show"])))
    assert order.index("smoke-alarm.test") < order.index("blinds.show")


def test_a_step_left_out_is_left_out_with_that_reason() -> None:
    """A step that may be left out is not in the round, and the reason is that somebody left it out."""
    problem = demo_round("wren").problem
    plan = quick_round(with_wishes(problem, without=["awning-rail.show"]))
    assert "awning-rail.show" not in _order(plan)
    assert isinstance(plan, Plan)
    reason = next(left.reason for left in plan.left_out if left.step == "awning-rail.show")
    assert reason.startswith("You left out")


def test_a_must_cannot_be_left_out() -> None:
    """Leaving out a must clashes, in two facts."""
    problem = demo_round("wren").problem
    clash = plan_round(with_wishes(problem, without=["co-alarm.test"]))
    assert isinstance(clash, Clash)
    assert any("is a must" in fact for fact in clash.facts)
    assert any("You left out" in fact for fact in clash.facts)


def test_a_wish_against_the_van_clashes() -> None:
    """The gas cannot be shut first and the hob be shown last: the wishes clash, and are named."""
    problem = demo_round("wren").problem
    clash = quick_round(with_wishes(problem, first=["hob.light"], without=["cylinder-valve.open"]))
    assert isinstance(clash, Clash)
    assert any("You left out" in fact for fact in clash.facts)


@pytest.mark.parametrize("wishes", [{"first": ["no.such"]}, {"first": ["s0"], "last": ["s0"]}])
def test_wrong_wishes_are_said(wishes: dict[str, list[str]]) -> None:
    """A step the van does not have, and a step in two wishes, are refused."""
    with pytest.raises(ValueError, match=r"no step|more than one wish"):
        with_wishes(random_problem(1), **wishes)


@pytest.mark.parametrize("seed", range(120))
def test_rounds_with_wishes_are_rounds_without(seed: int) -> None:
    """A round that keeps the wishes keeps every rule of the problem without them."""
    problem = random_problem(seed)
    plan = plan_round(with_wishes(problem, first=["s0"], last=["s1"]))
    if isinstance(plan, Plan):
        assert replay(problem, plan.steps) == ()
        assert {"s0", "s1"} <= {t.step for t in plan.steps}
