"""Films coming in piece by piece, so that a cut line or a closed page loses nothing.

POST begins an upload (or finds the one that was begun with the same file) and names its address. HEAD and GET there tell how much has
come (``Upload-Offset``), PATCH with ``Upload-Offset`` brings the next piece, DELETE stops it. In the spirit of the open tus protocol.
"""

from __future__ import annotations

import uuid

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import get_object_or_404, resolve_url
from django.views.decorators.http import require_http_methods, require_POST

from firstpitch.desk.access import film_uploads, films, member, members, the_van
from firstpitch.desk.actions.film_uploads import OffsetError, begin_upload, cancel_upload, take_piece
from firstpitch.desk.films import NO_FILM, PIECE
from firstpitch.desk.models import Film, FilmUpload
from firstpitch.desk.uploads import UploadError

_BEGUN, _DONE, _OTHER_PLACE = 201, 204, 409


@members()
@require_POST
def begin(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Begin an upload; ``film`` and ``chapter`` where it replaces a chapter."""
    one = the_van(member(request), pk)
    film, chapter = _chapter(request, pk)
    upload = begin_upload(
        by=member(request),
        van=one,
        name=request.POST.get("name", ""),
        size=_number(request.POST.get("size", "")),
        modified=_number(request.POST.get("modified", "")),
        film=film,
        chapter=chapter,
    )
    address = resolve_url("film-upload", pk, upload.pk)
    answer = JsonResponse({"address": address, "offset": upload.offset, "piece": PIECE}, status=_BEGUN)
    answer.headers["Location"] = address
    return answer


def _chapter(request: HttpRequest, pk: int) -> tuple[Film | None, int | None]:
    named, chapter = request.POST.get("film", ""), request.POST.get("chapter", "")
    if not named:
        return None, None
    try:
        key = uuid.UUID(named)
    except ValueError:
        raise Http404 from None
    film = get_object_or_404(films(member(request)), pk=key, van=pk)
    if not chapter.isdecimal() or int(chapter) >= len(film.chapters):
        raise UploadError("Choose the chapter that was filmed again.")
    return film, int(chapter)


def _number(text: str) -> int:
    return int(text) if text.isdecimal() and len(text) < 16 else 0  # noqa: PLR2004  (more digits than any film has)


@members()
@require_http_methods(["GET", "HEAD", "PATCH", "DELETE", "POST"])
def upload(request: HttpRequest, pk: int, upload: uuid.UUID) -> HttpResponseBase:
    """Where an upload stands; its next piece; its end. A POST without a script stops it too."""
    found = get_object_or_404(film_uploads(member(request)), pk=upload, van=pk)
    if request.method == "PATCH":
        return _piece(request, found)
    if request.method in ("DELETE", "POST"):
        cancel_upload(by=member(request), upload=found)
        return HttpResponse(status=_DONE)
    told = {"name": found.name, "size": found.size, "offset": found.offset, "over": bool(found.ended)}
    return _standing(JsonResponse(told), found.offset, found.size)


def _piece(request: HttpRequest, found: FilmUpload) -> HttpResponse:
    offset = request.headers.get("Upload-Offset", "")
    content = request.body
    if not offset.isdecimal() or len(content) != _number(str(request.META.get("CONTENT_LENGTH") or "")):
        raise UploadError("This piece came in cut short. It is sent again.")
    try:
        now = take_piece(by=member(request), upload=found, offset=int(offset), content=content)
    except OffsetError as wrong:
        answer = JsonResponse({"error": str(wrong), "offset": wrong.offset}, status=_OTHER_PLACE)
        return _standing(answer, wrong.offset, found.size)
    except UploadError as wrong:
        if wrong.status == NO_FILM:  # what is no film at all is not to be gone on with
            cancel_upload(by=member(request), upload=found)
        raise
    return _standing(HttpResponse(status=_DONE), now.offset, now.size)


def _standing(answer: HttpResponse, offset: int, size: int) -> HttpResponse:
    answer.headers["Upload-Offset"] = str(offset)
    answer.headers["Upload-Length"] = str(size)
    return answer
