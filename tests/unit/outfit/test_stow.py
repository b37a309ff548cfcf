"""Planning a stow."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.outfit import Load, LoadItem, Outfit, Placed, Stow, Towbar, check_outfit, plan_stow
from firstpitch.outfit.objects import plan_object
from firstpitch.outfit.stow import evaluate, improve, next_move, stow_problem
from firstpitch.outfit.stow.evaluate import score
from firstpitch.outfit.stow.program import alike, handed_out, merged, solve
from firstpitch.outfit.stow.search import search
from firstpitch.sheet.types import Masses
from tests.unit.outfit.vans import CAR, HIGH, LOAD, LOCKERS, outfit, van


@st.composite
def loads(draw: st.DrawFn) -> Load:
    """A few things of any sort."""
    number = draw(st.integers(1, 7))
    items = tuple(
        LoadItem(
            f"thing-{n}",
            f"Thing {n}",
            draw(st.integers(1, 120)) / 10,
            (0.4, 0.3, draw(st.sampled_from([0.1, 0.2, 0.3]))),
            number=draw(st.integers(1, 3)),
            reach=draw(st.sampled_from(["any", "inside", "outside"])),
            upright=draw(st.booleans()),
            needed=draw(st.booleans()),
        )
        for n in range(number)
    )
    return Load("drawn", items)


@settings(max_examples=25, deadline=None)
@given(load=loads())
def test_plan_keeps_every_limit(load: Load) -> None:
    """Whatever is to go along: what the plan stows breaks no limit, and every piece is stowed or said to stay at home."""
    made = outfit(load=load, stow=None)
    plan = plan_stow(made, seconds=5)
    assert plan.figures.breaches == ()
    stowed = sum(placed.number for placed in plan.stow.placed)
    left = sum(number for _, number in plan.left)
    assert stowed + left == sum(item.number for item in load.items)
    assert plan.bound <= plan.points + 0.5


@settings(max_examples=25, deadline=None)
@given(load=loads())
def test_plan_cannot_be_improved_by_one_move(load: Load) -> None:
    """No single move makes a plan that stows everything better by more than the tolerance."""
    made = outfit(load=load, stow=None)
    plan = plan_stow(made, seconds=5)
    problem = stow_problem(made)
    counts = problem.counts(plan.stow)
    if plan.left:
        return
    move = next_move(problem, counts)
    if move is not None:
        moved = improve(problem, counts, 1)
        assert len(moved) == 1
        assert score(problem, counts).points - plan.bound <= 5.5


@settings(max_examples=40, deadline=None)
@given(load=loads(), data=st.data())
def test_score_agrees_with_figures(load: Load, data: st.DataObject) -> None:
    """The quick score counts exactly what the breaches of the full judgement add up to."""
    problem = stow_problem(outfit(load=load, stow=None))
    counts = np.zeros(problem.allowed.shape, dtype=np.int64)
    for i, item in enumerate(load.items):
        for _ in range(item.number):
            j = data.draw(st.integers(-1, len(LOCKERS) - 1))
            if j >= 0:
                counts[i, j] += 1
    full, quick = evaluate(problem, counts), score(problem, counts)
    assert quick.excess == pytest.approx(full.excess, abs=1e-5)
    assert quick.points == pytest.approx(full.points, abs=1e-9)


def test_plan_verdict_agrees_with_the_check() -> None:
    """The plan's noseweight is the one the outfit check then finds, and the check is content with it."""
    made = outfit(stow=None)
    plan = plan_stow(made)
    found = check_outfit(replace(made, load=plan.aboard, stow=plan.stow))
    number = found.verdict("noseweight").number
    assert number is not None
    assert number.low == pytest.approx(plan.figures.nose.low, abs=1e-6)
    assert plan.word == "fits"
    assert found.word == "fits"


def test_plan_lands_in_the_preferred_band() -> None:
    """With lockers at both ends the noseweight is brought into its band."""
    plan = plan_stow(outfit(stow=None))
    band = stow_problem(outfit(stow=None)).band
    assert band.preferred[0] - 1e-6 <= plan.figures.nose.low <= band.preferred[1] + 1e-6
    assert plan.proven


def test_plan_same_again() -> None:
    """The same outfit gives the same stow."""
    first, second = plan_stow(outfit(stow=None)), plan_stow(outfit(stow=None))
    assert replace(second, seconds=first.seconds) == first


def test_plan_heavy_low_and_by_the_axle() -> None:
    """A heavy box and a light one: the heavy one gets the low place by the axle."""
    load = Load(
        "two", (LoadItem("heavy", "Heavy", 12.0, (0.3, 0.3, 0.3)), LoadItem("light", "Light", 2.0, (0.3, 0.3, 0.3)))
    )
    lockers = (replace(LOCKERS[1], limit=12.0), HIGH)
    plan = plan_stow(outfit(load=load, stow=None, van=replace(van(), plan=replace(van().plan, lockers=lockers))))
    assert plan.stow.number("heavy", "axle-near") == 1
    assert plan.stow.number("light", "high") == 1


def test_plan_level_from_side_to_side() -> None:
    """Two equal boxes go one to each side."""
    load = Load("two", (LoadItem("box", "Box", 10.0, (0.3, 0.3, 0.3), number=2),))
    lockers = (replace(LOCKERS[1], x=4.2), replace(LOCKERS[2], x=4.2))
    plan = plan_stow(outfit(load=load, stow=None, van=replace(van(), plan=replace(van().plan, lockers=lockers))))
    assert plan.stow.number("box", "axle-near") == plan.stow.number("box", "axle-off") == 1


def test_plan_moves_little_from_today() -> None:
    """A stow that is already good stays as it is; a thing in a bad place moves."""
    good = plan_stow(outfit(stow=None)).stow
    again = plan_stow(outfit(stow=good))
    assert again.stow == good
    assert again.carried == ()
    bad = Stow(tuple(replace(p, locker="rear") if p.item == "food" else p for p in good.placed))
    moved = plan_stow(outfit(stow=bad))
    assert {carried.item for carried in moved.carried} == {"food"}
    assert all(carried.origin == "rear" for carried in moved.carried)


def test_plan_says_what_to_leave_and_what_would_help() -> None:
    """Too much for the noseweight limit: the least mass stays at home, and the limit that would do is named."""
    elsewhere = tuple(locker.id for locker in LOCKERS[1:])
    heavy = LoadItem("chest", "Tool chest", 38.0, (0.4, 0.4, 0.4), never_in=elsewhere)
    made = outfit(load=Load("too much", (heavy, LOAD.items[2])), stow=None)
    plan = plan_stow(made)
    assert plan.word == "does not fit"
    assert plan.left == (("chest", 1),)
    assert plan.holds_up == ("the noseweight limit",)
    ways = {way.sort: way for way in plan.ways}
    assert "Leave 38 kg at home: Tool chest." in ways["leave"].sentence
    assert "carry" in ways
    # The lead (5 kg) as far behind the axle as lockers go gives the least noseweight there can be with both.
    least = 72 + 38 * (1 - 1.7 / 4.2) + 5 * (1 - 6.6 / 4.2)
    assert ways["nose-most"].amount == pytest.approx(least - 90, abs=0.01)


def test_plan_leaves_what_is_needed_last() -> None:
    """Of two equal things one must stay: it is not the one that is needed."""
    things = tuple(
        LoadItem(key, key, 10.0, (0.4, 0.3, 0.3), needed=needed) for key, needed in (("boat", False), ("bed", True))
    )
    lockers = (replace(LOCKERS[1], limit=12.0),)
    plan = plan_stow(
        outfit(load=Load("two", things), stow=None, van=replace(van(), plan=replace(van().plan, lockers=lockers)))
    )
    assert plan.left == (("boat", 1),)


def test_plan_item_bigger_than_every_locker() -> None:
    """A canoe fits nowhere: it stays at home, the reason is given, and the rest is stowed."""
    canoe = LoadItem("canoe", "Canoe", 20.0, (4.5, 0.8, 0.4))
    plan = plan_stow(outfit(load=Load("canoe", (*LOAD.items, canoe)), stow=None))
    assert plan.left == (("canoe", 1),)
    assert "Canoe fits no locker: it is too big" in plan.sentence


def test_plan_load_heavier_than_payload() -> None:
    """More than the plate allows: nothing is planned beyond it."""
    bricks = LoadItem("bricks", "Bricks", 20.0, (0.2, 0.2, 0.2), number=14)
    small = Masses(1200.0, 1300.0, 100.0, 1450.0, 1200.0, 72.0)
    lockers = tuple(replace(locker, limit=100.0) for locker in LOCKERS)
    made = outfit(
        load=Load("bricks", (bricks,)),
        stow=None,
        van=replace(van(masses=small), plan=replace(van().plan, lockers=lockers)),
    )
    plan = plan_stow(made)
    assert plan.word == "does not fit"
    assert plan.figures.mass <= 1300.0 + 1e-6
    assert "the greatest laden mass" in plan.holds_up


def test_plan_unknown_locker_limit_is_not_used() -> None:
    """A locker of unknown limit stays empty, and that finding it out would help is said."""
    unknown = replace(LOCKERS[1], limit=None)
    load = Load("box", (LoadItem("box", "Box", 10.0, (0.4, 0.3, 0.3)),))
    made = outfit(load=load, stow=None, van=replace(van(), plan=replace(van().plan, lockers=(unknown,))))
    plan = plan_stow(made)
    assert plan.stow == Stow()
    assert plan.left == (("box", 1),)
    assert "limit is not on the build sheet" in plan.sentence


def test_plan_unknown_noseweight_limit_is_said() -> None:
    """With the towbar's limit unknown the plan stands, but nobody can say that it fits."""
    plan = plan_stow(outfit(stow=None, car=replace(CAR, towbar=Towbar(None, 11e3))))
    assert plan.word == "cannot say"
    assert "the noseweight limit of the towbar" in plan.unknown


def test_plan_unmeasured_van_is_only_assumed() -> None:
    """Without a measured noseweight the plan rests on an assumption and says so."""
    unweighed = van(masses=Masses(1200.0, 1450.0, 100.0, 1450.0, None, None))
    plan = plan_stow(outfit(stow=None, van=unweighed))
    assert plan.word == "cannot say"
    assert "the empty van's noseweight" in plan.unknown


def test_plan_nothing_to_stow() -> None:
    """No load is a stow too."""
    plan = plan_stow(outfit(load=Load(), stow=None))
    assert plan.stow == Stow()
    assert plan.word == "fits"


def test_plan_van_without_lockers() -> None:
    """Everything stays at home."""
    bare = replace(van(), plan=replace(van().plan, lockers=()))
    plan = plan_stow(outfit(stow=None, van=bare))
    assert len(plan.left) == len(LOAD.items)


def test_plan_without_time_still_answers() -> None:
    """With hardly any time the quick search's stow is given, with every limit kept."""
    plan = plan_stow(outfit(stow=None), seconds=0.001)
    assert plan.figures.breaches == ()


@settings(max_examples=30, deadline=None)
@given(load=loads(), seed=st.integers(0, 5))
def test_search_keeps_locker_limits(load: Load, seed: int) -> None:
    """The quick search never overfills a locker, never puts a thing where it may not be, and repeats itself."""
    problem = stow_problem(outfit(load=load, stow=None))
    counts = search(problem, seed=seed, rounds=2)
    rules = {breach.rule for breach in evaluate(problem, counts).breaches}
    assert rules == set()
    assert (search(problem, seed=seed, rounds=2) == counts).all()
    assert (counts.sum(axis=1) <= problem.number).all()


@settings(max_examples=40, deadline=None)
@given(load=loads())
def test_alike_things_are_handed_out_again(load: Load) -> None:
    """Putting alike things together and giving them back loses and invents no piece."""
    problem = stow_problem(outfit(load=load, stow=None))
    groups = alike(problem)
    assert sorted(i for group in groups for i in group) == list(range(len(load.items)))
    together = merged(problem, groups)
    solved = solve(problem, leave=True, seconds=5)
    assert solved.counts is not None
    table = np.array([solved.counts[list(group)].sum(axis=0) for group in groups]).reshape(len(groups), -1)
    assert (handed_out(problem, groups, table).sum(axis=0) == solved.counts.sum(axis=0)).all()
    assert (solved.counts.sum(axis=1) <= problem.number).all()
    assert together.number.sum() == problem.number.sum()


def test_plan_object_is_plain() -> None:
    """The machine-readable plan holds no infinity."""
    import json

    text = json.dumps(plan_object(plan_stow(outfit(stow=None))), allow_nan=False)
    assert json.loads(text)["word"] == "fits"


def test_water_and_kit_count_before_the_load() -> None:
    """What is in the van already stands in the plan's noseweight: the empty plan has the measured one."""
    plan = plan_stow(outfit(load=Load(), stow=None))
    assert plan.figures.nose.low == pytest.approx(72.0)


def test_stow_problem_of_outfit_keeps_today() -> None:
    """Today's stow comes in as given."""
    made: Outfit = outfit(stow=Stow((Placed("food", "rear", 2),)))
    problem = stow_problem(made)
    assert problem.today is not None
    assert problem.today.sum() == 2
    assert problem.stow(problem.today) == made.stow
