"""What a page needs to reckon noseweight, axle, mass and swing by itself while things are moved about.

The sums are the engine's: the van without its load, and what each kilogram in each locker adds. ``static/desk/outfit/reckon.js``
adds them up; a test holds its answers equal to the engine's.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from firstpitch.desk.outfits import Kept
from firstpitch.figures import get
from firstpitch.outfit import LoadItem, Outfit, Readings, Span
from firstpitch.outfit.coupling import nose_band
from firstpitch.outfit.limits import axle_spans
from firstpitch.outfit.lockers import lockers_for, usable_volume, why_not
from firstpitch.outfit.masses import Laden, laden, moment_share, springs_of
from firstpitch.outfit.stow import stow_problem
from firstpitch.outfit.verdict import exactly, tight_share
from firstpitch.papers.drawing.load import numbered

Ends = list[float | None]


def numbers_of(kept: Kept) -> dict[str, Any]:
    """The figures as plain values [kg, m]; None stands for what nothing bounds."""
    outfit = _put_right(kept.outfit)
    bare = replace(outfit, load=replace(outfit.load, items=()), stow=None)
    base = laden(bare)
    problem = stow_problem(replace(outfit, load=kept.full.load))
    mass = base.mass
    if kept.outfit.load.readings.mass is not None:
        mass = exactly(kept.outfit.load.readings.mass - kept.outfit.load.mass)
    return {
        "items": [_item(outfit, item) for item in kept.full.load.items],
        "lockers": _lockers(outfit),
        "mass": _ends(mass),
        "nose": _ends(base.nose),
        "assumed": bool(base.assumed),
        "unknown": list(base.unknown),
        "mtplm": outfit.van.masses.mtplm,
        "payload": _payload(outfit, base),
        "axles": _axles(bare, base),
        "axle_limit": outfit.van.masses.axle_limit,
        "band": _band(outfit, problem.load_mass + problem.base_mass),
        "centre": {"mass": problem.base_mass, "x": problem.base_x},
        "tight": tight_share(),
    }


def _put_right(outfit: Outfit) -> Outfit:
    """The outfit whose empty van is as its readings tell; the readings themselves hold only for the stow as it is."""
    found = laden(outfit)
    plain = replace(outfit, load=replace(outfit.load, readings=Readings()))
    if found.correction is None:
        return plain
    empty = found.empty
    masses = replace(outfit.van.masses, measured_mass=empty.mass.middle, measured_noseweight=empty.nose.middle)
    return replace(plain, van=replace(outfit.van, masses=masses))


def _ends(span: Span) -> Ends:
    return [end if math.isfinite(end) else None for end in (span.low, span.high)]


def _item(outfit: Outfit, item: LoadItem) -> dict[str, Any]:
    """One sort of thing; ``loose`` is where it may be while it has no place [m], and its share on the ball there."""
    lockers, body = outfit.van.plan.lockers, outfit.van.body
    where = [locker.x for locker in lockers_for(item, lockers)] or [body.front, body.rear]
    x = Span(min(where), max(where))
    share = moment_share(x, outfit.van.gear.axles, springs_of(outfit))
    return {
        "id": item.id,
        "name": item.name,
        "mass": item.mass,
        "number": item.number,
        "volume": item.volume,
        "loose": {"x": _ends(x), "share": _ends(share)},
        "why": {locker.id: reason for locker in lockers if (reason := why_not(item, locker))},
    }


def _lockers(outfit: Outfit) -> list[dict[str, Any]]:
    """The lockers in the order of their numbers; ``share`` of what lies in them is on the ball."""
    axles, springs = outfit.van.gear.axles, springs_of(outfit)
    return [
        {
            "id": one.id,
            "number": number,
            "name": one.name,
            "limit": one.limit,
            "room": usable_volume(one),
            "x": one.x,
            "y": one.y,
            "share": _ends(moment_share(exactly(one.x), axles, springs)),
        }
        for number, one in numbered(outfit.van)
    ]


def _payload(outfit: Outfit, base: Laden) -> dict[str, Any]:
    """What is aboard beyond the empty van without the load, and how much may be."""
    empty = base.empty.mass
    return {
        "base": _ends(base.load_mass),
        "limit": outfit.van.masses.mtplm - empty.high if empty.bounded else None,
    }


def _axles(bare: Outfit, base: Laden) -> list[dict[str, Any]]:
    """Each axle, in each way of sharing: what it carries of the van itself, and of a kilogram a metre behind the ball; ``shared``
    axles carry equal parts of all that is not on the ball.
    """
    axles = bare.van.gear.axles
    number, mean, squares = len(axles), sum(axles) / len(axles), sum(axle * axle for axle in axles)
    rows = []
    for springs in springs_of(bare):
        shared = springs == "equalised" or number == 1
        for n, (axle, span) in enumerate(zip(axles, axle_spans(bare, base, springs), strict=True), 1):
            per = 1 / mean / number if shared else axle / squares
            name = f"Axle {n} of the caravan" if number > 1 else "The caravan's axle"
            rows.append({"name": name, "base": _ends(span), "per": per, "shared": shared})
    return rows


def _band(outfit: Outfit, mass: float) -> dict[str, Any]:
    """The limits on the ball; the guideline as shares of the laden mass."""
    band = nose_band(outfit, mass)
    return {
        "ruling": band.ruling,
        "missing": list(band.unknown),
        "least": band.least,
        "guideline": [get("towing.guideline_nose_low").si, get("towing.guideline_nose_high").si],
    }
