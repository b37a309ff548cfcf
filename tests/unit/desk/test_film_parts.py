"""Films as a browser asks for them: by parts (RFC 9110, section 14)."""

from __future__ import annotations

import pytest
from django.http import HttpRequest

from firstpitch.desk.pages.film.playing import PART, Span, film_file, span_of
from firstpitch.desk.stored import put, workshop


@pytest.mark.parametrize(
    ("asked", "span"),
    [
        ("bytes=0-499", Span(0, 499)),  # RFC 9110, 14.1.2: the first 500 bytes of 10,000
        ("bytes=500-999", Span(500, 999)),
        ("bytes=-500", Span(9500, 9999)),
        ("bytes=9500-", Span(9500, 9999)),
        ("bytes=0-0", Span(0, 0)),
        ("bytes=9999-20000", Span(9999, 9999)),
        ("bytes=500-400", None),
        ("bytes=0-0,-1", None),
        ("lines=0-4", None),
        ("bytes=-", None),
    ],
)
def test_examples_of_the_standard(asked: str, span: Span | None) -> None:
    """The examples that RFC 9110 gives for a file of 10,000 bytes are answered as it says; what makes no sense is passed over."""
    assert span_of(asked, 10_000) == span


@pytest.mark.parametrize("asked", ["bytes=10000-", "bytes=-0"])
def test_what_is_not_there_is_said(asked: str) -> None:
    """A part that begins after the end cannot be sent."""
    with pytest.raises(ValueError, match="a"):
        span_of(asked, 10_000)


def asked(value: str, **more: str) -> HttpRequest:
    """A request with a Range header."""
    request = HttpRequest()
    request.method = "GET"
    request.META = {"HTTP_RANGE": value, **more} if value else {}
    return request


def test_a_part_is_answered_with_206_and_never_more_than_half_a_megabyte() -> None:
    """However much is asked for, one answer holds at most half a megabyte, so a slow phone keeps nobody waiting."""
    content = bytes(range(256)) * 10_000
    path = workshop() / "whole"
    path.write_bytes(content)
    name = put(path, "film/test/parts.mp4")
    got = b""
    while len(got) < len(content):
        answer = film_file(asked(f"bytes={len(got)}-"), name, "video/mp4")
        assert answer.status_code == 206
        assert (
            answer["Content-Range"] == f"bytes {len(got)}-{len(got) + int(answer['Content-Length']) - 1}/{len(content)}"
        )
        assert int(answer["Content-Length"]) <= PART
        got += answer.content  # type: ignore[attr-defined]
    assert got == content
    assert film_file(asked("bytes=99999999-"), name, "video/mp4").status_code == 416
    whole = film_file(asked(""), name, "video/mp4")
    assert whole.status_code == 200
    assert b"".join(whole.streaming_content) == content  # type: ignore[attr-defined]
    changed = film_file(asked("bytes=0-9", HTTP_IF_RANGE='"another"'), name, "video/mp4")
    assert changed.status_code == 200
