"""The first round, built step by step."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.course import Course
from firstpitch.rounds.greedy import Taste, build, wait_tails
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.orders import Contradiction, infer
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait

PLAIN = Taste()


def built(of: Problem, taste: Taste = PLAIN) -> Course | None:
    model = index_problem(of)
    steps = range(len(of.steps))
    return build(model, steps, infer(model, steps), taste, random.Random(0))


def names(of: Problem, course: Course | None) -> list[str]:
    assert course is not None
    return [of.steps[i].id for i in course.order]


def test_a_long_wait_is_started_early_and_filled() -> None:
    """The filling is started first although its tap is further off, and the talk fills the time."""
    of = problem(
        step("talk", 60), step("fill", place="b", starts="filling"), step("taste", 6, place="b", awaits="filling"),
        waits=[wait("filling", 120)],
    )  # fmt: skip
    course = built(of)
    assert names(of, course) == ["fill", "talk", "taste"]
    assert course is not None
    assert course.now == 5 + 10 + 120 + 6


def test_nothing_is_undone_that_is_still_needed() -> None:
    """Shutting is nearest but is left until the last step that needs it open is done, because nothing opens it again."""
    of = problem(step("shut", sets="v=shut"), step("light", place="b", asks="v=open"), start="v=open")
    assert names(of, built(of)) == ["light", "shut"]


def test_the_nearest_comes_next_and_topics_hold_together() -> None:
    """Of steps that rest on nothing the nearest comes first; with a taste for topics, one on the same topic further off."""
    of = problem(step("a", topic="gas"), step("b", place="b"), step("c", place="c", topic="gas"))
    assert names(of, built(of)) == ["a", "b", "c"]
    assert names(of, built(of, Taste(topic=30.0))) == ["a", "c", "b"]


def test_a_dead_end_is_none() -> None:
    """Where the only order ends with a wait under way, no round is found."""
    assert built(problem(step("fill", starts="filling"), waits=[wait("filling", 30)])) is None


def test_wait_tails() -> None:
    """Behind the fill stand 30 s of filling and then 60 of heating; behind the heat only those 60; behind the taste nothing."""
    of = problem(
        step("fill", starts="filling"), step("heat", 5, awaits="filling", starts="heating"), step("taste", 6, awaits="heating"),
        waits=[wait("filling", 30), wait("heating", 60)],
    )  # fmt: skip
    model = index_problem(of)
    assert wait_tails(infer(model, range(3)), range(3)) == {0: 90, 1: 60, 2: 0}


@settings(deadline=None, max_examples=150)
@given(st.integers(0, 100_000), st.floats(0, 20))
def test_what_is_built_is_clean(seed: int, chance: float) -> None:
    """Whatever is built takes exactly the steps asked for and is found clean by the checker."""
    of = rich_problem(seed)
    model = index_problem(of)
    steps = frozenset(range(len(of.steps))) - model.barred
    try:
        course = build(model, steps, infer(model, steps), Taste(chance=chance), random.Random(seed))
    except Contradiction:
        return
    if course is None or any(all(model.start[c] in bad for c, bad in g.never) for g in model.guards):
        return
    assert set(course.order) == steps
    sequence = [TimedStep(of.steps[i].id, end - of.steps[i].seconds, end) for i, end in course.ends.items()]
    assert not [b for b in replay(of, sequence) if b.rule != "must"]
