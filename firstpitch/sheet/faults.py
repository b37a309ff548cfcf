"""Collecting what is wrong with a file, one sentence each, so that a user can put everything right in one go."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from firstpitch.sheet.errors import SheetError

MOST_SHOWN = 100


def nearest(word: str, known: Iterable[str]) -> str:
    """The end of a sentence that offers the known word most like ``word``, or nothing.

    Capitals, hyphens, underscores and spaces make no difference.

    >>> nearest("Water-Heatr", ["water_heater", "space_heater"]), nearest("x", ["element"])
    (' (did you mean “water_heater”?)', '')
    """
    plain = {_plain(name): name for name in known}
    close = get_close_matches(_plain(word[:60]), list(plain), n=1, cutoff=0.6)
    return f" (did you mean “{plain[close[0]]}”?)" if close else ""


def _plain(word: str) -> str:
    return word.lower().replace("-", "_").replace(" ", "_")


def either(words: Iterable[str], most: int = 12) -> str:
    """Words as a list to choose from, cut short when there are very many.

    >>> either(["butane", "propane", "both"])
    'butane, propane or both'
    """
    found = list(words)
    if len(found) > most:
        return f"{', '.join(found[:most])} and {len(found) - most} more"
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} or {found[-1]}"


def counted_as(number: int, one: str, many: str = "") -> str:
    """A number with its noun.

    >>> counted_as(1, "entry", "entries"), counted_as(2, "figure")
    ('1 entry', '2 figures')
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


class Faults:
    """The faults of one file so far.

    A caller adds what it finds and goes on; ``stop`` then raises one SheetError with all of them in file order.
    """

    def __init__(self, file: str) -> None:
        self.file = file
        self._found: list[tuple[int, str]] = []

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, line: int, field: str, sentence: str) -> None:
        """Note a fault. ``sentence`` says what was found, what is allowed and what to do; it has no full stop of its own."""
        where = [self.file, f"line {line}" if line else "", field]
        self._found.append((line, f"{', '.join(part for part in where if part)}: {sentence}."))

    def stop(self) -> None:
        """Raise SheetError if there is any fault, in file order, each once, at most ``MOST_SHOWN`` of them."""
        if not self._found:
            return
        sentences = list(dict.fromkeys(text for _, text in sorted(self._found, key=lambda fault: fault[0])))
        left = len(sentences) - MOST_SHOWN
        if left > 0:
            sentences = [
                *sentences[:MOST_SHOWN],
                f"{self.file}: {counted_as(left, 'more fault')} not shown; put these right first.",
            ]
        raise SheetError(sentences)
