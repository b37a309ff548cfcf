"""Lower bounds: never above what a valid round takes, and as high as they can be told to be."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.rounds import Problem
from firstpitch.rounds.bound import least_walking, lower_bound
from firstpitch.rounds.model import index_problem
from firstpitch.rounds.orders import Contradiction, Orders, infer
from firstpitch.rounds.walk_bound import walk_bound
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait


def bound(of: Problem) -> int:
    model = index_problem(of)
    steps = range(len(of.steps))
    return lower_bound(model, steps, infer(model, steps))


@pytest.mark.parametrize(
    ("of", "seconds"),
    [
        (problem(), 0),
        (problem(step("a"), step("b", 20)), 30),
        (problem(step("a"), step("c", place="c"), step("b", place="b")), 30 + 12),
        (problem(step("c", place="c", sets="x=1"), step("a", asks="x=1"), start="x=0"), 20 + 24),
        (problem(step("fill", starts="w"), step("taste", 6, awaits="w"), waits=[wait("w", 100)]), 10 + 100 + 6),
        (
            problem(step("fill", starts="w", sets="x=1"), step("b", 7, asks="x=1"), start="x=0", waits=[wait("w", 100)]),
            110,
        ),
        (
            problem(
                step("first", 5, sets="x=1"), step("fill", asks="x=1", starts="w"), step("taste", 6, awaits="w", sets="y=1"),
                step("last", 8, place="b", asks="y=1"), start="x=0, y=0", waits=[wait("w", 100)],
            ),
            5 + 10 + 100 + 6 + 5 + 8,
        ),
        (problem(step("fill", place="c", starts="w"), step("taste", 6, awaits="w"), waits=[wait("w", 100)]), 12 + 10 + 100 + 6),
        (
            problem(step("one", starts="v"), step("two", 5, starts="w"), step("bye", 5), waits=[wait("v", 90), wait("w", 30)]),
            100,
        ),
    ],
    ids=[
        "nothing", "work alone", "the walk out", "there and back", "a wait", "a wait to the end", "what comes before and after a wait",
        "the walk to where a wait begins", "the longer of two waits",
    ],
)  # fmt: skip
def test_bound(of: Problem, seconds: int) -> None:
    """The bound counts the steps, the least walk in forced orders, and waits with what must come before and after and the walk to it."""
    assert bound(of) == seconds


@settings(deadline=None, max_examples=150)
@given(st.integers(0, 100_000))
def test_no_valid_round_is_quicker_than_the_bound(seed: int) -> None:
    """For every set of steps, no valid round of them that enumeration finds is quicker than their bound."""
    of = rich_problem(seed, most_steps=4)
    of = replace(of, steps=tuple(replace(s, level="may") for s in of.steps))
    model = index_problem(of)
    index = {s.id: i for i, s in enumerate(of.steps)}
    quickest: dict[frozenset[int], int] = {}
    for found in all_rounds(of):
        steps = frozenset(index[t.step] for t in found)
        quickest[steps] = min(quickest.get(steps, found[-1].end if found else 0), found[-1].end if found else 0)
    able = frozenset(range(len(of.steps))) - model.barred
    for steps, total in quickest.items():
        assert lower_bound(model, steps, infer(model, steps)) <= total
    for size in (1, 2):
        for sure in map(frozenset, combinations(sorted(able), size)):
            wider = [total for steps, total in quickest.items() if sure <= steps]
            try:
                orders = infer(model, sure, able - sure)
            except Contradiction:
                assert not wider
                continue
            assert all(lower_bound(model, sure, orders) <= total for total in wider)


@settings(deadline=None, max_examples=100)
@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 9)), min_size=1, max_size=6), st.data())
def test_walk_bound_is_the_least_walk_of_few_steps(points: list[tuple[int, int]], data: st.DataObject) -> None:
    """For up to six steps the walk bound is the shortest walk over all orders that keep the forced ones."""
    of = _scattered(points)
    model = index_problem(of)
    n = len(points)
    pairs = data.draw(st.lists(st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)), max_size=4))
    orders = Orders(model.seconds, [0] * n, [0] * n)
    for i, j in pairs:
        if i < j:
            orders.add(i, j, model.seconds[j])
    walks = [
        _walk(model.walk, [model.start_place, *(model.place[i] for i in order)])
        for order in permutations(range(n))
        if all(order.index(i) < order.index(j) for i in range(n) for j in range(n) if orders.precedes(i, j))
    ]
    assert walk_bound(model, range(n), orders) == min(walks)
    assert least_walking(model, range(n), orders) == min(walks)


def _scattered(points: list[tuple[int, int]]) -> Problem:
    """A step at each point; walking goes along the streets of a grid."""
    of = problem(*(step(f"s{n}", place=f"p{n}") for n in range(len(points))))
    places = tuple(replace(of.places[0], id=f"p{n}", x=float(x), y=float(y)) for n, (x, y) in enumerate(points))
    walks = {a.id: {b.id: int(abs(a.x - b.x) + abs(a.y - b.y)) for b in places} for a in places}
    return replace(of, places=places, walks=walks, start_place="p0")


def _walk(walk: tuple[tuple[int, ...], ...], places: list[int]) -> int:
    return sum(walk[a][b] for a, b in pairwise(places))


def test_the_walk_before_and_after_a_wait_counts() -> None:
    """A wait to be begun after three places and followed by two more: the bound holds the least walk of each part beside the wait."""
    of = problem(
        step("one", 5, place="b", sets="p=1"),
        step("two", 5, place="c", sets="q=1"),
        step("heat", 10, asks="p=1, q=1", starts="w"),
        step("hot", 6, awaits="w", sets="h=1"),
        step("left", 8, place="b", asks="h=1", sets="l=1"),
        step("right", 8, place="c", asks="h=1", sets="r=1"),
        step("other", 20, place="b"),
        start="p=0, q=0, h=0, l=0, r=0",
        waits=[wait("w", 500)],
    )
    walk = of.walks
    there = min(walk["a"]["b"] + walk["b"]["c"] + walk["c"]["a"], walk["a"]["c"] + walk["c"]["b"] + walk["b"]["a"])
    back = min(walk["a"]["b"] + walk["b"]["c"], walk["a"]["c"] + walk["c"]["b"])
    assert bound(of) == 5 + 5 + there + 10 + 500 + 6 + back + 8 + 8
