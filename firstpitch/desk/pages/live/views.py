"""The live round: its screen, and what tablets say to the desk and hear from it."""

from __future__ import annotations

import json
import uuid
from datetime import datetime, timedelta
from typing import Any

from django.db.models import Count, Max
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import events as events_of
from firstpitch.desk.access import handovers, member, members, the_round
from firstpitch.desk.actions.live import take_events
from firstpitch.desk.actions.photos import add_photo
from firstpitch.desk.kept_kits import kit_answer
from firstpitch.desk.kit_mark import mark_of
from firstpitch.desk.live_events import EVENTS, MOST_EVENTS, FaultyError, Sight, read_event
from firstpitch.desk.live_kit import EVENT_FIELDS, event_json
from firstpitch.desk.models import Event, Handover, Person
from firstpitch.desk.replanning import replanned
from firstpitch.desk.uploads import UploadError

_AGAIN = timedelta(seconds=60)  # what was written at nearly the same time may have become visible after what was read
_PAGE = 1000
_LONGEST_DEVICE = 36
_MOST_MINUTES = 24 * 60


class UnreadableError(ValueError):
    """A request that is not what a tablet sends; the message says what is wrong."""


def _unreadable(words: str, status: int = 400) -> JsonResponse:
    return JsonResponse({"error": words}, status=status)


def _body(request: HttpRequest) -> dict[str, Any]:
    try:
        given = json.loads(request.body)
    except (ValueError, RecursionError):
        raise UnreadableError("This is not JSON.") from None
    if not isinstance(given, dict):
        raise UnreadableError("This is not an object.")
    return given


def _told(person: Person, handover: Handover) -> list[Event]:
    """The events of a handover that tablets read."""
    return list(events_of(person).filter(handover=handover, what__in=[*EVENTS, "conflict.seen"]).only(*EVENT_FIELDS))


@members()
@require_GET
@ensure_csrf_cookie
def live(request: HttpRequest, handover: int) -> HttpResponse:
    """The screen; all that it shows comes from what the tablet keeps."""
    return render(request, "desk/live/live.html", {"handover": the_round(member(request), handover)})


@members()
@require_GET
def kit(request: HttpRequest, handover: int) -> HttpResponse:
    """All that a tablet needs to run this handover for a day without a network; ``have`` is the mark of what it holds already."""
    found = the_round(member(request), handover)
    mark = mark_of(found)
    if request.GET.get("have") == mark:
        answer: HttpResponse = JsonResponse({"same": True})
    else:
        answer = kit_answer(request, found, mark, [event_json(event) for event in _told(member(request), found)])
    answer.headers["Cache-Control"] = "no-store"
    return answer


@members()
@require_POST
def events(request: HttpRequest, handover: int) -> HttpResponse:
    """A batch of events of one tablet; each is answered for by itself."""
    person = member(request)
    found = the_round(person, handover)
    try:
        given = _body(request)
    except UnreadableError as wrong:
        return _unreadable(str(wrong))
    device, batch = given.get("device"), given.get("events")
    if not isinstance(device, str) or not 0 < len(device) <= _LONGEST_DEVICE or not isinstance(batch, list):
        return _unreadable("A batch has a device and a list of events.")
    if len(batch) > MOST_EVENTS:
        return _unreadable(f"Send at most {MOST_EVENTS} events at a time.", 413)
    if given.get("person", person.pk) != person.pk:
        return _unreadable("Somebody else is signed in by now.", 409)
    answers = take_events(by=person, handover=found, device=device, given=batch)
    known = events_of(person).filter(handover=found, device=device).aggregate(last=Max("number"), count=Count("pk"))
    return JsonResponse(
        {
            "answers": [answer.as_json() for answer in answers],
            "known_up_to": known["last"] or 0,
            "known": known["count"],
            "server_now": timezone.now().isoformat(),
        }
    )


@members()
@require_GET
@gzip_page
def since(request: HttpRequest, handover: int) -> HttpResponse:
    """What was written after the mark that the tablet got last time; a little of what it has already may come again."""
    person = member(request)
    found = the_round(person, handover)
    rows = events_of(person).filter(handover=found, what__in=[*EVENTS, "conflict.seen"]).order_by("received", "pk")
    rows = rows.only(*EVENT_FIELDS)
    after = request.GET.get("after", "")
    mark = _time(after)
    new = rows if mark is None else rows.filter(received__gt=mark)
    if mark is not None and not new.exists():
        return JsonResponse({"events": [], "after": after})
    rows = rows if mark is None else rows.filter(received__gt=mark - _AGAIN)
    page = list(rows[:_PAGE])
    last = page[-1].received.isoformat() if page else after
    return JsonResponse({"events": [event_json(event) for event in page], "after": last})


def _time(text: Any) -> datetime | None:
    try:
        found = parse_datetime(text) if isinstance(text, str) else None
    except ValueError:
        return None
    return found if found is not None and found.tzinfo is not None else None


@members()
@require_POST
def replan(request: HttpRequest, handover: int) -> HttpResponse:
    """The rest of the round, planned anew from what the desk and the tablet know; nothing is written."""
    person = member(request)
    found = the_round(person, handover)
    try:
        given = _body(request)
        at = _time(given.get("at")) or timezone.now()
        change = _change(given.get("change"))
        own = _unsent(given.get("events"), str(given.get("device", "")))
    except (UnreadableError, FaultyError) as wrong:
        return _unreadable(str(wrong))
    stored = _told(person, found)
    known = {event.pk for event in stored}
    return JsonResponse(replanned(found, [*stored, *(one for one in own if one.pk not in known)], at, change))


def _change(given: Any) -> dict[str, Any]:
    """The change, looked over as the event that will tell of it."""
    if given is None:
        return {}
    sight = read_event(
        {
            "id": str(uuid.uuid4()),
            "number": 0,
            "at": timezone.now().isoformat(),
            "what": "round.changed",
            "data": given,
        },
        "",
    )
    minutes = sight.data.get("minutes_left")
    if minutes is not None and not 0 < minutes <= _MOST_MINUTES:
        raise UnreadableError("There have to be some minutes left.")
    return dict(sight.data)


def _unsent(given: Any, device: str) -> list[Sight]:
    if given is None:
        return []
    if not isinstance(given, list) or len(given) > MOST_EVENTS:
        raise UnreadableError(f"Send at most {MOST_EVENTS} events along.")
    return [read_event(one, device[:_LONGEST_DEVICE]) for one in given]


@members()
@require_POST
def media(request: HttpRequest) -> HttpResponse:
    """A photo that a tablet took; sent twice it counts once."""
    person = member(request)
    try:
        key, number = uuid.UUID(request.POST.get("id", "")), int(request.POST.get("handover", ""))
    except ValueError:
        return _unreadable("A photo comes with its id and its handover.")
    found = handovers(person).filter(pk=number).first()
    file = request.FILES.get("file")
    if found is None:
        raise Http404
    if file is None:
        return _unreadable("There is no photo in this.")
    try:
        add_photo(by=person, van=found.van, data=file.read(), handover=found, key=key)
    except UploadError as wrong:
        return JsonResponse({"id": str(key), "answer": "refused", "why": str(wrong)})
    return JsonResponse({"id": str(key), "answer": "applied"})
