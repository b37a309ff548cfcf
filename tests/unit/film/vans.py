"""A small brief to check films against: the wren's, made once, with the likeness that ships in its package."""

from __future__ import annotations

from functools import cache

from firstpitch.film.captions import read_captions
from firstpitch.film.check import Prepared, prepared
from firstpitch.film.types import FilmBrief, Recording
from firstpitch.media.sentences import remembered
from tests.film.labelled import RECORDINGS, van_brief


@cache
def small_brief() -> FilmBrief:
    """The brief of a small van of the tuning half."""
    return van_brief(RECORDINGS / "b03" / "van.yaml")


@cache
def small_van() -> Prepared:
    """That brief made ready."""
    return prepared(small_brief(), remembered())


def spoken(*lines: tuple[float, str]) -> Recording:
    """A recording of timed lines, as [m:ss] paragraphs would give it."""
    text = "\n\n".join(f"[{int(at) // 60}:{int(at) % 60:02}] {words}" for at, words in lines)
    return read_captions(text.encode(), "film.txt")
