"""Numbered marks: each as near its real place as it can stand without covering another."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from firstpitch.papers.drawing.ink import Picture, Point
from firstpitch.papers.drawing.shell import Box, text_width
from firstpitch.papers.drawing.views import Frame
from firstpitch.sheet.types import BuildSheet

RADIUS = 13.5
_SPACE = 3.0  # least clear paper between two marks
_NUMBER = 16.0
_DOT = 2.6
_ON_FACE = 0.35  # a kit this near a wall [m] is seen from that side
_AHEAD = 0.1  # further in front of the body than this [m] is on the A-frame
_DEEP = 0.6  # outside kit further under the body than this [m] (a spare wheel) is marked in place
_AT_FACE = 0.05  # ... and this near it is seen whatever else is nearer
_NEAR = 1.0  # a mark this near its real place [units] needs no leader

Struck = Literal["", "half", "whole"]
_STRUCK: dict[Struck, str] = {"": "", "half": ", not all shown", "whole": ", not shown"}


@dataclass(frozen=True)
class Mark:
    """A kit on the drawing: its number, its name and its real place [m]; ``target`` is where its link leads.

    ``lacking``: a figure of it is missing, so it is drawn with a broken line. ``struck``: it was not shown (``whole``: a stroke
    across), or not all of it (``half``: half a stroke).
    """

    number: str
    name: str
    x: float
    y: float
    z: float | None = None
    inside: bool = False
    target: str = ""
    lacking: bool = False
    struck: Struck = ""


@dataclass(frozen=True)
class PlacedMark:
    """A mark, its real place on paper and where its disc is drawn [units]."""

    mark: Mark
    real: Point
    drawn: Point


def seen_from(view: str, marks: Sequence[Mark], sheet: BuildSheet) -> tuple[Mark, ...]:
    """The marks that belong in a view: all in the plan; in a side view those outside, at a known height, on that side."""
    if view == "plan":
        return tuple(marks)
    return tuple(m for m in marks if not m.inside and m.z is not None and _faces(view, m, sheet))


def _faces(view: str, mark: Mark, sheet: BuildSheet) -> bool:
    body, half = sheet.body, sheet.body.width / 2
    ahead = mark.x < body.front
    gaps = {
        "nearside": half - mark.y,
        "offside": half + mark.y,
        "front": mark.x - body.front,
        "rear": body.rear - mark.x,
    }
    if ahead:
        return view in ("front", "nearside" if mark.y >= 0 else "offside")
    return gaps[view] <= min(_ON_FACE, *gaps.values()) + 1e-9 or gaps[view] < _AT_FACE


def place(frame: Frame, sheet: BuildSheet, marks: Sequence[Mark], taken: Sequence[Box] = ()) -> tuple[PlacedMark, ...]:
    """Where each mark is drawn: discs never overlap and stay on the paper; in the plan, inside marks stay in the body
    and outside marks stay out of it. The same input gives the same places."""
    real = [frame.at(m.x, m.y, m.z or 0.0) for m in marks]
    wish = [_wish(frame, sheet, m, p) for m, p in zip(marks, real, strict=True)]
    crowd = [sum(math.dist(a, b) < 6 * RADIUS for b in wish) for a in wish]
    drawn: dict[int, Point] = {}
    for i in sorted(range(len(marks)), key=lambda i: (-crowd[i], i)):
        fits = _rule(frame, sheet, marks[i], taken)
        drawn[i] = _free_place(wish[i], list(drawn.values()), fits)
    _untangle(drawn, real, [_zone(frame, sheet, m) for m in marks])
    return tuple(PlacedMark(m, real[i], drawn[i]) for i, m in enumerate(marks))


def _body_box(frame: Frame, sheet: BuildSheet) -> Box:
    half = sheet.body.width / 2
    x0, y0 = frame.at(sheet.body.front, -half)
    x1, y1 = frame.at(sheet.body.rear, half)
    return x0, y0, x1, y1


def _zone(frame: Frame, sheet: BuildSheet, mark: Mark) -> str:
    if frame.view != "plan":
        return "all"
    if mark.inside:
        return "inside"
    body, half = sheet.body, sheet.body.width / 2
    if mark.x < body.front - _AHEAD:
        return "ahead"
    deep = min(half - abs(mark.y), mark.x - body.front, body.rear - mark.x)
    return "inside" if deep > _DEEP else "outside"


def _wish(frame: Frame, sheet: BuildSheet, mark: Mark, real: Point) -> Point:
    """Where the disc would stand if it were alone: outside kit just off the nearest wall, all else in place."""
    zone = _zone(frame, sheet, mark)
    x0, y0, x1, y1 = _body_box(frame, sheet)
    off = RADIUS + 7
    px, py = real
    if zone == "inside":
        return min(max(px, x0 + off), x1 - off), min(max(py, y0 + off), y1 - off)
    if zone != "outside":
        return real
    out = {
        (px, y1 + off): y1 - py,
        (px, y0 - off): py - y0,
        (x1 + off, py): x1 - px,
        (x0 - off, py): px - x0,
    }
    return min(out, key=lambda p: out[p])


def _rule(frame: Frame, sheet: BuildSheet, mark: Mark, taken: Sequence[Box]) -> Callable[[Point], bool]:
    zone, (width, height) = _zone(frame, sheet, mark), frame.size
    x0, y0, x1, y1 = _body_box(frame, sheet)
    edge = RADIUS + 1

    def fits(point: Point) -> bool:
        x, y = point
        if not (edge <= x <= width - edge and edge <= y <= height - edge):
            return False
        if zone == "inside":
            return x0 + edge <= x <= x1 - edge and y0 + edge <= y <= y1 - edge and not _on_label(x, y, taken)
        near = RADIUS + 4
        return zone == "all" or not (x0 - near < x < x1 + near and y0 - near < y < y1 + near)

    return fits


def _on_label(x: float, y: float, taken: Sequence[Box]) -> bool:
    return any(x0 - RADIUS < x < x1 + RADIUS and y0 - RADIUS < y < y1 + RADIUS for x0, y0, x1, y1 in taken)


def _free_place(wish: Point, others: Sequence[Point], fits: Callable[[Point], bool]) -> Point:
    """The nearest free place to ``wish``, looked for on widening rings; a label is covered only when nothing else is free."""
    apart = 2 * RADIUS + _SPACE
    for ring in range(240):
        reach = ring * RADIUS / 3
        turns = max(1, int(2 * math.pi * reach / (RADIUS / 2)))
        for turn in range(turns):
            # Straight up and down first, then sideways: rows of marks read best.
            angle = math.pi / 2 + 2 * math.pi * turn / turns
            point = wish[0] + reach * math.cos(angle), wish[1] - reach * math.sin(angle)
            if fits(point) and all(math.dist(point, other) >= apart for other in others):
                return point
    raise ValueError("too many marks for this drawing: draw fewer kits or a larger scale")


def _untangle(drawn: dict[int, Point], real: Sequence[Point], zones: Sequence[str]) -> None:
    """Swap discs of one zone while that shortens their leaders: leaders then hardly ever cross."""
    for _ in range(8):
        better = False
        for i in range(len(real)):
            for j in range(i + 1, len(real)):
                if zones[i] != zones[j]:
                    continue
                now = math.dist(drawn[i], real[i]) ** 2 + math.dist(drawn[j], real[j]) ** 2
                then = math.dist(drawn[j], real[i]) ** 2 + math.dist(drawn[i], real[j]) ** 2
                if then < now - 1e-6:
                    drawn[i], drawn[j], better = drawn[j], drawn[i], True
        if not better:
            return


def draw_marks(picture: Picture, placed: Sequence[PlacedMark], next_mark: str = "") -> None:
    """Draw leaders first, then discs over them; ``next_mark`` is the number of the one filled mark."""
    for spot in placed:
        gap = math.dist(spot.real, spot.drawn)
        if gap > _NEAR:
            picture.add("circle", "dot", cx=spot.real[0], cy=spot.real[1], r=_DOT)
            picture.line("leader", [spot.real, spot.drawn])
    for spot in placed:
        filled = spot.mark.number == next_mark
        cls = "mark-next" if filled else "mark" if spot.mark.inside else "mark-out"
        broken = {"stroke_dasharray": "3.5 3"} if spot.mark.lacking else {}
        x, y = spot.drawn
        label = f"{spot.mark.number} {spot.mark.name}{_STRUCK[spot.mark.struck]}{', a figure is missing' if spot.mark.lacking else ''}"
        if spot.mark.target:
            picture.open_link(spot.mark.target, label)
        picture.open_group(label)
        picture.add("circle", cls, cx=x, cy=y, r=RADIUS, **broken)
        size = _NUMBER if text_width(spot.mark.number, _NUMBER) < 1.7 * RADIUS else _NUMBER * 0.8
        picture.text("number-next" if filled else "number", x, y + size * 0.35, size, spot.mark.number)
        if spot.mark.struck:
            reach = RADIUS * 1.25 * math.sqrt(0.5)
            picture.line("body", [_half_way(x, y, reach, spot.mark.struck), (x + reach, y - reach)])
        picture.close_group()
        if spot.mark.target:
            picture.close_link()


def _half_way(x: float, y: float, reach: float, struck: Struck) -> Point:
    """Where a stroke across a disc begins: beyond its edge, or half way."""
    return (x - reach, y + reach) if struck == "whole" else (x + 0.45 * reach, y - 0.45 * reach)
