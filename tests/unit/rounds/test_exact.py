"""The round as a constraint program."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.bound import lower_bound
from firstpitch.rounds.exact import Budget, Outcome, build, hint, possible, solve, whole
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.orders import Contradiction, infer
from firstpitch.rounds.reach import reachable
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import guard, problem, step, timed, wait


def quickest(of: Problem, *, walking: bool = True, known: dict[int, int] | None = None) -> Outcome:
    """The quickest round of exactly all steps."""
    model = index_problem(of)
    program = build(model, whole(model, range(len(of.steps))), walking=walking)
    program.cp.minimize(program.total)
    if known is not None:
        hint(program, known)
    return solve(program, Budget())


TO_AND_FRO = problem(step("a1"), step("c1", place="c"), step("a2"), step("b1", place="b"))


@pytest.mark.parametrize(("walking", "total"), [(True, 52), (False, 40)])
def test_the_least_walk(walking: bool, total: int) -> None:
    """Four steps of 10 s at a, b and c take 52 s with the 12 s walk out, and 40 s where the walk is left out."""
    found = quickest(TO_AND_FRO, walking=walking)
    assert (found.possible, max(found.ends.values()), found.bound, found.proven) == (True, total, total, True)


def test_a_hint_changes_nothing_in_the_answer() -> None:
    """A known round given as a start does not change the least time."""
    assert max(quickest(TO_AND_FRO, known={0: 10, 1: 32, 2: 54, 3: 69}).ends.values()) == 52


def test_waiting_is_part_of_the_time() -> None:
    """A round whose last step cannot end before the filling is over is as long as that."""
    of = problem(step("fill", starts="w"), step("talk", 5), waits=[wait("w", 30)])
    assert max(quickest(of).ends.values()) == 40


def test_impossible() -> None:
    """Where no order keeps the rules the program says so, with no bound."""
    of = problem(step("a", asks="x=0", sets="x=1"), step("b", asks="x=0", sets="x=1"), start="x=0")
    found = quickest(of)
    assert (found.possible, found.ends, found.proven) == (False, {}, True)
    assert math.isnan(found.bound)


def test_out_of_work() -> None:
    """With no work to spend nothing is claimed: neither possible nor impossible, and nothing proven."""
    of = problem(*(step(f"s{n}", 3 + n, place="abc"[n % 3]) for n in range(12)))
    model = index_problem(of)
    program = build(model, whole(model, range(12)), walking=True)
    program.cp.minimize(program.total)
    found = solve(program, Budget(work=1e-9))
    assert (found.possible, found.proven) == (None, False)
    assert math.isnan(found.bound)


def test_switched_facts() -> None:
    """Guards and finish conditions count only while they are switched on."""
    of = problem(step("a", sets="x=1"), start="x=0", finish="x=0", guards=[guard("never", "x=1")])
    model = index_problem(of)
    program = build(model, whole(model, [], [0]), walking=True, switched=True)
    finish, never, taken = program.switches["finish", 0], program.switches["guard", 0], program.present[0]
    assert possible(program, [taken], Budget()) is True
    assert possible(program, [finish, never], Budget()) is True
    assert possible(program, [taken, finish], Budget()) is False
    assert possible(program, [taken, never], Budget()) is False


def test_same_seed_same_answer() -> None:
    """The same work with the same seed gives the same times."""
    assert quickest(TO_AND_FRO) == quickest(TO_AND_FRO)


@settings(deadline=None, max_examples=40)
@given(st.integers(0, 100_000))
def test_least_time_of_all_orders(seed: int) -> None:
    """The least time of any round of the musts, with whatever else is taken, is that of enumeration; with known orders too."""
    of = rich_problem(seed, most_steps=4)
    model = index_problem(of)
    able = reachable(model, range(len(of.steps)))
    if model.musts - able:
        return
    rounds = list(all_rounds(of))
    program = build(model, whole(model, model.musts, able - model.musts), walking=True)
    program.cp.minimize(program.total)
    found = solve(program, Budget(work=50.0))
    if any(all(model.start[c] in bad for c, bad in g.never) for g in model.guards):
        return
    assert found.possible is bool(rounds)
    if rounds:
        assert max(found.ends.values(), default=0) == min(r[-1].end if r else 0 for r in rounds)
        sequence = [TimedStep(of.steps[i].id, end - of.steps[i].seconds, end) for i, end in found.ends.items()]
        assert not replay(of, sequence)
        _with_known_orders(of, frozenset(found.ends), max(found.ends.values(), default=0))


def _with_known_orders(of: Problem, steps: frozenset[int], total: int) -> None:
    """Known orders and the bound they give leave the least time of these steps as it is."""
    model = index_problem(of)
    try:
        orders = infer(model, steps)
    except Contradiction:
        pytest.fail("a valid round contradicts the orders")
    program = build(model, whole(model, steps), walking=True, orders=orders)
    program.cp.minimize(program.total)
    found = solve(program, Budget(work=50.0))
    assert lower_bound(model, steps, orders) <= max(found.ends.values(), default=0) == total


def test_the_quickest_round_is_clean() -> None:
    """The round found is what the checker calls clean."""
    found = quickest(TO_AND_FRO)
    names = [TO_AND_FRO.steps[i].id for i in found.ends]
    assert not replay(
        TO_AND_FRO, timed(TO_AND_FRO, *((n, found.ends[i] - 10) for n, i in zip(names, found.ends, strict=True)))
    )
