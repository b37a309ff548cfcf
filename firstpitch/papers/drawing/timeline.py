"""The round in time: a lane for each part of the van, steps as bars, the walk dashed between lanes, waits running beside."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from firstpitch.papers.drawing.ink import InkMode, Picture
from firstpitch.papers.drawing.shell import text_width
from firstpitch.papers.programme import LANES, Stop, minutes_words, stops
from firstpitch.rounds.types import Plan, Problem

WIDTH = 1000.0
_LEFT, _RIGHT = 96.0, 20.0
_LANE, _BAR, _WAIT, _GAP = 23.0, 10.0, 16.0, 14.0
_TOP = 22.0
_WORDS = 12.5
_STRIP_MINUTES = 60
_TICK = 300


@dataclass(frozen=True)
class Strip:
    """One line of the picture: seconds ``start`` to ``end``, drawn from ``y`` down."""

    start: int
    end: int
    y: float
    wait_rows: int

    def x(self, second: float) -> float:
        """Where a second stands along the strip."""
        return _LEFT + (second - self.start) / (self.end - self.start) * (WIDTH - _LEFT - _RIGHT)

    def lane(self, name: str) -> float:
        """The middle of a lane."""
        return self.y + _TOP + (LANES.index(name) + 0.5) * _LANE

    @property
    def foot(self) -> float:
        """Where the waits begin."""
        return self.y + _TOP + len(LANES) * _LANE

    @property
    def height(self) -> float:
        """Height of the strip with its waits."""
        return _TOP + len(LANES) * _LANE + self.wait_rows * _WAIT + 4


@dataclass(frozen=True)
class _Bar:
    """A wait as drawn in one strip."""

    start: int
    end: int
    words: str
    row: int
    side: Literal["in", "after", "before"]


def draw_timeline(problem: Problem, plan: Plan, *, mode: InkMode = "page", key: str = "round") -> str:
    """The plan as one SVG picture, cut into strips of at most 60 minutes."""
    halts = stops(problem, plan)
    strips, bars = _strips(problem, plan)
    picture = Picture(
        key=key,
        box=(0, 0, *timeline_size(problem, plan)),
        title=f"The round of {problem.van} in time",
        desc=(
            f"{len(plan.steps)} steps at {len(halts)} stops in {minutes_words(plan.total)}, with {len(plan.waits)} waits "
            "that run by themselves. Bars are steps, lighter where the owner tries; dashed lines are walking; open bars "
            "below are waits. The table of stops says the same in words."
        ),
        mode=mode,
    )
    for strip, waits in zip(strips, bars, strict=True):
        _axis(picture, strip)
        _walks(picture, strip, problem, halts)
        _steps(picture, strip, halts)
        _waits(picture, strip, waits)
    return picture.svg()


def timeline_size(problem: Problem, plan: Plan) -> tuple[float, float]:
    """Width and height of the picture in units."""
    strips, _ = _strips(problem, plan)
    return WIDTH, strips[-1].y + strips[-1].height


def _strips(problem: Problem, plan: Plan) -> tuple[list[Strip], list[list[_Bar]]]:
    total = max(plan.total, max((w.end for w in plan.waits), default=0), 60)
    count = max(1, math.ceil(total / 60 / _STRIP_MINUTES))
    # Strips end on a whole five minutes, so that the ticks of each start at its edge.
    length = math.ceil(total / count / _TICK) * _TICK
    titles = {w.id: w.title for w in problem.waits}
    strips: list[Strip] = []
    bars: list[list[_Bar]] = []
    y = 0.0
    for i in range(count):
        start, end = i * length, (i + 1) * length
        waits = [(w.start, w.end, titles.get(w.wait, w.wait)) for w in plan.waits if w.start < end and w.end > start]
        rows = _rows(sorted(waits), start, end)
        strips.append(Strip(start, end, y, max((b.row for b in rows), default=-1) + 1))
        bars.append(rows)
        y += strips[-1].height + _GAP
    return strips, bars


def _rows(waits: Sequence[tuple[int, int, str]], start: int, end: int) -> list[_Bar]:
    """Put waits into as few rows as will keep them and their words apart."""
    scale = (WIDTH - _LEFT - _RIGHT) / (end - start)
    free: list[float] = []
    bars: list[_Bar] = []
    for first, last, title in waits:
        a, b = max(first, start), min(last, end)
        words = f"{title}, {minutes_words(last - first)}"
        begin, until, width = a * scale, b * scale, text_width(words, _WORDS) + 10
        side: Literal["in", "after", "before"] = "in"
        if width > until - begin:
            side = "after" if until + width <= end * scale else "before"
            begin, until = (begin, until + width) if side == "after" else (begin - width, until)
        row = next((r for r, busy in enumerate(free) if busy <= begin), len(free))
        if row == len(free):
            free.append(start * scale - WIDTH)
        free[row] = until + 6
        bars.append(_Bar(a, b, words, row, side))
    return bars


def _axis(picture: Picture, strip: Strip) -> None:
    for number, lane in enumerate(LANES):
        y = strip.lane(lane)
        if number % 2 == 0:
            picture.rect("band", _LEFT, y - _LANE / 2, WIDTH - _RIGHT, y + _LANE / 2)
        picture.text("label-end", _LEFT - 8, y + 4.5, _WORDS, lane)
    step = _TICK if strip.end - strip.start > 3 * _TICK else 60
    for second in range(strip.start, strip.end + 1, step):
        x = strip.x(second)
        picture.line("rule", [(x, strip.y + 18), (x, strip.foot)])
        picture.text("label", x, strip.y + 13, _WORDS, str(second // 60))
    picture.text("label-end", _LEFT - 14, strip.y + 13, _WORDS, "minutes")
    if strip.wait_rows:
        picture.text("label-end", _LEFT - 8, strip.foot + _WAIT * 0.8, _WORDS, "waits")


def _walks(picture: Picture, strip: Strip, problem: Problem, halts: Sequence[Stop]) -> None:
    for before, after in pairwise(halts):
        walk = problem.walks[before.place][after.place]
        arrive = min(before.end + walk, after.start)
        if arrive < strip.start or before.end > strip.end:
            continue
        a = (strip.x(max(before.end, strip.start)), strip.lane(before.lane))
        b = (strip.x(min(arrive, strip.end)), strip.lane(after.lane))
        picture.line("walk-thin", [a, b])
        if after.start > arrive and after.start > strip.start:
            picture.line("scale", [b, (strip.x(min(after.start, strip.end)), b[1])])


def _steps(picture: Picture, strip: Strip, halts: Sequence[Stop]) -> None:
    labelled: dict[str, float] = {}
    for halt in halts:
        if halt.end <= strip.start or halt.start >= strip.end:
            continue
        y = strip.lane(halt.lane)
        for step, timed in zip(halt.steps, halt.timed, strict=True):
            tries = timed.end - step.owner_try
            for cls, start, end in (("step", timed.start, tries), ("step-try", tries, timed.end)):
                a, b = max(start, strip.start), min(end, strip.end)
                if a < b:
                    picture.rect(cls, strip.x(a), y - _BAR / 2 + 3, strip.x(b), y + _BAR / 2 + 3)
        middle = (strip.x(max(halt.start, strip.start)) + strip.x(min(halt.end, strip.end))) / 2
        half = text_width(str(halt.number), _WORDS) / 2
        # A number that would run into the one before it is left out; the list has the time.
        if middle - half > labelled.get(halt.lane, 0.0):
            picture.text("number", middle, y - 4, _WORDS - 1, str(halt.number))
            labelled[halt.lane] = middle + half + 2


def _waits(picture: Picture, strip: Strip, bars: Sequence[_Bar]) -> None:
    for bar in bars:
        a, b, y = strip.x(bar.start), strip.x(bar.end), strip.foot + 4 + bar.row * _WAIT
        picture.rect("wait", a, y, max(b, a + 2), y + _WAIT - 4)
        base = y + _WAIT - 7
        if bar.side == "before":
            picture.text("name-end", a - 4, base, _WORDS - 1, bar.words)
        else:
            picture.text("name-start", (a if bar.side == "in" else max(b, a + 2)) + 4, base, _WORDS - 1, bar.words)
