"""The PDDL text of a problem and of a plan. That it means the right thing is for tests/outside/pddl."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.rounds import Effect, Guard, Literally, Missing, Place, Problem, Step, TimedStep, Wait
from firstpitch.rounds.pddl import domain_pddl, plan_pddl, problem_pddl
from firstpitch.rounds.pddl_classical import (
    classical_domain_pddl,
    classical_plan_pddl,
    classical_problem_pddl,
    steps_of,
)
from firstpitch.rounds.pddl_terms import mangle, unmangle

NAMES = st.text(st.characters(codec="utf-8"), max_size=12)


def step(name: str, place: str, seconds: int = 20, **more: object) -> Step:
    return Step(name, "kit", "Kit", "water", name, place, seconds, "must", 0, **more)  # type: ignore[arg-type]


def kettle() -> Problem:
    """Fill a kettle at the tap, boil it at the hob while the table is laid, pour it when it boils."""
    full = Literally("kettle.water", frozenset({"in"}))
    return Problem(
        van="Kettle",
        mode="film",
        start_name="cold",
        start={"kettle.water": "out", "kettle.heat": "cold", "hob.flame": "off"},
        finish=(Literally("hob.flame", frozenset({"off"})),),
        places=(Place("tap", 0, 0, True), Place("hob", 2, 0, True)),
        walks={"tap": {"tap": 0, "hob": 2}, "hob": {"tap": 2, "hob": 0}},
        start_place="tap",
        steps=(
            step("kettle.fill", "tap", sets=(Effect("kettle.water", "in"),)),
            step("kettle.boil", "hob", requires=(full,), sets=(Effect("hob.flame", "on"),), starts=("kettle.boiling",)),
            step("kettle.pour", "hob", awaits=("kettle.boiling",), sets=(Effect("hob.flame", "off"),)),
            step("table.lay", "tap"),
        ),
        waits=(Wait("kettle.boiling", "kettle", "Boiling", 180, (full,), (Effect("kettle.heat", "hot"),)),),
        guards=(
            Guard(
                "dry",
                "kettle",
                (Literally("hob.flame", frozenset({"on"})), Literally("kettle.water", frozenset({"out"}))),
                "It burns dry.",
            ),
        ),
        minutes=10,
    )


PLAN = (
    TimedStep("kettle.fill", 0, 20),
    TimedStep("kettle.boil", 22, 42),
    TimedStep("table.lay", 44, 64),
    TimedStep("kettle.pour", 222, 242),
)


@given(st.lists(NAMES, min_size=1, max_size=3))
def test_mangle_gives_legal_names_that_come_back(names: list[str]) -> None:
    """A name becomes letters, digits, hyphens and underscores without capitals, and comes back as it was, alone or joined to others."""
    text = "_by_".join(mangle(name) for name in names)
    assert re.fullmatch(r"[a-z0-9_-]*", text)
    assert unmangle(text) == tuple(names)


@given(st.sets(NAMES.map(str.lower) | NAMES, min_size=2, max_size=5))
def test_mangle_keeps_names_apart_without_capitals(names: set[str]) -> None:
    """Two names that differ stay different in PDDL, where capitals do not count."""
    assert len({mangle(name).lower() for name in names}) == len(names)


def test_unmangle_refuses_what_it_never_writes() -> None:
    """A name with a sign that we never write is refused with a sentence."""
    with pytest.raises(ValueError, match="not a name this program writes"):
        unmangle("Tap")


def test_same_problem_same_text() -> None:
    """The same problem gives the same text, letter by letter."""
    assert domain_pddl(kettle()) == domain_pddl(kettle())
    assert problem_pddl(kettle()) == problem_pddl(kettle())
    assert classical_domain_pddl(kettle()) == classical_domain_pddl(kettle())
    assert classical_problem_pddl(kettle()) == classical_problem_pddl(kettle())


@pytest.mark.parametrize("write", [domain_pddl, problem_pddl, classical_domain_pddl, classical_problem_pddl])
def test_brackets_pair_up(write: object) -> None:
    """Every bracket that opens is closed, and only the last one closes the first."""
    depth, closed = 0, []
    text = write(kettle())  # type: ignore[operator]
    for at, sign in enumerate(text):
        depth += {"(": 1, ")": -1}.get(sign, 0)
        if depth == 0 and sign == ")":
            closed.append(at)
    assert closed == [len(text) - 2]


def test_plan_has_walks_waits_and_the_round() -> None:
    """A plan starts everything a thousandth after its second and ends it on its second; a wait spans the step that starts it."""
    assert plan_pddl(kettle(), PLAN) == (
        "0.000: (round) [242.001]\n"
        "0.001: (do-kettle__fill) [19.999]\n"
        "20.001: (walk p-tap p-hob) [1.999]\n"
        "22.001: (do-kettle__boil) [19.999]\n"
        "22.001: (wait-kettle__boiling_by_kettle__boil) [199.999]\n"
        "42.001: (walk p-hob p-tap) [1.999]\n"
        "44.001: (do-table__lay) [19.999]\n"
        "64.001: (walk p-tap p-hob) [1.999]\n"
        "222.001: (do-kettle__pour) [19.999]\n"
    )


def test_order_without_time_ends_waits_in_turn() -> None:
    """Without time, steps and the ends of waits stand in the order in which they end, and the steps can be read back."""
    text = classical_plan_pddl(kettle(), PLAN)
    assert text == (
        "(do-kettle__fill)\n(walk p-tap p-hob)\n(do-kettle__boil)\n(walk p-hob p-tap)\n(do-table__lay)\n"
        "(end-kettle__boiling)\n(walk p-tap p-hob)\n(do-kettle__pour)\n"
    )
    assert steps_of(text) == tuple(t.step for t in PLAN)


def test_minutes_bound_the_round() -> None:
    """The minutes given are the most that the round may last."""
    assert "(<= ?duration 600.001)" in domain_pddl(kettle())


def test_step_that_cannot_be_done_has_no_action() -> None:
    """A step for which the van lacks something has no action, so that no plan can hold it; as a must it stays a goal."""
    problem = replace(kettle(), missing=(Missing("kettle.pour", "There is no cup."),))
    assert "do-kettle__pour" not in domain_pddl(problem) + classical_domain_pddl(problem)
    assert "(done s-kettle__pour)" in problem_pddl(problem)


def test_no_time_at_all_is_refused() -> None:
    """A step or a walk of no seconds, or a step that ends before it begins, cannot be written and is told by name."""
    with pytest.raises(ValueError, match=r"the step kettle\.fill takes 0 s"):
        domain_pddl(replace(kettle(), steps=(step("kettle.fill", "tap", 0),)))
    with pytest.raises(ValueError, match="the walk from tap to hob takes 0 s"):
        domain_pddl(replace(kettle(), walks={"tap": {"tap": 0, "hob": 0}, "hob": {"tap": 2, "hob": 0}}))
    with pytest.raises(ValueError, match=r"the step kettle\.fill runs from 9 s to 9 s"):
        plan_pddl(kettle(), [TimedStep("kettle.fill", 9, 9)])
