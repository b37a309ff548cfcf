"""The words of a recording with their times, and its breaths: the short pieces of speech that everything else is found in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstpitch.film.types import Recording, Word

LEAST, MOST = 4, 12  # words of a breath, where the speech lets it be
PAUSE = 0.55  # [s] of silence between two words that parts breaths
_SENTENCE_END = re.compile(r"[.?!…]+[\"')\]]*$")
_CLAUSE_END = re.compile(r"[,;:–—-]+$")
# Words that open a new piece of talk more often than not.
_OPENERS = frozenset(
    [
        "so",
        "now",
        "right",
        "okay",
        "ok",
        "and",
        "but",
        "then",
        "next",
        "anyway",
        "also",
        "if",
        "when",
        "because",
        "you",
        "we",
        "i",
        "this",
        "that",
        "never",
        "don't",
        "do",
    ]
)
_STRONG = frozenset(["so", "now", "right", "okay", "ok", "anyway", "next"])


@dataclass(frozen=True)
class Breath:
    """A piece of speech: times [s], its text as heard and its words in order. ``ends`` says whether a sentence ends here."""

    start: float
    end: float
    text: str
    words: tuple[Word, ...]
    ends: bool = True


def heard_words(recording: Recording) -> tuple[Word, ...]:
    """Every word in order. Words of a cue without word times share out its time by their length.

    >>> from firstpitch.film.types import Cue
    >>> [(w.text, w.start) for w in heard_words(Recording((Cue(0, 3, "gas off now"),), 3))]
    [('gas', 0.0), ('off', 1.0), ('now', 2.0)]
    """
    found: list[Word] = []
    for cue in recording.cues:
        if cue.words:
            found += [word for word in cue.words if word.text.strip()]
            continue
        parts = cue.text.split()
        weight = [len(part) + 1 for part in parts]
        whole, gone = sum(weight), 0
        length = max(cue.end - cue.start, 0.0)
        for part, size in zip(parts, weight, strict=True):
            start = cue.start + length * gone / whole
            gone += size
            found.append(Word(part, float(start), float(cue.start + length * gone / whole)))
    return tuple(found)


def breaths_of(recording: Recording) -> tuple[Breath, ...]:
    """The recording cut where sentences end, at pauses, and before words that open a new piece of talk.

    Where the recogniser writes no full stops only pauses and openers are left to go by; no breath is longer than ``MOST`` words.
    """
    words = heard_words(recording)
    stopped = sum(1 for w in words if _SENTENCE_END.search(w.text))
    punctuated = stopped * 40 >= len(words)
    found: list[Breath] = []
    for piece, ends in _sentences(words, punctuated):
        parts = list(_shortened(piece))
        for number, part in enumerate(parts, start=1):
            text = " ".join(w.text for w in part)
            found.append(Breath(part[0].start, part[-1].end, text, tuple(part), ends and number == len(parts)))
    return tuple(found)


def _sentences(words: Sequence[Word], punctuated: bool) -> Iterator[tuple[list[Word], bool]]:
    piece: list[Word] = []
    for number, word in enumerate(words):
        piece.append(word)
        after = words[number + 1] if number + 1 < len(words) else None
        gap = after.start - word.end if after else 0.0
        stop = bool(_SENTENCE_END.search(word.text))
        if (
            after is None
            or (stop and (len(piece) >= 3 or gap > PAUSE))
            or (gap > PAUSE and (len(piece) >= LEAST or gap > 2.0))
        ):
            yield piece, after is None or stop or gap > PAUSE or not punctuated
            piece = []


def _shortened(piece: list[Word]) -> Iterator[list[Word]]:
    """``piece`` in parts of at most ``MOST`` words, cut at the best place each time."""
    while len(piece) > MOST:
        cut = max(range(LEAST, min(MOST, len(piece) - 2) + 1), key=lambda i: _cut_worth(piece, i))
        yield piece[:cut]
        piece = piece[cut:]
    if piece:
        yield piece


def _cut_worth(piece: Sequence[Word], i: int) -> float:
    """How good it is to cut before word ``i``: commas, pauses and openers speak for it; about nine words is a good length."""
    before, word = piece[i - 1], re.sub(r"\W+$", "", piece[i].text.lower())
    worth = min(max(piece[i].start - before.end, 0.0), 1.0) * 3.0
    worth += 2.0 if _CLAUSE_END.search(before.text) else 0.0
    worth += 2.0 if word in _STRONG else 1.2 if word in _OPENERS else 0.0
    return worth - abs(i - 9) * 0.15
