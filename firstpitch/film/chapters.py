"""Chapters by kit, from where the film speaks of what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from firstpitch.film.types import Chapter, Coverage, Stretch

_SHORTEST = 8.0
_OPENING = "Welcome"


def chapters_of(coverage: Coverage, titles: Mapping[str, str]) -> tuple[Chapter, ...]:
    """The film's chapters in order, from its first second to its last, with no hole between them.

    One for each stretch about a kind of kit, titled from ``titles`` (kind to words). Stretches about the same kind one after the other
    are one chapter; a stretch of under 8 s belongs to the chapter before it.

    """
    spoken = [stretch for stretch in coverage.stretches if stretch.kind]
    merged = _merged(spoken)
    if not merged:
        return (Chapter(coverage.van, (), 0.0, coverage.length),) if coverage.length > 0 else ()
    found = [Chapter(titles.get(s.kind, s.kind), s.kits, s.start, s.end) for s in merged]
    if found[0].start >= _SHORTEST:
        found.insert(0, Chapter(_OPENING, (), 0.0, found[0].start))
    else:
        found[0] = replace(found[0], start=0.0)
    ends = [chapter.start for chapter in found[1:]] + [max(coverage.length, found[-1].end)]
    return tuple(replace(chapter, end=end) for chapter, end in zip(found, ends, strict=True))


def _merged(stretches: Sequence[Stretch]) -> list[Stretch]:
    out: list[Stretch] = []
    for stretch in sorted(stretches, key=lambda s: s.start):
        short = stretch.end - stretch.start < _SHORTEST
        if out and (stretch.kind == out[-1].kind or short):
            out[-1] = replace(out[-1], end=max(out[-1].end, stretch.end), kits=_both(out[-1], stretch))
        else:
            out.append(stretch)
    return out


def _both(first: Stretch, second: Stretch) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*first.kits, *(second.kits if second.kind == first.kind else ()))))


def with_part(chapters: Sequence[Chapter], number: int, seconds: float) -> tuple[Chapter, ...]:
    """The chapters when number ``number`` (from 0) is filmed again alone and now lasts ``seconds``: the later ones move.

    Raises ValueError for a number there is not or a length that is not above zero.

    >>> old = (Chapter("Hitch", ("hitch",), 0.0, 60.0), Chapter("Gas", ("gas",), 60.0, 100.0))
    >>> [(c.start, c.end) for c in with_part(old, 0, 45.0)]
    [(0.0, 45.0), (45.0, 85.0)]
    """
    if not 0 <= number < len(chapters):
        raise ValueError(f"there is no chapter {number + 1}; the film has {len(chapters)}")
    if seconds <= 0:
        raise ValueError("the new part has no length")
    old = chapters[number]
    moved = seconds - (old.end - old.start)
    return tuple(
        c if at < number else replace(c, start=c.start + (moved if at > number else 0), end=c.end + moved)
        for at, c in enumerate(chapters)
    )
