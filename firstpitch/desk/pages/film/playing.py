"""Films as a browser asks for them: a part at a time, answered with 206, so that a phone on a slow line keeps no worker waiting."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse

from firstpitch.desk.stored import all_of, read, size_of

PART = 512 * 1024
_RANGE = re.compile(r"bytes=(\d*)-(\d*)")
_PARTIAL, _NOT_THERE = 206, 416


@dataclass(frozen=True)
class Span:
    """What is sent: from ``start`` to ``end``, both counted from 0 and both sent."""

    start: int
    end: int


def span_of(asked: str, size: int) -> Span | None:
    """What to send for a Range header (RFC 9110, 14.2), at most half a megabyte of it; None for one that asks
    for several parts or makes no sense, which is then passed over. Raises ValueError where it begins after the end of the file.

    >>> span_of("bytes=0-", 500), span_of("bytes=-100", 500), span_of("bytes=10-19", 500)
    (Span(start=0, end=499), Span(start=400, end=499), Span(start=10, end=19))
    """
    match = _RANGE.fullmatch(asked.replace(" ", ""))
    if match is None or (not match[1] and not match[2]):
        return None
    if not match[1]:
        start, end = max(0, size - int(match[2])), size - 1
        if int(match[2]) == 0:
            raise ValueError("an empty part")
    else:
        start, end = int(match[1]), min(int(match[2]) if match[2] else size - 1, size - 1)
        if match[2] and int(match[2]) < start:
            return None
    if start >= size:
        raise ValueError("it begins after the end")
    return Span(start, min(end, start + PART - 1))


def film_file(request: HttpRequest, name: str, sort: str) -> HttpResponseBase:
    """A stored file, whole or the part that was asked for. The answer may be kept, but is asked for again each time."""
    try:
        size = size_of(name)
    except FileNotFoundError:
        raise Http404("the file is gone") from None
    mark = f'"{hashlib.sha256(name.encode()).hexdigest()[:24]}"'
    asked = request.headers.get("Range", "")
    if request.headers.get("If-Range", mark) != mark:
        asked = ""
    try:
        span = span_of(asked, size) if asked else None
    except ValueError:
        answer: HttpResponseBase = HttpResponse(status=_NOT_THERE)
        answer.headers["Content-Range"] = f"bytes */{size}"
        return _plain(answer, mark)
    return _plain(_answer(request, name, sort, size, span), mark)


def _answer(request: HttpRequest, name: str, sort: str, size: int, span: Span | None) -> HttpResponseBase:
    if span:
        length = span.end - span.start + 1
        body = b"" if request.method == "HEAD" else read(name, span.start, length)
        answer: HttpResponseBase = HttpResponse(body, content_type=sort, status=_PARTIAL)
        answer.headers["Content-Range"] = f"bytes {span.start}-{span.end}/{size}"
    else:
        length = size
        answer = (
            HttpResponse(content_type=sort)
            if request.method == "HEAD"
            else StreamingHttpResponse(all_of(name), content_type=sort)
        )
    answer.headers["Content-Length"] = str(length)
    return answer


def _plain(answer: HttpResponseBase, mark: str) -> HttpResponseBase:
    answer.headers["Accept-Ranges"] = "bytes"
    answer.headers["Cache-Control"] = "private, no-cache"
    answer.headers["ETag"] = mark
    answer.headers["Content-Encoding"] = "identity"  # parts of a file are never packed on the way
    return answer


def track(text: str, sort: str = "text/vtt; charset=utf-8") -> HttpResponse:
    """Captions or chapters of a film."""
    return HttpResponse(text, content_type=sort, headers={"Cache-Control": "private, no-cache"})
