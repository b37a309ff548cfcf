"""Whether what was said is the sheet's figure, as people speak, and how far off it is where it is not."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import log2

from firstpitch.film.amounts import Spoken
from firstpitch.film.numerals import Number
from firstpitch.film.spoken_units import si_of
from firstpitch.film.types import KnownFigure
from firstpitch.sheet import units
from firstpitch.sheet.types import Quantity

CLOSE = 0.02  # people round: within this share of the sheet's figure
# Bare numbers may be said in these: “seven thirty-six long” in centimetres, “three point three on gas” in kilowatts.
_SMALLER = {"bar": ("psi",), "m": ("cm",), "W": ("kW",)}
KELVINS = 30.0  # [K] what counts as one doubling between two temperatures


def same_sort(spoken: Spoken, figure: KnownFigure) -> bool:
    """Whether the spoken figure can be this one at all, by its unit."""
    if isinstance(figure.value, date) or (figure.value is None and not figure.unit):
        return spoken.units == ("date",) or (not spoken.units and 2000 < spoken.number.value < 2100)
    if spoken.units == ("date",):
        return False
    if not figure.unit:
        return not spoken.units
    return not spoken.units or any(u and units.sort_of(u) == units.sort_of(figure.unit) for u in spoken.units)


def agrees(spoken: Spoken, figure: KnownFigure) -> bool:
    """Whether what was said is the sheet's figure as people speak: within 2 %, or within half of the last digit spoken."""
    number, value = spoken.number, figure.value
    if isinstance(value, date):
        if number.date is None:
            return value.year == int(number.value)
        year, month, day = number.date
        return (value.year, value.month) == (year, month) and day in (0, value.day)
    if isinstance(value, int) and not isinstance(value, bool):
        return number.value == value
    if not isinstance(value, Quantity):
        return False
    return any(_within(number, unit, value.si) for unit in _tried(spoken, figure))


def may_be_misheard(spoken: Spoken, figure: KnownFigure) -> bool:
    """Whether it would agree if a -teen had been heard as a -ty or the other way round."""
    if spoken.number.other is None:
        return False
    return agrees(replace(spoken, number=replace(spoken.number, value=spoken.number.other)), figure)


def doublings_off(spoken: Spoken, figure: KnownFigure) -> float:
    """How many doublings what was said lies from the sheet's figure (of temperature: ``KELVINS``); 0 where it cannot be told."""
    value, number = figure.value, spoken.number
    if isinstance(value, date):
        return 0.3 * abs(value.year - number.value)
    if not isinstance(value, Quantity):
        return 0.0
    said = [si_of(at, unit) for unit in _tried(spoken, figure) for at in {number.value, number.most or number.value}]
    if units.sort_of(figure.unit) == "temperature":
        return min((abs(si - value.si) / KELVINS for si in said), default=0.0)
    if value.si <= 0:
        return 0.0
    return min((abs(log2(si / value.si)) for si in said if si > 0), default=0.0)


def _tried(spoken: Spoken, figure: KnownFigure) -> list[str]:
    if not spoken.units:
        return [figure.unit, *_SMALLER.get(figure.unit, ())]
    return [u for u in spoken.units if u and units.sort_of(u) == units.sort_of(figure.unit)]


def _within(number: Number, unit: str, si: float) -> bool:
    low, high = si_of(number.value, unit), si_of(number.most if number.most is not None else number.value, unit)
    nil = si_of(0.0, unit)  # temperatures do not start at nought
    half = abs(si_of(number.step, unit) - nil) / 2
    slack = max(CLOSE * abs(si - nil) * (1.0 + 1e-9), half * (1.0 - 1e-9))  # “one kilo” is not one and a half
    return low - slack <= si <= high + slack
