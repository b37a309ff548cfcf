"""Timed words gathered into pieces that read as captions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from firstpitch.film.types import Word

_PAUSE = 0.8
_LONGEST_S = 12.0
_MOST_WORDS = 20
_ENDS_SENTENCE = re.compile(r"[.!?]$")


def gathered(words: Iterable[Word]) -> Iterator[tuple[Word, ...]]:
    """Runs of words, ended by a pause of 0.8 s, a sentence's end, 12 s or 20 words; an entry of several words stands alone.

    >>> [len(run) for run in gathered([Word("Gas", 0, 0.3), Word("off.", 0.3, 0.6), Word("Hitch.", 0.7, 1.1), Word("So", 3, 3.2)])]
    [2, 1, 1]
    """
    run: list[Word] = []
    for word in words:
        if run and _breaks(run, word):
            yield tuple(run)
            run = []
        run.append(word)
    if run:
        yield tuple(run)


def _breaks(run: list[Word], word: Word) -> bool:
    last = run[-1]
    return (
        word.start - last.end >= _PAUSE
        or word.end - run[0].start > _LONGEST_S
        or len(run) >= _MOST_WORDS
        or " " in word.text
        or " " in last.text
        or bool(_ENDS_SENTENCE.search(last.text))
        or word.start < last.start
    )
