"""The record of a handover: read, signed on the glass, kept as a PDF file."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import member, members, the_handover
from firstpitch.desk.actions.handovers import SignedError
from firstpitch.desk.actions.records import UnsignableError, sign_record
from firstpitch.desk.models import Handover
from firstpitch.desk.pages.record.forms import FIELDS, SignForm
from firstpitch.desk.record_data import digest_of, open_stops
from firstpitch.desk.record_drawing import record_drawing
from firstpitch.desk.record_rows import record_kept
from firstpitch.desk.record_words import record_in_words
from firstpitch.desk.trouble import wants_json
from firstpitch.papers.record import record_document


def record_file(handover: Handover) -> HttpResponse:
    """The record as a PDF file, signed or as it stands."""
    kept = record_kept(handover)
    found = record_in_words(kept, handover.record_digest)
    name = f"record-{handover.pk}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return HttpResponse(
        record_document(found, record_drawing(handover, kept, "fixed")), content_type="application/pdf", headers=headers
    )


@members()
@require_GET
def record(request: HttpRequest, pk: int) -> HttpResponse:
    """What was shown, and the line to sign on."""
    return _page(request, the_handover(member(request), pk))


@members()
@require_POST
def sign(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Both signatures; what is wrong is said beside it, and what was written stays."""
    person = member(request)
    handover = the_handover(person, pk)
    form, changed = SignForm(request.POST), False
    try:
        if form.is_valid():
            said = form.cleaned_data
            sign_record(
                by=person,
                handover=handover,
                seen=said["seen"],
                signature=form.signature(),
                confirmed=said["confirmed"],
                override=form.override(),
            )
            messages.success(request, "Signed. The record stays as it is now.")
            return _to_record(request, pk)
    except SignedError as wrong:
        messages.error(request, str(wrong))
        return _to_record(request, pk)
    except UnsignableError as wrong:
        changed = wrong.field == "seen"
        form.add_error(FIELDS.get(wrong.field), str(wrong))
    if wants_json(request):
        field, faults = next(iter(form.errors.items()))
        said = {"error": str(faults[0]), "field": field, "again": changed}
        return JsonResponse(said, status=422)
    return _page(request, handover, form)


def _to_record(request: HttpRequest, pk: int) -> HttpResponseBase:
    return JsonResponse({"next": resolve_url("record", pk)}) if wants_json(request) else redirect("record", pk)


def _page(request: HttpRequest, handover: Handover, form: SignForm | None = None) -> HttpResponse:
    kept = record_kept(handover)
    seen = digest_of(kept)
    if form is not None:
        again = request.POST.copy()
        again["seen"] = seen  # it is read again as it stands now
        form.data = again
    about: dict[str, Any] = {
        "handover": handover,
        "record": record_in_words(kept, handover.record_digest),
        "drawing": mark_safe(record_drawing(handover, kept)),
        "must": any(row["must"] for row in kept["not_shown"]),
        "stops": open_stops(kept),
        "intact": handover.signed is None or seen == handover.record_digest,
        "form": form or SignForm(initial={"name": handover.owner_name, "seen": seen}),
    }
    return render(request, "desk/record/record.html", about, status=422 if form else 200)


@members()
@require_GET
def document(request: HttpRequest, pk: int) -> HttpResponse:
    """The record as a PDF file."""
    return record_file(the_handover(member(request), pk))
