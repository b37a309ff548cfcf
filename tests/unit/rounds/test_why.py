"""Why each step stands where it stands."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from firstpitch.rounds import Plan, Problem, TimedStep, plan_round, why
from firstpitch.rounds.types import TimedWait
from tests.demo_rounds import demo_round
from tests.unit.rounds.small import guard, problem, step, timed, wait


def told(of: Problem, *begins: tuple[str, int]) -> dict[str, tuple[str, ...]]:
    """The reasons for each step of a given valid round."""
    return dict(why(of, plan_of(of, *begins)))


def plan_of(of: Problem, *begins: tuple[str, int]) -> Plan:
    steps = tuple(timed(of, *begins))
    ends = {t.step: t.end for t in steps}
    length = {w.id: w.seconds for w in of.waits}
    waits = tuple(TimedWait(w, ends[s.id], ends[s.id] + length[w]) for s in of.steps if s.id in ends for w in s.starts)
    return Plan(steps, waits, (), steps[-1].end, steps[-1].end, 0, 0, 0, 0, proven=False)


GAS = problem(
    step("open", sets="valve=open"), step("light", asks="valve=open"), step("bake", asks="valve=open"), step("warm", asks="valve=open"),
    step("shut", sets="valve=shut"), start="valve=shut", finish="valve=shut",
)  # fmt: skip
GAS_ROUND = told(GAS, ("open", 0), ("light", 10), ("bake", 20), ("warm", 30), ("shut", 40))


def test_what_comes_first_and_what_it_must_come_before() -> None:
    """Lighting says that opening comes first and that it comes before shutting, because it needs the valve open."""
    assert GAS_ROUND["light"][:2] == ("“Open” comes first.", "It comes before “Shut”, because it needs valve: open.")


def test_what_rests_on_it() -> None:
    """Opening says what rests on it: two by name, the third counted."""
    assert GAS_ROUND["open"][0] == "“Light”, “Bake” and 1 more rest on it."


def test_what_the_round_has_to_end_with() -> None:
    """The last to shut the valve says that the round has to end so."""
    assert GAS_ROUND["shut"][0] == "The round has to end with valve: shut."


def test_no_walk() -> None:
    """Steps at one place say that there is no walk, the first that the round begins there."""
    assert GAS_ROUND["open"][-1] == "No walk: the round begins at this place."
    assert GAS_ROUND["bake"][-1] == "No walk: the step before it is at the same place."


FILL = problem(
    step("fill", starts="filling"), step("talk", 12), step("taste", 6, asks="tank=full"), step("sip", 5, awaits="filling"),
    start="tank=empty", waits=[wait("filling", 30, sets="tank=full")],
)  # fmt: skip


def test_a_wait_it_starts_and_what_goes_on_meanwhile() -> None:
    """The step that starts the filling says how long it takes and what is done meanwhile."""
    reasons = told(FILL, ("fill", 0), ("talk", 10), ("taste", 40), ("sip", 46))
    assert "It starts “Filling”, which takes 0:30; meanwhile “Talk”." in reasons["fill"]
    assert "“Taste” and “Sip” rest on it." in reasons["fill"]
    idle = told(FILL, ("talk", 0), ("fill", 12), ("taste", 52), ("sip", 58))
    assert "It starts “Filling”, which takes 0:30." in idle["fill"]


def test_what_it_waited_for() -> None:
    """A step that begins when a wait is over says so, and how long one stands and waits; a later one says when it was over."""
    reasons = told(FILL, ("fill", 0), ("talk", 10), ("taste", 40), ("sip", 46))
    assert reasons["taste"][:2] == (
        "It begins the moment “Filling” is over, at 0:40.",
        "You stand and wait 18 s before it.",
    )
    assert reasons["sip"][0] == "“Filling” has to be over first: it is, at 0:40."


DRY = problem(
    step("fill", sets="tank=full"), step("heat", sets="heater=on"), step("cool", sets="heater=off"), step("drain", sets="tank=empty"),
    start="tank=empty, heater=off", guards=[guard("dry", "heater=on, tank=empty", "The element burns out.")],
)  # fmt: skip


def test_a_guard_is_told_with_its_harm() -> None:
    """Where only a guard orders two steps, the harm is the reason, on both sides."""
    reasons = told(DRY, ("fill", 0), ("heat", 10), ("cool", 20), ("drain", 30))
    assert "“Fill” comes first. Otherwise: The element burns out." in reasons["heat"]
    assert "It comes before “Drain”. Otherwise: The element burns out." in reasons["heat"]
    assert "“Cool” comes first. Otherwise: The element burns out." in reasons["drain"]


ON_THE_WAY = "It is on the way: the walk to it adds nothing"
WALK = problem(step("a"), step("b", place="b"), step("c", place="c", asks="x=1"), step("x", sets="x=1"), start="x=0")


@pytest.mark.parametrize(
    ("begins", "name", "sentence"),
    [
        ((("x", 0), ("a", 10), ("b", 25), ("c", 42)), "b", f"{ON_THE_WAY}; anywhere else it would add 7 s or more."),
        ((("x", 0), ("a", 10), ("b", 25), ("c", 42)), "c", "The walk to it adds 7 s; anywhere else it would add 14 s or more."),
        ((("x", 0), ("a", 10), ("c", 32), ("b", 49)), "b", "The walk to it adds 7 s."),
        ((("x", 0), ("b", 15), ("c", 32), ("a", 54)), "b", f"{ON_THE_WAY}; nowhere else would it add less."),
    ],
    ids=["on the way", "out at the end", "a shorter one was to be had", "on the way out or back"],
)  # fmt: skip
def test_walking(begins: tuple[tuple[str, int], ...], name: str, sentence: str) -> None:
    """The walk is told as what it adds here against the least it would add at any other point that its order allows."""
    assert told(WALK, *begins)[name][-1] == sentence


def test_a_step_that_can_stand_nowhere_else() -> None:
    """A step between two that hold it says that it can stand nowhere else."""
    of = problem(
        step("one", sets="x=1"),
        step("two", place="b", asks="x=1", sets="y=1"),
        step("three", asks="y=1"),
        start="x=0, y=0",
    )
    reasons = told(of, ("one", 0), ("two", 15), ("three", 30))
    assert reasons["two"][-1] == "The walk to it adds 10 s; it can stand nowhere else in this order."


def test_a_longer_walk_that_saves_waiting() -> None:
    """Where a shorter walk would cost more time than it saves, that is told with the seconds."""
    of = problem(
        step("fill", starts="filling"), step("far", place="b"), step("taste", 6, awaits="filling"),
        step("end", place="c", awaits="filling"), waits=[wait("filling", 20)],
    )  # fmt: skip
    reasons = told(of, ("fill", 0), ("far", 15), ("taste", 30), ("end", 48))
    assert reasons["far"][-1] == "The walk to it adds 10 s; where it would add less, the round would end 10 s later."


def test_steps_of_one_name_are_told_apart() -> None:
    """Steps with the same title are named with their kit."""
    down = step("down", kit="left", sets="l=down")
    other = replace(step("down 2", kit="right", sets="r=down"), title="Down")
    of = problem(down, other, step("in", asks="l=down, r=down"), start="l=up, r=up")
    reasons = told(of, ("down", 0), ("down 2", 10), ("in", 20))
    assert reasons["in"][0] == "“Down” (right) and “Down” (left) come first."


def test_what_all_need_is_not_told_of_each() -> None:
    """A need that most steps share, such as the door unlocked, is told at the step that brings it about and not at every other."""
    inside = [step(f"show {n}", asks="door=unlocked") for n in range(8)]
    of = problem(
        step("unlock", sets="door=unlocked"),
        *inside,
        step("lock", sets="door=locked"),
        start="door=locked",
        finish="door=locked",
    )
    reasons = told(of, ("unlock", 0), *((s.id, 10 + 10 * n) for n, s in enumerate(inside)), ("lock", 90))
    assert reasons["show 3"] == ("No walk: the step before it is at the same place.",)
    assert reasons["unlock"][0] == "“Show 0”, “Show 1” and 6 more rest on it."


def test_a_plan_of_another_problem_is_refused() -> None:
    """A step the problem does not have, or a round that is not valid, is refused."""
    with pytest.raises(ValueError, match="the step polish"):
        why(GAS, Plan((TimedStep("polish", 0, 5),), (), (), 5, 5, 0, 0, 0, 0, proven=False))
    with pytest.raises(ValueError, match="not valid"):
        told(GAS, ("light", 0), ("open", 10), ("shut", 20))


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_demo_vans(name: str) -> None:
    """Every step of a demo van's round has reasons in few, short, plain sentences, and the last is about the walk."""
    of = demo_round(name)
    reasons = why(of.problem, of.plan)
    assert list(reasons) == [t.step for t in of.plan.steps]
    for sentences in reasons.values():
        assert 1 <= len(sentences) <= 16
        assert re.search("walk|on the way", sentences[-1])
        assert all(s[0] in "“ITNY" and s.endswith(".") and len(s) < 320 for s in sentences)
        assert not any(re.search("precondition|effect|None|[a-z]_[a-z]", s) for s in sentences)


def test_it_is_the_plan_of_the_planner() -> None:
    """Reasons are given for what ``plan_round`` finds, in its order."""
    plan = plan_round(FILL)
    assert isinstance(plan, Plan)
    assert list(why(FILL, plan)) == [t.step for t in plan.steps]
