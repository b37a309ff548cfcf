"""WebVTT and SRT: blocks under a line with an arrow. Source: W3C, WebVTT: The Web Video Text Tracks Format; SRT has no standard."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

from firstpitch.film.captions.raw import RawCue
from firstpitch.film.types import Word

_STAMP = r"(?:(\d{1,3}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d{1,3}))?"
ARROW = re.compile(rf"^\s*{_STAMP}\s*-{{1,2}}>\s*(?:{_STAMP})?")
_INLINE = re.compile(rf"<{_STAMP}>")
_TAG = re.compile(r"</?[a-zA-Z][^<>\n]{0,200}>|\{\\[^{}\n]{0,40}\}")
_NOT_SPOKEN = ("NOTE", "STYLE", "REGION")


def seconds(hours: str | None, minutes: str, rest: str, fraction: str | None) -> float:
    """A time stamp's parts as seconds.

    >>> seconds(None, "01", "02", "5")
    62.5
    """
    part = int(fraction) / 10 ** len(fraction) if fraction else 0.0
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(rest) + part


def read_blocks(text: str) -> Iterator[RawCue]:
    """Every cue of a WebVTT or SRT text, as written. Comments and styles are passed over; a missing end is None."""
    head: tuple[float, float | None] | None = None
    body: list[str] = []
    skipping = False
    # In WebVTT only an empty line ends a cue: live captions have lines of one blank inside.
    strict = text.lstrip("\ufeff").startswith("WEBVTT")
    for line in [*text.split("\n"), ""]:
        found = ARROW.match(line)
        if found:
            if head is not None:
                yield _cue(head, body[:-1] if body and body[-1].strip().isdigit() else body)
            parts = found.groups()
            end = seconds(*parts[4:8]) if parts[5] is not None else None
            head, body, skipping = (seconds(*parts[:4]), end), [], False
        elif not (line if strict else line.strip()):
            if head is not None:
                yield _cue(head, body)
            head, body, skipping = None, [], False
        elif head is not None:
            body.append(line)
        elif line.split(" ")[0] in _NOT_SPOKEN:
            skipping = True
        if skipping:
            continue
    if head is not None:
        yield _cue(head, body)


def _cue(head: tuple[float, float | None], body: list[str]) -> RawCue:
    start, end = head
    words = tuple(word for line in body if _INLINE.search(line) for word in _timed_words(line, start, end))
    lines = tuple(plain for line in body if (plain := _plain(_INLINE.sub("", line))))
    return RawCue(start, end, lines, words)


def _plain(line: str) -> str:
    """A line without its markup. What is left is text, whatever it looks like."""
    return " ".join(html.unescape(_TAG.sub("", line)).replace("\u200b", "").split())


def _timed_words(line: str, start: float, end: float | None) -> Iterator[Word]:
    """The words of a line with time stamps between them; a stamp holds for all words up to the next."""
    pieces = _INLINE.split(line)
    runs = [(start, _plain(pieces[0]))]
    for part in range(1, len(pieces), 5):
        runs.append((seconds(*pieces[part : part + 4]), _plain(pieces[part + 4])))
    runs = [(at, text) for at, text in runs if text]
    for number, (at, text) in enumerate(runs):
        until = runs[number + 1][0] if number + 1 < len(runs) else (end if end is not None and end > at else at + 0.4)
        yield from spread(text, at, max(at, until))


def spread(text: str, start: float, end: float) -> Iterator[Word]:
    """The words of ``text`` over ``start`` to ``end`` [s], each with time by its length.

    >>> [(w.text, w.start, w.end) for w in spread("ab abcd", 0.0, 8.0)]
    [('ab', 0.0, 3.0), ('abcd', 3.0, 8.0)]
    """
    words = text.split()
    weights = [len(word) + 1 for word in words]
    each = (end - start) / sum(weights) if words else 0.0
    at = float(start)
    for word, weight in zip(words, weights, strict=True):
        yield Word(word, round(at, 3), round(at + each * weight, 3))
        at += each * weight
