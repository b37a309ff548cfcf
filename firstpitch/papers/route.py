"""The way a person walks from one place of the round to another, as points for the drawing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from firstpitch.papers.drawing.ink import Point
from firstpitch.rounds.types import Place
from firstpitch.rounds.walking import Ground, Spot, door_spot, lay_ground, spot_point, stand_at
from firstpitch.sheet.types import BuildSheet

_SAME = 0.002  # places are rounded to the millimetre


def way(sheet: BuildSheet, start: Place, end: Place) -> tuple[Point, ...]:
    """Points (x, y) [m] from ``start`` to ``end``: round the outside the shorter way, along the aisle, through the door."""
    ground = lay_ground(sheet.body, sheet.plan)
    a, b = (spot_of(ground, place) for place in (start, end))
    if a.inside and b.inside:
        points = _along(ground.aisle, a.along, b.along)
    elif not a.inside and not b.inside:
        points = _round(ground, a.along, b.along)
    elif b.inside:
        points = [*_round(ground, a.along, ground.door_outside), *_indoors(ground, b.along)]
    else:
        points = [*reversed(_indoors(ground, a.along)), *_round(ground, ground.door_outside, b.along)]
    return tuple(point for i, point in enumerate(points) if i == 0 or point != points[i - 1])


def spot_of(ground: Ground, place: Place) -> Spot:
    """The standing point of ``place``; the one at the door is the only one off the grid."""
    door = door_spot(ground)
    if not place.inside and math.dist(spot_point(ground, door), (place.x, place.y)) < _SAME:
        return door
    return stand_at(ground, place.x, place.y, inside=place.inside)


def _indoors(ground: Ground, along: float) -> list[Point]:
    """From outside the door to a point of the aisle."""
    return [spot_point(ground, door_spot(ground)), *_along(ground.aisle, ground.door_inside, along)]


def _round(ground: Ground, start: float, end: float) -> list[Point]:
    """Along the closed outside line, the shorter way."""
    whole = ground.outline_length
    forward = (end - start) % whole
    line = (*ground.outline, *ground.outline, ground.outline[0])
    if forward <= whole / 2:
        return _along(line, start, start + forward)
    return _along(line, start if start >= end else start + whole, end)


def _along(line: Sequence[Point], start: float, end: float) -> list[Point]:
    """Points of ``line`` between two lengths along it, in walking order."""
    low, high = min(start, end), max(start, end)
    points: list[Point] = []
    done = 0.0
    for a, b in pairwise(line):
        span = math.dist(a, b)
        first, last = max(low - done, 0.0), min(high - done, span)
        if first <= last and span > 0:
            points += [_between(a, b, first / span), _between(a, b, last / span)]
        done += span
    return points if start <= end else points[::-1]


def _between(a: Point, b: Point, part: float) -> Point:
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
