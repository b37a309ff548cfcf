"""The events that tablets send: which there are, and what each has to hold. See docs/live-round.md."""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from types import MappingProxyType
from typing import Any

from django.utils.dateparse import parse_datetime

from firstpitch.desk.snags import SEVERITIES

MOST_EVENTS = 200
MOST_BYTES = 40_000
LONGEST_WORDS, LONGEST_NAME = 2000, 200
MOST_STEPS = 1000
_MOST_NUMBER = 2**53
_FIRST_YEAR, _LAST_YEAR = 2000, 2200
_LONGEST_ROUND = timedelta(days=2)


class FaultyError(ValueError):
    """An event that can never be applied; the message says why."""


@dataclass(frozen=True)
class Sight:
    """One event as a tablet sent it, looked over."""

    pk: uuid.UUID
    device: str
    number: int
    at: datetime
    what: str
    data: Mapping[str, Any]

    @property
    def step(self) -> str:
        """The step it is about, or nothing."""
        return str(self.data.get("step") or "")


Check = Callable[[Any], bool]


def _name(value: Any) -> bool:
    return isinstance(value, str) and 0 < len(value) <= LONGEST_NAME


def _names(value: Any) -> bool:
    return isinstance(value, list) and len(value) <= MOST_STEPS and all(map(_name, value))


def _words(value: Any) -> bool:
    return isinstance(value, str) and bool(value.strip()) and len(value) <= LONGEST_WORDS


def _id(value: Any) -> bool:
    try:
        return isinstance(value, str) and bool(uuid.UUID(value))
    except ValueError:
        return False


def _ids(value: Any) -> bool:
    return isinstance(value, list) and len(value) > 1 and len(value) <= MOST_EVENTS and all(map(_id, value))


def _flag(value: Any) -> bool:
    return isinstance(value, bool)


def _seconds(value: Any) -> bool:
    return isinstance(value, int | float) and not _flag(value) and 0 <= value <= _LONGEST_ROUND.total_seconds()


def _either(*allowed: str) -> Check:
    return lambda value: value in allowed


def _maybe(check: Check) -> Check:
    return lambda value: value is None or value == "" or check(value)


EVENTS: Mapping[str, Mapping[str, Check]] = MappingProxyType(
    {
        "step.begun": {"step": _name},
        "step.done": {"step": _name, "tried": _maybe(_flag)},
        "step.left": {"step": _name, "reason": _words},
        "guard.overridden": {"step": _name, "guard": _name, "harm": _words, "reason": _words},
        "state.set": {"condition": _name, "value": _name, "reason": _words, "over": _maybe(_id)},
        "snag.raised": {
            "snag": _id,
            "words": _words,
            "severity": _either(*SEVERITIES),
            "kit": _maybe(_name),
            "step": _maybe(_name),
        },
        "snag.mended": {"snag": _id, "words": _maybe(_words)},
        "note": {"words": _words, "step": _maybe(_name)},
        "photo": {"media": _id, "snag": _maybe(_id), "step": _maybe(_name)},
        "round.changed": {
            "minutes_left": _maybe(_seconds),
            "without_kit": _maybe(_names),
            "without_supply": _maybe(_names),
            "indoors_for": _maybe(_seconds),
            "why": _maybe(_words),
        },
        "round.replanned": {"order": _names, "by": _either("server", "tablet")},
        "undone": {"event": _id},
        "conflict.settled": {"events": _ids, "keeps": _id, "reason": _words},
    }
)
ABOUT_STEPS = ("step.begun", "step.done", "step.left", "guard.overridden")


def read_event(given: Any, device: str) -> Sight:
    """One event of a batch. FaultyError says what is wrong with it."""
    if not isinstance(given, dict):
        raise FaultyError("This is no event.")
    if not _id(given.get("id")):
        raise FaultyError("The event has no good id.")
    what, data, number = given.get("what"), given.get("data"), given.get("number")
    if not isinstance(what, str) or what not in EVENTS:
        raise FaultyError(f"The desk knows no event “{str(what)[:40]}”. Is the tablet newer than the desk?")
    if not isinstance(number, int) or _flag(number) or not 0 <= number <= _MOST_NUMBER:
        raise FaultyError("The event has no good number.")
    if not isinstance(data, dict) or len(json.dumps(data)) > MOST_BYTES:
        raise FaultyError("What the event says is missing, or too long.")
    wrong = next((name for name, check in EVENTS[what].items() if not check(data.get(name))), None)
    if wrong is not None:
        raise FaultyError(f"In the event “{what}” the part “{wrong}” is missing or not of the right sort.")
    if what == "snag.raised" and data["snag"] != given["id"]:
        raise FaultyError("A snag has the id of the event that raises it.")
    return Sight(uuid.UUID(given["id"]), device, number, _at(given.get("at")), what, data)


def _at(given: Any) -> datetime:
    try:
        at = parse_datetime(given) if isinstance(given, str) else None
    except ValueError:
        at = None
    if at is None or at.tzinfo is None or not _FIRST_YEAR <= at.year <= _LAST_YEAR:
        raise FaultyError("The event has no good time.")
    return at
