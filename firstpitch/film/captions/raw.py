"""Captions as they stand in a file, before anything is put right."""

from __future__ import annotations

from dataclasses import dataclass

from firstpitch.film.types import Word


@dataclass(frozen=True)
class RawCue:
    """A cue as written [s]: ``end`` None where the file gives none. ``lines`` are plain text; ``words`` those with times of their own."""

    start: float
    end: float | None
    lines: tuple[str, ...]
    words: tuple[Word, ...] = ()
