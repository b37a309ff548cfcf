"""A round built step by step: the earliest start that keeps the rules, and the state it leads to."""

from __future__ import annotations

import random
from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.course import Course, begin
from firstpitch.rounds.model import index_problem
from tests.unit.rounds.problems import rich_problem, waiting_problem
from tests.unit.rounds.small import guard, problem, step, wait

LATEST = 60


def after(of: Problem, *names: str) -> Course:
    """The course once these steps have been done as early as they can."""
    course = begin(index_problem(of))
    for name in names:
        number = [s.id for s in of.steps].index(name)
        start = course.earliest(number)
        assert start is not None, name
        course.take(number, start)
    return course


def earliest(of: Problem, name: str, course: Course, *, last: bool = False) -> int | None:
    return course.earliest([s.id for s in of.steps].index(name), last=last)


FILL = problem(
    step("fill", sets="tap=on", starts="filling"), step("pump", 6, place="b", asks="tank=full"), step("off", 4, sets="tap=off"),
    step("taste", 6, awaits="filling"), start="tap=off, tank=empty", waits=[wait("filling", 30, keeps="tap=on", sets="tank=full")],
)  # fmt: skip


def test_walks_and_waits() -> None:
    """The first step at b begins when the walk is done; one that needs the tank full begins when the wait is over."""
    assert earliest(FILL, "pump", after(FILL)) is None
    assert earliest(FILL, "pump", after(FILL, "fill")) == 40
    assert earliest(FILL, "taste", after(FILL, "fill")) == 40
    assert earliest(FILL, "taste", after(FILL)) is None


def test_a_spoiler_waits_until_it_no_longer_spoils() -> None:
    """The tap is turned off so that it ends just when the filling is over."""
    assert earliest(FILL, "off", after(FILL, "fill")) == 36


def test_the_last_step_ends_no_sooner_than_what_runs() -> None:
    """As the last step, taste ends when it ends; off ends at 40 at the soonest; a step that starts a wait cannot be the last."""
    course = after(FILL, "fill")
    assert earliest(FILL, "taste", course, last=True) == 40
    assert earliest(FILL, "off", course, last=True) == 36
    assert earliest(FILL, "fill", after(FILL), last=True) is None
    two = problem(
        step("fill", starts="filling"), step("heat", starts="heating"), step("talk", 5), step("bye", 5),
        waits=[wait("filling", 30), wait("heating", 50)],
    )  # fmt: skip
    assert earliest(two, "talk", after(two, "fill"), last=True) == 35
    assert earliest(two, "talk", after(two, "fill", "heat"), last=True) == 65
    assert earliest(two, "heat", after(two, "fill"), last=True) is None
    assert earliest(two, "talk", after(two, "fill", "heat", "bye"), last=True) == 65


def test_changes_that_are_coming_count_in_their_order() -> None:
    """Of two waits that change one thing, the one that is over later decides, whichever was begun first."""
    of = problem(
        step("slow", 1, starts="long"), step("quick", 1, starts="short"), step("look", 5, asks="x=late"),
        start="x=none", waits=[wait("long", 100, sets="x=late"), wait("short", 10, sets="x=soon")],
    )  # fmt: skip
    course = after(of, "slow", "quick")
    assert earliest(of, "look", course) == 101


def test_a_wait_of_the_step_itself_does_not_clash_with_what_is_coming() -> None:
    """Where both waits would change one thing at one second, the later step begins a second later."""
    of = problem(
        step("one", 5, starts="first"), step("two", 5, starts="second"), start="x=0",
        waits=[wait("first", 20, sets="x=1"), wait("second", 15, sets="x=2")],
    )  # fmt: skip
    assert earliest(of, "two", after(of, "one")) == 6


def test_a_wait_of_the_step_itself_does_not_spoil_what_runs() -> None:
    """A wait that would cut off the tap is begun so late that it does so only when the filling is over."""
    of = problem(
        step("fill", sets="tap=on", starts="filling"), step("timer", 5, starts="timing"), start="tap=off",
        waits=[wait("filling", 30, keeps="tap=on"), wait("timing", 10, sets="tap=off")],
    )  # fmt: skip
    assert earliest(of, "timer", after(of, "fill")) == 25


def test_a_guard_is_kept_while_a_step_goes_on() -> None:
    """A step that would break a guard at its end is not begun until a wait has made it safe."""
    of = problem(
        step("fill", starts="filling"), step("heat", 5, sets="heater=on"), start="tank=empty, heater=off",
        waits=[wait("filling", 30, sets="tank=full")], guards=[guard("dry", "tank=empty, heater=on")],
    )  # fmt: skip
    assert earliest(of, "heat", after(of, "fill")) == 35
    assert earliest(of, "heat", after(of)) is None


def test_what_is_missing_at_the_end() -> None:
    """The finish counts what is still coming."""
    of = problem(
        step("fill", starts="filling"),
        start="tank=empty",
        finish="tank=full",
        waits=[wait("filling", 9, sets="tank=full")],
    )
    assert len(list(after(of).missing_at_end())) == 1
    assert list(after(of, "fill").missing_at_end()) == []


@settings(deadline=None, max_examples=120)
@given(
    st.integers(0, 100_000).map(waiting_problem) | st.integers(0, 100_000).map(rich_problem),
    st.randoms(use_true_random=False),
)
def test_earliest_is_the_first_second_the_checker_allows(of: Problem, rng: random.Random) -> None:
    """At every point of a random course the earliest start is the first second at which the checker finds nothing broken by then."""
    assume(not replay(of, [], whole=False))
    model = index_problem(of)
    course, done = begin(model), list[TimedStep]()
    left = [i for i in range(len(of.steps)) if i not in model.barred]
    rng.shuffle(left)
    for i in left:
        first = next((t for t in range(course.now, course.now + LATEST) if _clean(of, done, i, t)), None)
        start = course.earliest(i)
        assert start == first
        if start is not None:
            course.take(i, start)
            done.append(TimedStep(of.steps[i].id, start, start + of.steps[i].seconds))


def _clean(of: Problem, done: list[TimedStep], i: int, start: int) -> bool:
    """Whether step i, begun at ``start``, breaks no rule, its own waits seen to their end if nothing further is done."""
    trial = [*done, TimedStep(of.steps[i].id, start, start + of.steps[i].seconds)]
    if any(m.step == of.steps[i].id for m in of.missing) or replay(of, trial, whole=False):
        return False
    rest = _idle(of, trial)
    return not any(b.rule in ("sustains", "conflict") for b in replay(*rest, whole=False))


def _idle(of: Problem, trial: list[TimedStep]) -> tuple[Problem, list[TimedStep]]:
    """The same with a step after all waits are over that does nothing."""

    idle = step("idle", 1, level="may")
    end = trial[-1].end + 60
    walks = {a: dict.fromkeys(of.walks, 0) for a in of.walks}
    idle = replace(idle, place=of.places[0].id)
    return replace(of, steps=(*of.steps, idle), walks=walks), [*trial, TimedStep("idle", end, end + 1)]
