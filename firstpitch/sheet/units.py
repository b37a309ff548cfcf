"""Quantities as people write them (``1500 kg``, ``65 psi``), held in SI, shown in the reader's units."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from firstpitch.sheet.errors import quoted
from firstpitch.sheet.types import Quantity

if TYPE_CHECKING:
    import pint

PURE = "1"  # the unit of a pure number
SIGN = "[-+−]?"
DIGITS = r"(?:[0-9]{1,3}(?:[, _\u00a0\u202f][0-9]{3})+(?![0-9])|[0-9]+)(?:\.[0-9]+)?|\.[0-9]+"
_QUANTITY = re.compile(rf"({SIGN}(?:{DIGITS}))\s*(.*)", re.DOTALL)
_POWER_OF_TEN = re.compile(r"[eE][-+]?[0-9]")
_DECIMAL_COMMA = re.compile(r",[0-9]")
LONGEST = 100
_CODE_UNIT = re.compile(r"^[A-Za-z%°µΩ·²³ /().1-9^*_-]{1,40}$")
_POWER = re.compile(r"(?:\*\*|\^)(?!-?[1-9](?![0-9*^.]))")

# What a person may write, by sort. Same sort means interchangeable: torque and energy are two sorts, though their
# dimensions agree. The value is the unit library's name.
SORTS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "mass": {
            **dict.fromkeys(("kg", "kgs", "Kg", "KG", "kilogram", "kilograms"), "kilogram"),
            **dict.fromkeys(("g", "gram", "grams"), "gram"),
            **dict.fromkeys(("t", "tonne", "tonnes"), "tonne"),
            **dict.fromkeys(("lb", "lbs"), "pound"),
        },
        "length": {
            **dict.fromkeys(("m", "metre", "metres"), "metre"),
            "mm": "millimetre",
            "cm": "centimetre",
            "km": "kilometre",
            **dict.fromkeys(("in", "inch", "inches"), "inch"),
            "ft": "foot",
            **dict.fromkeys(("mile", "miles"), "mile"),
        },
        "area": {
            **dict.fromkeys(("m2", "m²"), "metre**2"),
            **dict.fromkeys(("cm2", "cm²"), "centimetre**2"),
            **dict.fromkeys(("mm2", "mm²"), "millimetre**2"),
        },
        "volume": {
            **dict.fromkeys(("l", "L", "litre", "litres"), "litre"),
            **dict.fromkeys(("ml", "mL"), "millilitre"),
            **dict.fromkeys(("m3", "m³"), "metre**3"),
            **dict.fromkeys(("cm3", "cm³"), "centimetre**3"),
        },
        "volume flow": {
            **dict.fromkeys(("l/min", "L/min", "litres/min"), "litre/minute"),
            **dict.fromkeys(("l/h", "L/h"), "litre/hour"),
            **dict.fromkeys(("l/s", "L/s"), "litre/second"),
            **dict.fromkeys(("m3/h", "m³/h"), "metre**3/hour"),
            **dict.fromkeys(("m3/s", "m³/s"), "metre**3/second"),
        },
        "mass flow": {"g/h": "gram/hour", "kg/h": "kilogram/hour", "g/min": "gram/minute", "kg/s": "kilogram/second"},
        "pressure": {
            **dict.fromkeys(("bar", "Bar"), "bar"),
            **dict.fromkeys(("mbar", "mBar"), "millibar"),
            **dict.fromkeys(("psi", "PSI"), "psi"),
            "Pa": "pascal",
            "hPa": "hectopascal",
            "kPa": "kilopascal",
            "MPa": "megapascal",
        },
        "temperature": {
            **dict.fromkeys(("°C", "degC", "C", "celsius"), "degC"),
            **dict.fromkeys(("°F", "degF", "F", "fahrenheit"), "degF"),
            **dict.fromkeys(("K", "kelvin"), "kelvin"),
        },
        "time": {
            **dict.fromkeys(("s", "second", "seconds"), "second"),
            **dict.fromkeys(("min", "minute", "minutes"), "minute"),
            **dict.fromkeys(("h", "hour", "hours"), "hour"),
            **dict.fromkeys(("day", "days"), "day"),
            **dict.fromkeys(("week", "weeks"), "week"),
            **dict.fromkeys(("month", "months"), "month"),
            **dict.fromkeys(("year", "years"), "year"),
            "ms": "millisecond",
        },
        "power": {
            **dict.fromkeys(("W", "w", "watt", "watts", "Wp"), "watt"),
            **dict.fromkeys(("kW", "KW"), "kilowatt"),
            "VA": "volt*ampere",
        },
        "energy": {
            **dict.fromkeys(("Wh", "wh"), "watt*hour"),
            **dict.fromkeys(("kWh", "KWh"), "kilowatt*hour"),
            "J": "joule",
            "kJ": "kilojoule",
            "MJ": "megajoule",
        },
        "charge": {**dict.fromkeys(("Ah", "AH", "ah"), "ampere*hour"), "mAh": "milliampere*hour"},
        "current": {**dict.fromkeys(("A", "amp", "amps"), "ampere"), "mA": "milliampere"},
        "voltage": {
            **dict.fromkeys(("V", "v", "volt", "volts"), "volt"),
            "mV": "millivolt",
            "kV": "kilovolt",
        },
        "resistance": {
            **dict.fromkeys(("Ω", "ohm", "ohms"), "ohm"),
            **dict.fromkeys(("mΩ", "mohm"), "milliohm"),
            **dict.fromkeys(("kΩ", "kohm"), "kiloohm"),
            **dict.fromkeys(("MΩ", "Mohm"), "megaohm"),
        },
        "torque": {
            **dict.fromkeys(("N·m", "Nm", "N m", "newton*metre"), "newton*metre"),
            **dict.fromkeys(("lbf·ft", "lbf ft", "lb ft", "lb·ft", "ft lb"), "lbf*ft"),
        },
        "force": {"N": "newton", "kN": "kilonewton", "kgf": "kilogram_force", "lbf": "lbf"},
        "speed": {"mph": "mile/hour", "km/h": "kilometre/hour", "m/s": "metre/second"},
        "frequency": {"Hz": "hertz", "kHz": "kilohertz"},
        "share": {"%": "percent", "percent": "percent"},
        "angle": {**dict.fromkeys(("°", "deg", "degrees"), "degree"), "rad": "radian"},
        "heat transmission": dict.fromkeys(("W/m2K", "W/m²K", "W/(m2K)", "W/(m²K)"), "watt/metre**2/kelvin"),
        "heat loss": {"W/K": "watt/kelvin"},
        "specific heat": {"kJ/kgK": "kilojoule/kilogram/kelvin", "J/kgK": "joule/kilogram/kelvin"},
        "cornering stiffness": {"N/rad": "newton/radian"},
        "yaw inertia": {"kg m2": "kilogram*metre**2", "kg m²": "kilogram*metre**2", "kg·m²": "kilogram*metre**2"},
        "damping": {"N s/m": "newton*second/metre", "N·s/m": "newton*second/metre"},
        "stiffness": {"N/m": "newton/metre", "N/mm": "newton/millimetre", "kN/m": "kilonewton/metre"},
    }
)
_SPELLINGS = {written: name for sort in SORTS.values() for written, name in sort.items()}
# The unit library would take these as the American measures; in Britain they are others.
_AMBIGUOUS = frozenset({"gallon", "gallons", "gal", "gals", "pint", "pints", "pt", "fl oz", "ton", "tons", "cwt"})


class UnitError(ValueError):
    """A text is not a quantity of the wanted sort; the message says what was found and what is allowed."""


@cache
def registry() -> pint.UnitRegistry[Any]:
    """The one unit registry of the program (built once; the import is slow)."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@cache
def _unit(name: str) -> Any:
    name = name.strip()
    if name == PURE:
        return registry().Unit("dimensionless")
    spelled = _SPELLINGS.get(name)
    if spelled is None and (not _CODE_UNIT.match(name) or _POWER.search(name.replace(" ", ""))):
        raise UnitError(f"{quoted(name)} is not a unit this program knows")
    return registry().Unit(spelled or name)


@cache
def sort_of(unit: str) -> str:
    """The sort a unit belongs to, or nothing when it is in none of ``SORTS``.

    >>> sort_of("Wh"), sort_of("N·m")
    ('energy', 'torque')
    """
    return next((sort for sort, spellings in SORTS.items() if unit.strip() in spellings), "")


def spellings(unit: str) -> tuple[str, ...]:
    """Every way to write a unit of the same sort as ``unit``; a unit of no known sort is written as itself only.

    >>> spellings("A")
    ('A', 'amp', 'amps', 'mA')
    """
    return tuple(SORTS.get(sort_of(unit), {unit.strip(): unit}))


def some_units(unit: str) -> str:
    """A few units of the same sort for a message, the wanted one first.

    >>> some_units("psi")
    'psi, bar, mbar or Pa'
    """
    seen: dict[str, str] = {_SPELLINGS.get(unit, unit): unit}
    for written in spellings(unit):
        seen.setdefault(_SPELLINGS.get(written, written), written)
    names = list(seen.values())[:4]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


@cache
def si_unit(unit: str) -> str:
    """The SI unit in which quantities written in ``unit`` are held.

    >>> si_unit("psi"), si_unit("degC"), si_unit("l/min"), si_unit("%")
    ('kg / m / s ** 2', 'K', 'm ** 3 / s', '1')
    """
    held = registry().Quantity(1.0, _unit(unit)).to_base_units()
    return f"{held.units:~C}".replace("/", " / ").replace("**", " ** ") or PURE


def _split(text: str, unit: str) -> tuple[float, str]:
    text = text.strip()
    found = _QUANTITY.fullmatch(text)
    if not found or len(text) > LONGEST:
        raise UnitError(f"{quoted(text)} is not a number with a unit; write it for example “12 {unit}”")
    if _DECIMAL_COMMA.match(found[2]):
        raise UnitError(f"{quoted(text)} has a decimal comma; write a point: {quoted(text.replace(',', '.', 1))}")
    if _POWER_OF_TEN.match(found[2]):
        raise UnitError(f"{quoted(text)} is not in plain digits; write it for example “12 {unit}”")
    return float(re.sub(r"[ _,\u00a0\u202f]", "", found[1]).replace("−", "-")), found[2]


def _check_unit(text: str, written: str, unit: str) -> None:
    if not written:
        raise UnitError(f"{quoted(text)} has no unit; write it for example {quoted(f'{text.strip()} {unit}')}")
    if written in spellings(unit):
        return
    if written.lower() in _AMBIGUOUS:
        raise UnitError(f"{quoted(written)} means one thing in Britain and another in America; use {some_units(unit)}")
    if written in _SPELLINGS:
        sort = sort_of(unit)
        wanted = f"a unit of {sort}" if sort else "the unit wanted here"
        raise UnitError(f"{quoted(text)} is in {written}, which is not {wanted}; use {some_units(unit)}")
    raise UnitError(f"{quoted(written)} is not a unit this program knows; use {some_units(unit)}")


def parse(text: object, unit: str) -> Quantity:
    """Read ``text`` as a quantity of the same sort as ``unit`` and hold it in SI.

    A number in plain digits (a point for decimals, thousands in groups of three), then one of ``spellings(unit)``.
    Raises UnitError when it is not text, has no unit, has a unit of another sort, is not finite or is below absolute zero.

    One pound per square inch is 6894.757 Pa (NIST SP 811, appendix B; from memory): 65 of them are 448159 Pa.

    >>> parse("65 psi", "bar").si
    448159.2...
    >>> parse("1,500 kg", "kg").si
    1500.0
    """
    if not isinstance(text, str):
        raise UnitError(f"{quoted(text)} has no unit; write it as people do, for example “12 {unit}”")
    number, written = _split(text, unit)
    _check_unit(text, written, unit)
    if not math.isfinite(number):
        raise UnitError(f"{quoted(text)} is not a finite number; write the figure in plain digits")
    held = float(registry().Quantity(number, _unit(written)).to_base_units().magnitude)
    if not math.isfinite(held):
        raise UnitError(f"{quoted(text)} is not a finite number; write the figure in plain digits")
    if held < 0 and sort_of(unit) == "temperature":
        raise UnitError(f"{quoted(text)} is below absolute zero; check the sign and the unit")
    # Fifteen digits: what a conversion adds beyond them (10 l as 0.010000000000000002 m³) was never written.
    return Quantity(si=float(f"{held:.15g}"), unit=si_unit(unit), written=text.strip())


def to(si: float, unit: str) -> float:
    """An SI figure in ``unit``.

    >>> round(to(448159.2, "psi"), 1)
    65.0
    """
    base = _unit("kelvin") if sort_of(unit) == "temperature" else _unit(si_unit(unit))
    return float(registry().Quantity(si, base).to(_unit(unit)).magnitude)


def show(si: float, unit: str, digits: int = 3) -> str:
    """An SI figure as text in ``unit``, to so many significant digits, without a needless tail.

    >>> show(0.010, "l"), show(1500.0, "kg"), show(288.15, "degC")
    ('10 l', '1500 kg', '15 °C')
    """
    value = to(si, unit)
    text = f"{value:.0f}" if abs(value) >= 10**digits else f"{Decimal(f'{value:.{digits}g}'):f}"
    return f"{text} {'°C' if unit == 'degC' else unit}"
