"""How long waits take: from the sheet's figures and physics, never a constant where a figure exists."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from firstpitch import figures
from firstpitch.catalogue.types import Duration
from firstpitch.sheet.types import FactValue, Quantity
from firstpitch.sheet.units import parse

ROUNDING = 1e-6  # seconds: a duration that is whole but for the arithmetic is not rounded up to the next


def heating_seconds(volume: float, power: float, cold: float, hot: float, efficiency: float = 1.0) -> float:
    """Time to heat water [s]: t = ρ·V·c·(T2 − T1) / (P·η), no losses.

    ``volume`` [m³] > 0, ``power`` [W] > 0, temperatures [K], ``efficiency`` 0 < η ≤ 1. Returns 0 when it is hot enough already.
    Raises ValueError outside those ranges. Density and specific heat: IAPWS-95 at 1 atm.

    Ten litres from 15 °C to 60 °C at 850 W: 36.9 minutes (enthalpy difference by IAPWS-95: 1880 kJ).

    >>> round(heating_seconds(0.010, 850, 288.15, 333.15) / 60, 1)
    36.9
    """
    if volume <= 0 or power <= 0 or not 0 < efficiency <= 1:
        raise ValueError("volume and power must be above zero and efficiency between 0 and 1")
    mass = volume * figures.get("water.density").si
    return max(0.0, mass * figures.get("water.specific_heat").si * (hot - cold) / (power * efficiency))


def flow_seconds(volume: float, flow: float) -> float:
    """Time to fill or drain [s]: V / Q, ``volume`` [m³] > 0, ``flow`` [m³/s] > 0; ValueError otherwise.

    >>> flow_seconds(0.040, 0.010 / 60)
    240.0
    """
    if volume <= 0 or flow <= 0:
        raise ValueError("volume and flow must be above zero")
    return volume / flow


@dataclass(frozen=True)
class UnknownTerm:
    """A duration that cannot be worked out, and the figure that is missing (``kit.fact`` or a sheet field)."""

    term: str


Look = Callable[[str], FactValue | None]


def _number(term: str | float, look: Look) -> float | UnknownTerm:
    if isinstance(term, int | float):
        return float(term)
    if term[:1].isdigit() or term[:1] in "-.":
        return _literal(term)
    found = look(term)
    if isinstance(found, Quantity):
        return found.si
    if isinstance(found, int) and not isinstance(found, bool):
        return float(found)
    return UnknownTerm(term)


def _literal(text: str) -> float:
    unit = text.lstrip("-.0123456789, ")
    return parse(text, unit).si


def wait_seconds(duration: Duration, look: Look) -> int | UnknownTerm:
    """Whole seconds (rounded up, at least 1) of a wait; ``look`` gives a fact, ``link.fact`` or ``cold_water``, or None."""
    if duration.by == "fixed":
        return max(1, math.ceil(float(duration.terms["seconds"])))
    values: dict[str, float] = {}
    for name, term in duration.terms.items():
        value = _number(term, look)
        if isinstance(value, UnknownTerm):
            return value
        values[name] = value
    return max(1, math.ceil(_RULES[duration.by](values) - ROUNDING))


def _heating(v: Mapping[str, float]) -> float:
    return heating_seconds(v["volume"], v["power"], v["from"], v["to"], v.get("efficiency", 1.0))


def _flowing(v: Mapping[str, float]) -> float:
    return flow_seconds(v["volume"], v["flow"])


_RULES: Mapping[str, Callable[[Mapping[str, float]], float]] = {
    "heating": _heating,
    "filling": _flowing,
    "draining": _flowing,
}
