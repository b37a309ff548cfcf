"""Quantities: what is held is what was written, whatever the unit."""

from __future__ import annotations

import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.sheet.units import SORTS, UnitError, parse, show, si_unit, some_units, spellings, to

FIRST = {sort: next(iter(written)) for sort, written in SORTS.items()}
ALL = [(sort, written) for sort, names in SORTS.items() for written in names]
FIGURES = st.decimals(min_value=0, max_value=10**6, places=3, allow_nan=False, allow_infinity=False)


@pytest.mark.parametrize(("sort", "written"), ALL)
def test_every_spelling_is_a_unit_of_its_sort(sort: str, written: str) -> None:
    """Every spelling in the list can be read, is held in the SI unit of its sort, and gives the same figure back."""
    held = parse(f"5 {written}", FIRST[sort])
    assert held.unit == si_unit(FIRST[sort])
    assert to(held.si, written) == pytest.approx(5.0, rel=1e-12)


# Exact by definition (SI brochure; international yard and pound agreement 1959), or NIST SP 811 appendix B; all from memory.
@pytest.mark.parametrize(
    ("text", "unit", "si"),
    [
        ("1 lb", "kg", 0.45359237),
        ("1 in", "m", 0.0254),
        ("1 ft", "m", 0.3048),
        ("1 mile", "m", 1609.344),
        ("1 bar", "psi", 100_000.0),
        ("1 psi", "bar", 6894.757),
        ("32 °F", "degC", 273.15),
        ("0 °C", "degC", 273.15),
        ("1 Ah", "Ah", 3600.0),
        ("1 kWh", "Wh", 3_600_000.0),
        ("1 lbf·ft", "N·m", 1.355818),
        ("1 kgf", "N", 9.80665),
        ("60 mph", "km/h", 26.8224),
        ("1 l/min", "l/min", 1 / 60_000),
        ("1 t", "kg", 1000.0),
        ("1 year", "month", 31_557_600.0),
        ("90 %", "%", 0.9),
        ("180 deg", "rad", 3.14159265),
    ],
)
def test_known_conversions(text: str, unit: str, si: float) -> None:
    """A pound is 0.45359237 kg, an inch 25.4 mm, a bar 100 kPa, and so on as printed."""
    assert parse(text, unit).si == pytest.approx(si, rel=1e-6)


@given(st.sampled_from(ALL), FIGURES)
def test_round_trip(unit: tuple[str, str], figure: float) -> None:
    """A figure read in any unit and shown again in it is the figure that was written."""
    _, written = unit
    back = to(parse(f"{figure} {written}", written).si, written)
    assert back == pytest.approx(float(figure), rel=1e-9, abs=1e-9)


@given(st.sampled_from(ALL), FIGURES, FIGURES)
def test_order_is_kept(unit: tuple[str, str], one: float, other: float) -> None:
    """The larger of two figures in any unit is the larger in SI."""
    sort, written = unit
    low, high = sorted([one, other])
    assert parse(f"{low} {written}", FIRST[sort]).si <= parse(f"{high} {written}", FIRST[sort]).si


@pytest.mark.parametrize(
    ("text", "si"),
    [
        ("1,250 kg", 1250.0),
        ("1 250 kg", 1250.0),
        ("1\u202f250 kg", 1250.0),
        ("1250kg", 1250.0),
        ("+1250.0 kg", 1250.0),
        (".5 kg", 0.5),
    ],
)
def test_ways_to_write_a_number(text: str, si: float) -> None:
    """Thousands may be set off by a comma or a space in groups of three; the space before the unit may be left out."""
    assert parse(text, "kg").si == si


def test_minus_sign() -> None:
    """A minus may be the hyphen of the keyboard or the sign of print."""
    assert parse("-0.85 m", "m").si == parse("−0.85 m", "m").si == -0.85


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("1,25 kg", "“1,25 kg” has a decimal comma; write a point: “1.25 kg”"),
        ("1,2500 kg", "“1,2500 kg” has a decimal comma; write a point: “1.2500 kg”"),
        ("12 34 kg", "“34 kg” is not a unit this program knows; use kg, g, t or lb"),
        ("5 kg**10**10**10", "“kg**10**10**10” is not a unit this program knows; use kg, g, t or lb"),
        ("5 gallons", "“gallons” means one thing in Britain and another in America; use kg, g, t or lb"),
        ("5 N·m", "“5 N·m” is in N·m, which is not a unit of mass; use kg, g, t or lb"),
        ("٣ kg", "“٣ kg” is not a number with a unit; write it for example “12 kg”"),
        ("kg", "“kg” is not a number with a unit; write it for example “12 kg”"),
        ("", "“” is not a number with a unit; write it for example “12 kg”"),
        ("5" + " " * 5000 + "kg", "“5” is not a number with a unit; write it for example “12 kg”"),
    ],
)
def test_refused(text: str, sentence: str) -> None:
    """What is not plainly a number and a unit of the wanted sort is refused with what to write."""
    with pytest.raises(UnitError) as fault:
        parse(text, "kg")
    assert str(fault.value) == sentence


@pytest.mark.parametrize("number", [5, 5.0, None, True])
def test_numbers_without_text(number: object) -> None:
    """A bare number has no unit, so it is no quantity."""
    with pytest.raises(UnitError, match="has no unit"):
        parse(number, "kg")


def test_powers_in_a_catalogue_unit() -> None:
    """A unit in a kind file cannot make the program work out a tower of powers."""
    with pytest.raises(UnitError):
        si_unit("kg**9**9**9**9")
    with pytest.raises(UnitError):
        si_unit("kg ** 999999999")


@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    """Any text is either a finite quantity or refused as one."""
    with contextlib.suppress(UnitError):
        assert math.isfinite(parse(text, "kg").si)


def test_unit_of_no_known_sort() -> None:
    """A unit outside the list is written as itself only."""
    assert spellings("candela") == ("candela",)
    assert parse("5 candela", "candela").si == 5.0
    with pytest.raises(UnitError, match="which is not the unit wanted here; use candela"):
        parse("5 kg", "candela")
    assert some_units("candela") == "candela"


def test_clean_figures() -> None:
    """Ten litres are 0.01 m³ exactly, and shown again they are ten litres."""
    assert parse("10 l", "l").si == 0.01
    assert show(0.01, "l") == "10 l"


@pytest.mark.parametrize(
    ("si", "unit", "text"),
    [
        (0.00001234, "m", "0.0000123 m"),
        (999.6, "kg", "1000 kg"),
        (1234.5, "kg", "1234 kg"),
        (0.0, "kg", "0 kg"),
        (-0.85, "m", "-0.85 m"),
    ],
)
def test_shown_figures(si: float, unit: str, text: str) -> None:
    """A small figure is never shown as nought, and a large one never with a power of ten."""
    assert show(si, unit) == text
