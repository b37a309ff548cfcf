"""The planner as a whole."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.rounds import Clash, Patience, Plan, Problem, RoundOptions, build_problem, plan_round, replay
from firstpitch.sheet import read_sheet_text, resolve_links
from tests.demo_rounds import TODAY
from tests.unit.rounds.enumerate_rounds import all_rounds
from tests.unit.rounds.problems import rich_problem
from tests.unit.rounds.small import problem, step, wait

SEARCH = Patience(exact_up_to=0, tries=400, work=1.0)
QUICK = Patience(starts=1, tries=2000, work=0.5)
seeds = st.integers(0, 100_000)


@cache
def demo(name: str, *without: str, minutes: float | None = None) -> Problem:
    """A demo van's problem, without kit of some kinds."""
    catalogue = load()
    sheet = read_sheet_text(sheets()[name].read_text("utf-8"), catalogue.kinds, today=TODAY, file=f"{name}.yaml")
    sheet = replace(sheet, kit=tuple(k for k in sheet.kit if k.kind not in without))
    links = resolve_links(sheet.kit, catalogue.kinds).filled
    return build_problem(sheet, catalogue, links, RoundOptions(minutes=minutes))


def worth(of: Problem, plan: Plan) -> int:
    taken = {t.step for t in plan.steps}
    return sum(s.worth for s in of.steps if s.id in taken and s.level != "must")


def check(of: Problem, plan: Plan) -> None:
    """What holds of every plan, however it was found."""
    assert not replay(of, plan.steps)
    assert plan.total == max((t.end for t in plan.steps), default=0)
    assert plan.bound <= plan.total
    assert plan.worth == worth(of, plan) <= plan.worth_bound
    taken, left = [t.step for t in plan.steps], [o.step for o in plan.left_out]
    assert sorted([*taken, *left]) == sorted(s.id for s in of.steps)
    if of.minutes is not None:
        assert plan.total <= of.minutes * 60 + 1e-6
    if plan.proven:
        assert plan.gap == 0.0
    begun = {w for s in of.steps if s.id in taken for w in s.starts}
    assert {w.wait for w in plan.waits} == begun
    assert all(w.end <= plan.total for w in plan.waits)


FILL = problem(
    step("fill", starts="filling", sets="tap=on"), step("talk", 25, place="b", level="should", worth=3),
    step("taste", 6, asks="tank=full"), step("chat", 40, place="c", level="may", worth=1, topic="gas"), step("off", 4, sets="tap=off"),
    start="tap=off, tank=empty", finish="tap=off", waits=[wait("filling", 30, keeps="tap=on", sets="tank=full")],
)  # fmt: skip


@pytest.mark.parametrize("patience", [Patience(), SEARCH], ids=["exact", "search"])
def test_waiting_is_filled(patience: Patience) -> None:
    """While the tank fills the presenter goes to b to talk and back, and chats at c last: no second is lost beyond 22 s of walking."""
    plan = plan_round(FILL, patience=patience)
    assert isinstance(plan, Plan)
    check(FILL, plan)
    assert plan.total == 10 + 25 + 6 + 40 + 4 + 22
    assert plan.waits[0].start == next(t.end for t in plan.steps if t.step == "fill")


@pytest.mark.parametrize("patience", [Patience(), SEARCH], ids=["exact", "search"])
@pytest.mark.parametrize(("seconds", "left"), [(107, set()), (106, {"chat"}), (55, {"chat"}), (54, {"chat", "talk"})])
def test_minutes(patience: Patience, seconds: int, left: set[str]) -> None:
    """With fewer seconds what is worth least falls away first; the musts and what the tank needs stay."""
    of = replace(FILL, minutes=seconds / 60)
    plan = plan_round(of, patience=patience)
    assert isinstance(plan, Plan)
    check(of, plan)
    assert {o.step for o in plan.left_out} == left


def test_nothing_to_do() -> None:
    """A van with nothing to show has an empty round that is over at once."""
    plan = plan_round(problem())
    assert isinstance(plan, Plan)
    assert (plan.steps, plan.total, plan.gap, plan.proven) == ((), 0, 0.0, True)
    assert isinstance(plan_round(problem(minutes=0), patience=SEARCH), Plan)


def test_breaks_count_last() -> None:
    """Of orders that take the same time the one that changes topic least is taken."""
    of = problem(step("g1", topic="gas"), step("w1"), step("g2", topic="gas"), step("w2"))
    plan = plan_round(of)
    assert isinstance(plan, Plan)
    assert (plan.total, plan.breaks) == (40, 1)


def test_two_steps_that_start_one_wait_are_refused() -> None:
    """A problem in which two steps start one wait is a mistake of whoever made it."""
    with pytest.raises(ValueError, match="two steps"):
        plan_round(problem(step("a", starts="w"), step("b", starts="w"), waits=[wait("w", 5)]))


@settings(deadline=None, max_examples=60)
@given(seeds)
def test_every_answer_is_true(seed: int) -> None:
    """On random problems every plan, exact or searched, keeps what holds of plans, and a clash means that enumeration finds no round."""
    of = rich_problem(seed, most_steps=5)
    rounds = [r for r in all_rounds(of) if of.minutes is None or not r or r[-1].end <= of.minutes * 60 + 1e-6]
    best = max(
        (sum(s.worth for s in of.steps if s.id in {t.step for t in r} and s.level != "must") for r in rounds),
        default=None,
    )
    for patience in (Patience(), SEARCH):
        found = plan_round(of, patience=patience)
        assert isinstance(found, Clash) == (best is None)
        if isinstance(found, Plan):
            check(of, found)
            assert best is not None
            assert found.worth <= best <= found.worth_bound
            if patience.exact_up_to:
                assert (found.worth, found.proven) == (best, True)


@settings(deadline=None, max_examples=30)
@given(seeds)
def test_least_seconds_of_the_musts(seed: int) -> None:
    """Where the musts do not fit, what they take at the least is no more than the quickest round of them, and what was found no less."""
    of = replace(rich_problem(seed, most_steps=4), minutes=3 / 60)
    for patience in (Patience(), SEARCH):
        found = plan_round(of, patience=patience)
        if isinstance(found, Clash) and found.least_seconds is not None:
            quickest = min(r[-1].end for r in all_rounds(of) if r)
            assert found.found_seconds is not None
            assert quickest > 3
            assert found.least_seconds <= quickest <= found.found_seconds


@settings(deadline=None, max_examples=25)
@given(seeds, seeds)
def test_same_seed_same_answer(problem_seed: int, seed: int) -> None:
    """The same problem, seed and patience give the same answer, whatever was planned in between."""
    of = rich_problem(problem_seed)
    first = plan_round(of, seed=seed, patience=SEARCH)
    plan_round(rich_problem(problem_seed + 1), patience=SEARCH)
    assert plan_round(of, seed=seed, patience=SEARCH) == first


@settings(deadline=None, max_examples=25)
@given(seeds)
def test_the_order_on_the_sheet_changes_no_total(seed: int) -> None:
    """The same steps listed in another order have a best round of the same worth, time and breaks."""
    of = rich_problem(seed, most_steps=5)
    turned = replace(of, steps=of.steps[::-1], waits=of.waits[::-1], guards=of.guards[::-1])
    one, other = plan_round(of), plan_round(turned)
    assert isinstance(one, Plan) == isinstance(other, Plan)
    if isinstance(one, Plan) and isinstance(other, Plan):
        assert (one.worth, one.total, one.breaks) == (other.worth, other.total, other.breaks)


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_demo_vans(name: str) -> None:
    """Each demo van has a clean round of at least 80 steps, and the water is hot before the hot tap is shown."""
    of = demo(name)
    plan = plan_round(of, patience=QUICK)
    assert isinstance(plan, Plan)
    check(of, plan)
    assert len(plan.steps) >= 80
    starts = {t.step: t.start for t in plan.steps}
    heating = [w for w in plan.waits if w.wait.endswith(".heating")]
    assert heating
    for heat in heating:
        hot = (f"{heat.wait.removesuffix('.heating')}.heat", frozenset({"hot"}))
        shown = [
            starts[s.id] for s in of.steps if s.id in starts and hot in {(r.condition, r.values) for r in s.requires}
        ]
        assert min(shown) >= heat.end


def test_a_van_without_its_cylinder_valve() -> None:
    """Without a cylinder valve a gas must cannot be done, and the clash names the valve."""
    found = plan_round(demo("wren", "cylinder_valve"))
    assert isinstance(found, Clash)
    assert "cylinder valve" in " ".join(found.facts)
    assert "is a must" in found.facts[0]


def test_a_demo_van_in_too_few_minutes() -> None:
    """Twenty minutes do not hold the musts of a whole van: the clash says what they take at the least."""
    found = plan_round(replace(demo("wren"), minutes=20), patience=QUICK)
    assert isinstance(found, Clash)
    assert found.least_seconds is not None
    assert found.found_seconds is not None
    assert 20 * 60 < found.least_seconds <= found.found_seconds


def test_a_demo_van_in_few_minutes() -> None:
    """With ten minutes less than the whole round takes, steps are left out, each with what it would add, and the musts stay."""
    whole = plan_round(demo("wren"), patience=QUICK)
    assert isinstance(whole, Plan)
    of = replace(demo("wren"), minutes=whole.total / 60 - 10)
    plan = plan_round(of, patience=QUICK)
    assert isinstance(plan, Plan)
    check(of, plan)
    assert plan.left_out
    assert all(o.cost is not None and o.cost > 0 for o in plan.left_out)
