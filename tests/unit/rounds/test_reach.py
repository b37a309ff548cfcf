"""Which steps can ever be done."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Missing, Problem
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.reach import hopeless, reachable
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait


def able(of: Problem) -> set[str]:
    model = index_problem(of)
    return {of.steps[i].id for i in reachable(model, range(len(of.steps)))}


def test_a_chain_is_followed() -> None:
    """What needs a thing that a step brings about, which needs another, can be done; what needs more than there is cannot."""
    of = problem(
        step("light", asks="valve=open"), step("open", asks="lid=up", sets="valve=open"), step("lift", sets="lid=up"),
        step("boil", asks="pan=full"), start="lid=down, valve=shut, pan=empty",
    )  # fmt: skip
    assert able(of) == {"light", "open", "lift"}
    (need,) = hopeless(index_problem(of), 3, frozenset({0, 1, 2}))
    assert need.values == {"full"}


def test_a_wait_may_rest_on_what_its_own_step_sets() -> None:
    """A heater that is switched on and has to stay on can be heated, even where the wait switches it off in the end."""
    waits = [wait("heating", 30, keeps="heater=on", sets="heater=off")]
    of = problem(step("heat", sets="heater=on", starts="heating"), start="heater=off", waits=waits)
    assert able(of) == {"heat"}
    assert hopeless(index_problem(of), 0, frozenset()) == ()


def test_a_wait_does_not_rest_on_what_it_sets_itself() -> None:
    """What a wait brings about at its end does not help it on its way."""
    waits = [wait("heating", 30, keeps="heater=on", sets="heater=on")]
    assert able(problem(step("heat", starts="heating"), start="heater=off", waits=waits)) == set()


def test_missing_and_awaited() -> None:
    """A missing step cannot be done, nor what awaits a wait that only it starts, nor one that awaits its own wait."""
    of = problem(
        step("fill", starts="filling"), step("taste", awaits="filling"), step("odd", starts="own", awaits="own"), step("free"),
        waits=[wait("filling", 5), wait("own", 5)], missing=[Missing("fill", "No tap.")],
    )  # fmt: skip
    assert able(of) == {"free"}


@settings(deadline=None, max_examples=100)
@given(st.integers(0, 100_000))
def test_no_valid_round_has_a_step_that_cannot_be_reached(seed: int) -> None:
    """Every step of every valid round that enumeration finds is among those said to be able."""
    of = rich_problem(seed, most_steps=4)
    free = replace(of, steps=tuple(replace(s, level="may") for s in of.steps), finish=())
    taken = {t.step for found in all_rounds(free) for t in found}
    assert taken <= able(free)
