"""The history in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from types import MappingProxyType
from typing import Any

from firstpitch.desk.models import Event
from firstpitch.desk.snags import WORDS

Data = Mapping[str, Any]
_LATE_S = 120


@dataclass(frozen=True)
class Line:
    """One line of a history. ``lines``: the lines of the sheet that went and came. ``received``: set where it came in much later."""

    at: datetime
    who: str
    words: str
    kit: str
    lines: Sequence[str]
    received: datetime | None
    photo: str


def _filled(data: Data) -> str:
    found = [f"{one['what']} {one['value']}" for one in data.get("filled", ())]
    if found:
        return f"filled in {'; '.join(found)}"
    return f"changed the build sheet{': ' + data['why'] if data.get('why') else ''}"


def _snag(data: Data) -> str:
    return f"raised a snag ({WORDS.get(data.get('severity', ''), 'Take care').lower()}): {data.get('words', '')}"


def _mended(data: Data) -> str:
    return f"mended a snag{': ' + data['words'] if data.get('words') else ''}"


def _photo(data: Data) -> str:
    return f"took a photo{': ' + data['words'] if data.get('words') else ''}"


TOLD: Mapping[str, Callable[[Data], str]] = MappingProxyType(
    {
        "van.added": lambda _: "took the van in",
        "van.sheet_changed": _filled,
        "handover.added": lambda data: f"put the handover to {data.get('owner', '')} in the diary",
        "handover.changed": lambda data: f"changed the handover to {data.get('owner', '')}",
        "round.planned": lambda data: f"planned the round: {data.get('steps', '?')} steps",
        "snag.raised": _snag,
        "snag.mended": _mended,
        "photo.added": _photo,
        "record.signed": lambda data: f"had the record signed by {data.get('owner', '')}",
        "question.asked": lambda data: f"asked: {data.get('words', '')}",
        "question.answered": lambda data: f"answered a question: {data.get('words', '')}",
    }
)


def told(event: Event) -> Line:
    """One event in words; one that has no words of its own is told by its name and its words or title."""
    data = event.data
    words = TOLD[event.what](data) if event.what in TOLD else _plain(event)
    late = (event.received - event.at).total_seconds() > _LATE_S
    return Line(
        at=event.at,
        who=event.by.shown_name if event.by else "the owner",
        words=words,
        kit=str(data.get("kit", "")),
        lines=data.get("lines", ()) if not data.get("filled") else (),
        received=event.received if late else None,
        photo=str(data.get("media", "")) if event.what == "photo.added" else "",
    )


def _plain(event: Event) -> str:
    name = event.what.replace(".", " ").replace("_", " ")
    said = next((str(event.data[key]) for key in ("title", "words", "reason", "step") if event.data.get(key)), "")
    return f"{name}: {said}" if said else name
