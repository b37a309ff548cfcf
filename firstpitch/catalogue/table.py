"""One table of a kind file: hands out its keys as checked values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from firstpitch.catalogue.literals import NAME
from firstpitch.catalogue.wording import fault, listed, shown
from firstpitch.sheet.errors import CatalogueError
from firstpitch.sheet.faults import nearest

Word = TypeVar("Word", bound=str)


class Table:
    """A table ``raw`` at ``path`` in ``file`` that may hold the keys ``known`` (None: names chosen by the file's writer).

    Every reader raises CatalogueError, naming file and key, when the value is missing, of the wrong sort or out of bounds.
    """

    def __init__(self, raw: object, file: str, path: str, known: Sequence[str] | None) -> None:
        self.file, self.path = file, path
        if not isinstance(raw, dict):
            raise fault(file, path, f"found {shown(raw)}, but this is a table of keys")
        self._raw: dict[str, object] = raw
        for key in raw:
            if known is not None and key not in known:
                raise self.fault(key, f"there is no such key here; the keys are {listed(known)}{nearest(key, known)}")
            if known is None and not NAME.fullmatch(key):
                raise self.fault(key, "this is not a name; names are lower-case letters, digits and “_”")

    def fault(self, key: str, sentence: str) -> CatalogueError:
        """The error for ``key`` of this table."""
        return fault(self.file, self.where(key), sentence)

    def where(self, key: str) -> str:
        """``key`` with its path from the top of the file."""
        return f"{self.path}.{key}" if self.path else key

    def has(self, key: str) -> bool:
        """Whether the file gives ``key``."""
        return key in self._raw

    def names(self) -> tuple[str, ...]:
        """The keys, in file order."""
        return tuple(self._raw)

    def _get(self, key: str, wanted: str) -> object:
        if key not in self._raw:
            raise self.fault(key, f"this is missing; it must be {wanted}")
        return self._raw[key]

    def text(self, key: str, default: str | None = None) -> str:
        """A text with its white space evened out; empty only where ``default`` is."""
        if default is not None and not self.has(key):
            return default
        found = self._get(key, "a text in quotes")
        if not isinstance(found, str):
            raise self.fault(key, f"found {shown(found)}, but this is a text in quotes")
        text = " ".join(found.split())
        if not text and default != "":
            raise self.fault(key, "the text is empty; write it")
        return text

    def name(self, key: str) -> str:
        """A name: lower-case letters, digits and underscores."""
        text = self.text(key)
        if not NAME.fullmatch(text):
            raise self.fault(key, f"“{text}” is not a name; names are lower-case letters, digits and “_”")
        return text

    def choice(self, key: str, allowed: Sequence[Word], default: Word | None = None) -> Word:
        """One of the words ``allowed``."""
        if default is not None and not self.has(key):
            return default
        found = self._get(key, f"one of {listed(allowed)}")
        for word in allowed:
            if found == word:
                return word
        hint = nearest(found, allowed) if isinstance(found, str) else ""
        raise self.fault(key, f"found {shown(found)}; allowed are {listed(allowed)}{hint}")

    def yes(self, key: str) -> bool:
        """True or false; false when left out."""
        found = self._raw.get(key, False)
        if not isinstance(found, bool):
            raise self.fault(key, f"found {shown(found)}; allowed are true and false")
        return found

    def number(self, key: str, least: float, most: float, default: float | None = None) -> float:
        """A finite number within bounds."""
        if default is not None and not self.has(key):
            return default
        found = self._get(key, f"a number from {least:.12g} to {most:.12g}")
        if isinstance(found, bool) or not isinstance(found, int | float) or not least <= found <= most:
            raise self.fault(key, f"found {shown(found)}; allowed is a number from {least:.12g} to {most:.12g}")
        return float(found)

    def whole(self, key: str, least: int, most: int, default: int | None = None) -> int:
        """A whole number within bounds."""
        if default is not None and not self.has(key):
            return default
        found = self._get(key, f"a whole number from {least} to {most}")
        if isinstance(found, bool) or not isinstance(found, int) or not least <= found <= most:
            raise self.fault(key, f"found {shown(found)}; allowed is a whole number from {least} to {most}")
        return found

    def _list(self, key: str) -> list[object]:
        found = self._raw.get(key, [])
        if not isinstance(found, list):
            raise self.fault(key, f"found {shown(found)}, but this is a list in square brackets")
        return found

    def texts(self, key: str, least: int = 0) -> tuple[str, ...]:
        """A list of different texts, none empty, at least ``least`` of them; empty when left out and ``least`` is 0."""
        found: list[str] = []
        for place, item in enumerate(self._list(key), 1):
            if not isinstance(item, str):
                raise self.fault(key, f"entry {place} is {shown(item)}, but each entry is a text in quotes")
            text = " ".join(item.split())
            if not text:
                raise self.fault(key, f"entry {place} is empty; write it or leave it out")
            if text in found:
                raise self.fault(key, f"{shown(text)} stands twice; write it once")
            found.append(text)
        if len(found) < least:
            raise self.fault(key, f"found {len(found)} in this list, but at least {least} must stand here")
        return tuple(found)

    def pairs(self, key: str) -> tuple[tuple[str, str], ...]:
        """A list of lists of two texts."""
        found: list[tuple[str, str]] = []
        for place, item in enumerate(self._list(key), 1):
            match item:
                case [str(first), str(second)] if first.strip() and second.strip():
                    found.append((" ".join(first.split()), " ".join(second.split())))
                case _:
                    raise self.fault(key, f"entry {place} is not a list of two texts, as [“notice”, “do”]")
        return tuple(found)

    def table(self, key: str, known: Sequence[str] | None) -> Table:
        """The table at ``key``, empty when left out."""
        return Table(self._raw.get(key, {}), self.file, self.where(key), known)

    def needed_table(self, key: str, known: Sequence[str] | None) -> Table:
        """The table at ``key``, which must be there."""
        return Table(self._get(key, "a table"), self.file, self.where(key), known)

    def tables(self, key: str, known: Sequence[str]) -> Iterator[Table]:
        """The tables of a list of tables, each called by its ``id`` where it has one, else by its number."""
        for place, item in enumerate(self._list(key), 1):
            own = item.get("id") if isinstance(item, dict) else None
            label = own if isinstance(own, str) and NAME.fullmatch(own) else str(place)
            yield Table(item, self.file, f"{self.where(key)}.{label}", known)

    def raw(self, key: str) -> object:
        """The value at ``key`` as the file has it, or None."""
        return self._raw.get(key)
