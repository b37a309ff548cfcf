"""The films of a van: what there is, how far the queue is, what was found."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_safe

from firstpitch.desk.access import (
    events,
    film_uploads,
    films,
    handovers,
    jobs,
    member,
    members,
    owner_links,
    people,
    the_van,
)
from firstpitch.desk.actions.film import DECIDED
from firstpitch.desk.actions.film_uploads import CHECK, PART, TAKE
from firstpitch.desk.actions.owner_links import LONGEST
from firstpitch.desk.films import LONGEST_S, MEDIA_TYPE, MOST_BYTES, lasting, read_chapters, read_recording
from firstpitch.desk.models import Film, Handover, Job, Person, Van
from firstpitch.desk.pages.film.again import Again, again_of
from firstpitch.desk.pages.film.findings import Findings, decisions_of, findings_of
from firstpitch.desk.pages.film.forms import CaptionsForm, DecisionForm, OverrideForm
from firstpitch.desk.pages.film.playing import film_file, track
from firstpitch.desk.stored import gigabytes
from firstpitch.film.captions.write import chapters_vtt, clock, transcript_text

_SLOW_S = 30
_TASKS = (TAKE, CHECK, PART)
_SHORT = 200
_MANY = 5


def the_film(person: Person, van: int, key: uuid.UUID) -> Film:
    """One film of a van of the branch; 404 for any other."""
    return get_object_or_404(films(person), pk=key, van=van)


@members()
@require_GET
def listing(request: HttpRequest, pk: int) -> HttpResponse:
    """The films of a van, and where one is sent in."""
    person, one = member(request), the_van(member(request), pk)
    found = films(person).filter(van=one).defer("recording", "captions")
    coming = film_uploads(person).filter(van=one, ended=None, film=None)
    about = {
        "van": one,
        "films": [_line(film, _last_job(person, film)) for film in found],
        "coming": [(upload, round(100 * upload.offset / upload.size)) for upload in coming],
        "most": gigabytes(MOST_BYTES),
        "longest": lasting(LONGEST_S),
    }
    return render(request, "desk/film/listing.html", about)


def _line(film: Film, job: Job | None) -> dict[str, Any]:
    coverage = film.found["coverage"] if film.found else None
    return {
        "film": film,
        "job": job,
        "lasts": lasting(film.facts["length"]) if film.facts else "",
        "score": round(coverage["score"]["total"]) if coverage else None,
        "blocking": len(coverage["blocking"]) if coverage else 0,
    }


def _last_job(person: Person, film: Film) -> Job | None:
    return jobs(person).filter(van=film.van_id, task__in=_TASKS, arguments__film=str(film.pk)).last()


@members()
@require_GET
def film(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponse:
    """A film beside what was found in it; ``?part=progress`` gives how far the queue is, alone."""
    person = member(request)
    if request.GET.get("part") == "progress":
        found = get_object_or_404(films(person).defer("recording", "found", "captions", "chapters"), pk=film, van=pk)
        return render(request, "desk/film/progress.html", _progress(person, found))
    return film_page(request, the_film(person, pk, film))


def _progress(person: Person, one: Film) -> dict[str, Any]:
    job = _last_job(person, one)
    waits = (timezone.now() - job.added).total_seconds() if job and job.begun is None and not job.ended else 0
    return {
        "van": one.van,
        "film": one,
        "job": job,
        "under_way": bool(job and job.ended is None),
        "nobody_works": waits > _SLOW_S,
        "what": {TAKE: "Looking at the film", CHECK: "Checking what is said", PART: "Putting the new chapter in"}.get(
            job.task if job else "", ""
        ),
    }


def film_page(request: HttpRequest, one: Film, **forms: Any) -> HttpResponse:
    """The page of a film; ``forms`` that came back with faults take the place of empty ones."""
    person = member(request)
    about: dict[str, Any] = {
        **_progress(person, one),
        "lasts": lasting(one.facts["length"]) if one.facts else "",
        "captions_form": CaptionsForm(),
        "override_form": OverrideForm(initial={"override_name": person.shown_name}),
        "decision_form": None,
        "people": people(person).filter(is_active=True),
        "chapters": _chapters(one),
        "size": gigabytes(one.facts["size"]) if one.facts else "",
    }
    if one.found:
        about |= _found(request, person, one)
    about |= forms
    wrong = any(getattr(form, "errors", None) for form in forms.values())
    return render(request, "desk/film/film.html", about, status=422 if wrong else 200)


def _found(request: HttpRequest, person: Person, one: Film) -> dict[str, Any]:
    kept: dict[str, Any] = one.found or {}
    findings, again = findings_and_round(person, one)
    coverage = kept["coverage"]
    asked = request.GET.get("about", "")
    picked = next((f for f in findings.all() if f.key == asked), None)
    pace = coverage["pace"]
    return {
        "findings": findings,
        "again": again,
        "coverage": coverage,
        "score": round(coverage["score"]["total"]),
        "parts": [(what, round(got), round(most), why) for what, got, most, why in coverage["score"]["parts"]],
        "pace": round(pace["words_per_minute"]),
        "fast": [(start, clock(start), round(words)) for start, _, words in pace["fast"]],
        "notes": [*_of_another_van(coverage), *(note for note in coverage["notes"] if len(note) <= _SHORT)],
        "long_notes": [note for note in coverage["notes"] if len(note) > _SHORT],
        "mended": kept.get("mended", ()),
        "out_of_date": kept["version"] != one.van.version,
        "open": sum(1 for f in findings.all() if not f.decision),
        "picked": picked,
        "decision_form": _decision(picked),
        "labels_until": timezone.now() + LONGEST,
        "links": live_links(person, one.van),
        "said": sum(1 for p in coverage["points"] if p["state"] == "said"),
        "points": len(coverage["points"]),
    }


def _of_another_van(coverage: Mapping[str, Any]) -> list[str]:
    """A note where more figures differ from this van's sheet than agree with it, as in a film of another."""
    states = [figure["state"] for figure in coverage["figures"]]
    differ, agree = states.count("differs"), states.count("agrees")
    if differ < _MANY or differ <= agree:
        return []
    asks = "Is this a film, or are these the captions, of another van?"
    return [f"{differ} of the figures spoken differ from this van's sheet and {agree} agree with it. {asks}"]


def _decision(picked: Any) -> DecisionForm:
    if picked is None:
        return DecisionForm(auto_id="id_decide_%s")
    words = f"{picked.head}: {picked.words}"
    kept = {"verdict": picked.decision.verdict, "reason": picked.decision.reason} if picked.decision else {}
    return DecisionForm(auto_id="id_decide_%s", initial={"finding": picked.key, "words": words[:300], **kept})


def live_links(person: Person, van: Van) -> list[Handover]:
    """The handovers of a van whose owner has a link that opens something."""
    now = timezone.now()
    mine = handovers(person).filter(van=van).defer("plan", "record", "car", "load")
    return [one for one in mine if owner_links(person, one).filter(revoked=None, expires__gt=now).exists()]


def findings_and_round(person: Person, one: Film) -> tuple[Findings, Again]:
    """What was found in a film with what was said of it, and what is to be filmed again: all that is no mere padding and was not
    dismissed, without the points that only may be said.
    """
    told = events(person).filter(van=one.van, what=DECIDED).order_by("at", "received")
    kept: dict[str, Any] = one.found or {}
    findings = findings_of(kept, decisions_of(told, one))
    wanted = [
        f
        for f in findings.all()
        if f.accepted or (not f.dismissed and f.steps and f.level in ("", "must", "should", "stop", "care"))
    ]
    return findings, again_of(kept, wanted)


def _chapters(one: Film) -> list[dict[str, Any]]:
    return [
        {"number": at, "title": c.title, "start": c.start, "clock": clock(c.start), "lasts": lasting(c.end - c.start)}
        for at, c in enumerate(read_chapters(one.chapters))
    ]


@members()
@require_GET
def again(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponse:
    """What to film again, as a short round, to take along."""
    one = the_film(member(request), pk, film)
    found = findings_and_round(member(request), one)[1] if one.found else None
    about = {"van": one.van, "film": one, "again": found, "lasts": lasting(found.seconds) if found else ""}
    return render(request, "desk/film/again.html", about)


@members()
@require_safe
def video(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """The film itself, by parts."""
    one = get_object_or_404(films(member(request)).exclude(file=""), pk=film, van=pk)
    return film_file(request, str(one.file.name), MEDIA_TYPE)


@members()
@require_safe
def poster(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponseBase:
    """A still picture of the film."""
    one = get_object_or_404(films(member(request)).exclude(poster=""), pk=film, van=pk)
    return film_file(request, str(one.poster.name), "image/jpeg")


@members()
@require_GET
def captions(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponse:
    """The captions, as WebVTT."""
    return track(the_film(member(request), pk, film).captions or "WEBVTT\n")


@members()
@require_GET
def chapters(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponse:
    """The chapters, as WebVTT."""
    return track(chapters_vtt(read_chapters(the_film(member(request), pk, film).chapters)))


@members()
@require_GET
def transcript(request: HttpRequest, pk: int, film: uuid.UUID) -> HttpResponse:
    """What is said, to read."""
    one = the_film(member(request), pk, film)
    spoken = read_recording(one.recording) if one.recording else None
    text = transcript_text(spoken, read_chapters(one.chapters)) if spoken else "Nothing has been heard yet.\n"
    return track(text, "text/plain; charset=utf-8")
