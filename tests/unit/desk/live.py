"""Making events as a tablet makes them."""

from __future__ import annotations

import json
import uuid
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from django.test import Client
from django.utils import timezone

from firstpitch.desk.models import Handover


@dataclass
class Device:
    """A tablet: makes events, and sends them as ``client``."""

    client: Client
    handover: Handover
    name: str = "tablet-a"
    began: datetime = field(default_factory=lambda: timezone.now().replace(microsecond=0) - timedelta(hours=1))
    number: int = 0

    def event(self, what: str, second: float = 0.0, **data: Any) -> dict[str, Any]:
        """An event seen so many seconds after this tablet began."""
        self.number += 1
        at = (self.began + timedelta(seconds=second)).isoformat()
        return {"id": str(uuid.uuid4()), "number": self.number, "at": at, "what": what, "data": data}

    def post(self, *events: Any, **more: Any) -> Any:
        """Send a batch; the raw answer."""
        load = {"device": self.name, "events": list(events), **more}
        path = f"/live/{self.handover.pk}/events/"
        return self.client.post(path, json.dumps(load), content_type="application/json", HTTP_ACCEPT="application/json")

    def send(self, *events: Any) -> list[tuple[str, str]]:
        """Send a batch; the answer and why, event by event."""
        answer = self.post(*events)
        assert answer.status_code == 200, answer.content
        answers = answer.json()["answers"]
        assert [a["id"] for a in answers] == [e["id"] for e in events]
        return [(a["answer"], a["why"]) for a in answers]

    def tell(self, what: str, second: float = 0.0, **data: Any) -> dict[str, Any]:
        """Make an event and send it; it has to be applied."""
        event = self.event(what, second, **data)
        assert self.send(event) == [("applied", "")]
        return event
