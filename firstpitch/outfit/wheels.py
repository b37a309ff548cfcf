"""Wheel fixings and the parking brake: torque with its clamp force, and the force that holds on a slope."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.figures import get, rows
from firstpitch.outfit.judged import Asked, cannot_say, judge, stated
from firstpitch.outfit.verdict import Verdict, exactly, shown
from firstpitch.sheet.units import parse

if TYPE_CHECKING:
    from firstpitch.outfit.types import Outfit


@dataclass(frozen=True)
class Clamp:
    """What a torque does to one bolt: clamp force [N] and its share of the proof load, clean dry, greased and rusty."""

    thread: str
    grade: str
    dry: float
    greased: float
    rusty: float
    dry_share: float
    greased_share: float


def clamp_force(torque: float, diameter: float, friction: float) -> float:
    """The clamp force of one bolt [N]: F = T/(K·d), torque [N·m], diameter [m], ``friction`` the figure K.

    Printed: 50 N·m on M10 with K 0.2 gives 25 kN; 82 N·m on M12 gives 34 kN.

    >>> round(clamp_force(50, 0.010, 0.2)), round(clamp_force(82.142, 0.012, 0.2))
    (25000, 34226)
    """
    if torque < 0 or diameter <= 0 or friction <= 0:
        raise ValueError("torque, diameter and friction must be above zero")
    return torque / (friction * diameter)


def torque_for(force: float, diameter: float, friction: float) -> float:
    """The torque [N·m] that gives a clamp force: T = K·F·d.

    >>> round(torque_for(0.7 * 580e6 * 84.3e-6, 0.012, 0.2), 3)
    82.142
    """
    return friction * force * diameter


def clamps(torque: float) -> tuple[Clamp, ...]:
    """The clamp force of a torque on every thread and grade held in the figures."""
    return tuple(
        _clamp(torque, thread["thread"], grade["grade"])
        for thread in rows("wheels.thread")
        for grade in rows("wheels.grade")
    )


def _clamp(torque: float, thread: str, grade: str) -> Clamp:
    held = next(row for row in rows("wheels.thread") if row["thread"] == thread)
    diameter, area = parse(held["diameter"], "mm").si, parse(held["stress_area"], "mm**2").si
    proof = next(parse(row["proof"], "MPa").si for row in rows("wheels.grade") if row["grade"] == grade) * area
    dry, greased, rusty = (
        clamp_force(torque, diameter, get(f"wheels.{state}").si) for state in ("dry", "greased", "rusty")
    )
    return Clamp(thread, grade, dry, greased, rusty, dry / proof, greased / proof)


def wheel_verdict(outfit: Outfit) -> Verdict:
    """The tightening torque: only ever the plate's or handbook's; a figure outside what handbooks print is to be checked."""
    tyre = outfit.van.gear.tyre
    low, high, recheck = get("wheels.least_m12"), get("wheels.most_m12"), get("wheels.recheck")
    asked = Asked(
        "wheel-torque",
        "Wheel fixings",
        "maker's limit",
        "",
        "",
        unit="N·m",
        figures=("wheels.least_m12", "wheels.most_m12", "wheels.recheck"),
        given=("build sheet: running_gear.tyre.wheel_torque",),
    )
    again = f"Tighten crosswise, clean and dry, never greased, and check again after about {shown(recheck.si, 'km')} ({recheck.written}s)."
    if tyre.wheel_torque is None:
        sentence = f"The tightening torque is not known: take it from the plate or the handbook, never from another van. {again}"
        return cannot_say(asked, sentence, ("the tightening torque of the wheel fixings",))
    number = exactly(tyre.wheel_torque)
    said = (
        f"Tighten to {shown(tyre.wheel_torque, 'N·m')}, as the sheet gives for these {tyre.wheel_material or 'wheels'}"
    )
    said = f"{said} wheels." if tyre.wheel_material else f"{said}."
    if low.si <= tyre.wheel_torque <= high.si:
        return stated(asked, "fits", f"{said} {again}", number)
    band = f"{shown(low.si, 'N·m')} to {shown(high.si, 'N·m')}"
    sentence = (
        f"{said} Handbooks print {band} for M12 fixings: check the figure and the thread before you rely on it. {again}"
    )
    return stated(asked, "cannot say", sentence, number)


def hold_force(mass: float, slope: float) -> float:
    """The force along a slope that holds a mass [N]: m·g·sin(atan s). ``slope`` as a share, 0.18 for 18 %.

    Computed here, no printed figure.

    >>> round(hold_force(1500, 0.18), 1), round(hold_force(1500, 0.16), 1)
    (2606.8, 2324.8)
    """
    return mass * get("towing.gravity").si * math.sin(math.atan(slope))


def brake_verdict(outfit: Outfit) -> Verdict:
    """Whether a measured parking-brake force holds the fully laden van on the slope the rules name."""
    mtplm, measured = outfit.van.masses.mtplm, outfit.load.readings.brake_force
    steep, british = get("brakes.hold_slope"), get("brakes.hold_slope_uk")
    need = hold_force(mtplm, steep.si)
    asked = Asked(
        "parking-brake",
        "Parking brake",
        "law",
        "The parking brake was measured at",
        f"to hold the laden caravan on {steep.written.replace(' ', '')} it needs",
        advice="Have the brakes adjusted; chock the wheels until then.",
        unit="N",
        least=True,
        figures=("brakes.hold_slope", "brakes.hold_slope_uk", "brakes.hand_force"),
        given=("build sheet: masses.mtplm", "load sheet: readings.brake_force"),
        # Hardly anybody measures it before a journey: it is said, but it does not hold up the whole answer.
        optional=measured is None,
    )
    if measured is None:
        other = shown(hold_force(mtplm, british.si), "N")
        sentence = (
            f"To hold the laden caravan the brake needs {shown(need, 'N')} on a slope of {steep.written} "
            f"({other} on {british.written}), with at most {get('brakes.hand_force').written} at the lever. "
            "It was not measured: chock the wheels on any slope."
        )
        return cannot_say(asked, sentence, ("the parking-brake force",))
    return judge(asked, exactly(measured), need)
