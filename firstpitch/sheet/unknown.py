"""What a sheet leaves unknown, in words, with what that blocks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from firstpitch.sheet.form import Listing, Part, Row, Section, Value
from firstpitch.sheet.kit import Kinds
from firstpitch.sheet.layout import BUILD_SHEET
from firstpitch.sheet.types import BuildSheet, Need


@dataclass(frozen=True)
class Unknown:
    """A figure the sheet lacks. ``field`` is its dotted field, ``words`` what it is, ``blocks`` the results that wait for it.

    ``kit`` and ``fact`` are set where it belongs to a kit.
    """

    field: str
    words: str
    need: Need
    kit: str = ""
    fact: str = ""
    blocks: tuple[str, ...] = ()


Blocks = Callable[[Unknown], Sequence[str]]


def _nothing(_: Unknown) -> Sequence[str]:
    return ()


def unknowns(sheet: BuildSheet, kinds: Kinds, blocks: Blocks = _nothing) -> tuple[Unknown, ...]:
    """Every unknown figure of ``sheet``: those that results need first, each group in sheet order.

    ``blocks`` says for one figure which results wait for it, in words; the engines know, this package does not.
    """
    found = [describe(field, sheet, kinds) for field in sheet.unknown]
    with_blocks = [Unknown(u.field, u.words, u.need, u.kit, u.fact, tuple(blocks(u))) for u in found]
    return tuple(sorted(with_blocks, key=lambda unknown: unknown.need != "must"))


def value_of(field: str, sheet: BuildSheet, kinds: Kinds) -> Value:
    """What the dotted ``field`` (as ``BuildSheet.unknown`` names fields) is: its unit, bounds and form. KeyError where there is none."""
    head, _, rest = field.partition(".")
    name, _, key = rest.partition(".")
    if head == "kit":
        fact = key.removeprefix("facts.")
        return _FIELDS[f"kit.{key}"] if fact == key else Value(kinds[sheet.kit_by_id()[name].kind].facts[fact])
    if field.startswith("plan.lockers."):
        return _FIELDS[f"plan.lockers.{field.rpartition('.')[2]}"]
    return _FIELDS[field]


def describe(field: str, sheet: BuildSheet, kinds: Kinds) -> Unknown:
    """A dotted field in words, whether the sheet knows it or not."""
    head, _, rest = field.partition(".")
    if head == "kit":
        return _of_kit(field, rest, sheet, kinds)
    if field.startswith("plan.lockers."):
        name, _, key = field.removeprefix("plan.lockers.").rpartition(".")
        locker = next((locker.name for locker in sheet.plan.lockers if locker.id == name), name)
        value = _FIELDS[f"plan.lockers.{key}"]
        return Unknown(field, f"{locker}: {value.spec.what}", value.spec.need)
    value = _FIELDS[field]
    return Unknown(field, value.spec.what, value.spec.need)


def _of_kit(field: str, rest: str, sheet: BuildSheet, kinds: Kinds) -> Unknown:
    kit_id, _, key = rest.partition(".")
    kit = sheet.kit_by_id()[kit_id]
    fact = key.removeprefix("facts.")
    if fact == key:
        value = _FIELDS[f"kit.{key}"]
        return Unknown(field, f"{kit.name}: {value.spec.what}", value.spec.need, kit_id)
    spec = kinds[kit.kind].facts[fact]
    return Unknown(field, f"{kit.name}: {spec.what}", spec.need, kit_id, fact)


def _values(part: Part, at: str) -> Iterator[tuple[str, Value]]:
    here = f"{at}.{part.name}" if at else part.name
    if isinstance(part, Value):
        yield here, part
    elif isinstance(part, Section):
        for inner in part.parts:
            yield from _values(inner, here)
    elif isinstance(part, Listing) and not isinstance(part.each, Row):
        for inner in part.each.parts:
            yield from _values(inner, here)


_FIELDS = {field: value for part in BUILD_SHEET.parts for field, value in _values(part, "")}
