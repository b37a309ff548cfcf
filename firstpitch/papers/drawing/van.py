"""The one drawing of the van, from its build sheet, to scale."""

from __future__ import annotations

from collections.abc import Sequence

from firstpitch.papers.drawing.ink import InkMode, Picture, Point
from firstpitch.papers.drawing.marks import Mark, draw_marks, place, seen_from
from firstpitch.papers.drawing.shell import draw_elevation, draw_plan, draw_sized
from firstpitch.papers.drawing.views import Frame, View, frame
from firstpitch.papers.drawing.walk import draw_walk
from firstpitch.sheet.types import BuildSheet

_WORDS: dict[View, tuple[str, str]] = {
    "plan": ("Plan", "Seen from above. The towball is on the left, the nearside at the bottom."),
    "nearside": ("Nearside", "Seen from the nearside. The towball is on the left."),
    "offside": ("Offside", "Seen from the offside, as you stand there: the towball is on the right."),
    "front": ("Front", "Seen from the front. The nearside is on the right."),
    "rear": ("Rear", "Seen from behind. The nearside is on the left."),
}
_EYE = "The A-frame, the slope of the walls and the height of the door are drawn by eye; all else is to scale."
_SMALL = 13.0


def draw(
    sheet: BuildSheet,
    view: View = "plan",
    *,
    marks: Sequence[Mark] = (),
    route: Sequence[Point] = (),
    next_mark: str = "",
    mode: InkMode = "page",
    linked: bool = False,
    key: str = "",
    scale: float | None = None,
) -> str:
    """The van as SVG text.

    ``marks``: kit to pin, at its real place; those that cannot be seen in this view are left out. ``route``: places
    walked through, as (x, y) in metres, drawn in the plan only. ``next_mark``: number of the one filled mark.
    ``mode``: how inks are written (see ``InkMode``). ``linked``: marks link to their ``target``. ``key``: prefix of
    the ids, needed when a page holds the same view twice. ``scale``: units per metre; without it the plan is 1000 wide.
    """
    view_frame = frame(sheet, view, scale, walking=bool(route))
    shown = seen_from(view, marks, sheet)
    name, words = _WORDS[view]
    count = f" {len(shown)} marks are numbered; the list beside the drawing names them." if shown else ""
    width, height = view_frame.size
    picture = Picture(
        key=key or f"van-{view}",
        box=(0, 0, width, height),
        title=f"{name} of {sheet.identity.name}",
        desc=f"{words}{count} {_EYE}",
        mode=mode,
        linked=linked,
    )
    taken = []
    if view == "plan":
        taken = draw_plan(picture, view_frame, sheet)
    else:
        draw_elevation(picture, view_frame, sheet)
        for kit in sheet.kit:
            if seen_from(view, [Mark("", kit.name, kit.x, kit.y, kit.z)], sheet):
                draw_sized(picture, view_frame, kit)
    _captions(picture, view_frame)
    if view == "plan" and route:
        draw_walk(picture, [view_frame.at(x, y) for x, y in route])
    draw_marks(picture, place(view_frame, sheet, shown, taken), next_mark)
    return picture.svg()


def _captions(picture: Picture, view_frame: Frame) -> None:
    width, height = view_frame.size
    if view_frame.view == "plan":
        picture.text("label-start", 6, 16, _SMALL, "offside")
        picture.text("label-start", 6, height - 8, _SMALL, "nearside")
    elif view_frame.view in ("front", "rear"):
        left, right = ("offside", "nearside") if view_frame.view == "front" else ("nearside", "offside")
        picture.text("label-start", 6, height - 6, _SMALL, left)
        picture.text("label-end", width - 6, height - 6, _SMALL, right)
    else:
        cls, x = ("label-end", width - 6) if view_frame.flip else ("label-start", 6)
        picture.text(cls, x, height - 8, _SMALL, "towball")
    if view_frame.view in ("plan", "nearside"):
        _scale_bar(picture, view_frame)


def _scale_bar(picture: Picture, view_frame: Frame) -> None:
    width, height = view_frame.size
    end, base = width - 12, height - 10
    start = end - view_frame.scale
    picture.line("scale", [(start, base - 6), (start, base), (end, base), (end, base - 6)])
    picture.text("label", (start + end) / 2, base - 5, _SMALL, "1 metre")
