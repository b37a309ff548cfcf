"""What a sheet looks like, as data: its sections, lists and values. The reader and the JSON Schema both work from it.

A build sheet, a car sheet and a load sheet are each one ``Section``.
"""

from __future__ import annotations

from dataclasses import dataclass

from firstpitch.sheet.types import FactSpec, FactType, Need


@dataclass(frozen=True)
class Value:
    """One value under a key.

    ``required``: the file is refused without it. Otherwise it is unknown when missing, and named so if ``reported``.
    ``pattern`` (texts only) is a regular expression for the whole text and ``allowed`` the same in words.
    """

    spec: FactSpec
    required: bool = False
    pattern: str = ""
    allowed: str = ""
    reported: bool = True

    @property
    def name(self) -> str:
        """The key."""
        return self.spec.name


@dataclass(frozen=True)
class Row:
    """Several quantities of one unit in square brackets, such as a point ``[2.10 m, 0.35 m]``; ``parts`` names each.

    With ``most`` above ``len(parts)`` the last name stands for all that follow.
    """

    name: str
    what: str
    unit: str
    parts: tuple[str, ...]
    required: bool = False
    most: int = 0
    bounds: tuple[float, float] = (-1e9, 1e9)

    @property
    def longest(self) -> int:
        """The largest number of figures."""
        return max(self.most, len(self.parts))


@dataclass(frozen=True)
class Section:
    """Keys that belong together."""

    name: str
    what: str
    parts: tuple[Part, ...]
    required: bool = False


@dataclass(frozen=True)
class Listing:
    """A list of rows or of sections; the ``each`` has no key of its own."""

    name: str
    what: str
    each: Section | Row
    required: bool = False
    least: int = 0
    most: int = 1000


@dataclass(frozen=True)
class Free:
    """Keys that depend on something else in the file; handed on unread."""

    name: str
    what: str
    required: bool = False


Part = Value | Row | Section | Listing | Free


def quantity(
    name: str,
    what: str,
    unit: str,
    least: float | None = None,
    most: float | None = None,
    *,
    required: bool = False,
    need: Need = "must",
) -> Value:
    """A measured figure, bounded in ``unit``."""
    return Value(FactSpec(name, what, "quantity", unit, need, (), least, most), required)


def count(name: str, what: str, least: int, most: int, *, required: bool = False, need: Need = "must") -> Value:
    """A whole number."""
    return Value(FactSpec(name, what, "count", "", need, (), least, most), required)


def choice(name: str, what: str, choices: tuple[str, ...], *, required: bool = False, need: Need = "must") -> Value:
    """One of a few words."""
    return Value(FactSpec(name, what, "choice", "", need, choices), required)


def simple(name: str, what: str, kind: FactType, *, required: bool = False, need: Need = "must") -> Value:
    """A text, a date or a yes-no."""
    return Value(FactSpec(name, what, kind, "", need), required)


def text(
    name: str,
    what: str,
    pattern: str = "",
    allowed: str = "",
    *,
    required: bool = False,
    need: Need = "may",
    reported: bool = True,
) -> Value:
    """A text, of a certain form where ``pattern`` is given."""
    return Value(FactSpec(name, what, "text", "", need), required, pattern, allowed, reported)


def identifier(what: str) -> Value:
    """The ``id`` of a thing in a list."""
    allowed = "lower-case letters, digits and hyphens, with a letter first, such as “front-locker”"
    return text("id", what, ID, allowed, required=True)


ID = r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*"
