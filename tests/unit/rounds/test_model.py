"""The problem with numbers for names."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstpitch.rounds import Effect, Guard, Literally
from firstpitch.rounds.model import FINISH, Await, Setter, Window, index_problem
from tests.unit.rounds.small import problem, step, wait

FILL = problem(
    step("fill", 10, asks="tap=on", sets="lid=up", starts="filling"),
    step("taste", 6, place="b", awaits="filling"),
    start="tap=on, lid=down, tank=empty",
    finish="tank=full",
    waits=[wait("filling", 30, keeps="tap=on", sets="tank=full")],
)


def test_times_are_relative_to_the_end_of_the_step() -> None:
    """A step's needs reach over its own length, a wait's over the time after it; changes act at the end of either."""
    model = index_problem(FILL)
    tap, lid, tank = (model.conditions.index(c) for c in ("tap", "lid", "tank"))
    assert model.setters == (Setter(0, 0, lid, "up"), Setter(0, 30, tank, "full"))
    assert model.windows == (Window(0, -10, 0, tap, frozenset({"on"})), Window(0, 0, 30, tap, frozenset({"on"})))
    assert model.finish == (Window(FINISH, 0, 0, tank, frozenset({"full"})),)
    assert model.awaits == (Await(1, 0, 30),)
    assert model.wait_ends == ((0, 30),)


def test_two_steps_cannot_start_one_wait() -> None:
    """A wait that two steps start is refused by name."""
    of = problem(step("a", starts="w"), step("b", starts="w"), waits=[wait("w", 5)])
    with pytest.raises(ValueError, match="the wait w is started by two steps"):
        index_problem(of)


def test_a_step_that_changes_one_thing_twice_at_once_is_barred() -> None:
    """A step that sets one condition twice at its end, or starts two waits that do at one second, can never be done."""
    twice = replace(step("a"), sets=(Effect("x", "1"), Effect("x", "2")))
    waits = [wait("v", 5, sets="y=1"), wait("w", 5, sets="y=1"), wait("u", 6, sets="y=1")]
    of = problem(twice, step("b", starts="v w"), step("c", sets="y=0", starts="u"), start="x=0, y=0", waits=waits)
    assert index_problem(of).barred == {0, 1}


def test_a_guard_that_asks_two_values_at_once_can_never_be_broken() -> None:
    """A guard whose lines about one condition have no value in common falls away; lines with one in common become one."""
    never = Guard("g", "k", (Literally("x", frozenset("1")), Literally("x", frozenset("2"))), "harm")
    joined = Guard("h", "k", (Literally("x", frozenset("12")), Literally("x", frozenset("23"))), "harm")
    model = index_problem(replace(problem(step("a"), start="x=0"), guards=(never, joined)))
    assert [(g.id, g.never) for g in model.guards] == [("h", ((0, frozenset("2")),))]


@pytest.mark.parametrize(("minutes", "seconds"), [(None, None), (0, 0), (1.5, 90), (123 / 60, 123), (0.999999, 59)])
def test_minutes_become_whole_seconds(minutes: float | None, seconds: int | None) -> None:
    """The minutes given are whole seconds, rounded down but for the arithmetic: 123/60 min are 123 s."""
    assert index_problem(problem(step("a"), minutes=minutes)).limit == seconds


def test_detour() -> None:
    """Going by b (5 m) on the way from a to c (12 m) costs nothing, going back to it from c costs 7 s."""
    of = problem(step("at a"), step("at c", place="c"), step("at b", place="b"))
    model = index_problem(of)
    assert [model.detour([0, 1], at, 2) for at in (0, 1, 2)] == [10, 0, 7]
