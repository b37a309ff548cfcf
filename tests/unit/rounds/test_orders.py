"""Orders that must hold: found where they follow, never where they do not."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.orders import Contradiction, Orders, infer
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem, waiting_problem
from tests.unit.rounds.small import guard, problem, step, wait


def orders_of(of: Problem) -> Orders:
    return infer(index_problem(of), range(len(of.steps)))


def forced(of: Problem) -> set[tuple[str, str]]:
    """The pairs of steps of which the first must come before the second."""
    orders = orders_of(of)
    names = [s.id for s in of.steps]
    return {(a, b) for i, a in enumerate(names) for j, b in enumerate(names) if i != j and orders.precedes(i, j)}


def test_what_brings_a_need_about_comes_first() -> None:
    """The only step that opens the valve comes before the one that needs it open, and those before it before both."""
    of = problem(
        step("lid", sets="lid=up"), step("open", asks="lid=up", sets="valve=open"), step("light", asks="valve=open"),
        start="lid=down, valve=shut",
    )  # fmt: skip
    assert forced(of) == {("lid", "open"), ("open", "light"), ("lid", "light")}


def test_what_spoils_a_need_comes_after() -> None:
    """What shuts the valve comes after the step that needs it open, where it is open from the start."""
    of = problem(step("light", asks="valve=open"), step("shut", sets="valve=shut"), start="valve=open")
    assert forced(of) == {("light", "shut")}


def test_two_ways_force_nothing() -> None:
    """Where two steps can bring a need about, neither is forced to come first."""
    of = problem(
        step("open a", sets="valve=open"),
        step("open b", sets="valve=open"),
        step("light", asks="valve=open"),
        start="valve=shut",
    )
    assert forced(of) == set()


def test_the_finish_forces_the_last_setter() -> None:
    """Where the round must end with the valve shut, what opens it comes before what shuts it."""
    of = problem(
        step("open", sets="valve=open"), step("shut", sets="valve=shut"), start="valve=shut", finish="valve=shut"
    )
    assert forced(of) == {("open", "shut")}


def test_awaiting_forces_order_and_lag() -> None:
    """A step that awaits 30 s of filling ends at least 30 s and its own length after the filling was begun."""
    of = problem(step("fill", starts="filling"), step("taste", 6, awaits="filling"), waits=[wait("filling", 30)])
    assert forced(of) == {("fill", "taste")}
    assert orders_of(of).lags == {(0, 1): 36}


def test_a_need_of_a_wait_keeps_the_spoiler_away() -> None:
    """The tap, which has to be on to be turned off, is turned off no sooner than the filling, 30 s, is over."""
    of = problem(
        step("fill", sets="tap=on", starts="filling"), step("off", 4, asks="tap=on", sets="tap=off"),
        start="tap=off", waits=[wait("filling", 30, keeps="tap=on")],
    )  # fmt: skip
    assert orders_of(of).lags == {(0, 1): 30}


def test_a_guard_forces_order() -> None:
    """Where heater on and tank empty must never meet, the tank is filled before the heater goes on."""
    of = problem(
        step("heat", sets="heater=on"), step("fill", sets="tank=full"),
        start="heater=off, tank=empty", guards=[guard("dry", "heater=on, tank=empty")],
    )  # fmt: skip
    assert forced(of) == {("fill", "heat")}


@pytest.mark.parametrize(
    "of",
    [
        problem(step("light", asks="valve=open"), start="valve=shut"),
        problem(step("a", asks="y=1", sets="x=1"), step("b", asks="x=1", sets="y=1"), start="x=0, y=0"),
        problem(step("open", sets="valve=open"), start="valve=shut", finish="valve=shut"),
        problem(step("taste", awaits="filling"), waits=[wait("filling", 30)]),
        problem(step("a", starts="w"), step("b", sets="x=1"), start="x=0", waits=[wait("w", 5, keeps="x=1, x=0")]),
    ],
    ids=[
        "nothing brings it about",
        "each before the other",
        "finish spoilt",
        "wait that nothing starts",
        "both values at once",
    ],
)
def test_contradictions(of: Problem) -> None:
    """Needs that cannot be met by the steps at hand are a contradiction."""
    with pytest.raises(Contradiction):
        orders_of(of)


def test_a_contradiction_names_the_steps() -> None:
    """The contradiction says between which steps it is."""
    of = problem(step("a", asks="y=1", sets="x=1"), step("b", asks="x=1", sets="y=1"), step("c"), start="x=0, y=0")
    with pytest.raises(Contradiction) as found:
        orders_of(of)
    assert found.value.steps == {0, 1}


def test_a_step_that_may_be_taken_can_support_but_does_not_spoil() -> None:
    """A step that perhaps is taken may bring a need about, and its spoiling forces nothing."""
    of = problem(
        step("light", asks="valve=open"), step("open", sets="valve=open", level="may"), step("shut", sets="valve=shut", level="may"),
        start="valve=shut",
    )  # fmt: skip
    model = index_problem(of)
    orders = infer(model, [0], perhaps=[1, 2])
    assert orders.precedes(1, 0)
    assert not orders.precedes(0, 2)
    with pytest.raises(Contradiction):
        infer(model, [0])


@settings(deadline=None, max_examples=300)
@given(
    st.integers(0, 100_000).map(waiting_problem)
    | st.integers(0, 100_000).map(lambda seed: rich_problem(seed, most_steps=4))
)
def test_orders_hold_in_every_valid_round(of: Problem) -> None:
    """Every order and lag inferred holds in every valid round that enumeration finds; a contradiction means there is none."""
    model = index_problem(of)
    index = {s.id: i for i, s in enumerate(of.steps)}
    free = replace(of, steps=tuple(replace(s, level="may") for s in of.steps))
    by_steps: dict[frozenset[int], list[dict[int, int]]] = {}
    for found in all_rounds(free, late=3):
        ends = {index[t.step]: t.end for t in found}
        by_steps.setdefault(frozenset(ends), []).append(ends)
    able = frozenset(range(len(of.steps))) - model.barred
    for size in range(1, len(able) + 1):
        for chosen in map(frozenset, combinations(sorted(able), size)):
            _check(model.seconds, by_steps.get(chosen, []), lambda c=chosen: infer(model, c))
    musts = model.musts - model.barred
    wider = [ends for steps, rounds in by_steps.items() if musts <= steps for ends in rounds]
    _check(model.seconds, wider, lambda: infer(model, musts, able - musts))


def _check(seconds: tuple[int, ...], rounds: list[dict[int, int]], make: object) -> None:
    try:
        orders = make()  # type: ignore[operator]
    except Contradiction:
        assert not rounds
        return
    for ends in rounds:
        for j in ends:
            for i in ends:
                if i != j and orders.precedes(i, j):
                    assert ends[i] <= ends[j] - seconds[j]
        for (i, j), least in orders.lags.items():
            if i in ends and j in ends:
                assert ends[j] - ends[i] >= least
