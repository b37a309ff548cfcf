"""Local search over orders within a frame."""

from __future__ import annotations

import random
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds.causes import frame_of
from firstpitch.rounds.improve import BREAK, Effort, Scale, improve, moved
from firstpitch.rounds.model import index_problem
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait

TO_AND_FRO = problem(
    step("a1"), step("c1", place="c"), step("a2"), step("c2", place="c"), step("b1", place="b", topic="gas"),
)  # fmt: skip
FILL = problem(
    step("fill", starts="filling"), step("taste", 6, awaits="filling"), step("talk", 20), waits=[wait("filling", 30)]
)


def scale_of(of: object, ends: dict[int, int]) -> Scale:
    model = index_problem(of)  # type: ignore[arg-type]
    return Scale(model, frame_of(model, ends))


def test_total_and_breaks() -> None:
    """To and fro between a and c and back to b takes 50 s of steps and 43 s of walking, with one change of topic."""
    scale = scale_of(TO_AND_FRO, {0: 10, 1: 32, 2: 54, 3: 76, 4: 93})
    order = [0, 1, 2, 3, 4]
    assert scale.ends(order) == {0: 10, 1: 32, 2: 54, 3: 76, 4: 93}
    assert scale.breaks(order) == 1


def test_waits_are_waited_for() -> None:
    """Tasting right after the filling was begun stands and waits; talking meanwhile fills the time."""
    scale = scale_of(FILL, {0: 10, 2: 30, 1: 46})
    assert scale.ends([0, 1, 2]) == {0: 10, 1: 46, 2: 66}
    assert scale.ends([0, 2, 1]) == {0: 10, 2: 30, 1: 46}


def test_a_round_cannot_end_with_the_step_that_starts_a_wait() -> None:
    """The order in which the filling would be started last has no timing; a last step is drawn out until the wait is over."""
    of = problem(step("fill", starts="filling"), step("talk"), waits=[wait("filling", 30)])
    scale = scale_of(of, {0: 10, 1: 40})
    assert scale.ends([1, 0]) is None
    assert scale.ends([0, 1]) == {0: 10, 1: 40}


def test_moving_a_run() -> None:
    """A run of steps is put just before a position of the old order."""
    assert moved([0, 1, 2, 3, 4], 1, 3, 0) == [1, 2, 0, 3, 4]
    assert moved([0, 1, 2, 3, 4], 1, 3, 5) == [0, 3, 4, 1, 2]


def test_reach_stops_at_what_must_come_before_and_after() -> None:
    """A step moves no further than the one it rests on and the one that rests on it."""
    of = problem(
        step("talk"),
        step("open", sets="v=open"),
        step("chat"),
        step("light", asks="v=open"),
        step("bye"),
        start="v=shut",
    )
    scale = scale_of(of, {i: 10 * (i + 1) for i in range(5)})
    order = [0, 1, 2, 3, 4]
    assert scale.reach(order, 3, 4) == (2, 5)
    assert scale.reach(order, 1, 2) == (0, 3)
    assert scale.reach(order, 2, 3) == (0, 5)


def test_improve_finds_the_short_walk() -> None:
    """Steps at a, then b, then c walk 12 s in all; the search finds that from going to and fro, and keeps topics together."""
    scale = scale_of(TO_AND_FRO, {0: 10, 1: 32, 2: 54, 3: 76, 4: 93})
    found = improve(scale, [0, 1, 2, 3, 4], Effort(tries=2000), random.Random(0))
    ends = scale.ends(found)
    assert ends is not None
    assert max(ends.values()) == 62


def test_no_tries_change_nothing() -> None:
    """Without tries the order stays as it is."""
    scale = scale_of(TO_AND_FRO, {0: 10, 1: 32, 2: 54, 3: 76, 4: 93})
    assert improve(scale, [0, 1, 2, 3, 4], Effort(tries=0), random.Random(0)) == [0, 1, 2, 3, 4]


@settings(deadline=None, max_examples=60)
@given(st.integers(0, 100_000))
def test_improve_never_worsens_and_repeats_itself(seed: int) -> None:
    """The order found is never longer, nor as long with more breaks, keeps the frame, and comes out again from the same generator."""
    of = rich_problem(seed)
    model = index_problem(of)
    index = {s.id: i for i, s in enumerate(of.steps)}
    found = next((r for r in all_rounds(of) if len(r) > 1), None)
    if found is None:
        return
    ends = {index[t.step]: t.end for t in found}
    scale = Scale(model, frame_of(model, ends))
    order = list(ends)
    better = improve(scale, order, Effort(tries=300), random.Random(seed))
    assert better == improve(scale, order, Effort(tries=300), random.Random(seed))
    before, after = scale.ends(order), scale.ends(better)
    if before is not None:
        assert after is not None
        assert _weight(scale, better, after) <= _weight(scale, order, before)


def _weight(scale: Scale, order: list[int], ends: dict[int, int]) -> float:
    return max(ends.values()) + BREAK * scale.breaks(order)


@settings(deadline=None, max_examples=100)
@given(st.lists(st.sampled_from("abc"), min_size=2, max_size=9), st.data())
def test_breaks_of_a_move_are_counted_as_those_of_the_whole_order(topics: list[str], data: st.DataObject) -> None:
    """How many breaks a move adds is the breaks of the order after it less those before."""
    n = len(topics)
    of = problem(*(replace(step(f"s{i}"), topic=topic) for i, topic in enumerate(topics)))
    scale = scale_of(of, {i: 10 * (i + 1) for i in range(n)})
    order = data.draw(st.permutations(range(n)))
    start = data.draw(st.integers(0, n - 1))
    stop = data.draw(st.integers(start + 1, n))
    to = data.draw(st.sampled_from([*range(start + 1), *range(stop, n + 1)]))
    after = moved(order, start, stop, to)
    if to not in (start, stop):
        assert scale.breaks(after) - scale.breaks(order) == scale.more_breaks(order, start, stop, to)
