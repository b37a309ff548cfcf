"""The film as its owner sees it, by the private link: chapters, captions, search, labels. Nothing heavy until it is played."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils.text import slugify
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_GET, require_safe

from firstpitch.desk.access import film_of_owner, owners
from firstpitch.desk.films import MEDIA_TYPE, lasting, read_chapters
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Film, Handover
from firstpitch.desk.pages.film.playing import film_file, track
from firstpitch.film.captions.write import chapters_vtt, clock
from firstpitch.papers.film_labels import film_labels, labels_pdf
from firstpitch.papers.numbering import number_kit
from firstpitch.sheet import SheetError


def _film(handover: Handover) -> Film:
    found = film_of_owner(handover)
    if found is None:
        raise Http404("no film is shown")
    return found


def _kept_to_itself(answer: HttpResponseBase) -> HttpResponseBase:
    """The address is the key: it is not handed on to other sites, nor found by search."""
    answer.headers["Referrer-Policy"] = "same-origin"
    answer.headers["X-Robots-Tag"] = "noindex"
    return answer


@owners
@require_GET
def film(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:
    """The film, its chapters and the search."""
    one = film_of_owner(handover)
    if one is None:
        return redirect("owner", secret)
    lines = [
        {"title": c.title, "start": f"{c.start:.1f}", "clock": clock(c.start), "lasts": lasting(c.end - c.start)}
        for c in read_chapters(one.chapters)
    ]
    about = {
        "film": one,
        "secret": secret,
        "branch": handover.van.branch,
        "van": handover.van,
        "chapters": lines,
        "lasts": lasting(one.facts["length"]),
        "labels": any(c.kits for c in read_chapters(one.chapters)),
    }
    return _kept_to_itself(render(request, "desk/film/owner.html", about))


@owners
@require_safe
def video(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """The film itself, by parts."""
    return _kept_to_itself(film_file(request, str(_film(handover).file.name), MEDIA_TYPE))


@owners
@require_safe
def poster(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """A still picture of it."""
    return _kept_to_itself(film_file(request, str(_film(handover).poster.name), "image/jpeg"))


@owners
@require_GET
@gzip_page
def captions(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """Its captions, as WebVTT."""
    return _kept_to_itself(track(_film(handover).captions or "WEBVTT\n"))


@owners
@require_GET
def chapters(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """Its chapters, as WebVTT."""
    return _kept_to_itself(track(chapters_vtt(read_chapters(_film(handover).chapters))))


@owners
@require_GET
@gzip_page
def index(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:  # noqa: ARG001
    """What the search on the page looks through: chapters with the names of what they are about, and what is said when."""
    one = _film(handover)
    return _kept_to_itself(JsonResponse(_index(one)))


def _index(one: Film) -> dict[str, Any]:
    labels = (one.found or {}).get("labels", {})
    kits, names = labels.get("kits", {}), labels.get("names", {})
    lines = [
        {
            "title": c.title,
            "start": round(c.start, 1),
            "names": list(dict.fromkeys(n for kit in c.kits for n in (kits.get(kit, kit), *names.get(kit, ())))),
        }
        for c in read_chapters(one.chapters)
    ]
    said = [[round(start, 1), text] for start, _, text, _ in (one.recording or {"cues": []})["cues"]]
    return {"chapters": lines, "said": said}


@owners
@require_GET
def labels(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponseBase:
    """Labels for lockers and appliances, whose codes open the film at the right second; to the film where there is nothing to label."""
    one = film_of_owner(handover)
    found = labels_of(request, handover, secret, one) if one else None
    if found is None:
        return redirect("owner-film", secret)
    return _kept_to_itself(found)


def labels_of(request: HttpRequest, handover: Handover, secret: str, one: Film) -> HttpResponse | None:
    """The labels as a PDF file; None where no chapter is about a kit."""
    try:
        opened = open_van(handover.van)
        marks = {n.kit.id: n.number for n in number_kit(opened.sheet, opened.catalogue)}
    except SheetError:
        marks = {}
    address = request.build_absolute_uri(resolve_url("owner-film", secret))
    made = film_labels(read_chapters(one.chapters), marks, address)
    if not made:
        return None
    name = f"{slugify(handover.van.name) or 'van'}-labels.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return HttpResponse(labels_pdf(handover.van.name, made), content_type="application/pdf", headers=headers)
