"""The noseweight on one scale, ready to be drawn: every limit, the bands, and where the van stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from firstpitch.outfit.verdict import Span

if TYPE_CHECKING:
    from firstpitch.outfit.coupling import NoseBand

Role = Literal["limit", "ruling", "least", "guideline", "preferred", "now"]
HEADROOM = 1.15


@dataclass(frozen=True)
class ScaleMark:
    """A point or a stretch on the scale [kg]; a limit that nobody knows has no place and stands in ``Scale.unknown``."""

    role: Role
    low: float
    high: float
    label: str


@dataclass(frozen=True)
class Scale:
    """From 0 to ``top`` [kg]; ``unknown`` names the limits that cannot be drawn."""

    top: float
    marks: tuple[ScaleMark, ...]
    unknown: tuple[str, ...]


def nose_scale(band: NoseBand, nose: Span) -> Scale:
    """The scale for a noseweight and all that bears on it."""
    at: dict[float, list[str]] = {}
    for one in band.limits:
        if one.limit is not None:
            at.setdefault(one.limit, []).append(one.part)
    marks = [
        ScaleMark("ruling" if limit == band.ruling else "limit", limit, limit, ", ".join(parts))
        for limit, parts in sorted(at.items())
    ]
    marks.append(ScaleMark("guideline", *band.guideline, "guideline, 5 to 7 % of the laden mass"))
    marks.append(ScaleMark("preferred", *band.preferred, "best"))
    if band.least is not None:
        marks.append(ScaleMark("least", band.least, band.least, "least by law"))
    if nose.bounded:
        marks.append(ScaleMark("now", nose.low, nose.high, "noseweight"))
    top = max(mark.high for mark in marks) * HEADROOM
    return Scale(top, tuple(marks), band.unknown)
