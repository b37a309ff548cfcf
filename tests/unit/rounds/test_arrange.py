"""A good order for a given set of steps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstpitch.rounds import Patience, Problem
from firstpitch.rounds.arrange import Arranged, Search, arrange, first_round, rank, tighten
from firstpitch.rounds.model import index_problem
from tests.unit.rounds.small import problem, step, wait

QUICK = Search(patience=Patience(starts=2, tries=500))
TO_AND_FRO = problem(
    step("c1", place="c"),
    step("a1", topic="gas"),
    step("b1", place="b"),
    step("a2"),
    step("c2", place="c", topic="gas"),
)


def arranged(of: Problem, search: Search = QUICK, known: dict[int, int] | None = None) -> Arranged | None:
    return arrange(index_problem(of), frozenset(range(len(of.steps))), search, known)


def test_the_short_walk_is_found_and_proven() -> None:
    """Five steps at a, b and c take 50 s and the 12 s walk out, and the bound says that nothing is quicker."""
    found = arranged(TO_AND_FRO)
    assert found is not None
    assert (found.total, found.bound) == (62, 62)


def test_no_order_is_none() -> None:
    """Where orders contradict each other, or the search finds no way out, there is nothing."""
    spoil = problem(step("a", asks="x=0", sets="x=1"), step("b", asks="x=0", sets="x=1"), start="x=0")
    assert arranged(spoil) is None
    assert first_round(index_problem(spoil), frozenset({0, 1})) is None
    assert arranged(problem(step("fill", starts="w"), waits=[wait("w", 30)])) is None


def test_a_known_round_is_a_start() -> None:
    """Where no first round is found a known one is improved; the answer is never worse than it."""
    known = {0: 22, 1: 44, 2: 59, 3: 74, 4: 96}
    found = arranged(TO_AND_FRO, replace(QUICK, patience=Patience(starts=1, tries=0)), known)
    assert found is not None
    model = index_problem(TO_AND_FRO)
    assert rank(model, found.ends) <= rank(model, known)


def test_progress_is_told() -> None:
    """The first round and the search are told with the total and the bound so far, which never exceeds it."""
    told: list[tuple[str, int | None, int | None]] = []
    arranged(TO_AND_FRO, replace(QUICK, tell=lambda *now: told.append(now)))
    assert [stage for stage, _, _ in told] == ["first round", "search"]
    assert all(total is not None and bound is not None and bound <= total for _, total, bound in told)


def test_tighten_proves_and_improves() -> None:
    """The exact solver turns a long way round into the shortest and proves it; above ``prove_up_to`` steps it leaves it alone."""
    of = problem(step("c", place="c", sets="x=1"), step("a"), step("b", place="b", asks="x=1"), start="x=0")
    model = index_problem(of)
    long = Arranged({0: 22, 1: 44, 2: 59}, 30)
    better = tighten(model, long, QUICK)
    assert (better.total, better.bound) == (10 + 12 + 10 + 7 + 10, 49)
    assert tighten(model, long, Search(patience=Patience(prove_up_to=2))) is long


@pytest.mark.parametrize("seed", [0, 7])
def test_same_seed_same_round(seed: int) -> None:
    """The same search gives the same round."""
    search = replace(QUICK, seed=seed)
    assert arranged(TO_AND_FRO, search) == arranged(TO_AND_FRO, search)
