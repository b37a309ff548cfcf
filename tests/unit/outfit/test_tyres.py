"""Tyres: load, reserve, speed, age, pressure."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import check_outfit
from firstpitch.outfit.tyres import age_on, least_index, load_at, load_of, made_on, pressure_for
from tests.unit.outfit.vans import CAR, JOURNEY, TYRE, outfit, van

YEAR = 365.25 * 86400


def word(key: str, on: date | None = JOURNEY.on, **changes: object) -> str:
    """The word of one verdict with changed tyres."""
    gear = replace(van().gear, tyre=replace(TYRE, **changes))  # type: ignore[arg-type]
    return check_outfit(outfit(van=van(gear=gear), journey=replace(JOURNEY, on=on))).verdict(key).word


def test_tyre_load() -> None:
    """Two tyres of index 84 carry 1000 kg, too little for an axle of 1150 kg; an unknown index blocks."""
    assert word("tyre-load") == "fits"
    assert word("tyre-load", load_index=84) == "does not fit"
    assert word("tyre-load", load_index=None) == "cannot say"


def test_tyre_reserve_is_practice() -> None:
    """Within the index but without the tenth in hand is tight; beyond the index it does not fit."""
    assert word("tyre-practice", load_index=102) == "fits"
    assert word("tyre-practice", load_index=98) == "tight"
    assert word("tyre-practice", load_index=94) == "does not fit"


def test_speed_symbol() -> None:
    """M or better is wanted."""
    assert word("tyre-speed", speed_symbol="M") == "fits"
    assert word("tyre-speed", speed_symbol="L") == "does not fit"
    assert word("tyre-speed", speed_symbol=None) == "cannot say"
    assert word("tyre-speed", speed_symbol="B") == "cannot say"


@pytest.mark.parametrize(
    ("code", "expected"),
    [("1026", "fits"), ("1024", "tight"), ("1021", "does not fit"), (None, "cannot say"), ("1030", "cannot say")],
)
def test_age_at_high_pressure(code: str | None, expected: str) -> None:
    """At 65 psi: looked at from three years, not past five; a date code of the future is questioned."""
    assert word("tyre-age", date_code=code) == expected


@pytest.mark.parametrize(("code", "expected"), [("1024", "fits"), ("1021", "tight"), ("1019", "does not fit")])
def test_age_at_low_pressure(code: str, expected: str) -> None:
    """At 36 psi: best replaced at five years, never past seven."""
    assert word("tyre-age", date_code=code, pressure=250e3) == expected


def test_age_without_a_day() -> None:
    """The age hangs on the day of the journey; nothing is taken for today."""
    assert word("tyre-age", on=None) == "cannot say"


@given(week=st.integers(1, 53), year=st.integers(0, 60))
def test_made_on_round_trip(week: int, year: int) -> None:
    """Every week of every year has its code; a 53rd week that a year lacks is the next year's first."""
    made = made_on(f"{week:02d}{year:02d}")
    assert made is not None
    assert made.weekday() == 0
    assert abs((made - date(2000 + year, 1, 1)).days - 7 * (week - 1)) <= 7


@pytest.mark.parametrize("code", ["", "0026", "5426", "12", "abcd", "12345"])
def test_made_on_nonsense(code: str) -> None:
    """No code but a week and a year is read."""
    assert made_on(code) is None


def test_age_on_counts_days() -> None:
    """A tyre of week 10 of 2026 is a year old a year later."""
    assert age_on("1026", date(2027, 3, 2)) == pytest.approx(YEAR, rel=0.01)
    assert age_on("1026", date(2025, 1, 1)) is None


@given(mass=st.floats(300, 2500), tyres=st.sampled_from([2, 4]))
def test_least_index_is_enough_and_no_more(mass: float, tyres: int) -> None:
    """The proposed index keeps the reserve and the one below does not."""
    index = least_index(mass, tyres)
    if index is None:
        assert mass / tyres / 0.9 > (load_of(119) or 0)
        return
    assert tyres * (load_of(index) or 0) * 0.9 >= mass - 1e-6
    below = load_of(index - 1)
    assert below is None or tyres * below * 0.9 < mass


@given(most=st.floats(200, 1300), share=st.floats(0.2, 1.0), full=st.floats(1.5e5, 6e5))
def test_pressure_and_load_are_inverse(most: float, share: float, full: float) -> None:
    """The pressure for a load is the one at which the metric law gives that load back."""
    pressure = pressure_for(share * most, most, 2.5e5)
    assert load_at(most, pressure) == pytest.approx(share * most, rel=1e-9)
    assert pressure_for(share * most, most, full) <= full * (1 + 1e-12)


def test_plate_comes_first() -> None:
    """The plated pressure is what is said; a plate well below what the load asks for is questioned, never replaced."""
    gear = replace(van().gear, tyre=replace(TYRE, pressure=200e3))
    found = check_outfit(outfit(van=van(gear=gear)))
    assert found.tyre_pressure.plated == 200e3
    assert "2.00 bar" in found.tyre_pressure.sentence
    assert found.verdict("tyre-pressure").word == "cannot say"
    assert word("tyre-pressure", pressure=None) == "cannot say"
    assert word("tyre-pressure") == "fits"


def test_pressure_for_nonsense() -> None:
    """Loads and pressures below zero are a mistake."""
    with pytest.raises(ValueError, match="above zero"):
        pressure_for(500, 0, 1e5)


def test_car_rear_tyres_carry_the_noseweight() -> None:
    """Weak rear tyres on the car fail once the noseweight hangs behind them."""
    weak = replace(CAR, rear=replace(CAR.rear, load_index=86))
    assert check_outfit(outfit(car=weak)).verdict("car-rear-tyres").word == "does not fit"
    unknown = replace(CAR, rear=replace(CAR.rear, load_index=None))
    assert check_outfit(outfit(car=unknown)).verdict("car-rear-tyres").word == "cannot say"
