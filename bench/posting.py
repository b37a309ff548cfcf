"""Forty tablets post what they noted to a desk that is killed twice: is every event there in the end, and there once?

The tablets here are threads that keep the rules of ``static/desk/tablet/outbox.js``: an event is owed until the desk answers for it,
whatever else happens. Now and then the answer is thrown away unread, as a line that breaks does.
"""

from __future__ import annotations

import http.client
import json
import random
import shutil
import tempfile
import threading
import time
import uuid
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from statistics import quantiles
from typing import Any

from tests.browser.running import Desk, fill

TABLETS = 40
KILLS = 2
_BATCH = 50
_PATIENCE_S = 20.0
_LAST_S = 180.0
_CUT = 0.1
_TOKEN = "a" * 32


@dataclass(frozen=True)
class Outcome:
    """What came of it; times in milliseconds."""

    tablets: int
    seconds: float
    kills: int
    noted: int
    at_desk: int
    lost: int
    doubled: int
    posts: int
    failed_posts: int
    median: float
    p95: float


@dataclass
class Tablet:
    """One device with its outbox."""

    port: int
    cookies: str
    handover: int
    seed: int
    device: str = field(default_factory=lambda: str(uuid.uuid4()))
    noted: list[dict[str, Any]] = field(default_factory=list)
    owed: dict[str, dict[str, Any]] = field(default_factory=dict)
    took: list[float] = field(default_factory=list)
    failed: int = 0
    trouble: str = ""

    def run(self, ends: float) -> None:
        """Note and send until ``ends``, then send until nothing is owed."""
        chance = random.Random(self.seed)
        wait = 0.0
        while time.monotonic() < ends or (self.owed and time.monotonic() < ends + _LAST_S):
            if time.monotonic() < ends:
                for _ in range(chance.randint(1, 4)):
                    self._note()
            answered = self._send(cut=chance.random() < _CUT)
            wait = 0.0 if answered else min(4.0, max(0.25, wait * 2))
            time.sleep(wait + chance.uniform(0.3, 1.2))

    def _note(self) -> None:
        number = len(self.noted) + 1
        data = {"words": f"tablet {self.seed}, note {number}"}
        at = datetime.now(UTC).isoformat()
        event: dict[str, Any] = {"id": str(uuid.uuid4()), "number": number, "at": at, "what": "note", "data": data}
        self.noted.append(event)
        self.owed[event["id"]] = event

    def _send(self, *, cut: bool) -> bool:
        batch = list(self.owed.values())[:_BATCH]
        if not batch:
            return True
        began = time.perf_counter()
        try:
            answers = self._post({"device": self.device, "events": batch}, cut=cut)
        except (OSError, http.client.HTTPException, ValueError) as trouble:
            self.failed, self.trouble = self.failed + 1, str(trouble)
            return False
        self.took.append((time.perf_counter() - began) * 1000)
        for answer in answers:
            if answer["answer"] in ("applied", "already"):
                self.owed.pop(answer["id"], None)
        return True

    def _post(self, load: dict[str, Any], *, cut: bool) -> list[dict[str, str]]:
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=_PATIENCE_S)
        try:
            headers = {
                "Content-Type": "application/json",
                "Accept": "application/json",
                "Cookie": self.cookies,
                "X-CSRFToken": _TOKEN,
            }
            line.request("POST", f"/live/{self.handover}/events/", json.dumps(load), headers)
            reply = line.getresponse()
            if cut:
                raise OSError("the line broke before the answer was read")
            body = reply.read()
            if reply.status != http.client.OK:
                raise OSError(f"{reply.status}: {body[:200]!r}")
            answers: list[dict[str, str]] = json.loads(body)["answers"]
            return answers
        finally:
            line.close()


_SESSIONS = """
import json
from importlib import import_module
from django.conf import settings
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from firstpitch.desk.models import Handover, Person
store = import_module(settings.SESSION_ENGINE).SessionStore
person = Person.objects.get(username="maud")
keys = []
for _ in range({count}):
    session = store()
    session[SESSION_KEY] = str(person.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = person.get_session_auth_hash()
    session.create()
    keys.append(f"{{settings.SESSION_COOKIE_NAME}}={{session.session_key}}; {{settings.CSRF_COOKIE_NAME}}={token}")
print(json.dumps([keys, list(Handover.objects.order_by("pk").values_list("pk", flat=True))]))
"""
_STORED = """
import json
from firstpitch.desk.models import Event
print(json.dumps([[str(e.pk), e.device, e.number] for e in Event.objects.filter(what="note").exclude(device="")]))
"""


def run(seconds: float, *, tablets: int = TABLETS, kills: int = KILLS) -> Outcome:
    """Let so many tablets post for so many seconds to a desk of its own on this machine, killed at even distances."""
    folder = Path(tempfile.mkdtemp(prefix="firstpitch-posting-"))
    desk = Desk(folder / "data")
    try:
        desk.data.mkdir()
        fill(desk.data)
        desk.start()
        return _run(desk, seconds, tablets, kills)
    finally:
        desk.stop()
        shutil.rmtree(folder, ignore_errors=True)


def _run(desk: Desk, seconds: float, tablets: int, kills: int) -> Outcome:
    keys, handovers = json.loads(desk.python(_SESSIONS.format(count=tablets, token=_TOKEN)))
    began = time.monotonic()
    devices = [Tablet(desk.port, key, handovers[n % len(handovers)], seed=n) for n, key in enumerate(keys)]
    threads = [threading.Thread(target=device.run, args=(began + seconds,), daemon=True) for device in devices]
    for thread in threads:
        thread.start()
    for number in range(1, kills + 1):
        time.sleep(max(0.0, began + seconds * number / (kills + 1) - time.monotonic()))
        desk.stop(at_once=True)
        time.sleep(1.0)
        desk.start()
    for thread in threads:
        thread.join()
    stored = json.loads(desk.python(_STORED))
    noted = {event["id"] for device in devices for event in device.noted}
    there = {key for key, _, _ in stored}
    took = sorted(time for device in devices for time in device.took)
    if len(took) < tablets:
        raise RuntimeError(f"the desk answered hardly anything; the last trouble: {devices[0].trouble}")
    cuts = quantiles(took, n=20)
    return Outcome(
        tablets=tablets,
        seconds=seconds,
        kills=kills,
        noted=len(noted),
        at_desk=len(there & noted),
        lost=len(noted - there),
        doubled=len(stored) - len({(device, number) for _, device, number in stored}) + len(there - noted),
        posts=len(took),
        failed_posts=sum(device.failed for device in devices),
        median=cuts[9],
        p95=cuts[18],
    )
