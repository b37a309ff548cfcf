"""Which steps to take when the minutes are short."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem
from firstpitch.rounds.choose import Choice, Lesson, choose, learn, most_worth, surely, weight, worth_of
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.reach import reachable
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait


def chosen(of: Problem, seconds: int, *lessons: Lesson) -> Choice | None:
    model = index_problem(of)
    return choose(model, reachable(model, range(len(of.steps))), seconds, 0, lessons)


def names(of: Problem, choice: Choice | None) -> set[str]:
    assert choice is not None
    return {of.steps[i].id for i in choice.steps}


SHOP = problem(
    step("must", 10),
    step("big", 30, level="should", worth=5),
    step("small", 10, level="may", worth=3),
    step("tiny", 10, level="may", worth=3),
)


@pytest.mark.parametrize(
    ("seconds", "steps", "worth"),
    [
        (10, {"must"}, 0),
        (30, {"must", "small", "tiny"}, 6),
        (49, {"must", "small", "tiny"}, 6),
        (60, {"must", "big", "small", "tiny"}, 11),
    ],
)
def test_most_worth_that_fits(seconds: int, steps: set[str], worth: int) -> None:
    """The musts are in, and of the rest what has the most worth in the seconds there are; the bound is just that worth."""
    choice = chosen(SHOP, seconds)
    assert choice is not None
    assert (choice.worth_bound, choice.proven) == (worth, True)
    assert names(SHOP, choice) == steps


def test_musts_that_do_not_fit() -> None:
    """Where the musts alone are longer there is no choice."""
    assert chosen(SHOP, 9) is None


def test_steps_come_with_what_they_rest_on() -> None:
    """A step that needs the valve open comes with the one that opens it and, for the finish, the one that shuts it again."""
    of = problem(
        step("open", 5, level="may", sets="v=open"), step("light", 5, level="should", worth=9, asks="v=open"),
        step("shut", 5, level="may", sets="v=shut"), start="v=shut", finish="v=shut",
    )  # fmt: skip
    assert names(of, chosen(of, 15)) == {"open", "light", "shut"}
    assert names(of, chosen(of, 14)) == {"open", "shut"}


def test_awaited_steps_come_too() -> None:
    """A step that awaits a wait comes with the step that starts it."""
    of = problem(
        step("fill", 5, level="may", starts="w"),
        step("taste", 5, level="should", worth=9, awaits="w"),
        waits=[wait("w", 5)],
    )
    assert names(of, chosen(of, 10)) == {"fill", "taste"}
    assert names(of, chosen(of, 9)) == {"fill"}


def test_a_wait_that_rests_on_its_own_step_needs_no_other() -> None:
    """A heater that its own step switches on needs no other step to switch it on."""
    of = problem(
        step("heat", 5, level="should", worth=4, sets="h=on", starts="w"),
        start="h=off",
        waits=[wait("w", 5, keeps="h=on")],
    )
    assert names(of, chosen(of, 5)) == {"heat"}


def test_lessons() -> None:
    """What was learnt not to go together is not chosen together, unless what would mend it is."""
    assert names(SHOP, chosen(SHOP, 60, Lesson((1, 2), ()))) == {"must", "small", "tiny"} or names(
        SHOP, chosen(SHOP, 60, Lesson((1, 2), ()))
    ) == {"must", "big", "tiny"}
    assert names(SHOP, chosen(SHOP, 60, Lesson((1, 2), (3,)))) == {"must", "big", "small", "tiny"}


def test_learning() -> None:
    """From two steps that each spoil the other for good it is learnt that they do not go together, unless a third mends it."""
    of = problem(
        step("a", level="may", asks="x=0", sets="x=1"), step("b", level="may", asks="x=0", sets="x=1"),
        step("back", level="may", asks="x=1", sets="x=0"), start="x=0",
    )  # fmt: skip
    model = index_problem(of)
    assert learn(model, frozenset({0, 1, 2}), frozenset({0})) is None
    lesson = learn(model, frozenset({0, 1, 2}), frozenset({0, 1}))
    assert lesson == Lesson((0, 1), (2,))


def test_surely() -> None:
    """A must, the only step that opens what it needs, and the only one that makes the finish true are in every round."""
    of = problem(
        step("light", asks="v=open"), step("open", level="may", sets="v=open"), step("lid", level="may", sets="lid=shut"),
        step("one", level="may", sets="x=1"), step("two", level="may", sets="x=1"), step("see", asks="x=1"),
        start="v=shut, lid=open, x=0", finish="lid=shut",
    )  # fmt: skip
    model = index_problem(of)
    assert surely(model, frozenset(range(6))) == {0, 1, 2, 5}


def test_weights_put_worth_before_seconds() -> None:
    """No number of seconds outweighs a worth of one, and the most worth read back from the sum of weights is the worth itself."""
    model = index_problem(SHOP)
    for steps in ([0], [0, 1], [0, 2, 3], [0, 1, 2, 3]):
        assert most_worth(model, sum(weight(model, i) for i in steps)) == worth_of(model, frozenset(steps))


@settings(deadline=None, max_examples=100)
@given(st.integers(0, 100_000), st.integers(0, 40))
def test_no_valid_round_is_worth_more(seed: int, seconds: int) -> None:
    """No valid round of that many seconds has more worth than the bound, and none lacks a step that is said to be surely in it."""
    of = rich_problem(seed, most_steps=4)
    model = index_problem(of)
    able = reachable(model, range(len(of.steps)))
    index = {s.id: i for i, s in enumerate(of.steps)}
    choice = choose(model, able, seconds, 0)
    for found in all_rounds(of):
        steps = frozenset(index[t.step] for t in found)
        assert surely(model, able) <= steps
        if not found or found[-1].end <= seconds:
            assert choice is not None
            assert worth_of(model, steps) <= choice.worth_bound
