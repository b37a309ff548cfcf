"""What each handover waits for, from what is kept of its van and from the history."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Protocol

from firstpitch.desk.inputs import Lacks
from firstpitch.desk.models import Event
from firstpitch.desk.snags import Snag, snags_of
from firstpitch.papers.drawing.signs import State

_HOUR_S, _DAY_S = 3600, 86400


class Due(Protocol):
    """What is asked of a handover here: the row itself, or as much of it as a list reads."""

    @property
    def pk(self) -> Any: ...
    @property
    def due(self) -> Any: ...
    @property
    def signed(self) -> Any: ...
    @property
    def called_off(self) -> Any: ...
    @property
    def why_off(self) -> Any: ...
    @property
    def owner_name(self) -> Any: ...
    @property
    def van_id(self) -> Any: ...
    @property
    def van(self) -> Any: ...
    @property
    def specialist(self) -> Any: ...


@dataclass(frozen=True)
class Reason:
    """One thing a handover waits for: its shape, in words, more words, and the page where it is put right (a part of the van's page)."""

    state: State
    words: str
    more: str = ""
    where: str = "van"


@dataclass(frozen=True)
class Waiting:
    """A handover with what it waits for; ``late`` says how late it is."""

    handover: Due
    planned: bool
    late: str
    reasons: tuple[Reason, ...]

    @property
    def ready(self) -> bool:
        """Whether nothing stands in its way."""
        return not self.reasons


def waiting_for(handover: Due, lacks: Lacks, snags: Sequence[Snag], now: datetime, *, planned: bool) -> Waiting:
    """What ``handover`` waits for at ``now``; nothing once it is signed or called off."""
    if handover.signed or handover.called_off:
        return Waiting(handover, planned, "", ())
    late = _late(now - handover.due) if now > handover.due else ""
    found = [*_of_snags(snags), *_of_figures(lacks)]
    if not planned:
        found.append(Reason("to-do", "No round planned yet", where="round"))
    if handover.specialist is None:
        found.append(Reason("to-do", "Nobody is down to hand it over", where="handover"))
    return Waiting(handover, planned, late, tuple(found))


def _of_snags(snags: Sequence[Snag]) -> list[Reason]:
    still = [snag for snag in snags if snag.open]
    stop = [snag for snag in still if snag.severity == "stop"]
    if not still:
        return []
    first = (stop or still)[0].words
    if stop:
        words = f"{len(stop)} snag{'s' if len(stop) > 1 else ''} to mend before it goes"
        return [Reason("cannot", words, first, "snags")]
    return [Reason("to-do", f"{len(still)} snag{'s' if len(still) > 1 else ''} open", first, "snags")]


def _of_figures(lacks: Lacks) -> list[Reason]:
    if not lacks.must:
        return []
    more = "; ".join(lacks.first) + ("; …" if lacks.must > len(lacks.first) else "")
    return [Reason("to-do", f"{lacks.must} figure{'s' if lacks.must > 1 else ''} missing", more, "panel")]


def _late(by: timedelta) -> str:
    seconds = by.total_seconds()
    if seconds < _HOUR_S:
        return f"{max(1, round(seconds / 60))} min late"
    if seconds < _DAY_S:
        return f"{seconds / _HOUR_S:.0f} h late"
    days = round(seconds / _DAY_S)
    return f"{days} day{'s' if days > 1 else ''} late"


def snags_by_van(events: Iterable[Event]) -> dict[int, list[Snag]]:
    """Snags of several vans from one list of events."""
    by_van: dict[int, list[Event]] = defaultdict(list)
    for event in events:
        by_van[event.van_id].append(event)
    return {van: list(snags_of(found)) for van, found in by_van.items()}
