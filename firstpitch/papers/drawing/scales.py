"""A figure on its scale with every limit marked, and damping over speed: readable without colour."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstpitch.outfit import Scale, ScaleMark, Span, SteadinessComparison
from firstpitch.papers.drawing.ink import InkMode, Picture, path_of
from firstpitch.papers.drawing.shell import text_width

_WIDTH = 1000.0
_EDGE = 40.0
_BOLD = 1.12  # bold letters are so much wider
_LEAST_SPAN = 0.6  # of the width is the scale itself, however long the names of the last limits are
_SMALL = 13.0
_ROW = 18.0
_FINE, _COARSE, _MANY = 10, 50, 200  # kg between ticks, and where they get too many
_DENSE = 0.7  # damping above which every second tenth is written
_UNDER = 0.13  # of the plot's height is kept below nought, for the words that stand there
_NAME = 34  # letters of a loading's name
_DASHES = ("", "8 5", "2 4", "12 4 2 4")


def draw_nose_scale(scale: Scale, *, mode: InkMode = "page", width: float = _WIDTH) -> str:
    """The noseweight on one horizontal scale: limits as ticks with their names, the guideline as a band, the best band heavier,
    the noseweight as a pointer (a bar where it is not known exactly); limits nobody knows are named with a hatched end."""
    rows = _rows(scale, width)
    top, right = 54.0, _EDGE + _span(scale, width)
    base = top + 62 + _ROW * (max(one.row for one in rows) + 1 if rows else 1)
    unknown = _unknown_lines(scale, width)
    height = base + 6 + _ROW * len(unknown)
    picture = Picture("nose-scale", (0, 0, width, height), "Noseweight and its limits", spoken(scale), mode=mode)
    known = any(mark.role == "now" for mark in scale.marks)
    picture.text(
        "name-start", _EDGE, 18, 15, "Noseweight in kg" if known else "Noseweight in kg: what it is now is not known"
    )
    _bands(picture, scale, width, top)
    picture.line("scale", [(_EDGE, top + 28), (right, top + 28)])
    for value in range(0, int(scale.top) + 1, _FINE if scale.top <= _MANY else _COARSE):
        x = _x(scale, width, value)
        picture.line("rule", [(x, top + 28), (x, top + 33)])
        picture.text("label", x, top + 46, _SMALL, str(value))
    for one in rows:
        y, heavy = top + 68 + _ROW * one.row, one.mark.role == "ruling"
        if one.mark.role not in ("guideline", "preferred"):
            picture.line("state-heavy" if heavy else "body", [(one.x, top - 4), (one.x, top + 33)])
        picture.line("leader", [(one.x, top + 48), (one.x, y)])
        picture.text("name-start" if heavy else "label-start", one.start, y, _SMALL, _words(one.mark))
    _pointer(picture, scale, width, top)
    if scale.unknown:
        drawn = _x(scale, width, max(mark.high for mark in scale.marks))
        for n in range(min(8, max(1, int((right - drawn) / 8) - 1))):
            picture.line("wait-hatch", [(right - 4 - n * 8, top + 28), (right + 4 - n * 8, top)])
        for n, line in enumerate(unknown):
            picture.text("name-start", _EDGE, base + _ROW * (n + 1), _SMALL, line)
    return picture.svg()


def _unknown_lines(scale: Scale, width: float) -> list[str]:
    """The limits nobody knows, in as many lines as the drawing is narrow."""
    if not scale.unknown:
        return []
    lines = ["Not known, so nobody can say above: "]
    for n, name in enumerate(scale.unknown):
        piece = name + (", " if n + 1 < len(scale.unknown) else "")
        if text_width(lines[-1] + piece, _SMALL) * _BOLD > width - 2 * _EDGE:
            lines.append("")
        lines[-1] += piece
    return [line.strip() for line in lines]


def _bands(picture: Picture, scale: Scale, width: float, top: float) -> None:
    for mark in scale.marks:
        if mark.role in ("guideline", "preferred"):
            inset = 0 if mark.role == "guideline" else 7
            style = "band" if mark.role == "guideline" else "wait"
            low, high = _x(scale, width, mark.low), _x(scale, width, mark.high)
            picture.rect(style, low, top + inset, high, top + 28 - inset)


def _x(scale: Scale, width: float, value: float) -> float:
    return _EDGE + _span(scale, width) * value / scale.top


def _span(scale: Scale, width: float) -> float:
    """How long the scale is drawn [units]: as long as leaves room for each name to the right of its mark."""
    named = ((mark.low, text_width(_words(mark), _SMALL) * 1.05 + 6) for mark in scale.marks if mark.role != "now")
    room = (scale.top * (width - _EDGE - long) / low for low, long in named if low > 0)
    return max(_LEAST_SPAN * width, min(width - 2 * _EDGE, *room, width))


def _words(mark: ScaleMark) -> str:
    if mark.role in ("guideline", "preferred"):
        low, high = f"{mark.low:.0f}", f"{mark.high:.0f}"
        return f"{mark.label}: {low}" + (f" to {high}" if high != low else "")
    ruling = ", the ruling limit" if mark.role == "ruling" else ""
    return f"{mark.label} {mark.low:.0f}{ruling}"


@dataclass(frozen=True)
class _Label:
    mark: ScaleMark
    row: int
    start: float
    end: float
    x: float

    def clear_of(self, other: _Label) -> bool:
        """Whether the labels do not meet and neither's leader runs through the other."""
        if self.row == other.row:
            return self.end + 10 < other.start or other.end + 10 < self.start
        low, high = (self, other) if self.row > other.row else (other, self)
        return not high.start - 4 < low.x < high.end + 4


def _rows(scale: Scale, width: float) -> list[_Label]:
    """Labels in rows, the rightmost highest, so that no leader runs through a label."""
    placed: list[_Label] = []
    for mark in sorted((m for m in scale.marks if m.role != "now"), key=lambda m: -m.low):
        long, x = text_width(_words(mark), _SMALL) * 1.05, _x(scale, width, mark.low)
        start = x + 5 if x + 5 + long <= width else max(x - 5 - long, 0.0)
        tried = [_Label(mark, row, start, start + long, x) for row in range(len(placed) + 1)]
        # Where leaders must cross a label whatever the row, the lowest row at least keeps labels apart.
        placed.append(next((one for one in tried if all(map(one.clear_of, placed))), tried[-1]))
    return placed


def _pointer(picture: Picture, scale: Scale, width: float, top: float) -> None:
    now = next((mark for mark in scale.marks if mark.role == "now"), None)
    if now is None:
        return
    low, high = _x(scale, width, now.low), _x(scale, width, now.high)
    words = f"{now.low:.0f}" if high - low < 1 else f"{now.low:.0f} to {now.high:.0f}"
    picture.open_part(pointer=now.low, top=scale.top, kilo=_span(scale, width) / scale.top)
    if high - low >= 1:
        picture.rect("state-fill", low, top - 12, high, top - 6)
    for x in {low, high}:
        picture.line("arrow", [(x - 7, top - 14), (x + 7, top - 14), (x, top)], closed=True)
    picture.text("name-start", min((low + high) / 2 + 12, width - _EDGE - 80), top - 18, 17, f"{words} kg")
    picture.close_group()


_LINE_EDGE = 8.0
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
_TICKS = 6  # about so many figures stand under a figure's scale
_ROOM = 1.15  # the scale runs so far past the larger of figure and limit


def draw_figure_scale(
    figure: Span | None, limit: float | None, *, least: bool = False, mode: InkMode = "page", width: float = 380.0
) -> str:
    """A figure against its limit, both in the unit shown: the allowed part tinted, the limit a heavy line, the figure a pointer
    (two, with a hatched bar between, where it lies in a span). A figure nobody knows is hatched throughout.

    The words beside it say the same, so screen readers pass it by.
    """
    picture = Picture("", (0, 0, width, 50), "", "", mode=mode, hidden=True)
    ends = () if figure is None else tuple(v for v in (figure.low, figure.high) if math.isfinite(v))
    top = max([*ends, limit or 0.0, 0.0]) * _ROOM or 1.0
    base = 26.0

    def place(value: float) -> float:
        return _LINE_EDGE + (width - 2 * _LINE_EDGE) * min(max(value / top, 0.0), 1.0)

    if limit is not None:
        low, high = (place(limit), place(top)) if least else (place(0.0), place(limit))
        picture.rect("band", low, base - 8, high, base)
    picture.line("scale", [(place(0.0), base), (place(top), base)])
    for value in _figure_ticks(top):
        picture.line("rule", [(place(value), base), (place(value), base + 5)])
        picture.text("label", place(value), base + 19, _SMALL, f"{value:g}")
    if limit is not None:
        picture.line("state-heavy", [(place(limit), base - 14), (place(limit), base + 7)])
    if not ends or figure is None:
        _hatched(picture, place(0.0), place(top), base)
        return picture.svg()
    low, high = place(max(figure.low, 0.0)), place(min(figure.high, top))
    if high - low >= 1:
        _hatched(picture, low, high, base)
    for x in {place(end) for end in ends}:
        picture.line("arrow", [(x - 7, base - 15), (x + 7, base - 15), (x, base - 1)], closed=True)
    return picture.svg()


def _hatched(picture: Picture, low: float, high: float, base: float) -> None:
    for n in range(int((high - low) // 8)):
        picture.line("wait-hatch", [(low + n * 8, base), (low + (n + 1) * 8, base - 8)])


def _figure_ticks(top: float) -> list[float]:
    rough = top / _TICKS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * s for s in _STEPS if power * s >= rough * (1 - 1e-9))
    return [round(step * n, 9) for n in range(math.floor(top / step) + 1)]


def spoken(scale: Scale) -> str:
    """The scale in words, for those who cannot see it."""
    parts = [_words(mark) for mark in scale.marks if mark.role != "now"]
    now = [f"The noseweight is {m.low:.0f} to {m.high:.0f} kg" for m in scale.marks if m.role == "now"]
    now = now or ["The noseweight is not known"]
    return ". ".join([*now, *parts, *(f"The limit of {name} is not known" for name in scale.unknown)]) + "."


def draw_steadiness(found: SteadinessComparison, *, mode: InkMode = "page", width: float = _WIDTH) -> str:
    """Damping over speed for each loading: the middle of all samples as a line of its own dashes, 10 % to 90 % as a band
    (the first filled, the others between thin lines of the same dashes)."""
    height = 420.0 if width >= _WIDTH else 280.0
    desc = " ".join(
        [*(one.sentence for one in found.loadings), *(one.sentence for one in found.compared), found.caution]
    )
    picture = Picture("steadiness", (0, 0, width, height), "How quickly a swing dies away, over speed", desc, mode=mode)
    bands = [band for one in found.loadings for band in one.curve]
    high = max(0.1, *(band.high for band in bands))
    low = min(-_UNDER * high, *(band.low for band in bands))
    plot = _Plot(found.loadings[0].speeds, low, high, 60.0, width - 20, 40.0, height - 56)
    _axes(picture, plot)
    for n, one in enumerate(found.loadings):
        dashes = _dashes(n)
        ends = [
            [plot.at(s, getattr(b, e)) for s, b in zip(one.speeds, one.curve, strict=True)] for e in ("low", "high")
        ]
        if n == 0:
            picture.line("band", [*ends[0], *reversed(ends[1])], closed=True)
        for end in ends:
            picture.add("path", "leader", d=path_of(end), **dashes)
        points = [plot.at(s, b.middle) for s, b in zip(one.speeds, one.curve, strict=True)]
        picture.add("path", "state", d=path_of(points), **dashes)
        y = plot.top + 14 + 22 * n
        picture.add("path", "state", d=path_of([(plot.right - 250, y), (plot.right - 206, y)]), **dashes)
        picture.text("label-start", plot.right - 198, y + 4, _SMALL, one.name[:_NAME])
    picture.line("scale", [plot.at(plot.speeds[0], 0.0), plot.at(plot.speeds[-1], 0.0)])
    picture.text("name-start", plot.left, 18, 15, "A comparison of loadings. It certifies no speed.")
    return picture.svg()


def _dashes(n: int) -> dict[str, float | str]:
    dashes = _DASHES[n % len(_DASHES)]
    return {"stroke_dasharray": dashes} if dashes else {}


@dataclass(frozen=True)
class _Plot:
    """Where a speed [m/s] and a damping stand on paper."""

    speeds: tuple[float, ...]
    low: float
    high: float
    left: float
    right: float
    top: float
    base: float

    def at(self, speed: float, damping: float) -> tuple[float, float]:
        across = (speed - self.speeds[0]) / (self.speeds[-1] - self.speeds[0])
        up = (damping - self.low) / (self.high - self.low)
        return self.left + across * (self.right - self.left), self.base - up * (self.base - self.top)


def _axes(picture: Picture, plot: _Plot) -> None:
    zero = plot.at(plot.speeds[0], 0.0)[1]
    for speed in plot.speeds:
        picture.text("label", plot.at(speed, 0)[0], plot.base + 20, _SMALL, f"{speed * 3.6:.0f}")
    step = 1 if plot.high < _DENSE else 2
    for tenth in range(math.ceil(plot.low * 10 / step) * step, int(plot.high * 10) + 1, step):
        y = plot.at(plot.speeds[0], tenth / 10)[1]
        picture.line("rule", [(plot.left - 6, y), (plot.left, y)])
        picture.text("label-end", plot.left - 10, y + 4, _SMALL, f"{tenth / 10:.1f}".replace("-", "−"))
    picture.text("label", (plot.left + plot.right) / 2, plot.base + 40, _SMALL, "km/h")
    picture.text("label", 16, (plot.top + plot.base) / 2, _SMALL, "damping", upright=True)
    picture.text("label-start", plot.left + 6, zero + 15, _SMALL, "below this line a swing grows")
