"""What sort of figure a unit measures, told without the units library, whose import is slow, for the units in everyday use."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from firstpitch.sheet.units import si_unit

# The first unit of each sort is the one offered in messages. A test holds every entry against the units library.
SORTS: Final[Mapping[str, tuple[str, ...]]] = {
    "a volume": ("l", "L", "litre", "ml", "m3", "m³"),
    "a flow": ("l/min", "L/min", "litre/minute", "l/h"),
    "a mass": ("kg", "g", "t", "tonne"),
    "a mass flow": ("g/h", "kg/h"),
    "a power": ("W", "kW", "Wp", "watt"),
    "an energy": ("Wh", "kWh"),
    "a charge": ("Ah", "mAh"),
    "a current": ("A", "mA"),
    "a voltage": ("V", "mV"),
    "a temperature": ("degC", "°C"),
    "a length": ("m", "mm", "cm"),
    "an area": ("mm2", "mm²", "m2", "m²"),
    "a force": ("N", "kN"),
    "a pressure": ("bar", "mbar", "psi", "kPa"),
    "a time": ("s", "ms", "min", "h", "day", "month", "year"),
    "a torque": ("N·m", "Nm", "N m", "lbf ft"),
    "a resistance": ("ohm", "MΩ", "Ω"),
    "a frequency": ("Hz",),
    "a share": ("%", "percent"),
}
_SORT_OF: Final = {unit: sort for sort, units in SORTS.items() for unit in units}


@cache
def sort_of(unit: str) -> str | None:
    """The sort of figure written in ``unit``; ``"another sort"`` for a unit none of these has, None for no unit at all.

    >>> sort_of("l/min"), sort_of("kilogram/second"), sort_of("furlong/fortnight"), sort_of("splodge")
    ('a flow', 'a mass flow', 'another sort', None)
    """
    if unit in _SORT_OF:
        return _SORT_OF[unit]
    try:
        written = si_unit(unit)
    except Exception:  # the units library raises many kinds for a text that is no unit
        return None
    return next((sort for sort, units in SORTS.items() if si_unit(units[0]) == written), "another sort")
