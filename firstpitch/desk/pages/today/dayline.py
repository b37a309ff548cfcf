"""The day on one line: a scale of hours with a mark for every handover, and where we are now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

_FIRST, _LAST = 8, 18
_APART = 3.4  # least distance of two marks [% of the line]; nearer ones stand one above the other


@dataclass(frozen=True)
class Mark:
    """A handover on the line: its number in the list, how far along [%], and on which storey above the line it stands."""

    number: int
    x: float
    storey: int
    state: str


@dataclass(frozen=True)
class Dayline:
    """What is drawn: hours with their places, marks, and the place of now (None on another day)."""

    hours: tuple[tuple[str, float], ...]
    marks: tuple[Mark, ...]
    now: float | None
    height: int
    words: str


def start_of(day: date) -> datetime:
    """The first moment of a day in the yard."""
    return timezone.make_aware(datetime.combine(day, datetime.min.time()))


def dayline(day: date, due: Sequence[tuple[datetime, str]], now: datetime) -> Dayline | None:
    """The line of ``day`` for handovers due then (time, and ``late``, ``done`` or nothing), in order; None when there is none."""
    if not due:
        return None
    local = [timezone.localtime(when) for when, _ in due]
    first = min(_FIRST, *(when.hour for when in local))
    last = max(_LAST, *(when.hour + 1 for when in local))
    start = start_of(day) + timedelta(hours=first)

    def place(when: datetime) -> float:
        return round(2 + 96 * (when - start).total_seconds() / 3600 / (last - first), 2)

    marks: list[Mark] = []
    for number, (when, state) in enumerate(due, 1):
        x = place(when)
        taken = {mark.storey for mark in marks if abs(mark.x - x) < _APART}
        storey = next(i for i in range(len(due)) if i not in taken)
        marks.append(Mark(number, x, storey, state))
    here = place(now) if timezone.localtime(now).date() == day else None
    hours = tuple((f"{hour}", place(start + timedelta(hours=hour - first))) for hour in range(first, last + 1))
    return Dayline(
        hours=hours,
        marks=tuple(marks),
        now=here if here is not None and 0 <= here <= 100 else None,  # noqa: PLR2004
        height=64 + 34 * max(mark.storey for mark in marks),
        words="; ".join(f"{number} at {when:%H:%M}" for number, when in enumerate(local, 1)),
    )
