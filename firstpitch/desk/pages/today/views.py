"""Today: who collects when, and what each van waits for."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, datetime, timedelta

from django.contrib import messages
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.safestring import SafeString
from django.views.decorators.http import require_GET, require_http_methods

from firstpitch.desk.access import (
    events,
    handovers,
    member,
    members,
    people,
    the_handover,
    the_van,
)
from firstpitch.desk.actions.handovers import SignedError, add_handover, change_handover
from firstpitch.desk.inputs import kept_lacks
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.pages.today.coming import coming_of
from firstpitch.desk.pages.today.dayline import dayline, start_of
from firstpitch.desk.pages.today.diary import diary_line, joined, shown
from firstpitch.desk.pages.today.forms import HandoverForm
from firstpitch.desk.pages.van.search import asked, find_vans
from firstpitch.desk.snags import SNAG_EVENTS, SNAG_FIELDS
from firstpitch.desk.waiting import Waiting, snags_by_van, waiting_for

_MOST = 60
_LATE_DAYS = 60
_AHEAD_DAYS, _FURTHER_DAYS = 7, 120
_FEW = 12


def _coming(person: Person, days: int) -> QuerySet[Handover]:
    """What Today shows: what is late, all of today, and so many days ahead."""
    start = start_of(timezone.localdate())
    end = start + timedelta(days=days)
    late = Q(signed=None, called_off=None)
    # One stretch of days, not two: the index of what is listed then answers for all of it.
    return handovers(person).filter(late | Q(due__gte=start), due__gte=start - timedelta(days=_LATE_DAYS), due__lt=end)


@members()
@require_GET
def today(request: HttpRequest) -> HttpResponse:
    """The handovers of today, of the days after, and what is late."""
    person, now, day = member(request), timezone.now(), timezone.localdate()
    further = "further" in request.GET
    coming = list(coming_of(_coming(person, _FURTHER_DAYS if further else _AHEAD_DAYS), _MOST))
    ids = {handover.van_id for handover in coming if not (handover.signed or handover.called_off)}
    snags = snags_by_van(events(person).filter(van__in=ids, what__in=SNAG_EVENTS).only(*SNAG_FIELDS))
    lines = [waiting_for(h, kept_lacks(h.van.lacks), snags.get(h.van_id, []), now, planned=h.planned) for h in coming]
    before, due, after = _parted(lines, day)
    off = [one for one in due if one.handover.called_off]
    due = [one for one in due if not one.handover.called_off]
    drawn = dayline(day, [(one.handover.due, _mark(one)) for one in due], now)
    about = {
        "day": day,
        "late": _listed(before, day),
        "due": joined(shown(diary_line(one, day), number) for number, one in enumerate(due, 1)),
        "off": _listed(off, day),
        "after": _listed(after, day),
        "waiting": due,
        "line": drawn,
        "full": len(coming) == _MOST,
        "further": further,
    }
    return render(request, "desk/today/today.html", about)


def _listed(lines: list[Waiting], day: date) -> SafeString:
    return joined(shown(diary_line(one, day)) for one in lines)


def _parted(lines: list[Waiting], day: date) -> tuple[list[Waiting], list[Waiting], list[Waiting]]:
    """Those of days before, of the day, of days after."""
    due = [line.handover.due for line in lines]
    first, after = bisect_left(due, start_of(day)), bisect_left(due, start_of(day + timedelta(days=1)))
    return lines[:first], lines[first:after], lines[after:]


def _mark(line: Waiting) -> str:
    if line.handover.signed:
        return "done"
    return "late" if line.late else ""


@members()
@require_http_methods(["GET", "POST"])
def new(request: HttpRequest) -> HttpResponseBase:
    """Add a handover: first which van, then who and when."""
    person = member(request)
    chosen = request.GET.get("van", "") if request.method == "GET" else request.POST.get("van", "")
    if not chosen.isdecimal():
        return _which_van(request, person)
    van = the_van(person, int(chosen))
    form = HandoverForm(request.POST or None, colleagues=_colleagues(person), initial={"specialist": person.pk})
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        add_handover(
            by=person,
            van=van,
            owner_name=said["owner_name"],
            due=said["due"],
            owner_contact=said["owner_contact"],
            specialist=said["specialist"],
        )
        messages.success(request, f"{said['owner_name']} collects {van.name} on {_said(said['due'])}.")
        return redirect("today")
    return render(
        request,
        "desk/today/handover.html",
        {"van": van, "form": form, "handover": None},
        status=422 if form.errors else 200,
    )


def _which_van(request: HttpRequest, person: Person) -> HttpResponse:
    search = asked(request.GET.get("q", "") or request.POST.get("q", ""))
    found = find_vans(person, search)
    return render(request, "desk/today/which_van.html", {"vans": list(found[:_FEW]), "q": search})


def _colleagues(person: Person) -> list[Person]:
    return list(people(person).filter(is_active=True).order_by("first_name", "username"))


def _said(when: datetime) -> str:
    local = timezone.localtime(when)
    return f"{local:%A} {local.day} {local:%B %Y} at {local:%H:%M}"


@members()
@require_http_methods(["GET", "POST"])
def change(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Change who, when or by whom."""
    person = member(request)
    handover = the_handover(person, pk)
    local = timezone.localtime(handover.due)
    initial = {
        "owner_name": handover.owner_name,
        "owner_contact": handover.owner_contact,
        "due": f"{local:%a} {local.day} {local:%b %Y %H:%M}",
        "specialist": handover.specialist_id,
    }
    form = HandoverForm(request.POST or None, colleagues=_colleagues(person), initial=initial)
    if request.method == "POST" and form.is_valid():
        try:
            change_handover(by=person, handover=handover, **form.cleaned_data)
            messages.success(request, f"Kept: {_said(form.cleaned_data['due'])}.")
            return redirect("today")
        except SignedError as wrong:
            form.add_error(None, str(wrong))
    return render(
        request,
        "desk/today/handover.html",
        {"van": handover.van, "form": form, "handover": handover},
        status=422 if form.errors else 200,
    )
