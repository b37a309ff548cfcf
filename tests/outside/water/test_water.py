"""Heating and filling times against IAPWS-95, through two general property libraries, and against exact fractions."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
import yaml
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95

from bench.sizes import demo_problem
from firstpitch.demo import sheets
from firstpitch.rounds.durations import flow_seconds, heating_seconds

ATMOSPHERE = 101_325.0
SLACK = 0.004
ZERO = 273.15


def number(text: str) -> float:
    """The figure in a text such as “8.5 l”."""
    return float(text.split(maxsplit=1)[0])


def heat_by_coolprop(volume: float, cold: float, hot: float) -> float:
    """Heat [J] that ``volume`` [m³] of water, filled at ``cold`` [K], takes up to ``hot`` [K] at 1 atm."""
    mass = volume * PropsSI("D", "T", cold, "P", ATMOSPHERE, "Water")
    rise = PropsSI("H", "T", hot, "P", ATMOSPHERE, "Water") - PropsSI("H", "T", cold, "P", ATMOSPHERE, "Water")
    return float(mass * rise)


def heat_by_iapws(volume: float, cold: float, hot: float) -> float:
    """The same from the other library."""
    before, after = (IAPWS95(T=t, P=ATMOSPHERE / 1e6) for t in (cold, hot))
    return float(volume * before.rho * (after.h - before.h) * 1000)


@pytest.mark.parametrize(
    ("litres", "cold", "hot", "watts", "minutes"),
    [
        (10, 15, 60, 850, 36.9),
        (10, 15, 60, 1500, 20.9),
        (10, 10, 70, 850, 49.2),
        (10, 10, 70, 1500, 27.9),
        (14, 10, 70, 850, 68.9),
        (14, 10, 70, 1500, 39.0),
    ],
)
def test_heating_seconds_as_printed(litres: float, cold: float, hot: float, watts: float, minutes: float) -> None:
    """Ten litres from 15 to 60 °C take 36.9 minutes at 850 W, and so on for the usual heaters."""
    found = heating_seconds(litres / 1000, watts, cold + ZERO, hot + ZERO) / 60
    assert found == pytest.approx(minutes, abs=0.05 + SLACK * minutes)


@pytest.mark.parametrize(
    ("litres", "cold", "hot", "kilojoules"), [(10, 15, 60, 1880), (10, 10, 70, 2509), (14, 10, 70, 3513.6)]
)
def test_heat_as_printed(litres: float, cold: float, hot: float, kilojoules: float) -> None:
    """The heat in ten litres between 15 and 60 °C is 1880 kJ; at one kilowatt that many seconds."""
    found = heating_seconds(litres / 1000, 1000.0, cold + ZERO, hot + ZERO)
    assert found == pytest.approx(kilojoules, rel=SLACK)


@pytest.mark.parametrize("cold", [5, 10, 15, 20, 25])
@pytest.mark.parametrize("hot", [40, 55, 60, 70])
def test_two_libraries_agree_and_so_do_we(cold: float, hot: float) -> None:
    """Over the waters and heaters there are, the time is the enthalpy difference over the power, in both libraries."""
    for litres in (5, 8.5, 10, 14, 20):
        volume = litres / 1000
        one, other = (heat(volume, cold + ZERO, hot + ZERO) for heat in (heat_by_coolprop, heat_by_iapws))
        assert one == pytest.approx(other, rel=1e-4)
        assert heating_seconds(volume, 1000.0, cold + ZERO, hot + ZERO) * 1000.0 == pytest.approx(one, rel=SLACK)


@given(
    litres=st.floats(0.5, 60),
    cold=st.floats(5, 25),
    hot=st.floats(40, 70),
    watts=st.floats(200, 6000),
    efficiency=st.floats(0.5, 1.0),
)
def test_heating_seconds_any_heater(litres: float, cold: float, hot: float, watts: float, efficiency: float) -> None:
    """Whatever the heater, its share that reaches the water brings up the enthalpy difference in the time given."""
    low, high = cold + ZERO, hot + ZERO
    seconds = heating_seconds(litres / 1000, watts, low, high, efficiency)
    assert seconds * watts * efficiency == pytest.approx(heat_by_coolprop(litres / 1000, low, high), rel=SLACK)


@pytest.mark.parametrize("van", ["wren", "plover", "heron"])
def test_wait_for_hot_water(van: str) -> None:
    """The wait for hot water in each demo van's round is as long as its sheet's litres, watts and degrees make it."""
    written = yaml.safe_load(sheets()[van].read_text("utf-8"))
    found = next(w for w in demo_problem(van).waits if w.id.endswith(".heating"))
    facts = next(k["facts"] for k in written["kit"] if k["id"] == found.kit)
    litres, watts, hot = (number(facts[name]) for name in ("capacity", "mains_power", "hot_water"))
    cold = number(written["cold_water"])
    expected = heat_by_coolprop(litres / 1000, cold + ZERO, hot + ZERO) / watts
    assert found.seconds == pytest.approx(expected, abs=1 + SLACK * expected)


@pytest.mark.parametrize("van", ["wren", "plover", "heron"])
@pytest.mark.parametrize(
    ("wait", "volume", "flow"),
    [("filling", "capacity", "fill_flow"), ("container_fill", "container_volume", "tap_flow")],
)
def test_wait_for_water_to_run_in(van: str, wait: str, volume: str, flow: str) -> None:
    """Filling takes the litres over the litres a minute, rounded up to a second: the heater, and the container at the tap."""
    found = next(w for w in demo_problem(van).waits if w.id.endswith(f".{wait}"))
    kit = yaml.safe_load(sheets()[van].read_text("utf-8"))["kit"]
    facts = next(k["facts"] for k in kit if k["id"] == found.kit)
    exact = Fraction(str(number(facts[volume]))) / Fraction(str(number(facts[flow]))) * 60
    assert found.seconds == math.ceil(exact)


@given(litres=st.integers(1, 10_000), tenths=st.integers(1, 400))
def test_flow_seconds_is_volume_over_flow(litres: int, tenths: int) -> None:
    """A volume runs through in volume over flow, to the last digit a computer's numbers have."""
    exact = Fraction(litres) / Fraction(tenths, 10) * 60
    assert flow_seconds(litres / 1000, tenths / 10 / 60_000) == pytest.approx(float(exact), rel=1e-12)
