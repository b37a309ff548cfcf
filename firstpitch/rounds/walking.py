"""Where a person stands and how long the walk takes: round the outside of the body, along the aisle, through the door.

Outside, people walk one closed line: the body's outline set off by a clearance, with a point in front of the towball (nobody should
climb over the A-frame). Inside they walk the aisle. The door joins the two, with a cost for the step up. Standing points are rounded to
a grid along those lines, so that things within arm's reach of each other share a place.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from firstpitch.rounds.types import Place
from firstpitch.sheet.types import Body, Door, VanPlan

Point = tuple[float, float]


@dataclass(frozen=True)
class WalkRates:
    """Walking pace [m/s], seconds to step up or down at the door, clearance from the body [m], grid of standing points [m].

    Common practice, no source: an easy stroll with a customer.
    """

    pace: float = 1.0
    step_up: float = 3.0
    clearance: float = 0.6
    grid: float = 0.5


@dataclass(frozen=True)
class Spot:
    """A standing point: metres along the outside line, or along the aisle."""

    along: float
    inside: bool


@dataclass(frozen=True)
class Ground:
    """The two walking lines and the door that joins them. ``outline`` is closed (its last point joins its first)."""

    outline: tuple[Point, ...]
    aisle: tuple[Point, ...]
    door_outside: float
    door_inside: float
    door_through: float
    rates: WalkRates

    @property
    def outline_length(self) -> float:
        """Once round the van [m]."""
        return _lengths((*self.outline, self.outline[0]))[-1]


def _lengths(line: Sequence[Point]) -> list[float]:
    """Metres from the first point to each point of ``line``."""
    along = [0.0]
    for a, b in pairwise(line):
        along.append(along[-1] + math.dist(a, b))
    return along


def _nearest(line: Sequence[Point], at: Point) -> tuple[float, float]:
    """Metres along ``line`` of its point nearest to ``at``, and the distance to it."""
    along = _lengths(line)
    best = (0.0, math.dist(line[0], at))
    for start, a, b in zip(along, line, line[1:], strict=False):
        span = math.dist(a, b)
        if span == 0:
            continue
        part = ((at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1])) / span**2
        part = min(1.0, max(0.0, part))
        foot = (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))
        away = math.dist(foot, at)
        if away < best[1] - 1e-9:
            best = (start + part * span, away)
    return best


def _point(line: Sequence[Point], along: float) -> Point:
    lengths = _lengths(line)
    for start, end, a, b in zip(lengths, lengths[1:], line, line[1:], strict=False):
        if along <= end or end == lengths[-1]:
            part = (along - start) / (end - start) if end > start else 0.0
            return (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))
    return line[-1]


def lay_ground(body: Body, plan: VanPlan, rates: WalkRates = WalkRates()) -> Ground:
    """The walking lines of a van. ValueError when the aisle has fewer than two points or a rate is not positive."""
    if len(plan.aisle) <= 1:
        raise ValueError("the aisle needs at least two points")
    if min(rates.pace, rates.grid) <= 0 or min(rates.step_up, rates.clearance) < 0:
        raise ValueError("walking pace and grid must be above zero, step cost and clearance not below")
    reach = body.width / 2 + rates.clearance
    outline = (
        (-rates.clearance, 0.0),
        (body.front, reach),
        (body.rear + rates.clearance, reach),
        (body.rear + rates.clearance, -reach),
        (body.front, -reach),
    )
    door = _door_points(plan.door, body, rates)
    closed = (*outline, outline[0])
    outside, _ = _nearest(closed, door[0])
    inside, to_aisle = _nearest(plan.aisle, door[1])
    return Ground(outline, plan.aisle, outside, inside, rates.clearance + to_aisle, rates)


def _door_points(door: Door, body: Body, rates: WalkRates) -> tuple[Point, Point]:
    side = 1.0 if door.side == "nearside" else -1.0
    return (door.at, side * (body.width / 2 + rates.clearance)), (door.at, side * body.width / 2)


def stand_at(ground: Ground, x: float, y: float, *, inside: bool) -> Spot:
    """The standing point for something at (x, y) [m], on the grid of its line; outside the grid goes round in whole cells."""
    grid = ground.rates.grid
    if inside:
        along, _ = _nearest(ground.aisle, (x, y))
        return Spot(min(round(along / grid) * grid, _lengths(ground.aisle)[-1]), inside)
    along, _ = _nearest((*ground.outline, ground.outline[0]), (x, y))
    cells = max(1, round(ground.outline_length / grid))
    cell = ground.outline_length / cells
    return Spot(round(along / cell) % cells * cell, inside)


def door_spot(ground: Ground) -> Spot:
    """The standing point outside the door."""
    return Spot(ground.door_outside, inside=False)


def spot_point(ground: Ground, spot: Spot) -> Point:
    """(x, y) of a standing point [m]."""
    return _point(ground.aisle if spot.inside else (*ground.outline, ground.outline[0]), spot.along)


def distance(ground: Ground, a: Spot, b: Spot) -> float:
    """Metres on foot from one standing point to another, by the shorter way round outside and through the door."""
    if a.inside and b.inside:
        return abs(a.along - b.along)
    if not a.inside and not b.inside:
        straight = abs(a.along - b.along)
        return min(straight, ground.outline_length - straight)
    inner, outer = (a, b) if a.inside else (b, a)
    to_door = distance(ground, outer, door_spot(ground))
    return to_door + ground.door_through + abs(inner.along - ground.door_inside)


def walk_seconds(ground: Ground, a: Spot, b: Spot) -> int:
    """Whole seconds from one standing point to another, rounded up, with the step up or down where the door is passed."""
    if a == b:
        return 0
    step = ground.rates.step_up if a.inside != b.inside else 0.0
    return math.ceil(distance(ground, a, b) / ground.rates.pace + step - 1e-9)


def place_words(ground: Ground, x: float, y: float, *, inside: bool) -> str:
    """Where a standing point is, in words.

    >>> box = Ground(((-0.6, 0.0), (1.0, 1.7), (6.6, 1.7), (6.6, -1.7), (1.0, -1.7)), ((1.5, 0.0), (5.5, 0.0)), 0, 0, 0, WalkRates())
    >>> place_words(box, 3.5, 1.7, inside=False), place_words(box, -0.6, 0.0, inside=False), place_words(box, 5.2, 0.0, inside=True)
    ('nearside, middle', 'at the towball', 'inside, rear')
    """
    line = ground.aisle if inside else ground.outline[1:]
    first, last = min(p[0] for p in line), max(p[0] for p in line)
    if not inside and x < first / 2:
        return "at the towball"
    part = (x - first) / (last - first) if last > first else 0.0
    third = "front" if part < 1 / 3 else "middle" if part < 2 / 3 else "rear"
    if inside:
        return f"inside, {third}"
    if x < first:
        return "front"
    if x >= last and abs(y) < max(abs(p[1]) for p in line):
        return "rear"
    return f"{'nearside' if y > 0 else 'offside'}, {third}"


def places_and_walks(
    ground: Ground, spots: Iterable[Spot]
) -> tuple[dict[Spot, Place], Mapping[str, Mapping[str, int]]]:
    """A named place for each different spot (numbered along its line) and whole seconds between every two of them."""
    ordered = sorted(set(spots), key=lambda s: (s.inside, s.along))
    named: dict[Spot, Place] = {}
    for inside in (False, True):
        for number, spot in enumerate((s for s in ordered if s.inside == inside), start=1):
            x, y = spot_point(ground, spot)
            name = f"{'in' if inside else 'out'}-{number:02d}"
            named[spot] = Place(name, round(x, 3), round(y, 3), inside, place_words(ground, x, y, inside=inside))
    walks = {named[a].id: {named[b].id: walk_seconds(ground, a, b) for b in ordered} for a in ordered}
    return named, walks
