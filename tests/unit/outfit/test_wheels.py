"""Wheel fixings, parking brake and the departure list."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import Readings, check_outfit
from firstpitch.outfit.wheels import clamp_force, clamps, hold_force, torque_for
from tests.unit.outfit.vans import LOAD, TYRE, outfit, van


def torque(value: float | None) -> tuple[str, str]:
    """Word and sentence for a tightening torque on the sheet."""
    gear = replace(van().gear, tyre=replace(TYRE, wheel_torque=value))
    verdict = check_outfit(outfit(van=van(gear=gear))).verdict("wheel-torque")
    return verdict.word, verdict.sentence


def test_torque_only_from_the_sheet() -> None:
    """Without the plate's or handbook's figure none is given."""
    word, sentence = torque(None)
    assert word == "cannot say"
    assert "N·m" not in sentence
    assert "never from another van" in sentence


def test_torque_within_what_handbooks_print() -> None:
    """74 to 130 N·m stand in handbooks for M12; a figure outside is to be checked. Every answer says when to check again."""
    assert torque(100.0)[0] == "fits"
    assert torque(200.0)[0] == "cannot say"
    for value in (None, 100.0, 200.0):
        assert "30 mile" in torque(value)[1]
        assert "never greased" in torque(value)[1]


@given(force=st.floats(1e3, 1e5), diameter=st.floats(0.008, 0.02), friction=st.floats(0.1, 0.4))
def test_clamp_force_is_the_inverse_of_torque(force: float, diameter: float, friction: float) -> None:
    """The torque for a clamp force clamps with that force."""
    assert clamp_force(torque_for(force, diameter, friction), diameter, friction) == pytest.approx(force)


def test_clamps_grease_clamps_harder() -> None:
    """On every thread and grade grease means more clamp force from the same torque, rust less."""
    for clamp in clamps(110.0):
        assert clamp.rusty < clamp.dry < clamp.greased
        assert clamp.dry_share < clamp.greased_share
    with pytest.raises(ValueError, match="above zero"):
        clamp_force(100, 0, 0.2)


@given(mass=st.floats(100, 3500), slope=st.floats(0.01, 0.4))
def test_hold_force_grows_with_mass_and_slope(mass: float, slope: float) -> None:
    """A heavier van or a steeper slope needs more; never more than its whole weight."""
    assert hold_force(mass + 10, slope) > hold_force(mass, slope)
    assert hold_force(mass, slope + 0.01) > hold_force(mass, slope)
    assert hold_force(mass, slope) < mass * 9.81


def test_parking_brake_needs_a_measurement() -> None:
    """Without a measured force nobody can say that it holds, and the wheels are to be chocked."""
    verdict = check_outfit(outfit()).verdict("parking-brake")
    assert verdict.word == "cannot say"
    assert "chock" in verdict.sentence
    for force, word in ((1000.0, "does not fit"), (3000.0, "fits")):
        load = replace(LOAD, readings=Readings(brake_force=force))
        found = check_outfit(outfit(load=load)).verdict("parking-brake")
        assert found.word == word
        assert found.binding


def test_departure_list_names_its_sources() -> None:
    """Mirrors, breakaway cable, plug and lights are on the list, each with where the rule is from."""
    lines = {line.id: line for line in check_outfit(outfit()).departure}
    assert {"mirrors", "breakaway", "electrics", "hitch", "tyres", "wheels"} <= lines.keys()
    assert all(line.source for line in lines.values())
    assert "4 m out" in lines["mirrors"].text
    assert "100 N·m" in lines["wheels"].text
