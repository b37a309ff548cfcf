"""Where a point of the van stands in each view. All views of one van have the same scale."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstpitch.sheet.types import BuildSheet

View = Literal["plan", "nearside", "offside", "front", "rear"]
VIEWS: tuple[View, ...] = ("plan", "nearside", "offside", "front", "rear")

# Free space round the body [m]: room for two rows of marks, and more where a person's walk is drawn.
AHEAD, BEHIND, BESIDE, ABOVE, BELOW = 0.25, 0.5, 0.6, 0.2, 0.3
WALKING = 0.35
NARROW = 0.35
PLAN_WIDTH = 1000.0


@dataclass(frozen=True)
class Frame:
    """A view at ``scale`` units per metre; ``low`` and ``high`` are the drawn span along the paper [m].

    ``flip``: the drawn axis runs the other way on paper (the offside is seen with the towball on the right).
    """

    view: View
    scale: float
    low: float
    high: float
    top: float
    bottom: float
    flip: bool

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the picture in units."""
        return (self.high - self.low) * self.scale, abs(self.bottom - self.top) * self.scale

    def at(self, x: float, y: float, z: float = 0.0) -> tuple[float, float]:
        """The place on paper of a point of the van [m]."""
        across = y if self.view in ("front", "rear") else x
        px = (self.high - across if self.flip else across - self.low) * self.scale
        py = (y - self.top) * self.scale if self.view == "plan" else (self.top - z) * self.scale
        return px, py


def share(sheet: BuildSheet, view: View) -> tuple[float, float]:
    """Width and height of ``view`` as parts of the plan's width, so that pictures printed together have one scale."""
    width, height = frame(sheet, view).size
    whole = frame(sheet, "plan").size[0]
    return width / whole, height / whole


def frame(sheet: BuildSheet, view: View, scale: float | None = None, *, walking: bool = False) -> Frame:
    """The frame of ``view``; without ``scale`` [units per metre] the plan comes out 1000 units wide.

    ``walking`` leaves room for the walk round the van.
    """
    body = sheet.body
    more = WALKING if walking else 0.0
    low, high = -AHEAD - 1.5 * more, body.rear + BEHIND + more
    units = scale or PLAN_WIDTH / (high - low)
    half = body.width / 2
    if view == "plan":
        return Frame(view, units, low, high, -half - BESIDE - more, half + BESIDE + more, flip=False)
    top, bottom = body.height + ABOVE, -BELOW
    if view in ("nearside", "offside"):
        return Frame(view, units, low, high, top, bottom, flip=view == "offside")
    side = half + NARROW
    return Frame(view, units, -side, side, top, bottom, flip=view == "rear")
