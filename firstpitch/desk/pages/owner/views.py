"""The owner's pages: the pack, the cards, the van's own figures, what was shown, the record, questions to the dealership."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render, resolve_url
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import film_of_owner, owners
from firstpitch.desk.actions.questions import QuestionError, ask_question
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.limits import limit
from firstpitch.desk.models import Handover
from firstpitch.desk.pack import pack_file, pack_of, pack_sheet
from firstpitch.desk.pages.record.views import record_file
from firstpitch.desk.record_rows import record_kept
from firstpitch.desk.record_words import record_in_words
from firstpitch.papers.drawing import draw


@lru_cache(maxsize=32)
def _drawing(opened: OpenVan) -> str:
    """The plan with the numbers of the pack; each leads to its card there."""
    marks = [replace(mark, target=f"pack/{mark.target}") for mark in pack_of(opened).marks]
    return draw(opened.sheet, "plan", marks=marks, linked=True)


def _picture(opened: OpenVan, secret: str) -> SafeString:
    return mark_safe(_drawing(opened).replace('href="pack/', f'href="{resolve_url("owner-pack", secret)}'))


@owners
@require_GET
def owner(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponse:
    """The first page."""
    return _page(request, handover, secret)


def _page(request: HttpRequest, handover: Handover, secret: str, typed: str = "", fault: str = "") -> HttpResponse:
    opened = open_van(handover.van)
    about = {
        "handover": handover,
        "branch": handover.van.branch,
        "secret": secret,
        "pack": pack_of(opened),
        "film": film_of_owner(handover),
        "picture": _picture(opened, secret),
        "record": record_in_words(record_kept(handover), handover.record_digest),
        "questions": list(handover.questions.select_related("answered_by")),
        "typed": typed,
        "fault": fault,
    }
    answer = render(request, "desk/owner/owner.html", about, status=400 if fault else 200)
    return _kept_to_itself(answer)


def _kept_to_itself(answer: HttpResponse) -> HttpResponse:
    """The address is the key: it is not handed on to other sites, nor found by search."""
    answer.headers["Referrer-Policy"] = "same-origin"
    answer.headers["X-Robots-Tag"] = "noindex"
    return answer


@owners
@require_GET
@gzip_page
def pack(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponse:  # noqa: ARG001
    """The pack as a page of its own."""
    page, policy = pack_sheet(open_van(handover.van))
    return _kept_to_itself(HttpResponse(page, headers={"Content-Security-Policy": policy}))


@owners
@require_GET
def pack_pdf(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponse:  # noqa: ARG001
    """The pack as a PDF file."""
    headers = {"Content-Disposition": 'inline; filename="owners-pack.pdf"'}
    file = HttpResponse(pack_file(open_van(handover.van)), content_type="application/pdf", headers=headers)
    return _kept_to_itself(file)


@owners
@require_GET
def record_pdf(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """The signed record as a PDF file; back to the page while there is none."""
    return _kept_to_itself(record_file(handover)) if handover.signed else redirect("owner", secret)


@owners
@require_POST
def question(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:
    """Ask the dealership something; what was typed stays where it cannot be taken."""
    words = request.POST.get("words", "")
    try:
        if words.strip():
            limit(request, "owner-question", f"handover {handover.pk}")
        ask_question(by=None, handover=handover, words=words)
    except QuestionError as wrong:
        return _page(request, handover, secret, words, str(wrong))
    messages.success(request, "Sent. The answer will stand on this page.")
    return redirect(f"{resolve_url('owner', secret)}#questions")
