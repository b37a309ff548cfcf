"""What the law of the road says: licence, size, the German 100 km/h badge, speed limits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from firstpitch.figures import Figure, get, rows
from firstpitch.outfit.judged import Asked, cannot_say, judge, stated
from firstpitch.outfit.tyres import age_on, speed_of
from firstpitch.outfit.verdict import Verdict, Word, exactly, shown, worst
from firstpitch.sheet.units import parse

if TYPE_CHECKING:
    from firstpitch.outfit.types import Driver, Outfit

EU = frozenset(
    {
        "AT",
        "BE",
        "BG",
        "CY",
        "CZ",
        "DE",
        "DK",
        "EE",
        "ES",
        "FI",
        "FR",
        "GR",
        "HR",
        "HU",
        "IE",
        "IT",
        "LT",
        "LU",
        "LV",
        "MT",
        "NL",
        "PL",
        "PT",
        "RO",
        "SE",
        "SI",
        "SK",
    }
)
"""ISO 3166 codes of the member states of the European Union (from memory)."""


@dataclass(frozen=True)
class SpeedLimit:
    """A speed limit with a caravan: ``limit`` [m/s] on ``road``, ``when`` it holds, and where it comes from."""

    country: str
    road: str
    limit: float
    written: str
    when: str
    source: str
    status: str


def speed_limits(country: str | None) -> tuple[SpeedLimit, ...]:
    """The speed limits held here for a country; none for a country we hold no source for.

    >>> [limit.written for limit in speed_limits("GB")][-1], speed_limits("FR")
    ('60 mph', ())
    """
    return tuple(
        SpeedLimit(
            row["country"],
            row["road"],
            parse(row["limit"], "km/h").si,
            row["limit"],
            row["when"],
            row["source"],
            row["status"],
        )
        for row in rows("towing.speeds")
        if row["country"] == country
    )


@dataclass(frozen=True)
class Entitlement:
    """What a licence lets its holder tow [kg]: a trailer up to ``trailer``, or a car and trailer up to ``combination`` together."""

    trailer: float | None
    combination: float | None
    figure: Figure

    def allows(self, car: float | None, trailer: float) -> bool | None:
        """Whether a car and trailer of these greatest masses are allowed; None when it hangs on the car's unknown mass."""
        if self.trailer is not None and trailer <= self.trailer:
            return True
        if self.combination is None:
            return False
        if car is None:
            return None if trailer < self.combination else False
        return car + trailer <= self.combination


def entitlement(driver: Driver, on: date) -> Entitlement | None:
    """What a licence allows on a day, None where no rule is held here (another class or country, or a day before the rules).

    Great Britain, in force since 16 December 2021: a trailer up to 3,500 kg, or with a car test passed before 1997 car and
    trailer up to 8,250 kg together (second-hand). European Union: class B a trailer up to 750 kg or 3,500 kg together, B96 up
    to 4,250 kg together, BE a trailer up to 3,500 kg (from memory).

    >>> from firstpitch.outfit.types import Driver
    >>> entitlement(Driver("B", "GB", date(1999, 5, 1)), date(2026, 5, 1)).trailer
    3500.0
    """
    if driver.issued_in == "GB":
        return _british(driver, on)
    if driver.issued_in == "EU" or driver.issued_in in EU:
        for row in rows("licence.eu"):
            if row["class"] == driver.licence:
                return Entitlement(_kg(row, "trailer"), _kg(row, "or_combination"), get("licence.eu"))
    return None


def _british(driver: Driver, on: date) -> Entitlement | None:
    if driver.test_passed is None:
        return None
    for row in rows("licence.gb"):
        after = not row["test_from"] or driver.test_passed >= date.fromisoformat(row["test_from"])
        before = not row["test_before"] or driver.test_passed < date.fromisoformat(row["test_before"])
        if row["class"] == driver.licence and after and before and on >= date.fromisoformat(row["in_force_from"]):
            return Entitlement(_kg(row, "trailer"), _kg(row, "combination"), get("licence.gb"))
    return None


def _kg(row: Mapping[str, str], column: str) -> float | None:
    return parse(row[column], "kg").si if row[column] else None


def law_verdicts(outfit: Outfit) -> tuple[Verdict, ...]:
    """Licence, width, length, and in Germany the 100 km/h badge."""
    found = [_licence(outfit), _width(outfit), _length(outfit)]
    if outfit.journey.country == "DE":
        found.append(badge(outfit))
    return tuple(found)


def _licence(outfit: Outfit) -> Verdict:
    driver, journey, car = outfit.driver, outfit.journey, outfit.car.gross_vehicle_mass
    held = "licence.gb" if driver.issued_in == "GB" else "licence.eu"
    asked = Asked("licence", "Driving licence", "law", "", "", figures=(held,), given=("car sheet: driver",))
    missing = [
        ("the class of the driving licence", driver.licence),
        ("where the licence was issued", driver.issued_in),
        ("the day of the journey", journey.on),
    ]
    if driver.issued_in == "GB":
        missing.append(("the day the car test was passed", driver.test_passed))
    unknown = tuple(name for name, value in missing if value is None)
    if unknown or journey.on is None:
        return cannot_say(asked, f"To judge the licence, {' and '.join(unknown)} must be known.", unknown)
    right = entitlement(driver, journey.on)
    if right is None:
        sentence = (
            f"No rule is held here for a licence of class {driver.licence} issued in {driver.issued_in} on {journey.on}: "
            "ask the licensing authority."
        )
        return cannot_say(asked, sentence, ("the rule for this licence",))
    most_car = get("licence.car").si
    if car is not None and car > most_car:
        return cannot_say(asked, "The rules held here are for cars up to 3,500 kg.", ("the rule for heavier cars",))
    return _entitled(outfit, asked, right)


def _entitled(outfit: Outfit, asked: Asked, right: Entitlement) -> Verdict:
    car, trailer = outfit.car.gross_vehicle_mass, outfit.van.masses.mtplm
    may = right.allows(car, trailer)
    limits = [f"a trailer up to {shown(right.trailer, 'kg')}"] if right.trailer is not None else []
    if right.combination is not None:
        limits.append(f"car and trailer up to {shown(right.combination, 'kg')} together")
    rule = f"This licence covers {' or '.join(limits)}; the caravan is plated at {shown(trailer, 'kg')}"
    rule += f" and the car at {shown(car, 'kg')}." if car is not None else "."
    number = exactly(trailer)
    if may is None:
        return cannot_say(
            asked, f"{rule} The car's gross vehicle mass is not known.", ("the car's gross vehicle mass",)
        )
    if not may:
        return stated(asked, "does not fit", f"{rule} The driver may not tow it.", number, right.trailer)
    home = {"GB"} if outfit.driver.issued_in == "GB" else EU
    if outfit.journey.country not in home:
        there = outfit.journey.country or "the country of the journey, which is not given"
        sentence = f"{rule} Whether that holds abroad in {there} is not held here: ask before you go."
        return cannot_say(asked, sentence, ("whether the entitlement holds abroad",))
    return stated(asked, "fits", rule, number, right.trailer)


def _width(outfit: Outfit) -> Verdict:
    asked = Asked(
        "width",
        "Width",
        "law",
        "The body is wide:",
        "a trailer may be",
        unit="m",
        digits=2,
        figures=("towing.width_limit",),
        given=("build sheet: body.width",),
    )
    return _plain(judge(asked, exactly(outfit.van.body.width), get("towing.width_limit").si))


def _length(outfit: Outfit) -> Verdict:
    asked = Asked(
        "length",
        "Length",
        "law",
        "The body without the drawbar is long:",
        "behind a car up to 3,500 kg a trailer may be",
        unit="m",
        digits=2,
        figures=("towing.length_limit", "towing.length_car_limit"),
        given=("build sheet: body.length",),
    )
    limit, car = get("towing.length_limit").si, outfit.car.gross_vehicle_mass
    verdict = judge(asked, exactly(outfit.van.body.length), limit)
    if verdict.word == "does not fit" and (car is None or car > get("towing.length_car_limit").si):
        return cannot_say(
            asked, "Longer than 7 m: the rule for this car is not held here.", ("the rule for heavier cars",)
        )
    return _plain(verdict)


def _plain(verdict: Verdict) -> Verdict:
    """A size does not change on the road, so nearly reaching a limit is no warning."""
    return replace(verdict, word="fits") if verdict.word == "tight" else verdict


def badge_factor(*, trailer: str, brake: bool, dampers: bool, stabiliser: bool) -> float:
    """The factor of the German 100 km/h badge: greatest laden mass of the trailer over the car's empty mass.

    ``trailer`` is ``caravan`` or ``other``. Printed for other trailers: 0.3, 1.1, 1.2.

    >>> badge_factor(trailer="caravan", brake=True, dampers=True, stabiliser=False)
    0.8
    >>> round(1500 * badge_factor(trailer="other", brake=True, dampers=True, stabiliser=True))
    1800
    """
    found = {"trailer": trailer, "brake": brake, "dampers": dampers, "stabiliser": stabiliser}
    words = {key: value if isinstance(value, str) else ("yes" if value else "no") for key, value in found.items()}
    for row in rows("towing.badge"):
        if all(row[key] in ("any", word) for key, word in words.items()):
            return float(row["factor"])
    raise ValueError(f"no such trailer: {words}")


def badge(outfit: Outfit) -> Verdict:
    """Whether the outfit could carry the German 100 km/h badge; without it 80 km/h holds. Second-hand rules, no approval."""
    car, journey, tyre = outfit.car, outfit.journey, outfit.van.gear.tyre
    asked = Asked(
        "badge",
        "German 100 km/h badge",
        "law",
        "The caravan's greatest laden mass is",
        "for the badge it may be",
        figures=("towing.badge", "towing.badge_car", "towing.badge_tyre_age", "towing.badge_tyre_speed"),
        given=("car sheet: kerb_mass, gross_vehicle_mass, anti_lock, journey", "build sheet: masses, running_gear"),
        optional=True,
    )
    age = age_on(tyre.date_code, journey.on)
    speed = speed_of(tyre.speed_symbol)
    checks: list[tuple[str, bool | None]] = [
        ("the caravan's mass against the car's kerb mass", _light(outfit)),
        ("the car's greatest mass of 3,500 kg", _most(car.gross_vehicle_mass, get("towing.badge_car").si)),
        ("anti-lock brakes on the car", car.anti_lock),
        ("the age of the caravan's tyres", None if age is None else age < get("towing.badge_tyre_age").si),
        (
            "the speed symbol of the caravan's tyres",
            None if speed is None else speed >= get("towing.badge_tyre_speed").si,
        ),
    ]
    failed = [name for name, passed in checks if passed is False]
    open_ones = tuple(name for name, passed in checks if passed is None)
    words: list[Word] = ["does not fit" if p is False else "cannot say" if p is None else "fits" for _, p in checks]
    word = worst(words)
    tail = "It must be tested and entered in the papers; the badge is not given by this sheet."
    if word == "fits":
        return stated(asked, "fits", f"The outfit meets the figures of the 100 km/h badge. {tail}")
    if word == "cannot say":
        open_ones = tuple(dict.fromkeys((*open_ones, *_coupled(outfit)))) if _light(outfit) is None else open_ones
        return cannot_say(asked, f"80 km/h holds unless {' and '.join(open_ones)} can be shown. {tail}", open_ones)
    return stated(
        asked,
        "does not fit",
        f"80 km/h holds in Germany: {' and '.join(failed)} {'rules' if len(failed) == 1 else 'rule'} the badge out.",
    )


def _light(outfit: Outfit) -> bool | None:
    """Whether the caravan is light enough; None where dampers, stabiliser or kerb mass are unknown and make a difference."""
    kerb, journey = outfit.car.kerb_mass, outfit.journey
    if kerb is None:
        return None
    mtplm = outfit.van.masses.mtplm
    passed = {
        mtplm <= kerb * badge_factor(trailer="caravan", brake=True, dampers=dampers, stabiliser=stabiliser)
        for dampers in _either(journey.dampers)
        for stabiliser in _either(journey.stabiliser)
    }
    return passed.pop() if len(passed) == 1 else None


def _coupled(outfit: Outfit) -> list[str]:
    figures = [
        ("the car's kerb mass", outfit.car.kerb_mass),
        ("whether the caravan has axle dampers", outfit.journey.dampers),
        ("whether it has a stabiliser", outfit.journey.stabiliser),
    ]
    return [name for name, value in figures if value is None]


def _either(known: bool | None) -> tuple[bool, ...]:
    return (True, False) if known is None else (known,)


def _most(value: float | None, limit: float) -> bool | None:
    return None if value is None else value <= limit
