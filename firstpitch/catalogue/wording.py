"""How a fault of the catalogue is put into one sentence."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time

from firstpitch.sheet.errors import CatalogueError, quoted

_HUGE = 1e15


def fault(file: str, key: str, sentence: str) -> CatalogueError:
    """The error for ``key`` of ``file``; ``sentence`` has no full stop of its own.

    >>> str(fault("tap.toml", "about", "the text is empty"))
    'tap.toml, about: the text is empty.'
    """
    return CatalogueError(said(file, key, sentence))


def said(file: str, key: str, sentence: str) -> str:
    """File, key and what is wrong, as one line."""
    return f"{file}, {key}: {sentence}." if key else f"{file}: {sentence}."


def listed(words: Iterable[str], none: str = "none") -> str:
    """Words as a list to read: what is allowed, or what there is."""
    return ", ".join(words) or none


def shown(value: object) -> str:
    """A value found in a file, short enough for a sentence."""
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return "a number far too large" if abs(value) > _HUGE else f"{value}"
    if isinstance(value, date | time):
        return "a date or time"
    return "a list" if isinstance(value, list) else "a table"
