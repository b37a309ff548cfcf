"""Plain text with times in it: ``[m:ss] what is said``, one time before each paragraph or line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from firstpitch.film.captions.raw import RawCue
from firstpitch.film.captions.timings import seconds

_SLOW = 7.0
_OPEN = r"(?:(\d{1,2}):)?(\d{1,3}):(\d{2})(?:[.,](\d{1,3}))?"
STAMP = re.compile(rf"^\s*(?:\[{_OPEN}\]|\({_OPEN}\)|{_OPEN}(?=\s|$))\s*[-–:]?\s*", re.MULTILINE)
_INNER = re.compile(rf"\[{_OPEN}\]\s*")


def read_timed(text: str) -> Iterator[RawCue]:
    """Every paragraph from its time to the next one's, or as long as its words can take at 7 characters a second (about 75 words a
    minute, slower than anybody films). What stands before the first time is passed over.

    >>> [(c.start, c.lines) for c in read_timed("[0:05] Good morning.\\n[1:10] That's the\\nhitch.")]
    [(5.0, ('Good morning.',)), (70.0, ("That's the", 'hitch.'))]
    """
    starts = [(found.start(), found.end(), _at(found)) for found in STAMP.finditer(text)]
    inner = [(found.start(), found.end(), _at(found)) for found in _INNER.finditer(text)]
    stamps = sorted({begin: (begin, end, at) for begin, end, at in [*inner, *starts]}.values())
    for number, (_, end, at) in enumerate(stamps):
        stop = stamps[number + 1][0] if number + 1 < len(stamps) else len(text)
        lines = tuple(" ".join(line.split()) for line in text[end:stop].split("\n") if line.strip())
        if lines:
            until = stamps[number + 1][2] if number + 1 < len(stamps) else None
            yield RawCue(at, min(until, at + _slowest(lines)) if until is not None and until > at else None, lines)


def _slowest(lines: tuple[str, ...]) -> float:
    """The longest that these words can take [s]; what is left before the next time is silence."""
    return 1.0 + sum(len(line) + 1 for line in lines) / _SLOW


def _at(found: re.Match[str]) -> float:
    groups = found.groups()
    parts = next(groups[n : n + 4] for n in range(0, len(groups), 4) if groups[n + 1] is not None)
    return seconds(*parts)
