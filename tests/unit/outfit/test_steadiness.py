"""Comparing how steadily loadings tow."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import Load, LoadItem, Outfit, Placed, Stow, compare_steadiness
from firstpitch.outfit.steadiness.estimate import draw, estimate, ranges
from firstpitch.outfit.steadiness.model import critical_speed, fixed_hitch, single_axle
from firstpitch.sheet.types import Masses
from tests.unit.outfit.vans import CAR, outfit, van

BOXES = Load("boxes", (LoadItem("box", "Box", 15.0, (0.3, 0.3, 0.3), number=2),))
MIDDLE = outfit(load=BOXES, stow=Stow((Placed("box", "axle-near"), Placed("box", "axle-off"))))
ENDS = outfit(load=BOXES, stow=Stow((Placed("box", "front"), Placed("box", "rear"))))
REAR = outfit(load=BOXES, stow=Stow((Placed("box", "rear", 2),)))


def caravan(**changes: float) -> float:
    """Critical speed of a car and caravan of plausible figures [m/s]."""
    figures = {
        "m": 1700, "inertia": 2900, "a": 1.25, "b": 1.45, "h": 2.55, "cf": 95e3, "cr": 105e3, "mt": 1500,
        "trailer_inertia": 5415, "e": 3.948, "ct": 90e3, "length": 4.2,
    }  # fmt: skip
    return float(critical_speed(single_axle(**{**figures, **changes}))[0])


def test_load_behind_the_axle_is_less_steady() -> None:
    """The same load all at the rear takes noseweight away: it is the less steady, and the sentence says so."""
    found = compare_steadiness({"middle": MIDDLE, "rear": REAR}, samples=300)
    assert found.compared[0].steadier < 0.1
    assert "rear is less steady than middle" in found.compared[0].sentence
    assert found.loadings[1].nose < found.loadings[0].nose


def test_load_at_both_ends_turns_harder() -> None:
    """Load at the ends adds its mass times its distance squared to the yaw inertia."""
    found = compare_steadiness({"middle": MIDDLE, "ends": ENDS}, samples=300)
    middle, ends = found.loadings
    assert ends.inertia - middle.inertia > 15.0 * ((4.2 - 1.7) ** 2 + (6.6 - 4.2) ** 2) * 0.9
    assert ends.critical.middle < middle.critical.middle


def test_loading_beside_itself_is_no_steadier() -> None:
    """Every loading gets the same draws, so that one beside itself shows no difference at all."""
    found = compare_steadiness({"one": MIDDLE, "other": MIDDLE}, samples=200)
    assert found.compared[0].steadier == 0.0
    assert found.compared[0].gain.low == found.compared[0].gain.high == 0.0
    assert (
        "other and one are equally steady in the model (no difference in 100 % of the samples)"
        in found.compared[0].sentence
    )


LIGHT = Masses(600.0, 800.0, 100.0, 800.0, 600.0, 75.0)
"""A van of 600 kg with an eighth of it on the ball, which the model never sees swing up to its highest speed."""


def test_two_that_hold_as_far_as_the_model_looks_are_told_apart_by_nobody() -> None:
    """Where neither loses its steadiness up to 200 km/h the sentence says just that, with no 0 % and no "cannot be said"."""
    light = van(masses=LIGHT)
    found = compare_steadiness(
        {"one": replace(MIDDLE, van=light), "other": replace(MIDDLE, van=light, stow=ENDS.stow)}, samples=300
    )
    compared = found.compared[0]
    assert compared.both >= 0.9
    assert "neither loses its steadiness up to 200 km/h, and it looks no higher" in compared.sentence
    assert "cannot be said" not in compared.sentence
    assert " 0 %" not in compared.sentence
    assert "no loss of steadiness is found up to 200 km/h" in found.loadings[0].sentence


@pytest.mark.parametrize("inertia", [15.0, 18.0, 22.0, 30.0])
def test_what_cannot_be_said_is_said_with_the_shares_of_both(inertia: float) -> None:
    """Whatever two loadings are compared, a sentence that cannot decide gives the shares for each, and no share reads 0 %."""
    boxes = Load("boxes", (LoadItem("box", "Box", inertia, (0.3, 0.3, 0.3), number=2),))
    ends = replace(MIDDLE, load=boxes, stow=Stow((Placed("box", "front"), Placed("box", "front"))))
    compared = compare_steadiness({"middle": MIDDLE, "front": ends}, samples=300).compared[0]
    assert compared.steadier + compared.worse <= 1.0
    assert "0 % of" not in compared.sentence.replace("100 % of", "")
    if "cannot be said" in compared.sentence:
        assert "front is the steadier in" in compared.sentence or "middle is the steadier in" in compared.sentence


def test_every_sentence_certifies_nothing() -> None:
    """No answer is given without saying that it certifies no speed."""
    found = compare_steadiness({"middle": MIDDLE, "rear": REAR}, samples=200)
    assert all("certifies no speed" in one.sentence for one in (*found.loadings, *found.compared))
    assert "certifies no speed" in found.caution


@pytest.mark.parametrize("made", [MIDDLE, ENDS, REAR])
def test_shares_of_loss_add_up(made: Outfit) -> None:
    """Each sample is lost by snaking, by divergence or not at all; bands are in order."""
    one = compare_steadiness({"one": made}, samples=200).loadings[0]
    assert one.loss.snaking + one.loss.divergence + one.loss.none == pytest.approx(1.0)
    for band in (one.critical, one.damping, one.frequency, *one.curve):
        assert band.low <= band.middle <= band.high


def test_what_the_car_sheet_lacks_is_drawn_and_named() -> None:
    """An unknown wheelbase is drawn from its range, named, and widens nothing that is known."""
    known = estimate(MIDDLE, draw(100, 0))
    lacking = estimate(replace(MIDDLE, car=replace(CAR, wheelbase=None)), draw(100, 0))
    assert "wheelbase" not in {one.id for one in known.drawn}
    assert "wheelbase" in {one.id for one in lacking.drawn}
    assert np.ptp(np.asarray(known.rig.a)) == 0.0
    assert np.ptp(np.asarray(lacking.rig.a)) > 0.0


@given(key=st.sampled_from(sorted(ranges())), seed=st.integers(0, 1000))
def test_draws_stay_in_their_range(key: str, seed: int) -> None:
    """No figure is drawn from outside the range that is stated for it."""
    span, drawn = ranges()[key], draw(50, seed).of(key)
    assert span.low - 1e-9 <= drawn.min() <= drawn.max() <= span.high + 1e-9


@pytest.mark.parametrize("bad", [{"speed": 0.0}, {"speed": float("nan")}, {"samples": 0}])
def test_bad_arguments_are_refused(bad: dict[str, float]) -> None:
    """A speed that is none and no samples at all are refused, as is nothing to compare."""
    with pytest.raises(ValueError, match=r"must be|needed"):
        compare_steadiness({"one": MIDDLE}, **bad)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="no loading"):
        compare_steadiness({})


@given(low=st.floats(0, 100), more=st.floats(1, 20))
def test_critical_speed_rises_with_noseweight(low: float, more: float) -> None:
    """Until the car diverges, more noseweight raises the critical speed."""
    assert caravan(e=4.2 * (1 - (low + more) / 1500)) > caravan(e=4.2 * (1 - low / 1500))


@given(more=st.floats(1.02, 1.4))
def test_critical_speed_by_stiffness_inertia_and_overhang(more: float) -> None:
    """Stiffer caravan tyres raise the critical speed; more yaw inertia or a longer overhang of the ball lowers it."""
    assert caravan(ct=90e3 * more) > caravan()
    assert caravan(trailer_inertia=5415 * more) < caravan()
    assert caravan(h=1.45 + 1.1 * more) < caravan()


@given(speed=st.floats(5, 60))
def test_fixed_hitch_damping_falls_as_one_over_speed(speed: float) -> None:
    """Behind a hitch held straight a swing always dies away, at half the rate at twice the speed."""
    rig = single_axle(
        m=1700, inertia=2900, a=1.25, b=1.45, h=2.55, cf=95e3, cr=105e3, mt=1500, trailer_inertia=5415, e=3.948, ct=9e4, length=4.2
    )  # fmt: skip
    once, twice = (complex(np.sum(fixed_hitch(rig, v))).real for v in (speed, 2 * speed))
    assert once < 0
    assert twice == pytest.approx(once / 2)
