"""What people do with a film: captions, decisions, checking again, showing it to the owner, letting it go."""

from __future__ import annotations

import uuid
from datetime import timedelta

from django.contrib import messages
from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from firstpitch.desk.access import jobs, member, members, people
from firstpitch.desk.actions.film import (
    FilmError,
    Override,
    ask_for_check,
    decide,
    give_captions,
    name_speaker,
    publish,
    remove_film,
    unpublish,
)
from firstpitch.desk.actions.jobs import stop
from firstpitch.desk.actions.owner_links import LONGEST, make_link
from firstpitch.desk.films import MOST_CAPTIONS
from firstpitch.desk.pages.film.forms import CaptionsForm, DecisionForm, OverrideForm
from firstpitch.desk.pages.film.owner import labels_of
from firstpitch.desk.pages.film.views import film_page, live_links, the_film
from firstpitch.desk.trouble import wants_json


@members()
@require_POST
def captions(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Keep captions that somebody made, and check the film by them."""
    one = the_film(member(request), pk, film)
    form = CaptionsForm(request.POST, request.FILES)
    if form.is_valid():
        file = form.cleaned_data["captions"]
        data = file.read(MOST_CAPTIONS + 1)
        try:
            if len(data) > MOST_CAPTIONS:
                raise FilmError(f"{file.name}: captions have at most 8 MB. Send those of this film only.", "captions")
            give_captions(by=member(request), film=one, data=data, name=str(file.name))
            messages.success(request, "The captions are kept; the film is checked by them now.")
            return redirect("film", pk, film)
        except FilmError as wrong:
            form.add_error("captions", str(wrong))
    return film_page(request, one, captions_form=form)


@members()
@require_POST
def check(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Check it again; with ``hear`` it is listened to anew."""
    one = the_film(member(request), pk, film)
    try:
        ask_for_check(by=member(request), film=one, hear=bool(request.POST.get("hear")))
    except FilmError as wrong:
        messages.warning(request, str(wrong))
    return redirect("film", pk, film)


@members()
@require_POST
def stop_it(request: HttpRequest, pk: int, film: uuid.UUID, job: int) -> HttpResponseBase:
    """Stop what the queue does with it."""
    one = the_film(member(request), pk, film)
    found = get_object_or_404(jobs(member(request)), pk=job, van=one.van)
    stop(by=member(request), job=found)
    return redirect("film", pk, film)


@members()
@require_POST
def decision(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Say whether a finding is so."""
    one = the_film(member(request), pk, film)
    form = DecisionForm(request.POST, auto_id="id_decide_%s")
    if form.is_valid():
        said = form.cleaned_data
        try:
            decide(by=member(request), film=one, **said)
            if wants_json(request):
                return JsonResponse({"verdict": said["verdict"], "reason": said["reason"]})
            return redirect("film", pk, film)
        except FilmError as wrong:
            form.add_error(wrong.field or None, str(wrong))
    if wants_json(request):
        return JsonResponse({"error": " ".join(str(e) for errors in form.errors.values() for e in errors)}, status=422)
    return film_page(request, one, decision_form=form, deciding=True)


@members()
@require_POST
def show(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Show it to the owner."""
    one = the_film(member(request), pk, film)
    form = OverrideForm(request.POST)
    form.is_valid()
    given = Override(form.cleaned_data.get("override_name", ""), form.cleaned_data.get("override_reason", ""))
    try:
        publish(by=member(request), film=one, override=given)
    except FilmError as wrong:
        form.add_error("override_reason" if wrong.field == "override" else None, str(wrong))
        return film_page(request, one, override_form=form, refused=str(wrong))
    messages.success(request, "The owner sees this film now.")
    return redirect("film", pk, film)


@members()
@require_POST
def hide(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Take it off the owner's page."""
    unpublish(by=member(request), film=the_film(member(request), pk, film))
    messages.success(request, "The owner does not see it any more.")
    return redirect("film", pk, film)


@members()
@require_POST
def speaker(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Say who speaks in it."""
    one = the_film(member(request), pk, film)
    who = request.POST.get("speaker", "")
    if not who.isdecimal():
        messages.warning(request, "Choose who speaks.")
        return redirect("film", pk, film)
    name_speaker(by=member(request), film=one, speaker=get_object_or_404(people(member(request)), pk=int(who)))
    return redirect("film", pk, film)


@members()
@require_POST
def remove(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Let it go."""
    try:
        remove_film(by=member(request), film=the_film(member(request), pk, film))
    except FilmError as wrong:
        messages.warning(request, str(wrong))
        return redirect("film", pk, film)
    messages.success(request, "The film is gone.")
    return redirect("van-film", pk)


@members()
@require_POST
def labels(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """Labels whose codes open the film, under a link of their own; only where the owner has a link already and sees the film."""
    one = the_film(member(request), pk, film)
    chosen = request.POST.get("handover", "")
    found = next((h for h in live_links(member(request), one.van) if str(h.pk) == chosen), None)
    if found is None or one.published is None:
        messages.warning(
            request,
            "Labels need a film that the owner sees, and a link for the owner. Make the link on the handover's page first.",
        )
        return redirect("film", pk, film)
    if not any(chapter["kits"] for chapter in one.chapters):
        messages.warning(request, "No chapter of this film is about a kit, so there is nothing to label.")
        return redirect("film", pk, film)
    made = make_link(by=member(request), handover=found, expires=timezone.now() + LONGEST - timedelta(minutes=1))
    return labels_of(request, found, made.secret, one) or redirect("film", pk, film)
