"""The rows that ``bench/yard.py`` copies: the demo, with each round held and signed through the desk's own actions."""

from __future__ import annotations

import json
import re
import uuid
from datetime import date, timedelta
from typing import Any

_HEX = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
_EARLY = {"van.added": -20 * 86400, "handover.added": -10 * 86400, "round.planned": -86400, "record.signed": 7200}


def show() -> None:
    """Print them as JSON. Needs an empty data folder."""
    import django

    django.setup()
    from django.core.management import call_command
    from django.db import transaction

    call_command("migrate", verbosity=0, interactive=False)
    with transaction.atomic():
        print(json.dumps(_made()))


def _made() -> dict[str, Any]:
    from firstpitch.desk.models import Handover, Person
    from firstpitch.desk.seed import seed

    seed(date.today())
    person = _columns(Person.objects.get(username="maud"))
    models, events = [], []
    for m, handover in enumerate(Handover.objects.select_related("van").order_by("pk")):
        _hold(handover)
        handover.refresh_from_db()
        models.append({"van": _columns(handover.van), "handover": _columns(handover)})
        events += [{"m": m, **event} for event in _told(handover)]
    return {"person": person, "models": models, "events": events}


def _columns(row: Any) -> dict[str, Any]:
    """A row by its columns, as the database has them."""
    found = {}
    for field in row._meta.concrete_fields:
        value = getattr(row, field.attname)
        if field.get_internal_type() == "JSONField" and value is not None:
            value = json.dumps(value)
        found[field.column] = str(value) if hasattr(value, "isoformat") else value
    return found


def _hold(handover: Any) -> None:
    """Plan the round, hold all of it, sign."""
    from firstpitch.desk.actions.handovers import keep_plan
    from firstpitch.desk.actions.live import take_events
    from firstpitch.desk.actions.records import Signature, sign_record
    from firstpitch.desk.planning import at_once, to_keep
    from firstpitch.desk.record_data import digest_of
    from firstpitch.desk.record_rows import record_now

    person = handover.specialist
    keep_plan(by=person, handover=handover, plan=to_keep(handover, {}, at_once(handover, {})), options={})
    handover.refresh_from_db()
    given = [{**event, "number": number} for number, event in enumerate(_live(handover), 1)]
    answers = take_events(by=person, handover=handover, device="bench", given=given)
    wrong = [answer for answer in answers if answer.answer != "applied"]
    if wrong:
        raise RuntimeError(f"an event of the model round was not applied: {wrong[0]}")
    drawn = Signature(handover.owner_name, "drawn", "M10 100L40 60L70 120L100 60L130 120L160 60L190 120L220 90")
    sign_record(by=person, handover=handover, seen=digest_of(record_now(handover)), signature=drawn, confirmed=True)


def _live(handover: Any) -> list[dict[str, Any]]:
    """What a tablet sends in one round: each step begun and done, two snags, a note, one thing taken back."""

    def event(what: str, second: float, **data: Any) -> dict[str, Any]:
        at = handover.due + timedelta(seconds=second)
        return {"id": str(uuid.uuid4()), "at": at.isoformat(), "what": what, "data": data}

    found: list[dict[str, Any]] = []
    for number, step in enumerate(handover.plan["steps"]):
        found.append(event("step.begun", step["start_s"], step=step["id"]))
        found.append(event("step.done", step["end_s"], step=step["id"], tried=number % 2 == 0))
        if number in (3, 40):
            snag = event(
                "snag.raised",
                step["end_s"] + 0.1,
                words="A hinge is loose.",
                severity="care" if number == 3 else "note",
            )
            snag["data"]["snag"] = snag["id"]
            found.append(snag)
            if number == 3:
                found.append(event("snag.mended", step["end_s"] + 0.2, snag=snag["id"], words="Tightened."))
        if number == 5:
            found.append(event("note", step["end_s"] + 0.1, words="They have towed before.", step=step["id"]))
            found.append(event("note", step["end_s"] + 0.2, words="A slip of the finger."))
            found.append(event("undone", step["end_s"] + 0.3, event=found[-1]["id"]))
    return found


def _told(handover: Any) -> list[dict[str, Any]]:
    """The van's events, in parts round the id of another event where they name one."""
    from firstpitch.desk.models import Event

    rows = list(Event.objects.filter(van=handover.van).order_by("number", "received"))
    place = {str(event.pk): k for k, event in enumerate(rows)}
    found = []
    for k, event in enumerate(rows):
        text = json.dumps(event.data)
        named = next((m for m in re.finditer(_HEX, text) if m.group() in place), None)
        offset = _EARLY.get(event.what, (event.at - handover.due).total_seconds())
        found.append(
            {
                "k": k,
                "what": event.what,
                "before": text[: named.start()] if named else text,
                "ref": place[named.group()] if named else None,
                "after": text[named.end() :] if named else "",
                "offset": int(offset),
                "device": event.device,
                "number": event.number,
                "live": bool(event.device),
            }
        )
    return found
