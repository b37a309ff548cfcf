"""Why a step is not in the round and what it would cost."""

from __future__ import annotations

from firstpitch.rounds import Missing, Plan, Problem, plan_round
from firstpitch.rounds.left_out import extra_seconds
from firstpitch.rounds.model import index_problem
from tests.unit.rounds.small import problem, step, wait


def reasons(of: Problem) -> dict[str, tuple[str, int | None]]:
    plan = plan_round(of)
    assert isinstance(plan, Plan)
    assert {t.step for t in plan.steps}.isdisjoint(left.step for left in plan.left_out)
    assert len(plan.steps) + len(plan.left_out) == len(of.steps)
    return {left.step: (left.reason, left.cost) for left in plan.left_out}


def test_what_the_van_lacks() -> None:
    """A missing step is left out with the sentence that says what the van lacks, and no cost."""
    of = problem(step("a"), step("b", level="should"), missing=[Missing("b", "The sheet has no hob, which “B” needs.")])
    assert reasons(of) == {"b": ("The sheet has no hob, which “B” needs.", None)}


def test_what_can_never_be_done() -> None:
    """A step that nothing makes possible says what is not brought about, or which wait nothing starts."""
    of = problem(
        step("a"), step("b", level="should", asks="tank=full"), step("c", level="should", awaits="w"), start="tank=empty",
        waits=[wait("w", 5)],
    )  # fmt: skip
    assert reasons(of) == {
        "b": ("It cannot be done: nothing on this van brings about tank: full.", None),
        "c": ("It cannot be done: nothing starts “W”, which has to be over first.", None),
    }


def test_no_time() -> None:
    """With too few minutes the least worth is left out, with what it would add: its own 30 s and the 5 s walk to b at the end."""
    of = problem(step("a", 10), step("b", 30, place="b", level="may"), minutes=0.5)
    assert reasons(of) == {"b": ("No time: it would add about 0 min 35 s.", 35)}


def test_what_loses_as_much_elsewhere() -> None:
    """Of two steps that spoil each other for good the one worth less is left out, and that is the reason."""
    of = problem(
        step("a", level="should", worth=5, asks="x=0", sets="x=1"),
        step("b", level="may", worth=3, asks="x=0", sets="x=1"),
        start="x=0",
    )
    assert reasons(of) == {"b": ("No round with it was found that loses nothing worth as much.", 10)}


def test_the_cost_counts_what_it_rests_on_and_the_least_detour() -> None:
    """Lighting costs its own 10 s, the 7 s of opening, and no walk, because both lie on the way from a to c."""
    of = problem(
        step("a"), step("c", place="c"), step("light", 10, place="b", level="may", asks="v=open"),
        step("open", 7, place="b", level="may", sets="v=open"), start="v=shut",
    )  # fmt: skip
    model = index_problem(of)
    assert extra_seconds(model, 2, {0: 10, 1: 32}) == 17
    assert extra_seconds(model, 2, {0: 10, 3: 22, 1: 39}) == 10
    assert extra_seconds(model, 2, {}) == 10 + 5 + 7 + 5
