"""How long waits take."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.catalogue.types import Duration
from firstpitch.rounds.durations import UnknownTerm, flow_seconds, heating_seconds, wait_seconds
from firstpitch.sheet import Quantity
from firstpitch.sheet.types import FactValue

FACTS: dict[str, FactValue] = {
    "capacity": Quantity(0.010, "m**3", "10 l"),
    "flow": Quantity(0.010 / 60, "m**3/s", "10 l/min"),
    "power": Quantity(850.0, "W", "850 W"),
    "cold_water": Quantity(288.15, "K", "15 degC"),
    "people": 4,
    "fitted": True,
}


def seconds(by: str, **terms: str | float) -> int | UnknownTerm:
    return wait_seconds(Duration(by, terms), FACTS.get)


def test_heating_by_a_quantity_in_quotes() -> None:
    """Ten litres from 15 to 60 °C at 850 W take 36.9 minutes (enthalpy difference by IAPWS-95: 1880 kJ), rounded up to whole seconds."""
    found = seconds("heating", volume="capacity", power="power", **{"from": "cold_water", "to": "60 degC"})
    assert isinstance(found, int)
    assert found == pytest.approx(36.9 * 60, rel=0.003)


def test_efficiency_makes_it_longer() -> None:
    """At 80 % efficiency the same water takes a quarter longer."""
    full = heating_seconds(0.010, 850, 288.15, 333.15)
    assert heating_seconds(0.010, 850, 288.15, 333.15, 0.8) == pytest.approx(1.25 * full)


def test_hot_enough_already() -> None:
    """Water that is warm enough needs no heating; a wait still lasts a second, because what it sets acts after its step."""
    assert heating_seconds(0.010, 850, 333.15, 313.15) == 0.0
    assert seconds("heating", volume="capacity", power="power", **{"from": "60 degC", "to": "cold_water"}) == 1


@pytest.mark.parametrize("by", ["filling", "draining"])
def test_flow_is_not_rounded_up_by_the_arithmetic(by: str) -> None:
    """Ten litres at ten litres a minute are 60 s, not 61 because of the last binary digit."""
    assert seconds(by, volume="capacity", flow="flow") == 60


@given(st.integers(1, 200), st.integers(1, 60))
def test_whole_seconds_stay_whole(volume: int, flow: int) -> None:
    """Any whole litres at any whole litres a minute take the exact time rounded up to the second."""
    facts = {"v": Quantity(volume / 1000, "m**3", ""), "q": Quantity(flow / 1000 / 60, "m**3/s", "")}
    assert wait_seconds(Duration("filling", {"volume": "v", "flow": "q"}), facts.get) == -(-volume * 60 // flow)


def test_fixed() -> None:
    """A fixed wait is as long as it says, rounded up, and never under a second."""
    assert [seconds("fixed", seconds=s) for s in (90, 90.2, 0.0)] == [90, 91, 1]


def test_a_count_is_a_number_and_a_yes_is_not() -> None:
    """A count may stand in a duration; a yes-or-no fact may not and counts as unknown."""
    assert seconds("filling", volume="people", flow="people") == 1
    assert seconds("filling", volume="fitted", flow="flow") == UnknownTerm("fitted")


@pytest.mark.parametrize("missing", ["capacity", "power", "cold_water"])
def test_a_missing_figure_is_unknown_and_named(missing: str) -> None:
    """Where the sheet lacks a figure the duration is unknown and says which one; nothing is assumed."""
    terms = {"volume": "capacity", "power": "power", "from": "cold_water", "to": "60 degC"}
    look = {name: value for name, value in FACTS.items() if name != missing}.get
    assert wait_seconds(Duration("heating", terms), look) == UnknownTerm(missing)


@pytest.mark.parametrize(
    "figures",
    [(0.0, 850, 288, 333, 1.0), (0.01, 0.0, 288, 333, 1.0), (0.01, 850, 288, 333, 0.0), (0.01, 850, 288, 333, 1.01)],
)
def test_heating_refuses_what_cannot_be(figures: tuple[float, float, float, float, float]) -> None:
    """No volume, no power, or an efficiency outside (0, 1] is a programmer's mistake."""
    with pytest.raises(ValueError, match="above zero"):
        heating_seconds(*figures)


@pytest.mark.parametrize(("volume", "flow"), [(0.0, 1.0), (1.0, 0.0), (-1.0, 1.0)])
def test_flow_refuses_what_cannot_be(volume: float, flow: float) -> None:
    """No volume or no flow is a programmer's mistake."""
    with pytest.raises(ValueError, match="above zero"):
        flow_seconds(volume, flow)
