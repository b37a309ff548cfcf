"""The independent checker: each rule of docs/rounds.md broken once and just kept once, to the second."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.rounds import Broken, Missing, Problem, TimedStep, replay
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.second_by_second import rules_broken
from tests.unit.rounds.small import guard, problem, step, timed, wait

GAS = problem(
    step("open", sets="valve=open"),
    step("light", asks="valve=open", sets="ring=lit"),
    step("shut", level="should", sets="valve=shut"),
    start="valve=shut, ring=out",
    guards=[guard("unlit", "valve=shut, ring=lit", "Gas goes out and comes back unlit.")],
)
FILL = problem(
    step("tap on", sets="tap=on", starts="filling"),
    step("talk", 4, level="should"),
    step("tap off", 4, level="should", sets="tap=off"),
    step("pump", 6, level="should", asks="tank=full"),
    step("taste", 6, level="should", awaits="filling"),
    start="tap=off, tank=empty",
    waits=[wait("filling", 30, keeps="tap=on", sets="tank=full")],
)


def broken(of: Problem, *begins: tuple[str, int], whole: bool = True) -> list[tuple[str, str, int, str]]:
    """Rule, step, second and condition of everything that is wrong with a sequence."""
    return [(b.rule, b.step, b.at, b.condition) for b in replay(of, timed(of, *begins), whole=whole)]


def test_clean() -> None:
    """Opened, then lit while it is open: nothing is broken."""
    assert broken(GAS, ("open", 0), ("light", 10)) == []


def test_requires_at_the_start_names_condition_and_harm() -> None:
    """Lighting before the valve is open breaks ``requires`` at the start of the step, with the harm the guard names."""
    first, *_ = replay(GAS, timed(GAS, ("light", 0), ("open", 10)))
    assert first == Broken(
        "requires",
        "light",
        0,
        "valve",
        "“Light” needs valve: open, but it is shut then.",
        "Gas goes out and comes back unlit.",
    )


@pytest.mark.parametrize(
    "never", ["valve=shut, fan=on", "valve=open, ring=lit", "lid=down, ring=lit", "valve=shut, ring=out"]
)
def test_only_the_harm_of_that_step_in_that_state_is_told(never: str) -> None:
    """A guard about another condition, another value or what another step does is not the harm of lighting too soon."""
    of = replace(
        GAS, start={**GAS.start, "lid": "up", "fan": "off"}, guards=(guard("other", never, "Some other harm."),)
    )
    first = next(b for b in replay(of, timed(of, ("light", 0), ("open", 10))) if b.rule == "requires")
    assert first.harm == ""


def test_requires_holds_until_the_end_of_the_step() -> None:
    """A wait that empties the tank while the pump is being shown breaks ``requires`` at that second."""
    of = problem(
        step("drain", sets="drain=open", starts="draining"),
        step("pump", 20, asks="tank=full"),
        start="tank=full, drain=shut",
        waits=[wait("draining", 25, sets="tank=empty")],
    )
    assert broken(of, ("drain", 0), ("pump", 16), whole=False) == [("requires", "pump", 35, "tank")]


def test_a_change_at_the_second_a_step_ends_does_not_disturb_it() -> None:
    """The tank runs empty at the very second the pump step ends: nothing is broken; one second earlier it is."""
    of = problem(
        step("drain", starts="draining"),
        step("pump", 20, asks="tank=full"),
        start="tank=full",
        waits=[wait("draining", 25, sets="tank=empty")],
    )
    assert broken(of, ("drain", 0), ("pump", 15)) == []
    assert broken(of, ("drain", 0), ("pump", 16)) == [("requires", "pump", 35, "tank")]


def test_a_step_may_start_the_second_a_wait_ends() -> None:
    """The tank is full at second 40, so the pump may start at 40 and not at 39."""
    assert broken(FILL, ("tap on", 0), ("pump", 40)) == []
    assert broken(FILL, ("tap on", 0), ("pump", 39)) == [("requires", "pump", 39, "tank")]


def test_a_condition_the_van_does_not_have_never_holds() -> None:
    """A step that needs a condition the van lacks breaks ``requires`` and the text says so."""
    of = problem(step("pump", asks="tank=full"))
    (found,) = replay(of, timed(of, ("pump", 0)))
    assert (found.rule, found.condition) == ("requires", "tank")
    assert found.text == "“Pump” needs tank: full, but it is not on this van then."


def test_a_missing_step_breaks_requires_with_its_sentence() -> None:
    """A step for which the van lacks something can never be done, and the checker says what is lacking."""
    of = problem(step("light"), missing=[Missing("light", "The hob needs gas, but the sheet has no gas cylinder.")])
    assert replay(of, timed(of, ("light", 0))) == (
        Broken("requires", "light", 0, "", "The hob needs gas, but the sheet has no gas cylinder."),
    )


def test_unknown() -> None:
    """A step that the van does not have is named; a part without it is judged as it stands."""
    found = replay(GAS, [TimedStep("polish", 0, 5), *timed(GAS, ("open", 5), ("light", 15))])
    assert [(b.rule, b.step, b.at) for b in found] == [("unknown", "polish", 0)]
    assert "no step “polish”" in found[0].text


def test_twice() -> None:
    """A step done twice is named once, at its last start."""
    assert broken(GAS, ("open", 0), ("light", 10), ("open", 20)) == [("twice", "open", 20, "")]


@pytest.mark.parametrize("seconds", [9, 11])
def test_length(seconds: int) -> None:
    """A step has to be given just its own seconds, not one less or more."""
    of = problem(step("open"))
    found = replay(of, [TimedStep("open", 3, 3 + seconds)])
    assert [(b.rule, b.step, b.at) for b in found] == [("length", "open", 3)]
    assert found[0].text == f"“Open” takes 10 s but is given {seconds} s."


def test_overlap() -> None:
    """A step may start the second the one before it ends and no earlier."""
    of = problem(step("one"), step("two"))
    assert broken(of, ("one", 0), ("two", 10)) == []
    assert broken(of, ("one", 0), ("two", 9)) == [("overlap", "two", 9, "")]
    assert replay(of, timed(of, ("one", 0), ("two", 9)))[0].text == "“Two” starts before “One” has ended."


def test_a_step_before_second_0_overlaps_the_beginning() -> None:
    """No step starts before the round begins."""
    of = problem(step("one"))
    assert broken(of, ("one", -1)) == [("overlap", "one", -1, "")]
    assert replay(of, timed(of, ("one", -1)))[0].text == "“One” starts before the round begins."


def test_walking() -> None:
    """Between a step at a and one at b there are at least five seconds, because they are 5 m apart."""
    of = problem(step("one"), step("two", place="b"))
    assert broken(of, ("one", 0), ("two", 15)) == []
    assert broken(of, ("one", 0), ("two", 14)) == [("walking", "two", 14, "")]
    text = replay(of, timed(of, ("one", 0), ("two", 14)))[0].text
    assert text == "“Two” starts 4 s after “One” ends, but the walk there takes 5 s."


def test_walking_to_the_first_step() -> None:
    """The presenter begins at the start place, so a first step at b starts at second 5 or later."""
    of = problem(step("two", place="b"))
    assert broken(of, ("two", 5)) == []
    (found,) = replay(of, timed(of, ("two", 4)))
    assert found.text == "“Two” starts 4 s after the round begins, but the walk there takes 5 s."


def test_awaits() -> None:
    """A step that awaits the filling starts when it is over (second 40) or later, and never before it has begun."""
    assert broken(FILL, ("tap on", 0), ("taste", 40)) == []
    assert broken(FILL, ("tap on", 0), ("taste", 39)) == [("awaits", "taste", 39, "filling")]
    assert ("awaits", "taste", 0, "filling") in broken(FILL, ("taste", 0), ("tap on", 6), ("talk", 42))


def test_sustains() -> None:
    """The tap may be turned off at the very second the filling is over (40), not a second before."""
    assert broken(FILL, ("tap on", 0), ("tap off", 36)) == []
    found = broken(FILL, ("tap on", 0), ("tap off", 35), ("talk", 39))
    assert found == [("sustains", "tap on", 39, "tap")]


def test_sustains_is_broken_from_the_start() -> None:
    """A wait whose conditions do not hold when its step ends is broken at that second."""
    of = problem(
        step("heat", starts="heating"),
        step("talk", 30),
        start="tank=empty",
        waits=[wait("heating", 5, keeps="tank=full")],
    )
    assert broken(of, ("heat", 0), ("talk", 10)) == [("sustains", "heat", 10, "tank")]


def test_conflict() -> None:
    """Two changes of one condition at one second are a fault, even to the same value; a second apart they are none."""
    of = problem(
        step("tap on", sets="tap=on", starts="filling"),
        step("top up", 5, sets="tank=full"),
        start="tank=empty, tap=off",
        waits=[wait("filling", 30, sets="tank=full")],
    )
    assert broken(of, ("tap on", 0), ("top up", 35)) == [("conflict", "", 40, "tank")]
    assert broken(of, ("tap on", 0), ("top up", 36)) == []


def test_guard_from_second_0() -> None:
    """A guard that already holds at second 0 is broken then."""
    of = problem(step("one"), start="a=on, b=on", guards=[guard("both", "a=on, b=on", "Both are on.")])
    (found,) = replay(of, timed(of, ("one", 0)))
    assert (found.rule, found.at, found.condition, found.harm) == ("guard", 0, "both", "Both are on.")


def test_guard_at_one_instant() -> None:
    """What changes at one second acts together: swapping two sides at once is safe, one after the other is not."""
    never = [guard("both", "a=on, b=on", "Both are on.")]
    swap = problem(step("swap", sets="a=off, b=on"), start="a=on, b=off", guards=never)
    assert broken(swap, ("swap", 0)) == []
    apart = problem(step("b on", sets="b=on"), step("a off", sets="a=off"), start="a=on, b=off", guards=never)
    assert broken(apart, ("b on", 0), ("a off", 10)) == [("guard", "b on", 10, "both")]
    assert broken(apart, ("a off", 0), ("b on", 10)) == []


def test_guard_at_the_second_the_round_ends() -> None:
    """A guard still counts at the second the round ends, and no longer after it."""
    of = problem(
        step("one", sets="a=on", starts="rising"),
        step("two", level="may"),
        start="a=off, b=off",
        waits=[wait("rising", 10, sets="b=on")],
        guards=[guard("both", "a=on, b=on", "Both are on.")],
    )
    assert ("guard", "two", 20, "both") in broken(of, ("one", 0), ("two", 10))
    assert broken(of, ("one", 0), whole=False) == []


def test_unfinished() -> None:
    """A wait may be over at the very second the round ends; with a second to go it is unfinished."""
    assert broken(FILL, ("tap on", 0), ("talk", 36)) == []
    found = replay(FILL, timed(FILL, ("tap on", 0), ("talk", 35)))
    assert [(b.rule, b.step, b.at, b.condition) for b in found] == [("unfinished", "tap on", 39, "filling")]
    assert found[0].text == "“Filling” is still going when the round ends, with 1 s to go."


def test_finish() -> None:
    """Every finish condition holds at the second the round ends, after everything that acts then."""
    of = problem(step("shut", sets="valve=shut"), step("talk", level="may"), start="valve=open", finish="valve=shut")
    assert broken(of, ("shut", 0)) == []
    other = problem(step("talk"), start="valve=open", finish="valve=shut")
    (found,) = replay(other, timed(other, ("talk", 0)))
    assert (found.rule, found.at, found.condition) == ("finish", 10, "valve")
    assert found.text == "At the end valve: shut is called for, but it is open."


def test_must() -> None:
    """A must that is left out is named; a should is not."""
    assert broken(GAS, ("open", 0)) == [("must", "light", 10, "")]
    assert "is a must and is left out" in replay(GAS, timed(GAS, ("open", 0)))[0].text


def test_a_part_need_not_be_finished() -> None:
    """Judging a part leaves out what only a whole round can break: unfinished waits, the finish, the musts."""
    of = problem(
        step("tap on", starts="filling"),
        step("shut"),
        start="valve=open",
        finish="valve=shut",
        waits=[wait("filling", 30)],
    )
    assert {b[0] for b in broken(of, ("tap on", 0))} == {"unfinished", "finish", "must"}
    assert broken(of, ("tap on", 0), whole=False) == []


def test_nothing_done() -> None:
    """An empty sequence ends at second 0: it breaks the musts and the finish and nothing else."""
    of = problem(step("shut"), start="valve=open", finish="valve=shut")
    assert broken(of) == [("finish", "", 0, "valve"), ("must", "shut", 0, "")]


def test_values_are_read_out_in_words() -> None:
    """Values with hyphens and labels of conditions are read out as words."""
    of = problem(step("pump", asks="pump=under-water|dry"), start="pump=in-the-locker")
    (found,) = replay(of, timed(of, ("pump", 0)))
    assert found.text == "“Pump” needs pump: dry or under water, but it is in the locker then."


@given(st.integers(0, 100_000))
def test_agrees_with_a_simulation_second_by_second(seed: int) -> None:
    """On random sequences of random problems the checker breaks just the rules that a second-by-second simulation breaks."""
    rng = random.Random(seed)
    of = rich_problem(seed)
    now, sequence = 0, []
    for chosen in rng.sample(of.steps, rng.randint(0, len(of.steps))):
        now += rng.choice((0, 0, 1, 2, 4, 6))
        sequence.append(TimedStep(chosen.id, now, now + chosen.seconds))
        now += chosen.seconds
    whole = rng.random() < 0.7
    found = {
        (b.rule, b.step if b.rule not in ("guard", "conflict") else "", b.condition)
        for b in replay(of, sequence, whole=whole)
    }
    assert found == rules_broken(of, sequence, whole=whole)
