"""What the van weighs: sheet, kit, water, load and readings."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from firstpitch.outfit import Load, Readings, Stow
from firstpitch.outfit.masses import laden
from firstpitch.sheet.types import Masses
from tests.unit.outfit.vans import GOOD_STOW, LOAD, kit, outfit, quantity, van

UNWEIGHED = Masses(1200.0, 1450.0, 100.0, 1450.0, None, None)


def test_laden_adds_the_load() -> None:
    """The weighed empty van and 35 kg of load weigh 1235 kg."""
    found = laden(outfit())
    assert found.mass.exact
    assert found.mass.low == pytest.approx(1235.0)


def test_laden_noseweight_by_levers() -> None:
    """Each thing adds its share: the awning in front adds, the lead behind the axle takes off."""
    found = laden(outfit())
    expected = 72 + 14 * (1 - 1.7 / 4.2) + 16 * (1 - 4.0 / 4.2) + 5 * (1 - 6.6 / 4.2)
    assert found.nose.low == pytest.approx(expected)
    assert found.nose.exact
    assert found.axles.low == pytest.approx(1235 - expected)


def test_laden_unstowed_load_is_a_span() -> None:
    """Where nobody says what lies where, the noseweight is only known to lie between the places allowed."""
    found = laden(outfit(stow=None))
    assert found.mass.exact
    assert not found.nose.exact
    assert found.nose.low < laden(outfit()).nose.low < found.nose.high
    assert found.unknown == ("where the load is stowed",)


def test_laden_names_few_unstowed_things() -> None:
    """One thing without a place is named."""
    part = Stow(tuple(p for p in GOOD_STOW.placed if p.item != "food"))
    assert laden(outfit(stow=part)).unknown == ("where Food box is stowed",)


def test_water_aboard_is_counted() -> None:
    """Ten litres in a tank ahead of the axle weigh ten kilograms and press on the ball."""
    tank = kit("tank", "tank", 2.1, volume=quantity(0.02, "m ** 3"))
    with_tank = outfit(van=van(tank), load=replace(LOAD, water=MappingProxyType({"tank": 0.010})))
    more = laden(with_tank).mass.low - laden(outfit()).mass.low
    assert more == pytest.approx(9.991, abs=1e-6)
    assert laden(with_tank).nose.low - laden(outfit()).nose.low == pytest.approx(9.991 / 2, abs=1e-6)


def test_unsaid_water_is_a_span() -> None:
    """A tank nobody spoke of may be empty or full, and is named."""
    tank = kit("tank", "tank", 2.1, volume=quantity(0.02, "m ** 3"))
    found = laden(outfit(van=van(tank)))
    assert found.mass.high - found.mass.low == pytest.approx(19.982, abs=1e-6)
    assert found.unknown == ("how much water is in tank",)


def test_unknown_tank_is_unbounded() -> None:
    """A tank of unknown size is no reason to take it for empty."""
    found = laden(outfit(van=van(kit("tank", "tank", 2.1))))
    assert not found.mass.bounded


def test_kit_beyond_running_order_counts() -> None:
    """A mover that is not in the plated mass in running order eats payload."""
    mover = kit("mover", "extra", 4.3, mass=quantity(32.0, "kg"), in_miro=False)
    found = laden(outfit(van=van(mover, masses=UNWEIGHED), load=Load(), stow=None))
    assert found.empty.mass.low == found.empty.mass.high == pytest.approx(1232.0)


def test_kit_in_running_order_does_not_count_twice() -> None:
    """A mover that is in it does not."""
    mover = kit("mover", "extra", 4.3, mass=quantity(32.0, "kg"), in_miro=True)
    found = laden(outfit(van=van(mover, masses=UNWEIGHED), load=Load(), stow=None))
    assert found.empty.mass.high == pytest.approx(1200.0)


def test_kit_of_unsaid_mass_is_named() -> None:
    """Whether and how much it adds is unknown, so the whole is not known either."""
    mover = kit("mover", "extra", 4.3, in_miro=False)
    found = laden(outfit(van=van(mover, masses=UNWEIGHED), load=Load(), stow=None))
    assert not found.mass.bounded
    assert "how much mover adds to the mass in running order" in found.unknown


def test_weighed_van_includes_its_kit() -> None:
    """A weighbridge reading already holds the kit."""
    mover = kit("mover", "extra", 4.3, mass=quantity(32.0, "kg"), in_miro=False)
    assert laden(outfit(van=van(mover))).mass.low == pytest.approx(1235.0)


def test_unmeasured_noseweight_is_only_assumed() -> None:
    """Nobody measured the empty noseweight: the model assumes a band and says so."""
    found = laden(outfit(van=van(masses=UNWEIGHED)))
    assert found.assumed == ("the empty van's noseweight",)
    assert found.empty.nose.low < found.empty.nose.high


def test_reading_corrects_the_empty_van() -> None:
    """Ten kilograms more on the gauge than reckoned put the empty van's centre of gravity further forward, and it is said."""
    reckoned = laden(outfit())
    measured = replace(LOAD, readings=Readings(mass=1240.0, noseweight=reckoned.nose.low + 10))
    found = laden(outfit(load=measured))
    assert found.mass.low == pytest.approx(1240.0)
    assert found.nose.low == pytest.approx(reckoned.nose.low + 10)
    assert found.correction is not None
    assert found.correction.nose == pytest.approx(10.0)
    assert found.correction.mass == pytest.approx(5.0)
    assert found.correction.moved < 0
    assert "further forward" in found.correction.sentence
    assert "10 kg more on the ball" in found.correction.sentence


def test_reading_without_a_stow_corrects_nothing() -> None:
    """Who does not know where the load was cannot tell the van's own part of a reading."""
    measured = replace(LOAD, readings=Readings(noseweight=80.0))
    found = laden(outfit(load=measured, stow=None))
    assert found.correction is None
    assert found.nose.low == found.nose.high == 80.0


def test_axle_and_nose_readings_give_the_mass() -> None:
    """Axle load and noseweight, both read, are the whole mass."""
    measured = replace(LOAD, readings=Readings(noseweight=80.0, axles=(1170.0,)))
    assert laden(outfit(load=measured)).mass.low == pytest.approx(1250.0)
