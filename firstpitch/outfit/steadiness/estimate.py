"""From sheets to rigs: what the sheets give stands, what they do not give is drawn from stated ranges."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from firstpitch.figures import get, rows
from firstpitch.outfit.limits import car_mass
from firstpitch.outfit.masses import Laden, laden, springs_of
from firstpitch.outfit.statics import support
from firstpitch.outfit.steadiness.model import Floats, Rig
from firstpitch.outfit.verdict import Span
from firstpitch.sheet.units import parse

if TYPE_CHECKING:
    from collections.abc import Mapping

    from firstpitch.outfit.types import Outfit


LIFTED = 0.05
"""Least share of its load that an axle is taken to keep, so that a lifted one does not divide by nothing."""


@dataclass(frozen=True)
class Range:
    """What is drawn: from ``low`` to ``high``, most often near ``likely`` (SI)."""

    id: str
    what: str
    low: float
    likely: float
    high: float


@cache
def ranges() -> Mapping[str, Range]:
    """The stated ranges by id."""
    return {
        row["id"]: Range(row["id"], row["what"], *(_number(row[end]) for end in ("low", "likely", "high")))
        for row in rows("steadiness.ranges")
    }


def _number(text: str) -> float:
    _, _, unit = text.partition(" ")
    return parse(text, unit).si if unit else float(text)


@dataclass(frozen=True)
class Drawn:
    """The unknown figures of n samples. The same draws serve every loading, so that only the loading differs."""

    samples: int
    uniform: Mapping[str, Floats]

    def of(self, key: str, span: Range | None = None) -> Floats:
        """A figure drawn from its range, triangular about the likely one."""
        found = span or ranges()[key]
        u, width = self.uniform[key], found.high - found.low
        if width <= 0:
            return np.full(self.samples, found.likely)
        turn = (found.likely - found.low) / width
        up = found.low + np.sqrt(u * width * (found.likely - found.low))
        down = found.high - np.sqrt((1 - u) * width * (found.high - found.likely))
        return np.where(u < turn, up, down)


def draw(samples: int, seed: int) -> Drawn:
    """The draws of a seed; at least one sample."""
    if samples < 1:
        raise ValueError("at least one sample is needed")
    chance = np.random.default_rng(seed)
    names = (*ranges(), "empty_nose", "loose")
    return Drawn(samples, {name: chance.random(samples) for name in names})


@dataclass(frozen=True)
class VanFigures:
    """What of the van goes into the model, per sample: mass [kg], noseweight [kg], centre of gravity [m], yaw inertia [kg·m²]."""

    mass: Floats
    nose: Floats
    centre: Floats
    inertia: Floats


def van_figures(outfit: Outfit, van: Laden, drawn: Drawn) -> VanFigures:
    """The loaded van: yaw inertia from where each thing lies, plus the empty van's own."""
    likely = van.empty.mass.middle if van.empty.mass.bounded else van.empty.mass.low
    empty_mass = np.full(drawn.samples, likely)
    empty_nose = _within(van.empty.nose, drawn, "empty_nose")
    mean = sum(outfit.van.gear.axles) / len(outfit.van.gear.axles)
    empty_x = mean * (1 - empty_nose / empty_mass)
    masses = np.array([line.mass.middle if line.mass.bounded else 0.0 for line in van.lines])
    x = np.array([line.x.middle for line in van.lines])
    y = np.array([line.y for line in van.lines])
    total = empty_mass + masses.sum()
    centre = (empty_mass * empty_x + float(masses @ x)) / total
    own = (drawn.of("van_turning") * outfit.van.body.length) ** 2 * empty_mass
    spread = masses @ ((x[:, None] - centre[None, :]) ** 2 + (y**2)[:, None]) if len(masses) else np.zeros_like(total)
    inertia = own + empty_mass * (empty_x - centre) ** 2 + spread
    nose = total * (1 - centre / mean)
    return VanFigures(total, nose, centre, inertia)


def _within(span: Span, drawn: Drawn, key: str) -> Floats:
    if span.exact or not span.bounded:
        return np.full(drawn.samples, span.low)
    return span.low + drawn.uniform[key] * (span.high - span.low)


@dataclass(frozen=True)
class Estimated:
    """The rigs of one loading, what they rest on, and what was drawn because no sheet gives it."""

    rig: Rig
    van: VanFigures
    drawn: tuple[Range, ...]
    unknown: tuple[str, ...]


def estimate(outfit: Outfit, drawn: Drawn) -> Estimated:
    """n rigs for one loading.

    Cornering stiffness is taken to grow with load as C = c·F₀·(F/F₀)^p, F₀ being the axle's load without the caravan and,
    for the caravan, its laden mass on the plate: so noseweight that loads the car's rear axle is felt there.
    """
    van, car, gravity = laden(outfit), outfit.car, get("towing.gravity").si
    figures = van_figures(outfit, van, drawn)
    used: list[str] = [
        "car_turning",
        "car_front_stiffness",
        "car_rear_ratio",
        "van_stiffness",
        "load_power",
        "van_turning",
    ]
    mass = _car_mass(outfit, drawn, used)
    wheelbase = _given(car.wheelbase, "wheelbase", drawn, used)
    overhang = _given(car.overhang, "overhang", drawn, used)
    share = _front_share(outfit, drawn, used)
    b, a = share * wheelbase, (1 - share) * wheelbase
    power, front = drawn.of("load_power"), drawn.of("car_front_stiffness")
    front_load, rear_load = mass * share * gravity, mass * (1 - share) * gravity
    front_now = front_load - figures.nose * gravity * overhang / wheelbase
    rear_now = rear_load + figures.nose * gravity * (wheelbase + overhang) / wheelbase
    cf = front * front_load * np.maximum(front_now / front_load, LIFTED) ** power
    cr = front * drawn.of("car_rear_ratio") * rear_load * np.maximum(rear_now / rear_load, LIFTED) ** power
    ct, ctl, ctl2 = _van_stiffness(outfit, figures, drawn.of("van_stiffness"), power)
    rig = Rig(
        mass,
        drawn.of("car_turning") * mass * a * b,
        a,
        b,
        b + overhang,
        cf,
        cr,
        figures.mass,
        figures.inertia,
        figures.centre,
        ct,
        ctl,
        ctl2,
    )
    return Estimated(rig, figures, tuple(ranges()[key] for key in used), (*van.unknown, *van.assumed))


def _given(value: float | None, key: str, drawn: Drawn, used: list[str]) -> Floats:
    if value is not None:
        return np.full(drawn.samples, value)
    used.append(key)
    return drawn.of(key)


def _car_mass(outfit: Outfit, drawn: Drawn, used: list[str]) -> Floats:
    span, _ = car_mass(outfit.car)
    if span.exact:
        return np.full(drawn.samples, span.low)
    used.append("car_mass")
    if span.bounded and span.low > 0:
        return drawn.of("car_mass", Range("car_mass", "", span.low, span.middle, span.high))
    return drawn.of("car_mass")


def _front_share(outfit: Outfit, drawn: Drawn, used: list[str]) -> Floats:
    front, rear = outfit.car.front.load, outfit.car.rear.load
    if front is None or rear is None:
        return _given(None, "front_share", drawn, used)
    return np.full(drawn.samples, front / (front + rear))


def _van_stiffness(outfit: Outfit, figures: VanFigures, each: Floats, power: Floats) -> tuple[Floats, Floats, Floats]:
    """ΣC, ΣC·l, ΣC·l² over the axles, each with its share of the load."""
    axles, gravity = outfit.van.gear.axles, get("towing.gravity").si
    reference = outfit.van.masses.mtplm * gravity / len(axles)
    even = support([], [(1.0, sum(axles) / len(axles))], axles, springs_of(outfit)[-1])
    shares = np.array(even.axles) / sum(even.axles)
    loads = [(figures.mass - figures.nose) * gravity * part for part in shares]
    stiff = [each * reference * np.maximum(load / reference, LIFTED) ** power for load in loads]
    return (
        np.sum(stiff, axis=0),
        np.sum([c * at for c, at in zip(stiff, axles, strict=True)], axis=0),
        np.sum([c * at * at for c, at in zip(stiff, axles, strict=True)], axis=0),
    )
