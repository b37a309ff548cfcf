"""Writing the append-only history. Every action calls this inside its own transaction."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils import timezone

from firstpitch.desk.models import Branch, BranchEvent, Event, Handover, Person, Van


@dataclass(frozen=True)
class Sent:
    """Where an event came from: the id and the clock of the device that saw it, and its place in what that device sent."""

    id: uuid.UUID
    at: datetime
    device: str = ""
    number: int = 0


def write(
    *,
    by: Person | None,
    van: Van,
    what: str,
    data: dict[str, Any] | None = None,
    handover: Handover | None = None,
    sent: Sent | None = None,
) -> Event:
    """Add one event; ``sent`` when it was seen by a device, else it is seen now."""
    return Event.objects.create(
        id=sent.id if sent else uuid.uuid4(),
        van=van,
        handover=handover,
        what=what,
        data=data or {},
        by=by,
        at=sent.at if sent else timezone.now(),
        device=sent.device if sent else "",
        number=sent.number if sent else 0,
    )


def write_branch(*, by: Person | None, branch: Branch, what: str, data: dict[str, Any] | None = None) -> BranchEvent:
    """Add one event to the history of a branch itself."""
    return BranchEvent.objects.create(branch=branch, what=what, data=data or {}, by=by, at=timezone.now())
