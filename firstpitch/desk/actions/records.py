"""Signing the record of a handover. Once it is signed, nothing that the record tells of can be written any more."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Literal

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.handovers import SignedError, refuse_called_off
from firstpitch.desk.actions.history import write
from firstpitch.desk.models import Handover, Person, Role
from firstpitch.desk.record_data import digest_of, open_stops
from firstpitch.desk.record_rows import record_now
from firstpitch.papers.record import HEIGHT, WIDTH

LONGEST_NAME, LONGEST_REASON, LONGEST_PATH = 120, 1000, 40_000
_PATH = re.compile(r"(?:M\d{1,3} \d{1,3}(?:L\d{1,3} \d{1,3})+)+")
_FEWEST = 8  # points of a drawn signature


class UnsignableError(ValueError):
    """The record cannot be signed like this; the message says why, ``field`` what it is about."""

    def __init__(self, words: str, field: str = "") -> None:
        super().__init__(words)
        self.field = field


@dataclass(frozen=True)
class Signature:
    """An owner's signature: the name, and either a drawn line (an SVG path within 600 by 200) or the name confirmed as typed."""

    name: str
    how: Literal["drawn", "typed"]
    path: str = ""


@dataclass(frozen=True)
class Override:
    """Who answers for it that the van goes with a snag of the gravest sort still open, and why."""

    name: str
    reason: str


@transaction.atomic
def sign_record(
    *,
    by: Person,
    handover: Handover,
    seen: str,
    signature: Signature,
    confirmed: bool,
    override: Override | None = None,
) -> Handover:
    """Freeze the record as it was read (``seen`` is the digest of what was read), with both signatures.

    SignedError when it is signed already, UnsignableError when it cannot be signed like this; then nothing has changed.
    """
    locked = (
        Handover.objects.select_for_update(of=("self",)).select_related("van__branch", "specialist").get(pk=handover.pk)
    )
    if locked.signed:
        raise SignedError("The record of this handover is signed already; it stays as it is.")
    refuse_called_off(locked)
    record = record_now(locked)
    _fit(record, seen)
    now = timezone.now().replace(microsecond=0)
    record["let_go"] = _let_go(record, override, by, now)
    record["owner_signature"] = _checked(signature)
    if not confirmed:
        raise UnsignableError("Confirm that you showed what is recorded here.", "confirmed")
    record["confirmed_by"] = by.shown_name
    record["signed"] = now.astimezone(UTC).isoformat()
    locked.record, locked.signed, locked.record_digest = record, now, digest_of(record)
    locked.save(update_fields=["record", "signed", "record_digest"])
    said = {"digest": locked.record_digest, "owner": signature.name, "how": signature.how, "let_go": record["let_go"]}
    write(by=by, van=locked.van, handover=locked, what="record.signed", data=said)
    return locked


def _fit(record: dict[str, Any], seen: str) -> None:
    """Whether there is something to sign, and whether it is what was read."""
    if not record["shown"]:
        raise UnsignableError("Nothing has been shown yet, so there is nothing to sign. Hand the van over first.")
    if seen != digest_of(record):
        raise UnsignableError("Something was added while you were reading. Read it again; nothing was signed.", "seen")


def _let_go(record: dict[str, Any], override: Override | None, by: Person, now: datetime) -> dict[str, Any] | None:
    """What is recorded where the van goes with such a snag open."""
    stops = open_stops(record)
    if not stops:
        return None
    named = "; ".join(f"“{snag['words']}”" for snag in stops)
    name = " ".join(override.name.split())[:LONGEST_NAME] if override else ""
    reason = " ".join(override.reason.split())[:LONGEST_REASON] if override else ""
    if not name or not reason:
        raise UnsignableError(
            f"Mend this first: {named}. If the van is to go all the same, say who answers for that and why; "
            "both will be printed on the record.",
            "override",
        )
    if by.role == Role.MANAGER and not by.second_factor:
        raise UnsignableError(
            "As a manager, turn on your second factor before you let a van go with this open.", "override"
        )
    at = now.astimezone(UTC).isoformat()
    return {"name": name, "reason": reason, "noted_by": by.shown_name, "at": at, "snags": [s["words"] for s in stops]}


def _checked(signature: Signature) -> dict[str, str]:
    name = " ".join(signature.name.split())
    if not name or len(name) > LONGEST_NAME:
        raise UnsignableError(f"Write the name of whoever signs, in at most {LONGEST_NAME} letters.", "name")
    if signature.how == "typed":
        return {"name": name, "how": "typed", "path": ""}
    if len(signature.path) > LONGEST_PATH:
        raise UnsignableError("That signature has too many strokes. Clear it and sign again.", "path")
    if not _PATH.fullmatch(signature.path) or len(re.findall(r"[ML]", signature.path)) < _FEWEST:
        raise UnsignableError("Sign with a finger or pen, or tick that the typed name is the signature.", "path")
    points = re.findall(r"(\d+) (\d+)", signature.path)
    if any(int(x) > WIDTH or int(y) > HEIGHT for x, y in points):
        raise UnsignableError("The signature runs off the line. Clear it and sign again.", "path")
    return {"name": name, "how": "drawn", "path": signature.path}
