"""What each need of a valid round rests on, and that any order that keeps it is valid too."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from itertools import count, islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.causes import Frame, frame_of, value_at
from firstpitch.rounds.improve import Scale
from firstpitch.rounds.model import index_problem
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem, waiting_problem
from tests.unit.rounds.small import guard, problem, step, timed, wait


def frame(of: Problem, *begins: tuple[str, int]) -> Frame:
    return frame_of(index_problem(of), ends(of, timed(of, *begins)))


def ends(of: Problem, sequence: list[TimedStep] | tuple[TimedStep, ...]) -> dict[int, int]:
    index = {s.id: i for i, s in enumerate(of.steps)}
    return {index[t.step]: t.end for t in sequence}


GAS = problem(
    step("open", sets="valve=open"), step("light", asks="valve=open"), step("shut", sets="valve=shut"), step("talk"),
    start="valve=shut", finish="valve=shut",
)  # fmt: skip


def test_supports_and_gaps() -> None:
    """Lighting rests on opening and is before shutting; the finish rests on shutting; talking is free."""
    found = frame(GAS, ("open", 0), ("light", 10), ("talk", 20), ("shut", 30))
    assert [None if s.setter is None else s.setter.step for s in found.supports] == [0, 2]
    assert found.gaps == {(0, 1): 10, (1, 2): 1 - 1, (0, 2): 1}


def test_a_need_that_rests_on_the_start() -> None:
    """Where the valve is open from the start nothing has to come first, and what shuts it comes after."""
    of = problem(step("light", asks="valve=open"), step("shut", sets="valve=shut"), start="valve=open")
    found = frame(of, ("light", 0), ("shut", 10))
    assert [s.setter for s in found.supports] == [None]
    assert found.gaps == {(0, 1): 0}


def test_of_several_that_bring_it_about_the_first_counts() -> None:
    """Opened twice, lighting rests on the first opening; the second stays free."""
    of = problem(step("a", sets="v=open"), step("b", sets="v=open"), step("light", asks="v=open"), start="v=shut")
    assert frame(of, ("a", 0), ("b", 10), ("light", 20)).gaps == {(0, 2): 10}


def test_changes_of_one_thing_keep_their_order_where_a_wait_is_among_them() -> None:
    """A step that sets what a wait sets too, at any distance in between, never lands on its second."""
    of = problem(
        step("a", sets="x=1"), step("b", sets="x=1"), step("c", starts="w"), step("d", 40),
        start="x=0", waits=[wait("w", 15, sets="x=1")],
    )  # fmt: skip
    gaps = frame(of, ("c", 0), ("a", 10), ("b", 20), ("d", 30)).gaps
    assert gaps[2, 1] == 15 + 1
    assert gaps[0, 2] == 1 - 15


@pytest.mark.parametrize(
    ("of", "begins"),
    [
        (GAS, (("light", 0), ("open", 10), ("shut", 20))),
        (GAS, (("open", 0), ("shut", 10), ("light", 20))),
        (GAS, (("shut", 0), ("open", 10))),
        (
            problem(
                step("a", sets="x=1"), step("b", sets="y=1"), step("c", sets="z=1"), start="x=0, y=0, z=0",
                guards=[guard("g", "x=1, y=1, z=1")],
            ),
            (("a", 0), ("b", 10), ("c", 20)),
        ),
        (problem(step("a", sets="x=1"), start="x=0", guards=[guard("g", "x=1")]), (("a", 0),)),
    ],
    ids=["before it is opened", "after it is shut", "finish", "guard of three", "guard of one"],
)  # fmt: skip
def test_a_round_that_is_not_valid_is_refused(of: Problem, begins: tuple[tuple[str, int], ...]) -> None:
    """The frame of a round that breaks a need, the finish or a guard does not exist."""
    with pytest.raises(ValueError, match="not valid"):
        frame(of, *begins)


def test_value_at() -> None:
    """The value at an instant counts everything that acts at that instant."""
    model = index_problem(GAS)
    done: Mapping[int, int] = {0: 10, 2: 30}
    assert [value_at(model, done, 0, at) for at in (9, 10, 29, 30)] == ["shut", "open", "open", "shut"]
    fill = problem(step("fill", starts="w", sets="x=1"), start="x=0", waits=[wait("w", 5, sets="x=2")])
    assert [value_at(index_problem(fill), {0: 10}, 0, at) for at in (9, 10, 14, 15)] == ["0", "1", "1", "2"]


@settings(deadline=None, max_examples=150)
@given(st.integers(0, 100_000), st.sampled_from([waiting_problem, rich_problem]), st.randoms(use_true_random=False))
def test_every_order_within_the_frame_is_valid(seed: int, make: Callable[[int], Problem], rng: random.Random) -> None:
    """A valid round keeps its own frame; any shuffle that keeps the frame, timed as early as can be, is found clean by the checker."""
    of, rounds = next((of, rounds) for of, rounds in map(_with_rounds, map(make, count(seed))) if rounds)
    found, model = rng.choice(rounds), index_problem(of)
    own, times = frame_of(model, ends(of, found)), ends(of, found)
    assert all(times[j] - times[i] >= least for (i, j), least in own.gaps.items())
    scale, order = Scale(model, own), list(times)
    for _ in range(6):
        order = _shuffled(scale, order, rng)
        again = scale.ends(order)
        if again is not None:
            sequence = [TimedStep(of.steps[i].id, end - of.steps[i].seconds, end) for i, end in again.items()]
            assert not replay(of, sequence)


def _with_rounds(of: Problem) -> tuple[Problem, list[tuple[TimedStep, ...]]]:
    """The problem with up to 200 of its rounds of two steps and more."""
    return of, [r for r in islice(all_rounds(of), 200) if len(r) > 1]


def _shuffled(scale: Scale, order: list[int], rng: random.Random) -> list[int]:
    """Another order that keeps every order of the frame."""
    left, chosen = list(order), list[int]()
    while left:
        free = [j for j in left if not any(scale.before[j] >> i & 1 for i in left)]
        chosen.append(rng.choice(free))
        left.remove(chosen[-1])
    return chosen
