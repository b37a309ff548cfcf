"""A speaker's own pace, learned from films already made."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from firstpitch.film.captions.tidy import timed_words
from firstpitch.film.types import Recording

_PAUSE = 1.5
_LEAST_WORDS = 100


def speaking(recording: Recording) -> tuple[int, float]:
    """Words spoken and the seconds they took; a silence of more than 1.5 s between words is no speech."""
    words = timed_words(recording)
    if not words:
        return 0, 0.0
    took = words[-1].end - words[-1].start
    for word, following in pairwise(words):
        gap = following.start - word.start
        own = word.end - word.start
        took += gap if gap - own <= _PAUSE else own
    return len(words), took


def learned_pace(films: Sequence[Recording]) -> float | None:
    """Words a minute over all ``films`` of one speaker, each film with the weight of its words; None below 100 words in all.

    >>> from firstpitch.film.types import Cue
    >>> film = Recording((Cue(0.0, 60.0, "word " * 140),), 60.0)
    >>> round(learned_pace([film]))
    140
    """
    told = [speaking(film) for film in films]
    words, seconds = sum(n for n, _ in told), sum(s for _, s in told)
    return None if words < _LEAST_WORDS or seconds <= 0 else words * 60 / seconds
