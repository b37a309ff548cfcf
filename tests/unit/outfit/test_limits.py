"""Masses against their limits."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import CarAxle, Readings, check_outfit
from firstpitch.outfit.limits import axle_spans, car_mass, towing_limit
from firstpitch.outfit.masses import laden
from firstpitch.sheet.types import Masses, RunningGear
from tests.unit.outfit.vans import CAR, LOAD, TYRE, outfit, van

TWIN = RunningGear((4.0, 4.8), None, 2.0, TYRE)


def word(key: str, **changes: object) -> str:
    """The word of one verdict of the test outfit with changes."""
    return check_outfit(outfit(**changes)).verdict(key).word


def test_payload_fits_and_fails() -> None:
    """35 kg of load fit into a payload of 250 kg, 300 kg do not."""
    assert word("payload") == "fits"
    heavy = replace(LOAD, items=(replace(LOAD.items[0], mass=300.0),))
    assert word("payload", load=heavy, stow=None) == "does not fit"
    assert word("mtplm", load=heavy, stow=None) == "does not fit"


def test_towing_limit_from_plate_is_credited() -> None:
    """Without a stated towing limit it is gross train less gross vehicle mass, and the verdict says where that rule is from."""
    car = replace(CAR, towing_limit=None)
    assert towing_limit(car)[0] == 1900.0
    verdict = check_outfit(outfit(car=car)).verdict("towing-limit")
    assert "towing.gtw_less_gvw" in [figure.id for figure in verdict.figures]


def test_car_without_limits_cannot_be_judged() -> None:
    """A car whose plate nobody read gives no verdict, and each missing figure is named."""
    bare = replace(CAR, gross_vehicle_mass=None, gross_train_mass=None, towing_limit=None)
    found = check_outfit(outfit(car=bare))
    for key in ("car-mass", "gross-train", "towing-limit"):
        assert found.verdict(key).word == "cannot say"
        assert found.verdict(key).unknown
    assert found.word == "cannot say"


@pytest.mark.parametrize("basis", ["mtplm", "actual", "axle"])
def test_towed_mass_basis_is_stated(basis: str) -> None:
    """What is held against the towing limit is an option; the plated mass is the greatest of the three."""
    verdict = check_outfit(outfit(towed_mass=basis)).verdict("towing-limit")
    plate = check_outfit(outfit()).verdict("towing-limit")
    assert verdict.number is not None
    assert plate.number is not None
    assert verdict.number.high <= plate.number.high


def test_noseweight_loads_the_cars_rear_axle() -> None:
    """The rear axle carries more than the noseweight, because the ball hangs behind it."""
    found = check_outfit(outfit()).verdict("car-rear-axle")
    nose = laden(outfit()).nose.low
    assert found.number is not None
    assert found.number.low == pytest.approx(950 + nose * 3.8 / 2.7)


def test_rear_allowance_only_from_the_handbook() -> None:
    """A rear axle that is just over fits only where the handbook grants an allowance."""
    tight = replace(CAR, rear=CarAxle(1100.0, 1200.0, 95))
    assert word("car-rear-axle", car=tight) == "does not fit"
    assert word("car-rear-axle", car=replace(tight, rear_allowance=100.0)) == "fits"


def test_unknown_car_mass_is_bounded_by_its_plate() -> None:
    """A car of unknown load weighs at most its gross vehicle mass, so a wide gross train mass can still be kept for certain."""
    vague = replace(CAR, aboard=None, front=CarAxle(), rear=CarAxle())
    assert car_mass(vague)[0].high == 2300.0
    assert word("gross-train", car=vague) == "fits"
    assert word("gross-train", car=replace(vague, gross_train_mass=3300.0)) == "cannot say"
    assert word("gross-train", car=replace(vague, gross_train_mass=3000.0)) == "does not fit"


def test_axle_reading_comes_first() -> None:
    """A weighbridge's axle load replaces the reckoned one."""
    measured = replace(LOAD, readings=Readings(axles=(1460.0,), noseweight=80.0))
    assert word("van-axle-1", load=measured) == "does not fit"


def test_twin_axles_by_both_models_when_unknown() -> None:
    """Where the sheet does not say how the axles share, both ways are judged and each is named."""
    masses = Masses(1200.0, 1450.0, 100.0, 700.0, 1200.0, 72.0)
    found = check_outfit(outfit(van=van(masses=masses, gear=TWIN)))
    keys = [verdict.id for verdict in found.verdicts if verdict.id.startswith("van-axle")]
    assert keys == ["van-axle-1-equalised", "van-axle-2-equalised", "van-axle-1-independent", "van-axle-2-independent"]


def test_independent_axles_differ_equalised_do_not() -> None:
    """Load behind the axles presses more on the rear one where each has its own springs."""
    masses = Masses(1200.0, 1450.0, 100.0, 700.0, 1200.0, 72.0)
    for equalised in (True, False):
        twin = outfit(van=van(masses=masses, gear=replace(TWIN, equalised=equalised)))
        front, rear = axle_spans(twin, laden(twin), "equalised" if equalised else "independent")
        assert (front == rear) is equalised
        assert front.middle + rear.middle == pytest.approx(laden(twin).axles.middle)


def test_raised_ball_shifts_load_to_the_rear_axle() -> None:
    """A ball above level relieves the front axle of two and loads the rear one."""
    twin = outfit(van=van(gear=replace(TWIN, equalised=False)))
    level = axle_spans(twin, laden(twin), "independent")
    raised = replace(twin, journey=replace(twin.journey, ball_raise=0.05, axle_stiffness=60e3))
    front, rear = axle_spans(raised, laden(raised), "independent")
    assert front.middle - level[0].middle == pytest.approx(-295.08 / 9.81, abs=0.01)
    assert rear.middle - level[1].middle == pytest.approx(245.90 / 9.81, abs=0.01)


def test_mass_ratio_is_a_guideline() -> None:
    """A caravan as heavy as the car breaks the newcomers' guideline, which says that it is habit and not law."""
    found = check_outfit(outfit(car=replace(CAR, kerb_mass=1450.0)))
    ratio = found.verdict("mass-ratio")
    assert ratio.word == "does not fit"
    assert not ratio.binding
    assert "not law" in ratio.sentence
    assert found.word != "does not fit"


@given(more=st.floats(0, 500))
def test_laden_mass_word_never_improves_with_load(more: float) -> None:
    """Adding load never turns a no into a yes."""
    order = ["fits", "tight", "does not fit"]

    def at(extra: float) -> int:
        load = replace(LOAD, items=(replace(LOAD.items[0], mass=14.0 + extra),))
        return order.index(word("mtplm", load=load, stow=None))

    assert at(more) <= at(more + 40.0)
