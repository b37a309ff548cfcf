"""The caravan's tyres: what they may carry, how fast, how old, and the pressure for the load."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import TYPE_CHECKING

from firstpitch.figures import get, rows
from firstpitch.outfit.judged import Asked, cannot_say, judge, stated
from firstpitch.outfit.limits import axle_spans
from firstpitch.outfit.masses import Laden, springs_of
from firstpitch.outfit.statics import car_axle_changes
from firstpitch.outfit.verdict import Span, Verdict, exactly, shown
from firstpitch.sheet.units import parse

if TYPE_CHECKING:
    from firstpitch.outfit.types import Outfit

WEEKS = 53
CODE_LENGTH = 4
CENTURY = 2000


@cache
def _loads() -> Mapping[int, float]:
    return {int(row["index"]): parse(row["load"], "kg").si for row in rows("tyres.load_index")}


@cache
def _speeds() -> Mapping[str, float]:
    return {row["symbol"]: parse(row["speed"], "km/h").si for row in rows("tyres.speed_symbol")}


def load_of(index: int | None) -> float | None:
    """The mass one tyre of this load index may carry [kg]; None for an unknown index or one the table does not hold.

    Two printed tables agree: 75 is 387 kg, 100 is 800 kg.

    >>> load_of(75), load_of(100), load_of(12)
    (387.0, 800.0, None)
    """
    return _loads().get(index) if index is not None else None


def speed_of(symbol: str | None) -> float | None:
    """The greatest speed of a speed symbol [m/s]; None for an unknown one.

    >>> round(speed_of("N") * 3.6)
    140
    """
    return _speeds().get(symbol) if symbol is not None else None


def least_index(mass: float, tyres: int, share: float | None = None) -> int | None:
    """The lowest load index whose ``tyres`` together carry ``mass`` [kg] within ``share`` of what they may (90 % practice).

    None when no index of the table is enough. 1500 kg on two tyres needs 833 kg each, which is index 102.

    >>> least_index(1500, 2)
    102
    """
    part = get("tyres.practice_share").si if share is None else share
    need = mass / tyres / part
    return next((index for index, load in sorted(_loads().items()) if load >= need - 1e-9), None)


def made_on(code: str | None) -> date | None:
    """The Monday of the week in which a tyre was made, from its four-digit date code; None for any other code.

    Printed: 3805 is week 38 of 2005, 1218 week 12 of 2018.

    >>> made_on("3805").isocalendar()[:2], made_on("0204").isocalendar()[:2], made_on("598")
    ((2005, 38), (2004, 2), None)
    """
    if code is None or len(code) != CODE_LENGTH or not code.isdigit():
        return None
    week, year = int(code[:2]), CENTURY + int(code[2:])
    if not 1 <= week <= WEEKS:
        return None
    # A 53rd week of a year that has only 52 is the first week of the next.
    return date.fromisocalendar(year, 1, 1) + timedelta(weeks=week - 1)


def age_on(code: str | None, on: date | None) -> float | None:
    """The age of a tyre on a day [s]; None when code or day is unknown or the tyre is younger than nothing."""
    made = made_on(code)
    if made is None or on is None or on < made:
        return None
    return float((on - made).days) * float(timedelta(days=1).total_seconds())


def load_at(most: float, pressure: float, *, american: bool = False) -> float:
    """What a tyre may carry [kg] at a pressure [Pa] below its reference pressure: L = L_max·(p/p_ref)^0.80.

    A fit to a textbook table (European metric, reference 2.5 bar; American style 0.65 and 240 kPa). A check of the plate,
    never a replacement for it: reinforced and commercial tyres differ.

    >>> round(load_at(387, 2.0e5)), round(load_at(250, 200e3, american=True))
    (324, 222)
    """
    ref = get("tyres.reference_pressure_american" if american else "tyres.reference_pressure").si
    power = get("tyres.exponent_american" if american else "tyres.exponent").si
    return float(most * (min(pressure, ref) / ref) ** power)


def pressure_for(load: float, most: float, full: float) -> float:
    """The pressure [Pa] for a part ``load`` of a tyre that carries ``most`` at ``full``: p = p_max·(load/L_max)^1.25.

    Printed for a tyre of 750 kg at 50 psi: an axle of 1100 kg asks for 34 psi, one of 1300 kg for 42 psi.

    >>> [round(pressure_for(axle / 2, 750, 50)) for axle in (1100, 1300)]
    [34, 42]
    """
    if most <= 0 or full <= 0 or load < 0:
        raise ValueError("loads and pressures must be above zero")
    return float(full * (load / most) ** get("tyres.pressure_exponent").si)


@dataclass(frozen=True)
class Pressure:
    """The tyre pressure: ``plated`` rules; ``reckoned`` for the load is only a check [Pa]; None is unknown."""

    plated: float | None
    reckoned: float | None
    sentence: str


def tyre_verdicts(outfit: Outfit, laden: Laden) -> tuple[Verdict, ...]:
    """Every verdict on tyres, and the pressure."""
    return (
        _load(outfit, laden),
        _practice(outfit),
        _speed(outfit),
        _age(outfit),
        _pressure(outfit, laden),
        _car_tyres(outfit, laden),
    )


def _worst_axle(outfit: Outfit, laden: Laden) -> Span:
    spans = [span for springs in springs_of(outfit) for span in axle_spans(outfit, laden, springs)]
    return Span(max(span.low for span in spans), max(span.high for span in spans))


def _load(outfit: Outfit, laden: Laden) -> Verdict:
    tyre = outfit.van.gear.tyre
    each = load_of(tyre.load_index)
    asked = Asked(
        "tyre-load",
        "What the tyres may carry",
        "maker's limit",
        "The heaviest axle carries",
        "its tyres may carry",
        advice="Do not drive: a tyre over its load index can burst.",
        figures=("tyres.load_index",),
        given=("build sheet: running_gear.tyre.load_index",),
    )
    limit = each * tyre.per_axle if each is not None else None
    unknown = (*laden.unknown, *laden.assumed) if limit is not None else ("the load index of the caravan's tyres",)
    return judge(asked, _worst_axle(outfit, laden), limit, unknown=unknown)


def _practice(outfit: Outfit) -> Verdict:
    gear, mtplm = outfit.van.gear, outfit.van.masses.mtplm
    each, share = load_of(gear.tyre.load_index), get("tyres.practice_share").si
    number = len(gear.axles) * gear.tyre.per_axle
    asked = Asked(
        "tyre-practice",
        "Tyre reserve",
        "practice",
        "The caravan's greatest laden mass is",
        "90 % of what all tyres may carry is",
        advice=f"Tyres of load index {least_index(mtplm, number) or 'above 119'} would keep the reserve.",
        figures=("tyres.practice_share", "tyres.load_index"),
        given=("build sheet: masses.mtplm, running_gear.tyre",),
    )
    limit = each * number * share if each is not None else None
    verdict = judge(
        asked, exactly(mtplm), limit, unknown=() if each is not None else ("the load index of the caravan's tyres",)
    )
    if verdict.word == "does not fit" and each is not None and mtplm <= each * number:
        # The reserve is advice; only the load index itself forbids.
        return stated(asked, "tight", verdict.sentence, verdict.number, verdict.limit)
    return verdict


def _speed(outfit: Outfit) -> Verdict:
    symbol, need = outfit.van.gear.tyre.speed_symbol, get("tyres.practice_speed")
    asked = Asked(
        "tyre-speed",
        "Speed symbol",
        "practice",
        f"Speed symbol {symbol} is good for",
        "caravan tyres should be good for",
        unit="km/h",
        least=True,
        figures=("tyres.practice_speed", "tyres.speed_symbol"),
        given=("build sheet: running_gear.tyre.speed_symbol",),
    )
    speed = speed_of(symbol)
    if speed is None:
        return judge(asked, None, need.si, unknown=("the speed symbol of the caravan's tyres",))
    return _not_tight(judge(asked, exactly(speed), need.si), asked)


def _not_tight(verdict: Verdict, asked: Asked) -> Verdict:
    return (
        stated(asked, "fits", verdict.sentence.replace("only ", ""), verdict.number, verdict.limit)
        if verdict.word == "tight"
        else verdict
    )


def _age(outfit: Outfit) -> Verdict:
    """Advice, not law: best replaced at five years, never past seven; at high pressure looked at from three, not past five."""
    tyre, on = outfit.van.gear.tyre, outfit.journey.on
    hard = tyre.pressure is None or tyre.pressure >= get("tyres.hard_pressure").si * (1 - 1e-6)
    last, soon = (
        ("tyres.age_hard_latest", "tyres.age_hard_inspect") if hard else ("tyres.age_latest", "tyres.age_replace")
    )
    asked = Asked(
        "tyre-age",
        "Age of the tyres",
        "practice",
        "The tyres are",
        "they should not pass",
        unit="year",
        digits=1,
        figures=(last, soon, "tyres.date_code"),
        given=("build sheet: running_gear.tyre.date_code",),
    )
    age, made = age_on(tyre.date_code, on), made_on(tyre.date_code)
    if on is None or made is None:
        missing = [("the day of the journey", on), ("the date code of the tyres", made)]
        return judge(asked, None, get(last).si, unknown=tuple(name for name, value in missing if value is None))
    if age is None:
        return cannot_say(
            asked,
            f"The date code {tyre.date_code} is later than the journey: check it.",
            ("the date code of the tyres",),
        )
    week, year = made.isocalendar()[1], made.isocalendar()[0]
    start = f"The tyres were made in week {week} of {year} and are {shown(age, 'year', 1)}s old"
    if age > get(last).si:
        return stated(
            asked,
            "does not fit",
            f"{start}: past {get(last).written}s. Fit new ones before you tow.",
            exactly(age),
            get(last).si,
        )
    if age > get(soon).si:
        act = "have them inspected now and every year" if hard else "replace them soon"
        return stated(
            asked, "tight", f"{start}: {act}; they should not pass {get(last).written}s.", exactly(age), get(last).si
        )
    return stated(asked, "fits", f"{start}; they should not pass {get(last).written}s.", exactly(age), get(last).si)


def pressure(outfit: Outfit, laden: Laden) -> Pressure:
    """The plated pressure, and as a check the pressure the load asks for where load index and reference pressure are known."""
    tyre = outfit.van.gear.tyre
    most, worst = load_of(tyre.load_index), _worst_axle(outfit, laden)
    reckoned = None
    if most is not None and tyre.reference_pressure is not None and worst.bounded:
        reckoned = pressure_for(worst.high / tyre.per_axle, most, tyre.reference_pressure)
    if tyre.pressure is None:
        return Pressure(
            None, reckoned, "The plated tyre pressure is not known: take it from the plate or the handbook."
        )
    return Pressure(
        tyre.pressure,
        reckoned,
        f"Inflate cold to the plated {shown(tyre.pressure, 'bar', 2)} ({shown(tyre.pressure, 'psi')}).",
    )


def _pressure(outfit: Outfit, laden: Laden) -> Verdict:
    """The plate rules; a plate well below what the load asks for is a slip to be looked into."""
    found = pressure(outfit, laden)
    asked = Asked(
        "tyre-pressure",
        "Tyre pressure",
        "maker's limit",
        "The plated pressure is",
        "by the load law this load asks for about",
        advice="Check plate, tyre size and load index before you drive.",
        unit="bar",
        digits=2,
        least=True,
        figures=("tyres.pressure_exponent",),
        given=("build sheet: running_gear.tyre.pressure, load_index, reference_pressure",),
    )
    if found.plated is None:
        return cannot_say(asked, found.sentence, ("the plated tyre pressure",))
    if found.reckoned is None:
        sentence = f"{found.sentence} Whether it suits the load cannot be checked: load index or reference pressure is not known."
        return stated(asked, "fits", sentence, exactly(found.plated))
    verdict = judge(asked, exactly(found.plated), found.reckoned)
    if verdict.word in ("fits", "tight"):
        return stated(asked, "fits", f"{found.sentence} {verdict.sentence}", verdict.number, verdict.limit)
    return stated(asked, "cannot say", f"{found.sentence} {verdict.sentence}", verdict.number, verdict.limit)


def _car_tyres(outfit: Outfit, laden: Laden) -> Verdict:
    car = outfit.car
    each = load_of(car.rear.load_index)
    asked = Asked(
        "car-rear-tyres",
        "Car's rear tyres with the noseweight",
        "maker's limit",
        "The car's rear axle carries",
        "its two tyres may carry",
        advice="Carry less in the boot.",
        figures=("tyres.load_index",),
        given=("car sheet: rear_axle, wheelbase, overhang",),
    )
    figures = [
        ("the load on the car's rear axle", car.rear.load),
        ("the load index of the car's rear tyres", each),
        ("the car's wheelbase", car.wheelbase),
        ("the distance from the car's rear axle to the towball", car.overhang),
    ]
    limit = 2 * each if each is not None else None
    if car.rear.load is None or car.wheelbase is None or car.overhang is None or each is None:
        return judge(asked, None, limit, unknown=tuple(name for name, value in figures if value is None))
    _, per_kg = car_axle_changes(1.0, car.wheelbase, car.overhang)
    number = exactly(car.rear.load) + laden.nose.times(per_kg)
    return judge(asked, number, limit, unknown=laden.unknown, assumed=laden.assumed)
