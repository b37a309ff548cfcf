"""How fast the film is spoken."""

from __future__ import annotations

from collections.abc import Sequence

from firstpitch.film.types import Pace, Word

FAST = 190.0  # words a minute from which an owner loses the thread; common practice, no source
STRETCH = 20.0  # [s] over which it is reckoned
SILENCE = 2.0  # [s] between words that is no speech


def pace_of(words: Sequence[Word]) -> Pace:
    """Words a minute over the time spent speaking, and the stretches that are too fast to follow.

    >>> pace_of([Word("gas", 0, 0.5), Word("off", 0.5, 1.0)]).words_per_minute
    120.0
    """
    spoken = 0.0
    for before, word in zip([None, *words], words, strict=False):
        gap = word.start - before.end if before else 0.0
        spoken += max(word.end - word.start, 0.0) + (gap if 0.0 < gap <= SILENCE else 0.0)
    rate = 60.0 * len(words) / spoken if spoken > 0 else 0.0
    return Pace(len(words), round(rate, 1), _fast(words))


def _fast(words: Sequence[Word]) -> tuple[tuple[float, float, float], ...]:
    """Runs of words that stay above ``FAST`` for ``STRETCH`` seconds, merged where they touch."""
    found: list[tuple[float, float, float]] = []
    first = 0
    for last, word in enumerate(words):
        while word.end - words[first].start > STRETCH:
            first += 1
        length = word.end - words[first].start
        if first and length > STRETCH * 0.8:
            rate = 60.0 * (last - first + 1) / length
            if rate > FAST:
                if found and words[first].start <= found[-1][1]:
                    start, _, most = found[-1]
                    found[-1] = (start, word.end, max(most, round(rate, 1)))
                else:
                    found.append((words[first].start, word.end, round(rate, 1)))
    return tuple(found)
