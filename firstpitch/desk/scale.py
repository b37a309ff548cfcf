"""A figure with its limit on one horizontal scale, drawn to its units."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Anchor = Literal["start", "middle", "end"]
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
_LABELS = 6  # about so many figures stand under a scale
_EDGE = 12.0  # nearer to an end than this [% of the scale], words hang inwards


@dataclass(frozen=True)
class Spot:
    """A place on the scale: ``x`` [% from the left], its words, and which end of them stands there."""

    x: float
    words: str
    anchor: Anchor


@dataclass(frozen=True)
class Scale:
    """What the page draws. ``figure`` None: nobody knows it, and the whole scale is hatched. ``band``: the allowed part [%].

    ``spread``: from where to where the figure may lie [%], where it is not one number.
    """

    words: str
    ticks: tuple[Spot, ...]
    limit: Spot | None
    figure: Spot | None
    band: tuple[float, float] | None
    spread: tuple[float, float] | None

    @property
    def band_width(self) -> float:
        """Length of the allowed part [%]."""
        return self.band[1] - self.band[0] if self.band else 0.0

    @property
    def spread_width(self) -> float:
        """Length of the part where the figure may lie [%]."""
        return self.spread[1] - self.spread[0] if self.spread else 0.0


def scale_of(
    figure: float | tuple[float, float] | None,
    limit: float | None,
    unit: str,
    *,
    least: bool = False,
    ends: tuple[float, float] | None = None,
) -> Scale:
    """The scale for a ``figure`` (one number, a span, or None for unknown) against its ``limit``, all in ``unit``.

    ``least``: the limit is a lower one. ``ends``: what the scale runs from and to; without it, from 0 to past the larger of both.

    >>> scale_of(66, 100, "kg").words
    '66 kg; the limit is 100 kg'
    """
    low, high = figure if isinstance(figure, tuple) else (figure, figure)
    known = [v for v in (low, high, limit) if v is not None and math.isfinite(v)]
    first, last = ends or (min(0.0, *known, 0.0), 1.15 * max([*known, 0.0]) or 1.0)
    ticks = _ticks(first, last)

    def place(value: float) -> float:
        return round(100 * min(1.0, max(0.0, (value - first) / (last - first))), 2)

    def spot(value: float, words: str) -> Spot:
        x = place(value)
        return Spot(x, words, "start" if x < _EDGE else "end" if x > 100 - _EDGE else "middle")

    said = _said(low, high, unit)
    named = "at least" if least else "limit"
    band = None if limit is None else ((place(limit), 100.0) if least else (0.0, place(limit)))
    middle = None if low is None or high is None else (max(low, first) + min(high, last)) / 2
    return Scale(
        words=_sentence(said, limit, unit, least=least),
        ticks=tuple(spot(value, "" if value == limit else f"{value:g}") for value in ticks),
        limit=None if limit is None else spot(limit, f"{named} {_plain(limit)} {unit}"),
        figure=None if middle is None else spot(middle, said),
        band=band,
        spread=None if low is None or high is None or low == high else (place(low), place(high)),
    )


def _sentence(said: str, limit: float | None, unit: str, *, least: bool) -> str:
    if limit is None:
        return f"{said}; no limit is known"
    return f"{said}; {'it must be at least' if least else 'the limit is'} {_plain(limit)} {unit}"


def _said(low: float | None, high: float | None, unit: str) -> str:
    if low is None or high is None:
        return "not known"
    if low == high:
        return f"{_plain(low)} {unit}"
    if math.isinf(high):
        return f"{_plain(low)} {unit} or more" if math.isfinite(low) else "not known"
    return f"{_plain(low)} to {_plain(high)} {unit}" if math.isfinite(low) else f"{_plain(high)} {unit} or less"


def _plain(value: float) -> str:
    return f"{value:.0f}" if abs(value) >= 100 else f"{value:.3g}"  # noqa: PLR2004


def _ticks(first: float, last: float) -> list[float]:
    rough = (last - first) / _LABELS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * s for s in _STEPS if power * s >= rough)
    start = math.ceil(first / step)
    return [round(step * n, 9) for n in range(start, math.floor(last / step) + 1)]
