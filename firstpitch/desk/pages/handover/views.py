"""A handover's own page, which joins all that belongs to it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render, resolve_url
from django.urls import NoReverseMatch
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import events as events_of
from firstpitch.desk.access import member, members, owner_links, the_handover
from firstpitch.desk.access import questions as questions_of
from firstpitch.desk.actions.owner_links import make_link, revoke_link
from firstpitch.desk.actions.questions import QuestionError, answer_question
from firstpitch.desk.inputs import OpenVan, kept_lacks, open_van
from firstpitch.desk.live_events import EVENTS
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.snags import SNAG_EVENTS, snags_of
from firstpitch.desk.so_far import so_far
from firstpitch.desk.waiting import waiting_for
from firstpitch.papers.drawing import draw
from firstpitch.papers.numbering import number_kit

_MOST = 100


@lru_cache(maxsize=32)
def _drawing(opened: OpenVan, van: int) -> SafeString:
    """The plan; each number leads to its kit on the van's page."""
    numbered = number_kit(opened.sheet, opened.catalogue)
    marks = [replace(one.mark, target=resolve_url("van-kit", van, one.kit.id)) for one in numbered]
    return mark_safe(draw(opened.sheet, "plan", marks=marks, linked=True))


@members()
@require_GET
def handover(request: HttpRequest, pk: int) -> HttpResponse:
    """The page."""
    person = member(request)
    return _page(request, person, the_handover(person, pk))


def _page(request: HttpRequest, person: Person, one: Handover, **more: Any) -> HttpResponse:
    snags = snags_of(events_of(person).filter(van=one.van_id, what__in=SNAG_EVENTS))
    past = so_far(events_of(person).filter(handover=one, what__in=EVENTS))
    now = timezone.now()
    about = {
        "handover": one,
        "waiting": waiting_for(one, kept_lacks(one.van.lacks), snags, now, planned=one.plan is not None),
        "shown": len(past.acts),
        "tried": sum(act.tried for act in past.acts),
        "planned": len((one.plan or {}).get("steps", ())),
        "round_page": _where("round", one.pk),
        "links": [(link, link.revoked is None and link.expires > now) for link in owner_links(person, one)],
        "questions": list(questions_of(person).filter(handover=one).select_related("answered_by")),
        "picture": _drawing(open_van(one.van), one.van_id),
        **more,
    }
    return render(request, "desk/handover/handover.html", about, status=422 if more.get("fault") else 200)


def _where(name: str, pk: int) -> str:
    """The address of a page, or nothing while the desk has no such page."""
    try:
        return resolve_url(name, pk)
    except NoReverseMatch:
        return ""


@members()
@require_POST
def make(request: HttpRequest, pk: int) -> HttpResponse:
    """Make a link; its address is shown this once."""
    person = member(request)
    one = the_handover(person, pk)
    made = make_link(by=person, handover=one)
    address = request.build_absolute_uri(resolve_url("owner", made.secret))
    return _page(request, person, one, made=address, until=made.link.expires)


@members()
@require_POST
def revoke(request: HttpRequest, pk: int, link: int) -> HttpResponseBase:
    """Take a link back."""
    person = member(request)
    one = the_handover(person, pk)
    revoke_link(by=person, link=get_object_or_404(owner_links(person, one), pk=link))
    messages.success(request, "Taken back. Whoever has that link sees nothing any more.")
    return redirect(f"{resolve_url('handover', pk)}#links")


@members()
@require_POST
def answer(request: HttpRequest, pk: int, question: int) -> HttpResponseBase:
    """Answer a question of the owner."""
    person = member(request)
    one = the_handover(person, pk)
    asked = get_object_or_404(questions_of(person).filter(handover=one), pk=question)
    words = request.POST.get("words", "")
    try:
        answer_question(by=person, question=asked, words=words)
    except QuestionError as wrong:
        return _page(request, person, one, fault=str(wrong), fault_at=asked.pk, typed=words)
    messages.success(request, f"Answered. {one.owner_name} reads it by the private link.")
    return redirect(f"{resolve_url('handover', pk)}#questions")


@members()
@require_GET
def questions(request: HttpRequest) -> HttpResponse:
    """The questions of all owners that nobody has answered yet, the oldest first."""
    waiting = questions_of(member(request)).filter(answered=None).defer("handover__van__sheet", "handover__plan")
    return render(request, "desk/handover/questions.html", {"questions": list(waiting[:_MOST]), "most": _MOST})
