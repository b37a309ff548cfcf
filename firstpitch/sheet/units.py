"""Quantities as people write them (``1500 kg``, ``65 psi``), held in SI, shown in the reader's units."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import TYPE_CHECKING, Any

from firstpitch.sheet.types import Quantity

if TYPE_CHECKING:
    import pint

_NUMBER = re.compile(r"^\s*([-+−]?\d[\d,_ ]*(?:\.\d+)?|[-+−]?\.\d+)\s*(.*)$")
_SPELLINGS = {
    "°C": "degC",
    "°F": "degF",
    "celsius": "degC",
    "C": "degC",
    "l": "litre",
    "L": "litre",
    "l/min": "litre/minute",
    "L/min": "litre/minute",
    "lbf·ft": "lbf*ft",
    "lbf ft": "lbf*ft",
    "N m": "newton*metre",
    "Nm": "newton*metre",
    "N·m": "newton*metre",
    "W/m2K": "watt/metre**2/kelvin",
    "W/m²K": "watt/metre**2/kelvin",
    "W/K": "watt/kelvin",
    "m²": "metre**2",
    "m2": "metre**2",
    "mm²": "millimetre**2",
    "mm2": "millimetre**2",
    "m³": "metre**3",
    "m3": "metre**3",
    "cm3": "centimetre**3",
    "Ah": "ampere*hour",
    "Wh": "watt*hour",
    "kWh": "kilowatt*hour",
    "g/h": "gram/hour",
    "kg/h": "kilogram/hour",
    "kgf": "kilogram_force",
    "Wp": "watt",
    "in": "inch",
    "min": "minute",
    "h": "hour",
    "t": "tonne",
    "mph": "mile/hour",
    "km/h": "kilometre/hour",
    "ohm": "ohm",
    "Ω": "ohm",
    "MΩ": "megaohm",
    "kJ/kgK": "kilojoule/kilogram/kelvin",
    "N/rad": "newton/radian",
    "kg m2": "kilogram*metre**2",
}


class UnitError(ValueError):
    """A text is not a quantity of the wanted sort; the message says what was found and what is allowed."""


@cache
def registry() -> pint.UnitRegistry[Any]:
    """The one unit registry of the program (built once; the import is slow)."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@cache
def _unit(name: str) -> Any:
    return registry().Unit(_SPELLINGS.get(name.strip(), name.strip()))


@cache
def si_unit(unit: str) -> str:
    """The SI unit in which quantities written in ``unit`` are held.

    >>> si_unit("psi"), si_unit("degC"), si_unit("l/min")
    ('kg / m / s ** 2', 'K', 'm ** 3 / s')
    """
    return f"{registry().Quantity(1.0, _unit(unit)).to_base_units().units:~C}".replace("/", " / ").replace("**", " ** ")


def _split(text: str) -> tuple[float, str]:
    found = _NUMBER.match(text)
    if not found:
        raise UnitError(f"“{text}” does not start with a number")
    digits = re.sub(r"[ _,]", "", found[1]).replace("−", "-")
    return float(digits), found[2].strip()


def parse(text: object, unit: str) -> Quantity:
    """Read ``text`` as a quantity of the same sort as ``unit`` and hold it in SI.

    Raises UnitError when it is not text, has no unit, has a unit of another sort, or is not finite.

    >>> parse("65 psi", "bar").si
    448159.2...
    >>> parse("1,500 kg", "kg").si
    1500.0
    """
    if not isinstance(text, str):
        raise UnitError(f"{text!r} has no unit; write it as people do, for example “12 {unit}”")
    number, written_unit = _split(text)
    if not written_unit:
        raise UnitError(f"“{text}” has no unit; write it as people do, for example “{text.strip()} {unit}”")
    try:
        given = _unit(written_unit)
    except Exception as fault:  # pint raises many kinds for an unknown unit
        raise UnitError(f"“{written_unit}” is not a unit this program knows; use for example {unit}") from fault
    if given.dimensionality != _unit(unit).dimensionality:
        raise UnitError(f"“{text}” is in {written_unit}, which is not the right sort of unit; use for example {unit}")
    held = registry().Quantity(number, given).to_base_units()
    if not math.isfinite(held.magnitude):
        raise UnitError(f"“{text}” is not a finite number")
    return Quantity(si=float(held.magnitude), unit=si_unit(unit), written=text.strip())


def to(si: float, unit: str) -> float:
    """An SI figure in ``unit``.

    >>> round(to(448159.2, "psi"), 1)
    65.0
    """
    base = _unit(si_unit(unit)) if unit not in ("degC", "°C") else _unit("kelvin")
    return float(registry().Quantity(si, base).to(_unit(unit)).magnitude)


def show(si: float, unit: str, digits: int = 3) -> str:
    """An SI figure as text in ``unit``, to so many significant digits, without a needless tail.

    >>> show(0.010, "l"), show(1500.0, "kg"), show(288.15, "degC")
    ('10 l', '1500 kg', '15 °C')
    """
    value = to(si, unit)
    text = f"{value:.{digits}g}"
    if "e" in text or abs(value) >= 10**digits:
        text = f"{value:.0f}"
    return f"{text} {'°C' if unit == 'degC' else unit}"
