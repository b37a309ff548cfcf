"""A figure on its scale with every limit marked, and damping over speed: readable without colour."""

from __future__ import annotations

from firstpitch.outfit import Scale, ScaleMark, SteadinessComparison
from firstpitch.papers.drawing.ink import InkMode, Picture
from firstpitch.papers.drawing.shell import text_width

_WIDTH = 1000.0
_LEFT, _RIGHT = 40.0, 960.0
_SMALL = 13.0
_ROW = 18.0
_FINE, _COARSE, _MANY = 10, 50, 200  # kg between ticks, and where they get too many
_DASHES = ("", "8 5", "2 4", "12 4 2 4")


def draw_nose_scale(scale: Scale, *, mode: InkMode = "page") -> str:
    """The noseweight on one horizontal scale: limits as ticks with their names, the guideline as a band, the best band heavier,
    the noseweight as a pointer (a bar where it is not known exactly); limits nobody knows are named with a hatched end."""
    rows = _rows(scale)
    top = 54.0
    base = top + 62 + _ROW * (max(row for _, row, _ in rows) + 1 if rows else 1)
    height = base + 6 + (_ROW if scale.unknown else 0)
    picture = Picture("nose-scale", (0, 0, _WIDTH, height), "Noseweight and its limits", _spoken(scale), mode=mode)
    picture.text("name-start", _LEFT, 18, 15, "Noseweight in kg")
    for mark in scale.marks:
        if mark.role in ("guideline", "preferred"):
            inset = 0 if mark.role == "guideline" else 7
            style = "band" if mark.role == "guideline" else "wait"
            picture.rect(style, _x(scale, mark.low), top + inset, _x(scale, mark.high), top + 28 - inset)
    picture.line("scale", [(_LEFT, top + 28), (_RIGHT, top + 28)])
    for value in range(0, int(scale.top) + 1, _FINE if scale.top <= _MANY else _COARSE):
        picture.line("rule", [(_x(scale, value), top + 28), (_x(scale, value), top + 33)])
        picture.text("label", _x(scale, value), top + 46, _SMALL, str(value))
    for mark, row, start in rows:
        x, y = _x(scale, mark.low), top + 68 + _ROW * row
        if mark.role not in ("guideline", "preferred"):
            picture.line("state-heavy" if mark.role == "ruling" else "body", [(x, top - 4), (x, top + 33)])
        picture.line("leader", [(x, top + 48), (x, y)])
        picture.text("name-start" if mark.role == "ruling" else "label-start", start, y, _SMALL, _words(mark))
    _pointer(picture, scale, top)
    if scale.unknown:
        for n in range(8):
            picture.line("wait-hatch", [(_RIGHT - 60 + n * 8, top + 28), (_RIGHT - 52 + n * 8, top)])
        words = f"Not known, so nobody can say above: {', '.join(scale.unknown)}"
        picture.text("name-start", _LEFT, height - 6, _SMALL, words)
    return picture.svg()


def _x(scale: Scale, value: float) -> float:
    return _LEFT + (_RIGHT - _LEFT) * value / scale.top


def _words(mark: ScaleMark) -> str:
    if mark.role in ("guideline", "preferred"):
        return f"{mark.label}: {mark.low:.0f} to {mark.high:.0f}"
    ruling = ", the ruling limit" if mark.role == "ruling" else ""
    return f"{mark.label} {mark.low:.0f}{ruling}"


def _rows(scale: Scale) -> list[tuple[ScaleMark, int, float]]:
    """Labels in rows, the rightmost highest, so that no leader runs through a label: (mark, row, where it starts)."""
    placed: list[tuple[ScaleMark, int, float]] = []
    starts: list[float] = []
    for mark in sorted((m for m in scale.marks if m.role != "now"), key=lambda m: -m.low):
        width, x = text_width(_words(mark), _SMALL) * 1.05, _x(scale, mark.low)
        start = x + 5 if x + 5 + width <= _WIDTH else x - 5 - width
        row = next((n for n, taken in enumerate(starts) if start + width + 10 < taken), len(starts))
        if row == len(starts):
            starts.append(0.0)
        starts[row] = min(start, x)
        placed.append((mark, row, start))
    return placed


def _pointer(picture: Picture, scale: Scale, top: float) -> None:
    now = next((mark for mark in scale.marks if mark.role == "now"), None)
    if now is None:
        return
    low, high = _x(scale, now.low), _x(scale, now.high)
    words = f"{now.low:.0f}" if high - low < 1 else f"{now.low:.0f} to {now.high:.0f}"
    if high - low >= 1:
        picture.rect("state-fill", low, top - 12, high, top - 6)
    for x in {low, high}:
        picture.line("arrow", [(x - 7, top - 14), (x + 7, top - 14), (x, top)], closed=True)
    picture.text("name-start", min((low + high) / 2 + 12, _RIGHT - 80), top - 18, 17, f"{words} kg")


def _spoken(scale: Scale) -> str:
    parts = [_words(mark) for mark in scale.marks if mark.role != "now"]
    now = [f"The noseweight is {m.low:.0f} to {m.high:.0f} kg" for m in scale.marks if m.role == "now"]
    return ". ".join([*now, *parts, *(f"The limit of {name} is not known" for name in scale.unknown)]) + "."


def draw_steadiness(found: SteadinessComparison, *, mode: InkMode = "page") -> str:
    """Damping over speed for each loading: the middle of all samples as a line of its own dashes, 10 % to 90 % as thin lines."""
    width, height, left, base = 1000.0, 420.0, 60.0, 360.0
    desc = " ".join(
        [*(one.sentence for one in found.loadings), *(one.sentence for one in found.compared), found.caution]
    )
    picture = Picture("steadiness", (0, 0, width, height), "How quickly a swing dies away, over speed", desc, mode=mode)
    bands = [band for one in found.loadings for band in one.curve]
    high, low = max(0.1, *(band.high for band in bands)), min(0.0, *(band.low for band in bands))
    speeds = found.loadings[0].speeds

    def at(speed: float, damping: float) -> tuple[float, float]:
        across = (speed - speeds[0]) / (speeds[-1] - speeds[0])
        return left + across * 700, base - (damping - low) / (high - low) * 300

    picture.line("scale", [at(speeds[0], 0.0), at(speeds[-1], 0.0)])
    picture.text(
        "label-start", at(speeds[-1], 0)[0] + 6, at(speeds[0], 0)[1] + 4, _SMALL, "below this line a swing grows"
    )
    for speed in speeds:
        picture.text("label", at(speed, 0)[0], base + 20, _SMALL, f"{speed * 3.6:.0f}")
    for tenth in range(int(high * 10) + 1):
        y = at(speeds[0], tenth / 10)[1]
        picture.line("rule", [(left - 6, y), (left, y)])
        picture.text("label-end", left - 10, y + 4, _SMALL, f"{tenth / 10:.1f}")
    picture.text("label", left + 350, base + 40, _SMALL, "km/h")
    picture.text("label", 16, base - 150, _SMALL, "damping", upright=True)
    for n, one in enumerate(found.loadings):
        dashes = _DASHES[n % len(_DASHES)]
        for end in ("low", "high"):
            picture.line("rule", [at(s, getattr(b, end)) for s, b in zip(one.speeds, one.curve, strict=True)])
        points = [at(s, b.middle) for s, b in zip(one.speeds, one.curve, strict=True)]
        d = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        picture.add("path", "state", d=d, **({"stroke-dasharray": dashes} if dashes else {}))
        y = 60.0 + 26 * n
        sample = f"M{left + 720:.0f} {y:.0f}H{left + 770:.0f}"
        picture.add("path", "state", d=sample, **({"stroke-dasharray": dashes} if dashes else {}))
        picture.text("label-start", left + 778, y + 4, _SMALL, one.name[:28])
    picture.text("name-start", left, 24, 15, "A comparison. It certifies no speed.")
    return picture.svg()
