"""Putting raw captions right: order, missing ends, overlaps, rolling lines, noises in brackets."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from firstpitch.film.captions.raw import RawCue
from firstpitch.film.captions.timings import spread
from firstpitch.film.types import Cue, Recording, Word

_NOISE = re.compile(
    r"[\[(](?:music|applause|laughter|laughs|noise|silence|inaudible|foreign|blank_audio|_+)[\])]|[♪♫]+|^>>+\s*",
    re.IGNORECASE,
)
_SPEED = 14.0
_LEAST = 0.5
_NEAR = 2.0
_OVERLAP = 3
_ROLLING = 0.2


def tidied(raw: list[RawCue], mended: tuple[str, ...] = ()) -> Recording:
    """The recording that ``raw`` tells of: cues in order, with ends, never overlapping, nothing said twice by rolling."""
    notes = list(mended)
    cues = [cue for cue in (_spoken(cue) for cue in raw) if cue.lines]
    ordered = sorted(cues, key=lambda cue: cue.start)
    if ordered != cues:
        notes.append("Cues were not in order of time: sorted.")
    open_ends = sum(1 for cue in ordered if cue.end is None or cue.end <= cue.start)
    if open_ends:
        notes.append(f"{open_ends} cues without an end after their start: ended by the next cue or by reading speed.")
    closed = _ended(ordered)
    if _rolls(closed):
        closed = _unrolled(closed)
        notes.append("Rolling captions: repeated lines taken once.")
    trimmed, overlaps = _apart(closed)
    if overlaps:
        notes.append(f"{overlaps} cues overlapped the next one: cut at its start.")
    return Recording(tuple(trimmed), max((cue.end for cue in trimmed), default=0.0), tuple(notes))


def _spoken(cue: RawCue) -> RawCue:
    """A cue without noises in brackets."""
    lines = tuple(kept for line in cue.lines if (kept := " ".join(_NOISE.sub(" ", line).split())))
    words = tuple(word for word in cue.words if _NOISE.sub("", word.text).strip())
    return replace(cue, lines=lines, words=words)


def _ended(ordered: list[RawCue]) -> list[Cue]:
    closed = []
    for number, cue in enumerate(ordered):
        text = " ".join(cue.lines)
        end = cue.end
        if end is None or end <= cue.start:
            end = cue.start + max(_LEAST, len(text) / _SPEED)
            following = ordered[number + 1].start if number + 1 < len(ordered) else None
            if following is not None and cue.start < following < end:
                end = following
        closed.append(Cue(cue.start, end, text, cue.words))
    return closed


def _words(text: str) -> list[str]:
    return [re.sub(r"[^\w']", "", word).lower() for word in text.split()]


def _rolls(cues: list[Cue]) -> bool:
    """Whether the file repeats lines from cue to cue, as live captions do."""
    pairs = list(pairwise(cues))
    if len(pairs) < _OVERLAP:
        return False
    repeats = sum(1 for a, b in pairs if _repeated(_words(a.text), _words(b.text)))
    return repeats >= _OVERLAP and repeats / len(pairs) >= _ROLLING


def _repeated(before: list[str], now: list[str]) -> int:
    """How many of the first words of ``now`` are the last of ``before``; 0 for one or two by chance."""
    for count in range(min(len(before), len(now)), 0, -1):
        if before[-count:] == now[:count] and (count >= _OVERLAP or count in (len(now), len(before))):
            return count
    return 0


def _unrolled(cues: list[Cue]) -> list[Cue]:
    """Each word once. What is shown again is dropped; what is left of a cue keeps its own times."""
    out: list[Cue] = []
    tail: list[str] = []
    until = 0.0
    for cue in cues:
        now = _words(cue.text)
        again = _repeated(tail, now) if cue.start <= until + _NEAR else 0
        until = max(until, cue.end)
        kept = cue.text.split()[again:]
        if kept:
            own = cue.words[-len(kept) :] if cue.words else ()
            timed = own if [word.text for word in own] == kept else ()
            out.append(Cue(timed[0].start if timed else cue.start, cue.end, " ".join(kept), timed))
            tail = [*tail, *now[again:]][-60:]
    return out


def _apart(cues: list[Cue]) -> tuple[list[Cue], int]:
    """Cues that do not overlap: the earlier one ends where the next begins; two from the same instant share the time."""
    out: list[Cue] = []
    overlaps = 0
    for cue in cues:
        if out and out[-1].end > cue.start + 1e-6:
            overlaps += 1
            last = out[-1]
            if cue.start > last.start + 0.05:
                out[-1] = _cut(last, cue.start)
            else:
                out[-1] = Cue(last.start, max(last.end, cue.end), f"{last.text} {cue.text}", ())
                continue
        out.append(cue)
    return out, overlaps


def _cut(cue: Cue, end: float) -> Cue:
    if not cue.words or all(word.end <= end for word in cue.words):
        return replace(cue, end=end)
    return replace(cue, end=end, words=tuple(spread(cue.text, cue.start, end)) if cue.words else ())


def timed_words(recording: Recording) -> tuple[Word, ...]:
    """Every word of the recording with a time: its own where the captions give one, else by its length within the cue."""
    return tuple(w for cue in recording.cues for w in (cue.words or spread(cue.text, cue.start, cue.end)))
