"""How steady one loading is beside another. A comparison: it certifies no speed, and every answer says so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from firstpitch.figures import Figure, get
from firstpitch.outfit.steadiness.estimate import Estimated, Range, draw, estimate
from firstpitch.outfit.steadiness.model import (
    DIVERGENCE,
    SNAKING,
    Characteristic,
    Floats,
    characteristic,
    critical_speed,
    swing_at,
)
from firstpitch.outfit.verdict import shown

if TYPE_CHECKING:
    from firstpitch.outfit.types import Outfit

CAUTION = (
    "This compares loadings with a simple model. It certifies no speed: tyres, springs, driver, wind, road and stabiliser are "
    "not in it. Keep to the speed limits, and slow down gently if the caravan begins to swing."
)
SAMPLES = 10_000
CURVE_SAMPLES = 400
TOP = 200 / 3.6
"""Speeds above this are of no use to anybody and count as "none found" [m/s]."""
CURVE = tuple(float(speed) / 3.6 for speed in range(40, 141, 10))
MARKS = (10.0, 50.0, 90.0)
CLEAR = 0.9
HAIR = 1e-9  # m/s
ONE_PER_CENT = 0.01


@dataclass(frozen=True)
class Band:
    """Of all samples 10 %, 50 % and 90 % lie below ``low``, ``middle`` and ``high``."""

    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class Loss:
    """How steadiness is lost, as shares of the samples: by ``snaking``, by ``divergence`` (jack-knife), or ``none`` up to 200 km/h."""

    snaking: float
    divergence: float
    none: float


@dataclass(frozen=True)
class Steadiness:
    """One loading: noseweight and mass [kg], yaw inertia [kg·m²]; the model's critical speed [m/s]; at ``speed`` damping and
    swings a second [Hz]; and for drawing, damping over ``speeds``."""

    name: str
    mass: float
    nose: float
    inertia: float
    critical: Band
    loss: Loss
    speed: float
    damping: Band
    frequency: Band
    speeds: tuple[float, ...]
    curve: tuple[Band, ...]
    sentence: str


@dataclass(frozen=True)
class Compared:
    """A loading beside the first: in what share of samples it is ``steadier``, in what share ``worse``, in what share neither
    loses its steadiness as far as the model looks (``both``); its ``gain`` [m/s]; in a sentence."""

    name: str
    steadier: float
    worse: float
    both: float
    gain: Band
    sentence: str


@dataclass(frozen=True)
class SteadinessComparison:
    """All loadings, those after the first compared with it; what was drawn from which range; what the sheets leave open."""

    loadings: tuple[Steadiness, ...]
    compared: tuple[Compared, ...]
    drawn: tuple[Range, ...]
    unknown: tuple[str, ...]
    figures: tuple[Figure, ...]
    samples: int
    seed: int
    caution: str = CAUTION


def compare_steadiness(
    loadings: Mapping[str, Outfit], *, speed: float = 80 / 3.6, samples: int = SAMPLES, seed: int = 0
) -> SteadinessComparison:
    """How steady each loading is. ``speed`` [m/s] is the one at which damping is given; ``seed`` fixes the draws.

    The same unknown tyres and cars are drawn for every loading, so that what differs is the loading. Raises ValueError
    without a loading, for a speed not above zero, or for no samples.
    """
    if not loadings:
        raise ValueError("there is no loading to judge")
    if not speed > 0:
        raise ValueError("the speed must be above zero")
    drawn = draw(samples, seed)
    estimates = {name: estimate(outfit, drawn) for name, outfit in loadings.items()}
    judged = [_one(name, estimated, speed) for name, estimated in estimates.items()]
    found, speeds = [one for one, _ in judged], [critical for _, critical in judged]
    ranges = {one.id: one for estimated in estimates.values() for one in estimated.drawn}
    unknown = dict.fromkeys(name for estimated in estimates.values() for name in estimated.unknown)
    return SteadinessComparison(
        loadings=tuple(found),
        compared=tuple(_against(found[0], other, speeds[0], speeds[n]) for n, other in enumerate(found) if n),
        drawn=tuple(ranges.values()),
        unknown=tuple(unknown),
        figures=(get("steadiness.no_certificate"), get("steadiness.ranges")),
        samples=samples,
        seed=seed,
    )


def _band(values: Floats) -> Band:
    low, middle, high = np.percentile(values, MARKS)
    return Band(float(low), float(middle), float(high))


def _one(name: str, estimated: Estimated, speed: float) -> tuple[Steadiness, Floats]:
    """One loading, and each sample's critical speed cut off at the top [m/s]."""
    poly, van = characteristic(estimated.rig), estimated.van
    critical, loss = critical_speed(estimated.rig)
    swing = swing_at(poly, speed)
    lost = critical <= TOP
    capped = np.minimum(critical, TOP)
    shares = Loss(
        float(((loss == SNAKING) & lost).mean()), float(((loss == DIVERGENCE) & lost).mean()), float((~lost).mean())
    )
    few = Characteristic(*(np.broadcast_to(value, critical.shape)[:CURVE_SAMPLES] for value in vars(poly).values()))
    band, damping = _band(capped), _band(swing.damping)
    steadiness = Steadiness(
        name=name,
        mass=float(van.mass.mean()),
        nose=float(van.nose.mean()),
        inertia=float(van.inertia.mean()),
        critical=band,
        loss=shares,
        speed=speed,
        damping=damping,
        frequency=_band(swing.frequency),
        speeds=CURVE,
        curve=tuple(_band(swing_at(few, at).damping) for at in CURVE),
        sentence=_sentence(name, band, shares, damping, speed),
    )
    return steadiness, capped


def _sentence(name: str, band: Band, loss: Loss, damping: Band, speed: float) -> str:
    how = "snaking" if loss.snaking >= loss.divergence else "divergence (the car turning in under the caravan)"
    at = shown(speed, "km/h")
    dies = (
        "a swing dies away" if damping.low > 0 else "a swing may not die away" if damping.high > 0 else "a swing grows"
    )
    if loss.none >= CLEAR:
        return f"{name}: in the model {dies} at {at}, and no loss of steadiness is found up to 200 km/h. {NO_SPEED}"
    low, high = shown(band.low, "km/h"), shown(band.high, "km/h")
    above = " or more" if band.high >= TOP else ""
    return (
        f"{name}: in the model {dies} at {at}; steadiness is lost somewhere between {low} and {high}{above}, mostly by {how}. "
        f"{NO_SPEED}"
    )


NO_SPEED = "This certifies no speed."


def _against(first: Steadiness, other: Steadiness, before: Floats, after: Floats) -> Compared:
    gained = after - before
    seen = np.abs(gained) > HAIR
    found = Compared(
        other.name,
        steadier=float((gained > HAIR).mean()),
        worse=float((gained < -HAIR).mean()),
        both=float(((before >= TOP - HAIR) & (after >= TOP - HAIR)).mean()),
        gain=_band(gained),
        sentence="",
    )
    amount = float(np.median(np.abs(gained[seen]))) if seen.any() else 0.0
    return replace(found, sentence=f"{_beside(first.name, found, amount)}. {NO_SPEED}")


def _beside(first: str, found: Compared, amount: float) -> str:
    """Which of two loadings is the steadier, in words; ``amount`` [m/s] is the middle of the differences that are seen.

    It is clear where nearly all samples that show a difference agree, and there are enough of them.
    """
    other, top, seen = found.name, shown(TOP, "km/h"), found.steadier + found.worse
    if seen > 1 - CLEAR and max(found.steadier, found.worse) >= CLEAR * seen:
        better, share = ("steadier", found.steadier) if found.steadier > found.worse else ("less steady", found.worse)
        rest = f"; no difference is seen up to {top} in {_share(1 - seen)}" if 1 - seen >= ONE_PER_CENT else ""
        least = shown(amount, "km/h")
        by = f"by {'less than 1 km/h' if least == '0 km/h' else f'about {least}'} where a difference is seen"
        return f"{other} is {better} than {first}, {by} ({better} in {_share(share)} of the samples{rest})"
    if found.both >= CLEAR:
        start = f"The model cannot tell {other} and {first} apart"
        return f"{start}: in {_share(found.both)} of the samples neither loses its steadiness up to {top}, and it looks no higher"
    if 1 - seen >= CLEAR:
        return (
            f"{other} and {first} are equally steady in the model (no difference in {_share(1 - seen)} of the samples)"
        )
    parts = [
        (f"{other} is the steadier in", found.steadier),
        (f"{first} is the steadier in", found.worse),
        (f"no difference is seen up to {top} in", 1 - seen),
    ]
    shares = ", ".join(f"{words} {_share(share)}" for words, share in parts if round(share, 2) > 0)
    return f"Whether {other} or {first} is steadier cannot be said from these sheets ({shares} of the samples)"


def _share(share: float) -> str:
    """A share in whole per cent that never reads as all or nothing when it is not.

    >>> _share(0.4), _share(0.9999), _share(1.0), _share(0.001)
    ('40 %', 'more than 99 %', '100 %', 'less than 1 %')
    """
    if 0 < share < ONE_PER_CENT:
        return "less than 1 %"
    if 1 - ONE_PER_CENT < share < 1:
        return "more than 99 %"
    return f"{share:.0%}".replace("%", " %")
