"""Snags, from the history: what is wrong with a van, how grave it is, and whether it has been mended."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from types import MappingProxyType

from firstpitch.desk.models import Event, Van
from firstpitch.desk.so_far import SETTLES, in_order, taken_back

RAISED, MENDED = "snag.raised", "snag.mended"
SNAG_EVENTS = (RAISED, MENDED, *SETTLES)
SNAG_FIELDS = ("van", "what", "data", "at", "device", "number", "by__first_name", "by__last_name", "by__username")
SEVERITIES: Mapping[str, str] = MappingProxyType(
    {
        "stop": "Stop: the van does not go before it is mended",
        "care": "Take care: mend it soon, and tell the owner",
        "note": "Worth knowing",
    }
)
SIGNS: Mapping[str, str] = MappingProxyType({"stop": "prohibition", "care": "warning", "note": ""})
WORDS: Mapping[str, str] = MappingProxyType({"stop": "Stop", "care": "Take care", "note": "Worth knowing"})


@dataclass(frozen=True)
class Snag:
    """One snag. ``mended`` is when, None while it is open."""

    id: uuid.UUID
    van: int
    words: str
    severity: str
    kit: str
    by: str
    at: datetime
    mended: datetime | None
    mended_by: str = ""
    mended_words: str = ""

    @property
    def open(self) -> bool:
        """Whether it still wants mending."""
        return self.mended is None

    @property
    def sign(self) -> str:
        """The safety sign that goes with it, or nothing."""
        return SIGNS.get(self.severity, "warning")

    @property
    def word(self) -> str:
        """How grave it is, in a word or two."""
        return WORDS.get(self.severity, WORDS["care"])


def snags_of(events: Iterable[Event]) -> tuple[Snag, ...]:
    """The snags that these events tell of, open ones first, then the gravest, then the oldest. What was taken back does not count."""
    ordered = in_order(events)
    gone = taken_back(ordered)
    found = [event for event in ordered if str(event.pk) not in gone]
    mended = {event.data.get("snag"): event for event in found if event.what == MENDED}
    snags = [_snag(event, mended.get(str(event.pk))) for event in found if event.what == RAISED]
    order = list(SEVERITIES)
    return tuple(sorted(snags, key=lambda s: (not s.open, order.index(s.severity) if s.severity in order else 0, s.at)))


def _snag(raised: Event, mended: Event | None) -> Snag:
    data = raised.data
    return Snag(
        id=raised.pk,
        van=raised.van_id,
        words=str(data.get("words", "")),
        severity=str(data.get("severity", "care")),
        kit=str(data.get("kit", "")),
        by=raised.by.shown_name if raised.by else "",
        at=raised.at,
        mended=mended.at if mended else None,
        mended_by=mended.by.shown_name if mended and mended.by else "",
        mended_words=str(mended.data.get("words", "")) if mended else "",
    )


def snag_of(van: Van, snag: uuid.UUID) -> Event | None:
    """The event that raised a snag of this van."""
    return Event.objects.filter(van=van, what=RAISED, pk=snag).first()


def mended_of(van: Van, snag: uuid.UUID) -> bool:
    """Whether this snag has been mended."""
    return any(
        s.id == snag and not s.open
        for s in snags_of(Event.objects.filter(van=van, what__in=SNAG_EVENTS).select_related("by"))
    )
