"""The loaded van in line: lockers with what lies in them, from above and along both sides, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from firstpitch.outfit import Outfit, nose_scale
from firstpitch.outfit.coupling import nose_band
from firstpitch.outfit.stow import StowFigures
from firstpitch.papers.drawing.ink import InkMode, Picture, Point, safe
from firstpitch.papers.drawing.marks import Mark, draw_marks, place
from firstpitch.papers.drawing.scales import draw_nose_scale
from firstpitch.papers.drawing.shell import draw_elevation, draw_plan, text_width
from firstpitch.papers.drawing.views import Frame, frame
from firstpitch.sheet.types import BuildSheet, Locker, Side

_SMALL = 13.0
_LINE = 19.0
_WIDTH = 1000.0
_FULL = 0.97
_SHORT = 26.0  # units; in a locker less high its number is smaller


def numbered(sheet: BuildSheet) -> tuple[tuple[str, Locker], ...]:
    """The lockers with their numbers on the drawing, front to rear."""
    ordered = sorted(sheet.plan.lockers, key=lambda locker: (locker.x, locker.y, locker.z))
    return tuple((str(n), locker) for n, locker in enumerate(ordered, 1))


def units(sheet: BuildSheet, width: float) -> float:
    """Units per metre at which plan and halves come out ``width`` units wide; letters keep their size, so that a small
    drawing can still be read."""
    return frame(sheet, "plan").scale * width / _WIDTH


def draw_load_plan(sheet: BuildSheet, figures: StowFigures, *, mode: InkMode = "page", width: float = _WIDTH) -> str:
    """The van from above with every locker numbered; a locker that holds something has a solid line."""
    view = frame(sheet, "plan", units(sheet, width))
    picture = Picture(
        "load-plan",
        (0, 0, *view.size),
        f"Load from above: {sheet.identity.name}",
        "Numbers name the lockers in the list.",
        mode=mode,
    )
    draw_plan(picture, view, sheet, named=False)
    held = {locker.id: locker.mass for locker in figures.lockers}
    for _, locker in numbered(sheet):
        holds = held.get(locker.id, 0.0) > 0
        if holds or mode == "page":  # a page may put something in
            (x0, y0), (x1, y1) = _from_above(view, locker)
            picture.open_part(holds=locker.id)
            shown = {} if holds else {"visibility": "hidden"}
            picture.add("rect", "pane", x=x0, y=y0, width=x1 - x0, height=y1 - y0, **shown)
            picture.close_group()
    marks = [Mark(number, locker.name, locker.x, locker.y, locker.z, inside=True) for number, locker in numbered(sheet)]
    draw_marks(picture, place(view, sheet, marks))
    _balance(picture, view, figures)
    return picture.svg()


def _from_above(view: Frame, locker: Locker) -> tuple[Point, Point]:
    along, across, _up = locker.size
    low = view.at(locker.x - along / 2, locker.y - across / 2)
    return low, view.at(locker.x + along / 2, locker.y + across / 2)


def _balance(picture: Picture, view: Frame, figures: StowFigures) -> None:
    """A cross in a ring at the laden van's centre of gravity."""
    x, y = view.at(figures.centre, 0.0, -0.15)
    picture.open_part(balance=figures.centre, scale=view.scale)
    picture.add("circle", "mark", cx=x, cy=y, r=9)
    picture.line("pane", [(x - 9, y), (x + 9, y)])
    picture.line("pane", [(x, y - 9), (x, y + 9)])
    picture.text("label-start", x + 14, y + 5, _SMALL, "centre of gravity")
    picture.close_group()


def draw_load_side(
    sheet: BuildSheet, figures: StowFigures, side: str, *, mode: InkMode = "page", width: float = _WIDTH
) -> str:
    """One half of the van from the nearside: each locker filled from below by the share of its limit that is used.

    ``side`` is ``nearside`` or ``offside``; both are drawn with the towball on the left. A locker of unknown limit is hatched.
    """
    view = frame(sheet, "nearside", units(sheet, width))
    words = "The towball is on the left. A locker is filled as far as its limit is used; hatched: its limit is unknown."
    picture = Picture(
        f"load-{side}", (0, 0, *view.size), f"Load on the {side}: {sheet.identity.name}", words, mode=mode
    )
    # Seen from the nearside whichever half it is, so the door shows only in its own half.
    seen: Side = "nearside" if sheet.plan.door.side == side else "offside"
    shell = replace(sheet, plan=replace(sheet.plan, door=replace(sheet.plan.door, side=seen)))
    draw_elevation(picture, view, shell)
    loads = {locker.id: locker for locker in figures.lockers}
    held = [(n, one) for n, one in numbered(sheet) if (one.y >= 0) == (side == "nearside") or one.y == 0]
    for _, locker in held:
        load = loads[locker.id]
        _locker(picture, view, locker, load.mass / load.limit if load.limit else None)
    for number, locker in held:
        _number(picture, view, locker, number)
    _balance(picture, view, figures)
    picture.text("label-start", 6, 16, _SMALL, f"{side} half")
    return picture.svg()


def _locker(picture: Picture, view: Frame, locker: Locker, share: float | None) -> None:
    x0, y0, x1, y1 = _box(view, locker)
    picture.open_part(locker=locker.id)
    picture.rect("mark", x0, y0, x1, y1)
    if share is None:
        step = 9
        for n in range(int((x1 - x0) // step)):
            picture.line("wait-hatch", [(x0 + n * step, y1), (x0 + (n + 1) * step, y0)])
    elif share > 0 or picture.mode == "page":  # a page may fill it
        top = min(y1 - (y1 - y0 - 1) * min(share, 1.0), y1 - 1)
        picture.rect("step-try", x0 + 1, top, x1 - 1, y1 - 1)
    picture.close_group()


def _box(view: Frame, locker: Locker) -> tuple[float, float, float, float]:
    along, _, up = locker.size
    x0, y1 = view.at(locker.x - along / 2, 0, locker.z)
    x1, y0 = view.at(locker.x + along / 2, 0, locker.z + up)
    return x0, y0, x1, y1


def _number(picture: Picture, view: Frame, locker: Locker, number: str) -> None:
    x0, y0, x1, y1 = _box(view, locker)
    middle, small = ((x0 + x1) / 2, (y0 + y1) / 2), y1 - y0 < _SHORT
    size = 12.0 if small else 15.0
    wide, high = text_width(number, size) / 2 + 2.5, size * 0.44
    picture.rect("floor", middle[0] - wide, middle[1] - high, middle[0] + wide, middle[1] + high, radius=2)
    picture.text("number", middle[0], middle[1] + size * 0.35, size, number)


def draw_load_list(sheet: BuildSheet, figures: StowFigures, *, mode: InkMode = "page") -> str:
    """The list beside the drawing: number, locker, load and limit, what lies in it."""
    loads = {locker.id: locker for locker in figures.lockers}
    lines = [(number, loads[locker.id]) for number, locker in numbered(sheet)]
    rows = [(number, load, _wrapped(_pieces(load.pieces), 92)) for number, load in lines]
    height = _LINE * (sum(len(words) for _, _, words in rows) + 1) + 8
    picture = Picture("load-list", (0, 0, _WIDTH, height), f"Where everything is: {sheet.identity.name}", "", mode=mode)
    y = _LINE
    for number, load, words in rows:
        limit = f"{load.limit:g} kg" if load.limit is not None else "unknown limit"
        full = " full" if load.limit and load.mass >= _FULL * load.limit else ""
        picture.text("name-end", 24, y, 15, number)
        picture.text("name-start", 34, y, 14, load.name)
        picture.text("label-end", 400, y, 14, f"{load.mass:.1f} of {limit}{full}")
        for line in words:
            picture.text("label-start", 414, y, 14, line)
            y += _LINE
    return picture.svg()


def _pieces(pieces: Sequence[tuple[str, int]]) -> str:
    return ", ".join(f"{number} × {name}" if number > 1 else name for name, number in pieces) or "nothing"


def _wrapped(words: str, letters: int) -> list[str]:
    from textwrap import wrap

    return wrap(words, letters) or [""]


def draw_load(outfit: Outfit, figures: StowFigures) -> str:
    """One SVG file: plan, both halves, the noseweight on its scale, and the list."""
    sheet = outfit.van
    scale = nose_scale(nose_band(outfit, figures.mass), figures.nose)
    parts = [
        draw_load_plan(sheet, figures, mode="alone"),
        draw_load_side(sheet, figures, "nearside", mode="alone"),
        draw_load_side(sheet, figures, "offside", mode="alone"),
        draw_nose_scale(scale, mode="alone"),
        draw_load_list(sheet, figures, mode="alone"),
    ]
    return stacked(parts, f"Load of {sheet.identity.name}")


def stacked(parts: Sequence[str], title: str) -> str:
    """Pictures one under the other in one SVG."""
    import re

    inside, y = [], 0.0
    for part in parts:
        found = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', part)
        height = float(found[2]) if found else 0.0
        inside.append(part.replace("<svg ", f'<svg x="0" y="{y:g}" ', 1))
        y += height + 6
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_WIDTH:g}" height="{y:g}" viewBox="0 0 {_WIDTH:g} {y:g}" role="img">'
        f"<title>{safe(title)}</title>{''.join(inside)}</svg>"
    )
