"""The walk: a dashed line with arrowheads."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from firstpitch.papers.drawing.ink import Picture, Point

_HEAD = 8.0
_SAME = 0.5  # points nearer than this [units] are one
_LEAST = 26.0  # a stretch shorter than this [units] gets no arrowhead of its own


def draw_walk(picture: Picture, points: Sequence[Point]) -> None:
    """Draw the way through ``points`` [units]: an arrowhead in the middle of every longer stretch and one at the end."""
    way = [p for i, p in enumerate(points) if i == 0 or math.dist(p, points[i - 1]) > _SAME]
    stretches = list(pairwise(way))
    if not stretches:
        return
    picture.line("walk", way)
    for start, end in stretches[:-1]:
        if math.dist(start, end) >= _LEAST:
            _head(picture, start, ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    _head(picture, *stretches[-1])


def _head(picture: Picture, start: Point, tip: Point) -> None:
    angle = math.atan2(tip[1] - start[1], tip[0] - start[0])
    wings = [
        (tip[0] - _HEAD * math.cos(angle + turn), tip[1] - _HEAD * math.sin(angle + turn)) for turn in (0.45, -0.45)
    ]
    picture.line("arrow", [tip, *wings], closed=True)
