"""Captions that can be read in the time they stand: cleaned, broken at pauses, two short lines each.

Reading speed and line length are those of common subtitling practice (at most 17 characters a second, two lines of at most
42 characters); no one standard sets them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstpitch.film.captions.tidy import timed_words
from firstpitch.film.types import Cue, Recording, Word

LINE = 42
LINES = 2
SPEED = 17.0
_LEAST = 1.0
_GAP = 0.08
_LINGER = 1.2
_PAUSE = 0.7
_MOST_LAG = 4.0
_STUMBLE = 4
_WORDS = 3
_FILLERS = {"um", "uh", "er", "erm", "uhm", "mm", "hmm"}
_CLAUSE = re.compile(r"[,;:–]$")
_SENTENCE = re.compile(r"[.!?…]$")
_JOINERS = {"and", "but", "so", "or", "because", "which", "that", "when", "if", "then", "with", "to", "on", "in", "for"}


@dataclass(frozen=True)
class Retimed:
    """Captions ready to write; ``hurried`` are the times [s] where the speaker is too fast for any reader."""

    cues: tuple[Cue, ...]
    hurried: tuple[float, ...]


def retimed(recording: Recording) -> Retimed:
    """Captions of at most two lines of 42 characters, standing long enough to be read at 17 characters a second.

    A caption begins with its words; where the speech is faster than that it lags behind, by four seconds at most, and catches up at
    the next pause. Beyond that the caption is shorter than it should be and is named in ``hurried``.
    """
    words = list(_cleaned(timed_words(recording)))
    pieces = list(_pieces(words))
    cues: list[Cue] = []
    hurried: list[float] = []
    free = 0.0
    for number, piece in enumerate(pieces):
        text = _laid_out([word.text for word in piece])
        need = max(_LEAST, _characters(text) / SPEED)
        start = max(piece[0].start, free)
        following = pieces[number + 1][0].start if number + 1 < len(pieces) else None
        end = max(start + need, _natural_end(piece, following))
        latest = (following if following is not None else piece[-1].end) + _MOST_LAG
        if end > latest:
            end = max(latest, start + 0.5)
            if _characters(text) / (end - start) > SPEED + 1e-6:
                hurried.append(piece[0].start)
        cues.append(Cue(round(start, 3), round(end + 0.0005, 3), text))
        free = end + _GAP
    return Retimed(tuple(cues), tuple(hurried))


def _characters(text: str) -> int:
    """Characters to be read; the line break counts as a blank."""
    return len(text)


def _natural_end(piece: Sequence[Word], following: float | None) -> float:
    """Until the words are over and a little longer, but not into the next caption."""
    end = piece[-1].end + _LINGER
    return end if following is None else min(end, max(piece[-1].end, following - _GAP))


def _cleaned(words: Sequence[Word]) -> Iterator[Word]:
    """Without hesitations, and without a word said twice in a row by stumbling."""
    last = ""
    for word in words:
        plain = re.sub(r"[^\w']", "", word.text).lower()
        if plain in _FILLERS or (plain and plain == last and plain.isalpha() and len(plain) <= _STUMBLE):
            continue
        last = plain
        yield word


def _pieces(words: Sequence[Word]) -> Iterator[list[Word]]:
    """Runs of words for one caption each: ended by a sentence, a pause, or room."""
    piece: list[Word] = []
    for word in words:
        if piece and (word.start - piece[-1].end >= _PAUSE or not _fits([*piece, word])):
            yield from _broken(piece, room=word.start - piece[-1].end < _PAUSE)
            piece = piece[len(piece) - _left_over(piece) :] if word.start - piece[-1].end < _PAUSE else []
        piece.append(word)
        if _SENTENCE.search(word.text) and len(piece) > _WORDS:
            yield piece
            piece = []
    if piece:
        yield piece


def _left_over(piece: Sequence[Word]) -> int:
    """How many words at the end of a full caption go better with the next: those after the last comma or before a joining word."""
    for back in range(1, len(piece) // 2):
        if _CLAUSE.search(piece[-back - 1].text) or piece[-back].text.lower() in _JOINERS:
            return back
    return 0


def _broken(piece: list[Word], *, room: bool) -> Iterator[list[Word]]:
    keep = len(piece) - (_left_over(piece) if room else 0)
    yield piece[:keep]


def _fits(piece: Sequence[Word]) -> bool:
    return _lines([word.text for word in piece]) is not None


def _lines(words: Sequence[str]) -> tuple[str, ...] | None:
    """One line, or two as even as can be; None when it does not fit. A single word longer than a line is cut off nowhere."""
    whole = " ".join(words)
    if len(whole) <= LINE or len(words) == 1:
        return (whole,)
    best: tuple[int, tuple[str, str]] | None = None
    for cut in range(1, len(words)):
        first, second = " ".join(words[:cut]), " ".join(words[cut:])
        if len(first) <= LINE and len(second) <= LINE:
            uneven = abs(len(first) - len(second)) + (6 if words[cut - 1].lower() in _JOINERS else 0)
            if best is None or uneven < best[0]:
                best = (uneven, (first, second))
    return None if best is None else best[1]


def _laid_out(words: Sequence[str]) -> str:
    return "\n".join(_lines(words) or (" ".join(words),))
