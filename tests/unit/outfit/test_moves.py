"""Judging a stow made by hand, one move at a time."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.outfit import Load, LoadItem, Placed, Stow, judge_stow
from firstpitch.outfit.objects import judgement_object
from firstpitch.outfit.stow import improve, next_move, stow_problem
from firstpitch.outfit.stow.evaluate import score
from tests.unit.outfit.vans import GOOD_STOW, LOCKERS, outfit

FRONT_HEAVY = Load(
    "front-heavy",
    (LoadItem("crate", "Crate", 20.0, (0.4, 0.3, 0.3)), LoadItem("awning", "Awning", 30.0, (0.5, 0.3, 0.3))),
)
ALL_IN_FRONT = Stow((Placed("crate", "front"), Placed("awning", "front")))


def test_judge_names_every_breach() -> None:
    """50 kg in a front locker that bears 40 kg, and too much on the ball: both are said, each with how much."""
    found = judge_stow(outfit(load=FRONT_HEAVY, stow=ALL_IN_FRONT))
    assert found.word == "does not fit"
    rules = {breach.rule: breach for breach in found.figures.breaches}
    assert rules["locker-mass"].over == pytest.approx(10.0)
    assert rules["nose-most"].over == pytest.approx(72 + 50 * (1 - 1.7 / 4.2) - 90)
    assert "Front locker holds 10 kg more than its limit of 40 kg" in found.sentence


def test_judge_best_move_has_its_effect() -> None:
    """The one move that helps most is said with what it does on the ball."""
    found = judge_stow(outfit(load=FRONT_HEAVY, stow=ALL_IN_FRONT))
    move = found.next_move
    assert move is not None
    assert move.item == "awning"
    assert move.origin == "front"
    to = next(locker for locker in LOCKERS if locker.id == move.to)
    assert move.nose == pytest.approx(30 * (1.7 - to.x) / 4.2)
    assert f"Move Awning from Front locker to {to.name}: −{abs(move.nose):.0f} kg on the ball" in move.sentence
    assert "all limits kept" in move.sentence


def test_judge_good_stow() -> None:
    """A stow that keeps every limit fits."""
    found = judge_stow(outfit())
    assert found.word == "fits"
    assert found.figures.breaches == ()


def test_judge_forbidden_place() -> None:
    """A thing that must be got at from outside is in an inside locker: that is a breach, with its reason."""
    wrong = Stow((*GOOD_STOW.placed[:2], Placed("lead", "axle-near")))
    found = judge_stow(outfit(stow=wrong))
    assert "it must be reached from outside" in found.sentence
    assert found.next_move is not None
    assert found.next_move.item == "lead"


def test_judge_unplaced_things_are_placed() -> None:
    """What has no place yet gets one."""
    found = judge_stow(outfit(stow=Stow()))
    assert found.word == "does not fit"
    assert found.next_move is not None
    assert found.next_move.sentence.startswith("Put ")


def test_judge_proposes_leaving_at_home_only_as_last_resort() -> None:
    """A chest that may only be in front and is too much there: no move helps, so it stays at home."""
    chest = LoadItem("chest", "Tool chest", 38.0, (0.4, 0.4, 0.4), only_in=("front",))
    found = judge_stow(outfit(load=Load("chest", (chest,)), stow=Stow((Placed("chest", "front"),))))
    assert found.next_move is not None
    assert found.next_move.sentence.startswith("Leave Tool chest (38 kg) at home")


@settings(max_examples=20, deadline=None)
@given(places=st.lists(st.sampled_from([locker.id for locker in LOCKERS]), min_size=4, max_size=4))
def test_improve_gets_better_with_every_move(places: list[str]) -> None:
    """Each proposed move makes the stow better than it was, and they come to an end."""
    stow = Stow(
        tuple(Placed(item, place) for item, place in zip(("awning", "food", "food", "lead"), places, strict=True))
    )
    problem = stow_problem(outfit(stow=stow))
    rows = {item.id: i for i, item in enumerate(problem.items)}
    columns = {locker.id: j for j, locker in enumerate(problem.lockers)}
    counts = problem.counts(stow)
    moves = improve(problem, counts)
    for move in moves:
        before = score(problem, counts)
        if move.origin:
            counts[rows[move.item], columns[move.origin]] -= move.number
        if move.to in columns:
            counts[rows[move.item], columns[move.to]] += move.number
        after = score(problem, counts)
        assert after.better_than(before) or after.excess < before.excess
    if len(moves) < 30:
        assert next_move(problem, counts) is None
    assert (counts >= 0).all()


def test_judge_without_stow_is_a_slip() -> None:
    """There is nothing to judge."""
    with pytest.raises(ValueError, match="no stow"):
        judge_stow(outfit(stow=None))


def test_judgement_object_is_plain() -> None:
    """The machine-readable judgement can be written as JSON."""
    import json

    made = outfit(load=FRONT_HEAVY, stow=ALL_IN_FRONT)
    problem = stow_problem(made)
    moves = improve(problem, problem.counts(ALL_IN_FRONT))
    text = json.dumps(judgement_object(judge_stow(made), moves), allow_nan=False)
    assert json.loads(text)["next_move"]["item"] == "awning"
