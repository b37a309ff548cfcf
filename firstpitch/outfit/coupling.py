"""The coupling: noseweight limits and bands, and the D value."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from firstpitch.figures import get
from firstpitch.outfit.judged import Asked, cannot_say, judge, stated
from firstpitch.outfit.limits import towing_limit
from firstpitch.outfit.verdict import Verdict, compare, exactly, shown, shown_span, tight_share
from firstpitch.sheet.types import Quantity

if TYPE_CHECKING:
    from firstpitch.outfit.masses import Laden
    from firstpitch.outfit.types import Outfit

NO_OWN_RULE = ("GB",)
"""Countries of which we know that they set no least noseweight of their own (the trade body's guide gives a guideline only)."""


@dataclass(frozen=True)
class NoseLimit:
    """One part's noseweight limit [kg]; None is unknown."""

    part: str
    limit: float | None
    source: str


@dataclass(frozen=True)
class NoseBand:
    """All that bears on the noseweight [kg]: every limit, the ruling one, the least by law, the guideline, the preferred band.

    ``ruling`` is the least of the limits that are known, None if none is; ``unknown`` names the parts whose limit is not known.
    ``preferred`` is the guideline cut off at ``least`` and clear of ``ruling`` by what would be called tight; where that leaves
    nothing of it, the point nearest to it.
    """

    limits: tuple[NoseLimit, ...]
    ruling: float | None
    unknown: tuple[str, ...]
    least: float | None
    guideline: tuple[float, float]
    preferred: tuple[float, float]


def d_value(car: float, trailer: float) -> float:
    """D value of an outfit [N] from the greatest masses of car and trailer [kg]: g·T·R/(T + R), UN Regulation No. 55.

    Printed: 18 t and 22 t give 97 kN.

    >>> round(d_value(18_000, 22_000))
    97119
    """
    if car <= 0 or trailer <= 0:
        raise ValueError("both masses must be above zero")
    return get("towing.gravity").si * car * trailer / (car + trailer)


def largest_trailer(d: float, car: float) -> float:
    """The heaviest trailer [kg] that a coupling of D value ``d`` [N] allows behind a car of ``car`` [kg]; infinite if any.

    >>> round(largest_trailer(7800, 2200), 3)
    1245.102
    """
    room = get("towing.gravity").si * car - d
    return car * d / room if room > 0 else math.inf


def least_noseweight_germany(mass: float) -> float:
    """The least noseweight in Germany [kg] for a trailer of ``mass`` actual [kg] up to 3,500 kg: 4 %, but 25 kg is enough.

    StVZO § 44(3). Printed answer for 600 kg: 24 kg.

    >>> least_noseweight_germany(600), least_noseweight_germany(1400)
    (24.0, 25.0)
    """
    return min(get("towing.de_nose_share").si * mass, get("towing.de_nose_enough").si)


def least_car_rating(towable: float) -> float:
    """The least noseweight rating [kg] a car must have to tow ``towable`` [kg]: 4 % and never below 25 kg (second-hand).

    A printed example: 3500 kg asks for 140 kg.

    >>> least_car_rating(3500), least_car_rating(500)
    (140.0, 25.0)
    """
    return max(get("towing.eu_rating_share").si * towable, get("towing.eu_rating_least").si)


def nose_limits(outfit: Outfit) -> tuple[NoseLimit, ...]:
    """The limit of every part that carries the noseweight, known or not."""
    head = [kit.facts.get("s_value") for kit in outfit.van.kit if _has(outfit, kit.kind, "s_value")]
    known = [fact.si for fact in head if isinstance(fact, Quantity)]
    car = outfit.car
    return (
        NoseLimit("the car", car.noseweight_limit, "car sheet: noseweight_limit"),
        NoseLimit("the towbar", car.towbar.noseweight_limit, "car sheet: towbar.noseweight_limit"),
        NoseLimit("the caravan's hitch", min(known) if known else None, "build sheet: kit facts s_value"),
        NoseLimit("the caravan", outfit.van.masses.noseweight_limit, "build sheet: masses.noseweight_limit"),
    )


def _has(outfit: Outfit, kind: str, fact: str) -> bool:
    found = outfit.kinds.get(kind)
    return found is not None and fact in found.facts


def nose_band(outfit: Outfit, mass: float) -> NoseBand:
    """Limits and bands for a caravan of actual ``mass`` [kg]."""
    limits = nose_limits(outfit)
    known = [one.limit for one in limits if one.limit is not None]
    ruling = min(known) if known else None
    low, high = get("towing.guideline_nose_low").si * mass, get("towing.guideline_nose_high").si * mass
    german = outfit.journey.country == "DE" and mass <= get("towing.de_nose_trailer").si
    least = least_noseweight_germany(mass) if german else None
    top = min(high, ruling * (1 - tight_share())) if ruling is not None else high
    bottom = min(max(low, least or 0.0), top)
    return NoseBand(
        limits, ruling, tuple(one.part for one in limits if one.limit is None), least, (low, high), (bottom, top)
    )


def coupling_verdicts(outfit: Outfit, laden: Laden) -> tuple[Verdict, ...]:
    """Every verdict on the coupling."""
    mass = laden.mass.middle if laden.mass.bounded else laden.mass.low
    band = nose_band(outfit, mass)
    return (
        _ruling(laden, band),
        _least(outfit, laden),
        _guideline(laden, band),
        _rating(outfit),
        *_d_values(outfit),
    )


def _ruling(laden: Laden, band: NoseBand) -> Verdict:
    """Above the least known limit it does not fit; below it an unknown limit still keeps it from fitting."""
    rules = next((one for one in band.limits if one.limit == band.ruling), None)
    asked = Asked(
        "noseweight",
        "Noseweight",
        "maker's limit",
        "The noseweight is",
        f"the least limit, that of {rules.part}, is" if rules else "the least limit is",
        advice="Move load back towards the axle, or leave something at home.",
        figures=("towing.ruling_noseweight",),
        given=tuple(one.source for one in band.limits if one.limit is not None),
    )
    missing = tuple(f"the noseweight limit of {part}" for part in band.unknown)
    plain = judge(asked, laden.nose, band.ruling, unknown=(*missing, *laden.unknown), assumed=laden.assumed)
    if not missing or plain.word in ("does not fit", "cannot say") or band.ruling is None:
        return plain
    sentence = (
        f"The noseweight is {shown_span(laden.nose, 'kg')}, within {shown(band.ruling, 'kg')}, the least limit that is known. "
        f"But {' and '.join(missing)} {'are' if len(missing) > 1 else 'is'} not known, so nobody can say that it fits."
    )
    return Verdict(
        asked.id, asked.title, "cannot say", asked.standing, sentence, laden.nose, band.ruling,
        figures=plain.figures, given=plain.given, unknown=missing,
    )  # fmt: skip


def _least(outfit: Outfit, laden: Laden) -> Verdict:
    country = outfit.journey.country
    asked = Asked(
        "noseweight-least",
        "Least noseweight by law",
        "law",
        "The noseweight is",
        "German law asks for at least",
        advice="Move load forward of the axle.",
        least=True,
        figures=("towing.de_nose_share", "towing.de_nose_enough"),
    )
    if country == "DE":
        most = laden.mass.high
        if most > get("towing.de_nose_trailer").si:
            return cannot_say(
                asked, "The German rule held here is for trailers up to 3,500 kg.", ("the rule above 3,500 kg",)
            )
        return judge(asked, laden.nose, least_noseweight_germany(most), unknown=laden.unknown, assumed=laden.assumed)
    plain = Asked("noseweight-least", "Least noseweight by law", "law", "", "", figures=("towing.guideline_nose_low",))
    if country in NO_OWN_RULE:
        sentence = "No least noseweight by law is known for Great Britain; the guideline below says what is steady."
        return stated(plain, "fits", sentence)
    where = "the country of the journey" if country is None else f"the least noseweight rule of {country}"
    return cannot_say(plain, f"{where[:1].upper()}{where[1:]} is not known here: ask before you go.", (where,))


def _guideline(laden: Laden, band: NoseBand) -> Verdict:
    """The guideline with its band; what only a guideline says is never law."""
    return replace(_against_guideline(laden, band), band=band.guideline)


def _against_guideline(laden: Laden, band: NoseBand) -> Verdict:
    """Within 5 to 7 % it fits; a guideline is never law, and a limit that is lower comes first."""
    low, high = band.guideline
    asked = Asked(
        "noseweight-guideline",
        "Noseweight guideline",
        "guideline",
        "The noseweight is",
        "",
        figures=("towing.guideline_nose_low", "towing.guideline_nose_high", "towing.mass_alone"),
    )
    if not laden.nose.bounded or laden.assumed or not laden.mass.bounded:
        missing = laden.unknown or laden.assumed
        sentence = f"The guideline is {shown(low, 'kg')} to {shown(high, 'kg')}; the noseweight is not known well enough to compare."
        return cannot_say(asked, sentence, missing)
    above, below = compare(laden.nose, high, tight=0.0), compare(laden.nose, low, least=True, tight=0.0)
    band_shown = f"{shown(low, 'kg')} to {shown(high, 'kg')}"
    start = (
        f"The noseweight is {shown_span(laden.nose, 'kg')}; the guideline of 5 to 7 % of the laden mass is {band_shown}"
    )
    if "cannot say" in (above, below):
        return cannot_say(asked, f"{start}: it depends on where the load is.", laden.unknown)
    if below == "does not fit":
        short = replace(asked, least=True)
        return stated(short, "does not fit", f"{start}: more on the ball would make it steadier.", laden.nose, low)
    if above == "does not fit":
        return stated(
            asked, "tight", f"{start}: more is no harm by itself as long as every limit is kept.", laden.nose, high
        )
    nearer_low = laden.nose.low - low < high - laden.nose.high
    near = replace(asked, least=nearer_low)
    return stated(near, "fits", f"{start}.", laden.nose, low if nearer_low else high)


def _rating(outfit: Outfit) -> Verdict:
    """A slip of the pen shows here: a car's noseweight rating below what its towing limit asks for."""
    car = outfit.car
    limit, _ = towing_limit(car)
    asked = Asked(
        "car-rating",
        "Car's noseweight rating",
        "practice",
        "The car's noseweight limit is",
        "a car that may tow this much is rated for at least",
        advice="Check both figures against the car's handbook.",
        least=True,
        figures=("towing.eu_rating_share", "towing.eu_rating_least"),
        given=("car sheet: noseweight_limit, towing_limit",),
    )
    missing = [("the car's noseweight limit", car.noseweight_limit), ("the car's towing limit", limit)]
    unknown = tuple(name for name, value in missing if value is None)
    number = exactly(car.noseweight_limit) if car.noseweight_limit is not None else None
    verdict = judge(asked, number, least_car_rating(limit) if limit is not None else None, unknown=unknown)
    return (
        verdict if verdict.word != "tight" else stated(asked, "fits", verdict.sentence, verdict.number, verdict.limit)
    )


def _d_values(outfit: Outfit) -> list[Verdict]:
    head = [kit.facts.get("d_value") for kit in outfit.van.kit if _has(outfit, kit.kind, "d_value")]
    stamped = [fact.si for fact in head if isinstance(fact, Quantity)]
    return [
        _d_value(outfit, "towbar", "the towbar", outfit.car.towbar.d_value, "car sheet: towbar.d_value"),
        _d_value(outfit, "hitch", "the caravan's hitch", min(stamped, default=None), "build sheet: kit facts d_value"),
    ]


def _d_value(outfit: Outfit, key: str, part: str, stamped: float | None, source: str) -> Verdict:
    car, trailer = outfit.car.gross_vehicle_mass, outfit.van.masses.mtplm
    asked = Asked(
        f"d-value-{key}",
        f"Pulling strength (D value) of {part}",
        "maker's limit",
        "This car and caravan ask for a D value of",
        f"stamped on {part} is",
        advice="This coupling is too weak for this outfit: do not tow with it.",
        unit="kN",
        digits=2,
        figures=("towing.d_value", "towing.gravity"),
        given=(source, "car sheet: gross_vehicle_mass", "build sheet: masses.mtplm"),
    )
    unknown = [("the car's gross vehicle mass", car), (f"the D value of {part}", stamped)]
    number = exactly(d_value(car, trailer)) if car is not None else None
    return judge(asked, number, stamped, unknown=tuple(name for name, value in unknown if value is None))
