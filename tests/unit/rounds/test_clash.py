"""When there is no round: the facts that clash, in words and no more of them than needed."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Clash, Missing, Patience, Problem, plan_round
from firstpitch.rounds.clash import start_clash
from firstpitch.rounds.core import Asker, Fact, least_clash
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.reach import reachable
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import guard, problem, step, wait


def clash(of: Problem) -> Clash:
    found = plan_round(of)
    assert isinstance(found, Clash)
    searched = plan_round(of, patience=Patience(exact_up_to=0, tries=200))
    assert isinstance(searched, Clash)
    assert searched.facts == found.facts
    return found


def test_what_the_sheet_lacks() -> None:
    """A must for which the van lacks something clashes with the sentence that says so."""
    lack = "The hob needs gas, but the sheet has no cylinder valve."
    found = clash(problem(step("light"), missing=[Missing("light", lack)]))
    assert found == Clash(("“Light” (van) is a must.", lack), smallest=True)


def test_a_chain_down_to_what_the_sheet_lacks() -> None:
    """Where the must rests on a step that lacks something, the facts lead there one after the other."""
    of = problem(
        step("light", asks="v=open"), step("open", level="should", sets="v=open"), start="v=shut",
        missing=[Missing("open", "The sheet has no cylinder valve, which “Hob” needs.")],
    )  # fmt: skip
    assert clash(of).facts == (
        "“Light” (van) is a must.",
        "“Light” (van) needs v: open.",
        "Only “Open” (van) brings that about.",
        "The sheet has no cylinder valve, which “Hob” needs.",
    )


def test_every_way_that_fails_is_told() -> None:
    """Where two steps could help and neither can be done, both are named and each is explained."""
    of = problem(
        step("light", asks="v=open"), step("one", level="may", asks="key=in", sets="v=open"), step("two", level="may", sets="v=open"),
        start="v=shut, key=out", missing=[Missing("two", "The sheet has no lever.")],
    )  # fmt: skip
    assert clash(of).facts[2:] == (
        "Only “One” (van) or “Two” (van) bring that about.",
        "“One” (van) needs key: in.",
        "Nothing else on this van can bring that about.",
        "The sheet has no lever.",
    )


def test_each_rests_on_the_other() -> None:
    """Two steps that each need what only the other brings about are told round in a ring, once."""
    of = problem(step("a", asks="y=1", sets="x=1"), step("b", asks="x=1", sets="y=1", level="may"), start="x=0, y=0")
    assert clash(of).facts == (
        "“A” (van) is a must.",
        "“A” (van) needs y: 1.",
        "Only “B” (van) brings that about.",
        "“B” (van) needs x: 1.",
        "Only “A” (van) brings that about.",
    )


def test_a_wait_that_cannot_be_started() -> None:
    """A must that comes after a wait whose only starter cannot be done says so; the starter is not called a must."""
    of = problem(
        step("taste", awaits="filling"), step("fill", level="may", starts="filling"), waits=[wait("filling", 5)],
        missing=[Missing("fill", "The sheet has no pump.")],
    )  # fmt: skip
    assert clash(of).facts == (
        "“Taste” (van) is a must.",
        "“Taste” (van) comes only after “Filling” is over.",
        "Only “Fill” (van) starts that.",
        "The sheet has no pump.",
    )


def test_a_wait_that_nothing_starts() -> None:
    """A must that comes after a wait that nothing starts says that."""
    assert clash(problem(step("taste", awaits="filling"), waits=[wait("filling", 5)])).facts[1:] == (
        "“Taste” (van) comes only after “Filling” is over.",
        "Nothing else in this round starts that.",
    )


def test_the_start_breaks_a_guard() -> None:
    """A start in which a guard is already broken clashes with the guard, whatever the steps."""
    of = problem(
        step("a"),
        start="heater=on, tank=empty",
        guards=[guard("dry", "heater=on, tank=empty", "The element burns out.")],
    )
    assert clash(of) == Clash(
        ("The van starts with heater: on and tank: empty.", "That must never be: The element burns out."), smallest=True
    )
    assert start_clash(index_problem(problem(step("a"), start="x=0", guards=[guard("g", "x=1")]))) is None


def test_a_contradictory_finish() -> None:
    """A finish that asks the same thing to be two ways clashes with itself alone."""
    of = problem(
        step("open", sets="v=open"),
        step("shut", sets="v=shut", level="may"),
        step("talk"),
        start="v=shut",
        finish="v=shut, v=open",
    )
    assert clash(of) == Clash(("The round ends with v: shut.", "The round ends with v: open."), smallest=True)


def test_two_musts_that_clash() -> None:
    """Of many musts just the two that spoil each other for good are named, with what each needs and leaves."""
    of = problem(
        step("talk"), step("use", asks="pad=new", sets="pad=used"), step("walk"), step("sign", asks="pad=new", sets="pad=signed"),
        start="pad=new",
    )  # fmt: skip
    assert clash(of) == Clash(
        (
            "“Use” (van) is a must; it needs pad: new and it leaves pad: used.",
            "“Sign” (van) is a must; it needs pad: new and it leaves pad: signed.",
        ),
        smallest=True,
    )


def test_a_must_against_a_guard() -> None:
    """A must that can only be done by breaking a guard clashes with that guard, and the harm is told."""
    of = problem(
        step("heat", sets="heater=on"), step("talk"), start="heater=off, tank=empty",
        guards=[guard("dry", "heater=on, tank=empty", "The element burns out.")],
    )  # fmt: skip
    assert clash(of).facts == (
        "“Heat” (van) is a must; it leaves heater: on.",
        "Never together: heater: on and tank: empty. The element burns out.",
    )


def test_a_must_alone() -> None:
    """A must that no order allows stands alone, with what it needs."""
    of = problem(step("a", asks="x=0, y=1"), step("b", asks="x=0", sets="x=1, y=1", level="may"), start="x=0, y=0")
    assert clash(of).facts == (
        "“A” (van) is a must; it needs x: 0 and y: 1.",
        "No order of the steps on this van allows that.",
    )


@pytest.mark.parametrize("exact_up_to", [12, 0])
def test_musts_too_long(exact_up_to: int) -> None:
    """Where the musts do not fit the minutes, the clash tells what they take at the least and what was found."""
    of = problem(step("a", 30), step("c", 30, place="c"), step("extra", 5, level="may"), minutes=1)
    found = plan_round(of, patience=Patience(exact_up_to=exact_up_to, tries=200))
    assert found == Clash(
        ("The round may take 1:00.", "The musts alone take 1:12; no round of them is shorter than 1:12."),
        smallest=True,
        least_seconds=72,
        found_seconds=72,
    )


def _only(of: Problem, facts: frozenset[Fact]) -> Problem:
    """The problem in which only these musts, finish conditions and guards count."""
    model = index_problem(of)
    guards = {model.guards[n].id for sort, n in facts if sort == "guard"}
    return replace(
        of,
        minutes=None,
        steps=tuple(replace(s, level="must" if ("must", i) in facts else "may") for i, s in enumerate(of.steps)),
        finish=tuple(f for n, f in enumerate(of.finish) if ("finish", n) in facts),
        guards=tuple(g for g in of.guards if g.id in guards),
    )


@settings(deadline=None, max_examples=100)
@given(st.integers(0, 100_000))
def test_the_smallest_clash_is_the_smallest(seed: int) -> None:
    """The facts named clash and no fewer do, by enumerating every round of every smaller set of facts."""
    of = rich_problem(seed, most_steps=4)
    model = index_problem(of)
    assume(start_clash(model) is None)
    able = reachable(model, range(len(of.steps)))

    def possible(facts: frozenset[Fact]) -> bool:
        return any(True for _ in all_rounds(_only(of, facts)))

    if model.musts - able:
        assert all(not possible(frozenset({("must", i)})) for i in model.musts - able)
        return
    asker = Asker(model, able, walking=True)
    found = least_clash(asker)
    assert (found is None) == possible(frozenset(asker.facts))
    if found is not None:
        core, smallest = found
        assert smallest
        assert not possible(frozenset(core))
        assert all(possible(frozenset(fewer)) for fewer in combinations(asker.facts, len(core) - 1))
