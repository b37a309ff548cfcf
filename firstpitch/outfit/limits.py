"""The masses: payload, laden mass, axles, the car's own limits, the train, the towing limit, and the mass guideline."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from firstpitch.figures import get
from firstpitch.outfit.judged import Asked, judge
from firstpitch.outfit.masses import Laden, springs_of
from firstpitch.outfit.statics import Springs, car_axle_changes, lift, support
from firstpitch.outfit.verdict import Span, Verdict, exactly

if TYPE_CHECKING:
    from firstpitch.outfit.types import Car, Outfit

MTPLM = "build sheet: masses.mtplm"
MIRO = "build sheet: masses.miro"


def least_payload(length: float, berths: int, *, uk: bool = False) -> float:
    """Least payload for personal effects of a caravan [kg]: 10·L + 10·N + 30, or + 50 as the UK trade body has it.

    ``length``: of the body without the A-frame [m]. EN 1645-2 as a magazine article tells it (second-hand), which prints
    102 kg and 122 kg for 5.2 m and two berths. Not for motor caravans.

    >>> least_payload(5.2, 2), least_payload(5.2, 2, uk=True)
    (102.0, 122.0)
    """
    base = get("towing.payload_base_uk" if uk else "towing.payload_base").si
    return get("towing.payload_per_metre").si * length + get("towing.payload_per_berth").si * berths + base


def towing_limit(car: Car) -> tuple[float | None, str]:
    """The towing limit [kg] and where it comes from: the stated one, else gross train less gross vehicle mass.

    Printed examples: 4200 − 2505 = 1695 kg and 5000 − 3000 = 2000 kg.

    >>> from firstpitch.outfit.types import Car
    >>> towing_limit(Car("x", gross_vehicle_mass=2505, gross_train_mass=4200))[0]
    1695
    """
    if car.towing_limit is not None:
        return car.towing_limit, "car sheet: towing_limit"
    if car.gross_train_mass is None or car.gross_vehicle_mass is None:
        return None, ""
    return car.gross_train_mass - car.gross_vehicle_mass, "car sheet: gross_train_mass less gross_vehicle_mass"


def car_mass(car: Car) -> tuple[Span, tuple[str, ...]]:
    """What the car weighs as it will travel, without the caravan [kg], and what keeps it from being known.

    Where it is not known it lies between the kerb mass and the gross vehicle mass.
    """
    if car.laden_mass is not None:
        return exactly(car.laden_mass), ()
    if car.front.load is not None and car.rear.load is not None:
        return exactly(car.front.load + car.rear.load), ()
    if car.kerb_mass is not None and car.aboard is not None:
        return exactly(car.kerb_mass + car.aboard), ()
    most = car.gross_vehicle_mass if car.gross_vehicle_mass is not None else math.inf
    return Span(min(car.kerb_mass or 0.0, most), most), ("what the car weighs with people and luggage",)


def mass_verdicts(outfit: Outfit, laden: Laden) -> tuple[Verdict, ...]:
    """Every verdict on mass, of the van, of the car and of both together."""
    return (
        _payload(outfit, laden),
        _payload_size(outfit),
        _laden_mass(outfit, laden),
        *_van_axles(outfit, laden),
        _car_whole(outfit, laden),
        _car_rear(outfit, laden),
        _train(outfit, laden),
        _towed(outfit, laden),
        _ratio(outfit),
    )


def _payload(outfit: Outfit, laden: Laden) -> Verdict:
    masses = outfit.van.masses
    asked = Asked(
        "payload",
        "User payload",
        "maker's limit",
        "What goes in beyond the caravan as it stands weighs",
        "the payload is",
        advice="Leave something at home or carry it in the car, within the car's own limits.",
        figures=("towing.mtplm",),
        given=(MTPLM, laden.empty.source),
    )
    if not laden.empty.mass.bounded:
        return judge(asked, None, None, unknown=laden.unknown)
    limit = masses.mtplm - laden.empty.mass.high
    return judge(asked, laden.load_mass, limit, unknown=laden.unknown)


def _payload_size(outfit: Outfit) -> Verdict:
    body, masses = outfit.van.body, outfit.van.masses
    names = ("towing.payload_per_metre", "towing.payload_per_berth", "towing.payload_base")
    asked = Asked(
        "payload-size",
        "Payload on the plate",
        "guideline",
        "The plate leaves a payload of",
        "for this length and these berths the standard asks for at least",
        least=True,
        figures=names,
        given=(MTPLM, MIRO, "build sheet: body.length, body.berths"),
    )
    return judge(asked, exactly(masses.mtplm - masses.miro), least_payload(body.length, body.berths))


def _laden_mass(outfit: Outfit, laden: Laden) -> Verdict:
    asked = Asked(
        "mtplm",
        "Laden mass",
        "maker's limit",
        "The loaded caravan weighs",
        "its greatest laden mass (MTPLM) is",
        advice="Take something out before you drive.",
        figures=("towing.mtplm",),
        given=(MTPLM, laden.empty.source),
    )
    return judge(asked, laden.mass, outfit.van.masses.mtplm, unknown=laden.unknown)


def axle_spans(outfit: Outfit, laden: Laden, springs: Springs) -> tuple[Span, ...]:
    """What each axle carries, front to rear [kg], under one way of sharing the load; readings come first.

    A ball that stands higher or lower than level shifts load between axles on springs of their own.
    """
    axles = outfit.van.gear.axles
    if len(laden.measured_axles) == len(axles):
        return tuple(exactly(load) for load in laden.measured_axles)
    total = laden.axles
    if len(axles) == 1 or springs == "equalised" or not total.bounded:
        return tuple(total.times(1 / len(axles)) for _ in axles)
    empty = laden.empty
    base = support([(empty.mass.middle, empty.x)], [], axles)
    moment_each = [line.mass.middle * line.x.middle for line in laden.lines]
    shares = support([], [(moment, 1.0) for moment in moment_each], axles, "independent").axles
    spread = (total.high - total.low) / 2
    shift = _shift(outfit)
    loads = [base_load + extra for base_load, extra in zip(base.axles, shares, strict=True)]
    scale = total.middle / sum(loads)
    return tuple(
        Span(load * scale + move - spread, load * scale + move + spread)
        for load, move in zip(loads, shift, strict=True)
    )


def _shift(outfit: Outfit) -> tuple[float, ...]:
    """What the height of the ball moves between the axles [kg]; nothing is reckoned where a figure for it is missing."""
    journey, axles = outfit.journey, outfit.van.gear.axles
    if journey.ball_raise is None or journey.axle_stiffness is None:
        return (0.0,) * len(axles)
    moved = lift(journey.ball_raise, axles, journey.axle_stiffness)
    return tuple(force / get("towing.gravity").si for force in moved.axles)


def _van_axles(outfit: Outfit, laden: Laden) -> list[Verdict]:
    axles, limit = outfit.van.gear.axles, outfit.van.masses.axle_limit
    found = []
    unsure = len(axles) > 1 and outfit.van.gear.equalised is None
    for springs in springs_of(outfit):
        for number, span in enumerate(axle_spans(outfit, laden, springs), 1):
            several = len(axles) > 1
            way = {"equalised": "sharing the load equally", "independent": "on springs of their own"}[springs]
            asked = Asked(
                f"van-axle-{number}" + (f"-{springs}" if unsure else ""),
                f"Caravan axle {number}" + (f", {way}" if unsure else "") if several else "Caravan axle",
                "maker's limit",
                (f"Axle {number} of the caravan, {way}," if several else "The caravan's axle") + " carries",
                "its limit is",
                advice="Take something out.",
                given=("build sheet: masses.axle_limit", laden.empty.source),
            )
            unknown = laden.unknown if limit is not None else ("the limit of the caravan's axle",)
            found.append(judge(asked, span, limit, unknown=(*unknown, *laden.assumed)))
    return found


def _car_whole(outfit: Outfit, laden: Laden) -> Verdict:
    car = outfit.car
    weight, unknown = car_mass(car)
    asked = Asked(
        "car-mass",
        "Car with the noseweight on it",
        "maker's limit",
        "The car with people, luggage and the noseweight weighs",
        "its greatest mass is",
        advice="Carry less in the car: the noseweight counts as load of the car.",
        figures=("towing.gross_vehicle",),
        given=("car sheet: gross_vehicle_mass",),
    )
    missing = (*unknown, *laden.unknown) if car.gross_vehicle_mass is not None else ("the car's gross vehicle mass",)
    return judge(asked, weight + laden.nose, car.gross_vehicle_mass, unknown=missing, assumed=laden.assumed)


def _car_rear(outfit: Outfit, laden: Laden) -> Verdict:
    car = outfit.car
    asked = Asked(
        "car-rear-axle",
        "Car's rear axle with the noseweight",
        "maker's limit",
        "The car's rear axle carries",
        "its limit is" + (" (with the handbook's towing allowance)" if car.rear_allowance else ""),
        advice="Carry less in the boot, or bring the noseweight down within its band.",
        given=("car sheet: rear_axle, wheelbase, overhang",),
    )
    figures = (
        ("the load on the car's rear axle", car.rear.load),
        ("the limit of the car's rear axle", car.rear.limit),
        ("the car's wheelbase", car.wheelbase),
        ("the distance from the car's rear axle to the towball", car.overhang),
    )
    missing = tuple(name for name, value in figures if value is None)
    if car.rear.load is None or car.rear.limit is None or car.wheelbase is None or car.overhang is None:
        return judge(asked, None, car.rear.limit, unknown=missing)
    _, per_kg = car_axle_changes(1.0, car.wheelbase, car.overhang)
    limit = car.rear.limit + (car.rear_allowance or 0.0)
    number = exactly(car.rear.load) + laden.nose.times(per_kg)
    return judge(asked, number, limit, unknown=laden.unknown, assumed=laden.assumed)


def _train(outfit: Outfit, laden: Laden) -> Verdict:
    car = outfit.car
    weight, unknown = car_mass(car)
    asked = Asked(
        "gross-train",
        "Car and caravan together",
        "maker's limit",
        "Car and caravan together weigh",
        "the gross train mass is",
        advice="Carry less in the car or in the caravan.",
        figures=("towing.gross_train",),
        given=("car sheet: gross_train_mass",),
    )
    missing = (*unknown, *laden.unknown) if car.gross_train_mass is not None else ("the car's gross train mass",)
    return judge(asked, weight + laden.mass, car.gross_train_mass, unknown=missing)


def _towed(outfit: Outfit, laden: Laden) -> Verdict:
    limit, source = towing_limit(outfit.car)
    masses = outfit.van.masses
    towed, words = {
        "mtplm": (exactly(masses.mtplm), "The caravan's greatest laden mass is"),
        "actual": (laden.mass, "The loaded caravan weighs"),
        "axle": (laden.axles, "What the caravan's axles carry is"),
    }[outfit.towed_mass]
    asked = Asked(
        "towing-limit",
        "Car's towing limit",
        "maker's limit",
        words,
        "the car may tow",
        advice="This car may not tow this caravan as it is.",
        figures=("towing.gtw_less_gvw",) if source.endswith("gross_vehicle_mass") else (),
        given=(source or "car sheet: towing_limit", MTPLM),
    )
    unknown = laden.unknown if limit is not None else ("the car's towing limit",)
    return judge(asked, towed, limit, unknown=unknown, assumed=laden.assumed if outfit.towed_mass == "axle" else ())


def kerb_needed(mtplm: float) -> float:
    """The kerb mass [kg] at which the newcomers' guideline of 85 % is just met; a dealer's page prints 1530 for 1300 (rounded up).

    >>> math.ceil(kerb_needed(1300))
    1530
    """
    return mtplm / get("towing.guideline_ratio").si


def _ratio(outfit: Outfit) -> Verdict:
    kerb, mtplm = outfit.car.kerb_mass, outfit.van.masses.mtplm
    asked = Asked(
        "mass-ratio",
        "Mass guideline for newcomers",
        "guideline",
        "The caravan's greatest laden mass is",
        "85 % of the car's kerb mass is",
        advice="This is habit, not law: track tests found mass alone not decisive; noseweight and where the load lies matter more.",
        figures=("towing.guideline_ratio", "towing.mass_alone"),
        given=(MTPLM, "car sheet: kerb_mass"),
    )
    limit = kerb * get("towing.guideline_ratio").si if kerb is not None else None
    return judge(asked, exactly(mtplm), limit, unknown=("the car's kerb mass",) if kerb is None else ())
