"""The van itself in line: body, running gear, A-frame, door, furniture and lockers, from its build sheet."""

from __future__ import annotations

import re
from dataclasses import dataclass

from firstpitch.papers.drawing.ink import Picture, Point, number, round_path_of
from firstpitch.papers.drawing.views import Frame
from firstpitch.sheet.types import BuildSheet, Furniture, Kit, Quantity

Box = tuple[float, float, float, float]

_TYRE = re.compile(r"(\d{3})\s*/\s*(\d{2,3})\s*[A-Z]{0,2}\s*R\s*(\d{2}(?:\.\d)?)", re.I)
_INCH = 0.0254
# Drawn by eye where the sheet has no figure; the picture's description says so.
_EYE_TYRE = (0.185, 0.64)
_EYE_COUPLING = 0.40
_EYE_DOOR = 1.75
_LABEL = 14.0
_LETTER = 0.47  # width of a letter of the figures face, as a part of its size


@dataclass(frozen=True)
class TyreSize:
    """Section width and outer diameter [m]; ``known`` is false when drawn by eye."""

    width: float
    diameter: float
    known: bool


def tyre_size(marking: str | None) -> TyreSize:
    """Width and diameter from a tyre's size marking: diameter = rim + 2 × width × aspect ratio.

    Without a marking that says all three the tyre is drawn by eye.

    >>> size = tyre_size("185/65 R14")
    >>> round(size.width, 3), round(size.diameter, 4)
    (0.185, 0.5961)
    """
    found = _TYRE.search(marking or "")
    if not found:
        return TyreSize(*_EYE_TYRE, known=False)
    width, aspect, rim = float(found[1]) / 1000, float(found[2]) / 100, float(found[3]) * _INCH
    return TyreSize(width, rim + 2 * width * aspect, known=True)


def text_width(words: str, size: float) -> float:
    """About how wide ``words`` come out in the figures face."""
    return len(words) * size * _LETTER


def draw_plan(picture: Picture, frame: Frame, sheet: BuildSheet, *, named: bool = True) -> list[Box]:
    """Draw the van from above, furniture ``named`` where there is room; gives the labels' boxes, for marks to keep clear of."""
    body, half = sheet.body, sheet.body.width / 2
    x0, y0 = frame.at(body.front, -half)
    x1, y1 = frame.at(body.rear, half)
    _drawbar(picture, frame, sheet)
    picture.rect("floor", x0, y0, x1, y1, radius=0.08 * frame.scale)
    taken = _furniture(picture, frame, sheet.plan.furniture, named=named)
    if len(sheet.plan.aisle) > 1:
        picture.line("aisle", [frame.at(x, y) for x, y in sheet.plan.aisle])
    for locker in sheet.plan.lockers:
        lx, ly, _ = locker.size
        picture.rect(
            "locker",
            *frame.at(locker.x - lx / 2, locker.y - ly / 2),
            *frame.at(locker.x + lx / 2, locker.y + ly / 2),
        )
    _wheels_from_above(picture, frame, sheet)
    picture.rect("body", x0, y0, x1, y1, radius=0.08 * frame.scale)
    _door_from_above(picture, frame, sheet)
    return taken


def _drawbar(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    spread = sheet.body.width * 0.3
    for side in (-1, 1):
        picture.line("frame", [frame.at(0.12, 0.02 * side), frame.at(sheet.body.front, spread * side)])
    picture.line("frame", [frame.at(0, 0), frame.at(0.3, 0)])
    cx, cy = frame.at(0, 0)
    picture.add("circle", "ball", cx=cx, cy=cy, r=0.05 * frame.scale)


def _furniture(picture: Picture, frame: Frame, furniture: tuple[Furniture, ...], *, named: bool) -> list[Box]:
    taken: list[Box] = []
    for piece in furniture:
        ax, ay, bx, by = piece.corners
        (x0, y0), (x1, y1) = frame.at(min(ax, bx), min(ay, by)), frame.at(max(ax, bx), max(ay, by))
        picture.rect("furniture", x0, y0, x1, y1)
        if named:
            taken.extend(_label(picture, piece.name, (x0, y0, x1, y1)))
    return taken


def _label(picture: Picture, words: str, box: Box) -> list[Box]:
    """Write ``words`` in the middle of a box, along or up, where they fit; gives the box they take up."""
    x0, y0, x1, y1 = box
    width, middle, half = text_width(words, _LABEL), ((x0 + x1) / 2, (y0 + y1) / 2), _LABEL / 2 + 1
    if width + 8 <= x1 - x0 and y1 - y0 >= _LABEL + 4:
        picture.text("label", middle[0], middle[1] + _LABEL * 0.35, _LABEL, words)
        return [(middle[0] - width / 2, middle[1] - half, middle[0] + width / 2, middle[1] + half)]
    if width + 8 <= y1 - y0 and x1 - x0 >= _LABEL + 4:
        picture.text("label", middle[0] + _LABEL * 0.35, middle[1], _LABEL, words, upright=True)
        return [(middle[0] - half, middle[1] - width / 2, middle[0] + half, middle[1] + width / 2)]
    return []


def _wheels_from_above(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    tyre = tyre_size(sheet.gear.tyre.size)
    track = sheet.gear.track or sheet.body.width - tyre.width - 0.1
    for axle in sheet.gear.axles:
        for side in (-1, 1):
            middle = side * track / 2
            picture.rect(
                "hidden",
                *frame.at(axle - tyre.diameter / 2, middle - tyre.width / 2),
                *frame.at(axle + tyre.diameter / 2, middle + tyre.width / 2),
                radius=3,
            )


def _door_from_above(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    door = sheet.plan.door
    out = 1 if door.side == "nearside" else -1
    wall = out * sheet.body.width / 2
    ends = [frame.at(door.at - door.width / 2, wall), frame.at(door.at + door.width / 2, wall)]
    picture.line("gap", ends)
    for x, y in ends:
        picture.line("body", [(x, y - 5), (x, y + 5)])
    (xa, y), (xb, _) = ends
    picture.line("pane", [(xa, y + 5 * out), (xb, y + 5 * out)])


def draw_elevation(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    """Draw the van from one of its four sides."""
    if frame.view in ("nearside", "offside"):
        _long_side(picture, frame, sheet)
    else:
        _short_side(picture, frame, sheet)
    y = frame.at(0, 0, 0)[1]
    picture.line("ground", [(0, y), (frame.size[0], y)])


def floor_height(sheet: BuildSheet) -> float:
    """Where the lower edge of the body is drawn [m]: at the door's step, the nearest figure the sheet has."""
    return max(0.2, min(sheet.plan.door.step_up, sheet.body.height * 0.3))


def _long_side(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    body, floor = sheet.body, floor_height(sheet)
    tyre = tyre_size(sheet.gear.tyre.size)
    towball = frame.at(0, 0, _EYE_COUPLING)
    picture.line("frame", [towball, frame.at(0.25, 0, _EYE_COUPLING), frame.at(body.front + 0.25, 0, floor)])
    picture.line("frame", [frame.at(0.25, 0, _EYE_COUPLING - 0.08), frame.at(body.front + 0.25, 0, floor - 0.08)])
    picture.add("circle", "ball", cx=towball[0], cy=towball[1], r=0.05 * frame.scale)
    outline = round_path_of(_side_outline(frame, sheet, floor), 0.22 * frame.scale)
    picture.add("path", "floor", d=outline)
    picture.add("path", "body", d=outline)
    for axle in sheet.gear.axles:
        cx, cy = frame.at(axle, 0, tyre.diameter / 2)
        r = (tyre.diameter / 2 + 0.05) * frame.scale
        picture.add(
            "path",
            "arch",
            d=f"M{number(cx - r)} {number(cy)}A{number(r)} {number(r)} 0 0 1 {number(cx + r)} {number(cy)}",
        )
        picture.add("circle", "wheel", cx=cx, cy=cy, r=tyre.diameter / 2 * frame.scale)
        picture.add("circle", "pane", cx=cx, cy=cy, r=tyre.diameter * 0.31 * frame.scale)
    door = sheet.plan.door
    if door.side == frame.view:
        top = min(body.height - 0.2, floor + _EYE_DOOR)
        picture.rect(
            "door",
            *frame.at(door.at - door.width / 2, 0, top),
            *frame.at(door.at + door.width / 2, 0, floor + 0.04),
            radius=4,
        )


def _side_outline(frame: Frame, sheet: BuildSheet, floor: float) -> list[Point]:
    body = sheet.body
    lean = min(0.3, body.length * 0.06)
    corners = [
        (body.front + 0.04, floor),
        (body.front, floor + 0.3 * (body.height - floor)),
        (body.front + lean, body.height),
        (body.rear - 0.03, body.height),
        (body.rear, floor),
    ]
    return [frame.at(x, 0, z) for x, z in corners]


def _short_side(picture: Picture, frame: Frame, sheet: BuildSheet) -> None:
    body, half, floor = sheet.body, sheet.body.width / 2, floor_height(sheet)
    tyre = tyre_size(sheet.gear.tyre.size)
    track = sheet.gear.track or body.width - tyre.width - 0.1
    for side in (-1, 1):
        middle = side * track / 2
        picture.rect(
            "wheel",
            *frame.at(0, middle - tyre.width / 2, floor + 0.05),
            *frame.at(0, middle + tyre.width / 2, 0),
            radius=3,
        )
    corners = [(-half, floor), (-half, body.height), (half, body.height), (half, floor)]
    outline = round_path_of([frame.at(0, y, z) for y, z in corners], 0.14 * frame.scale)
    picture.add("path", "floor", d=outline)
    picture.add("path", "body", d=outline)
    if frame.view == "front":
        cx, cy = frame.at(0, 0, _EYE_COUPLING)
        picture.add("circle", "ball", cx=cx, cy=cy, r=0.05 * frame.scale)


def draw_sized(picture: Picture, frame: Frame, kit: Kit) -> None:
    """Outline a kit whose facts give its width and height (a window, a hatch), at its real size."""
    width, height = (kit.facts.get(name) for name in ("width", "height"))
    if not (isinstance(width, Quantity) and isinstance(height, Quantity)) or kit.z is None:
        return
    if not (width.unit == height.unit == "m"):
        return
    cx, cy = frame.at(kit.x, kit.y, kit.z)
    half_w, half_h = width.si / 2 * frame.scale, height.si / 2 * frame.scale
    picture.rect("pane", cx - half_w, cy - half_h, cx + half_w, cy + half_h, radius=3)
