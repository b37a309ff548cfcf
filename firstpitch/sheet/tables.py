"""A sheet as tables of cells, for workbooks and CSV files. The tables are made from the sheet's form, so they cannot drift from it.

The table ``van`` has a line for every single figure; every list of the form has a table of its own; ``facts`` and ``links`` say
more about the kit, a line each.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType

from firstpitch.sheet.faults import Faults, either, nearest
from firstpitch.sheet.form import Free, Listing, Part, Row, Section, Value
from firstpitch.sheet.kit import Kinds
from firstpitch.sheet.layout import BUILD_SHEET, VERSION
from firstpitch.sheet.source import Entry, ListNode, MapNode, Node, Scalar
from firstpitch.sheet.types import FactSpec

FIELD, WRITE = "field", "write here"
VAN_HEADS = ("what it is", WRITE, "unit or choices", FIELD)
MORE_HEADS: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {"facts": ("kit", "fact", "value"), "links": ("kit", "link", "other kit")}
)
_BARE = re.compile(r"[-+−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)")
_MARK = re.compile(r"\bline (1[0-9]{6})\b")
_FIRST = 1_000_000


@dataclass(frozen=True)
class Cell:
    """What a cell holds as text, and the number by which ``Places`` knows it."""

    text: str
    line: int


Line = Mapping[str, Cell]
"""The cells of one line of a table by the head of their column."""


@dataclass(frozen=True)
class Filled:
    """Tables with texts in them: the table ``van`` by field, every other one as lines by head."""

    van: Mapping[str, str] = field(default_factory=dict)
    lines: Mapping[str, Sequence[Mapping[str, str]]] = field(default_factory=dict)


@dataclass
class Places:
    """Where each cell stands, in words; faults name cells by line numbers that no file has, until ``said`` puts the words in."""

    words: list[str] = field(default_factory=list)

    def add(self, place: str) -> int:
        """A number for a place."""
        self.words.append(place)
        return _FIRST + len(self.words) - 1

    def said(self, sentence: str, file: str) -> str:
        """A fault with every cell in words, and without the name of the file before it."""
        plain = sentence.removeprefix(f"{file}, ")
        return _MARK.sub(lambda found: self.words[int(found[1]) - _FIRST], plain)


@dataclass(frozen=True)
class Column:
    """A column of a list's table: the key it fills, and which figure of a row it is (-1: the only one)."""

    head: str
    key: str
    unit: str
    figure: int = -1


@dataclass(frozen=True)
class VanField:
    """A line of the table ``van``: its dotted field, and which figure of a row it is (-1: the only one)."""

    name: str
    path: tuple[str, ...]
    what: str
    allowed: str
    unit: str
    required: bool
    figure: int = -1


def unit_or_choices(spec: FactSpec) -> str:
    """What stands beside a cell to say how to fill it."""
    plain = {"yes-no": "yes or no", "date": "year-month-day", "count": "whole number", "text": "words"}
    if spec.type == "quantity":
        return spec.unit
    return either(spec.choices) if spec.type == "choice" else plain[spec.type]


@cache
def van_fields() -> tuple[VanField, ...]:
    """The lines of the table ``van``, in the order of the form."""
    return tuple(_van_fields(BUILD_SHEET.parts, ()))


def _van_fields(parts: Sequence[Part], path: tuple[str, ...]) -> Iterator[VanField]:
    for part in parts:
        here = (*path, part.name)
        name = ".".join(here)
        if isinstance(part, Section):
            yield from _van_fields(part.parts, here)
        elif isinstance(part, Row):
            for i in range(part.longest):
                required = part.required and i < len(part.parts)
                yield VanField(
                    f"{name} {i + 1}", here, f"{part.what}: number {i + 1}", part.unit, part.unit, required, i
                )
        elif isinstance(part, Value) and name != "firstpitch":
            spec = part.spec
            unit = spec.unit if spec.type == "quantity" else ""
            yield VanField(name, here, spec.what, part.allowed or unit_or_choices(spec), unit, part.required)


@cache
def listings() -> Mapping[str, tuple[tuple[str, ...], Listing]]:
    """Name of each list's table with the list's path and form."""
    return MappingProxyType(dict(_listings(BUILD_SHEET.parts, ())))


def _listings(parts: Sequence[Part], path: tuple[str, ...]) -> Iterator[tuple[str, tuple[tuple[str, ...], Listing]]]:
    for part in parts:
        if isinstance(part, Section):
            yield from _listings(part.parts, (*path, part.name))
        elif isinstance(part, Listing):
            yield part.name, ((*path, part.name), part)


@cache
def columns(table: str) -> tuple[Column, ...]:
    """The columns of a list's table."""
    each = listings()[table][1].each
    return tuple(_columns(each if isinstance(each, Row) else each.parts))


def _columns(parts: Row | Sequence[Part]) -> Iterator[Column]:
    if isinstance(parts, Row):
        for i, words in enumerate(parts.parts):
            yield Column(f"{words} [{parts.unit}]", "", parts.unit, i)
        return
    for part in parts:
        if isinstance(part, Row):
            for i, words in enumerate(part.parts):
                yield Column(f"{part.name}: {words} [{part.unit}]", part.name, part.unit, i)
        elif isinstance(part, Value):
            unit = part.spec.unit if part.spec.type == "quantity" else ""
            says = unit or ("yes or no" if part.spec.type == "yes-no" else "")
            yield Column(f"{part.name} [{says}]" if says else part.name, part.name, unit)


def free_tables() -> tuple[str, ...]:
    """The tables that say more about kit."""
    each = listings()["kit"][1].each
    return tuple(part.name for part in each.parts if isinstance(part, Free)) if isinstance(each, Section) else ()


def _scalar(cell: Cell, unit: str = "") -> Scalar:
    """A number without a unit takes the one that stands at its cell."""
    text = f"{cell.text} {unit}" if unit and _BARE.fullmatch(cell.text) else cell.text
    return Scalar(text, cell.line, plain=not text)


def sheet_tree(tables: Mapping[str, Sequence[Line]], heads: Mapping[str, int], kinds: Kinds, faults: Faults) -> MapNode:
    """The tree of a sheet given as tables. ``heads``: the line number of each table's head. What does not belong goes to ``faults``."""
    top = _Open(firstpitch=Entry(Scalar(str(VERSION), 1), 1))
    _put_van(top, tables.get("van", ()), faults)
    more = {name: tables.get(name, ()) for name in free_tables()}
    for name, (path, listing) in listings().items():
        lines = tables.get(name, ())
        rows = (
            kit_nodes(lines, more, kinds, faults) if name == "kit" else [_item(name, listing, line) for line in lines]
        )
        at = heads.get(name, 1)
        top.put(path, Entry(ListNode(tuple(rows), at), at))
    return top.closed()


class _Open(dict[str, "Entry | _Open"]):
    """A set of keys that is still being filled."""

    def put(self, path: Sequence[str], entry: Entry) -> None:
        """Put ``entry`` at the end of ``path``."""
        inner = self
        for key in path[:-1]:
            held = inner.setdefault(key, _Open())
            if isinstance(held, _Open):
                inner = held
        inner[path[-1]] = entry

    def closed(self) -> MapNode:
        """As it stands in a tree; it begins where its first entry does."""
        entries: dict[str, Entry] = {}
        for key, held in self.items():
            node = held.closed() if isinstance(held, _Open) else held.node
            entries[key] = Entry(node, held.line if isinstance(held, Entry) else node.line)
        return MapNode(MappingProxyType(entries), next((entry.line for entry in entries.values()), 1))


def _put_van(top: _Open, lines: Sequence[Line], faults: Faults) -> None:
    known = {one.name: one for one in van_fields()}
    rows: dict[tuple[str, ...], list[Scalar]] = {}
    seen: set[str] = set()
    for line in lines:
        named, cell = line[FIELD], line[WRITE]
        one = known.get(named.text)
        if one is None:
            if named.text or cell.text:
                faults.add(named.line, FIELD, f"there is no field “{named.text}”{nearest(named.text, known)}")
            continue
        if one.name in seen:
            faults.add(named.line, FIELD, f"the field “{named.text}” stands twice; keep one of them")
            continue
        seen.add(one.name)
        value = _scalar(cell, one.unit)
        if one.figure < 0:
            top.put(one.path, Entry(value, cell.line))
        else:
            rows.setdefault(one.path, []).append(value)
    for path, figures in rows.items():
        top.put(path, _row_entry(figures))


def _row_entry(figures: Sequence[Scalar]) -> Entry:
    """A row of figures without the empty cells at its end; left open when all are empty."""
    whole = list(figures)
    while whole and whole[-1].empty:
        whole.pop()
    node: Node = ListNode(tuple(whole), figures[0].line) if whole else figures[0]
    return Entry(node, figures[0].line)


def _item(table: str, listing: Listing, line: Line) -> Node:
    cells = [(column, _scalar(line[column.head], column.unit)) for column in columns(table) if column.head in line]
    if isinstance(listing.each, Row):
        return ListNode(tuple(value for _, value in cells), cells[0][1].line)
    entries: dict[str, Entry] = {}
    for key in dict.fromkeys(column.key for column, _ in cells):
        held = [(column, value) for column, value in cells if column.key == key]
        if held[0][0].figure >= 0:
            node = _row_entry([value for _, value in held]).node
            node = node if isinstance(node, Scalar) else ListNode(tuple(value for _, value in held), held[0][1].line)
        else:
            node = held[0][1]
        entries[key] = Entry(node, held[0][1].line)
    return MapNode(MappingProxyType(entries), cells[0][1].line)


def kit_nodes(lines: Sequence[Line], more: Mapping[str, Sequence[Line]], kinds: Kinds, faults: Faults) -> list[MapNode]:
    """The kit of a table, each with its facts and links from the tables ``more``."""
    listing = listings()["kit"][1]
    found: list[MapNode] = []
    for line in lines:
        node = _item("kit", listing, line)
        if isinstance(node, MapNode):
            found.append(node)
    kind_of = {_text(node, "id"): _text(node, "kind") for node in found}
    extra = {name: _more(name, part, kind_of, kinds, faults) for name, part in more.items()}
    return [_with_more(node, {name: held.get(_text(node, "id"), {}) for name, held in extra.items()}) for node in found]


def _text(node: MapNode, key: str) -> str:
    held = node.entries.get(key)
    return held.node.text if held and isinstance(held.node, Scalar) else ""


def _more(
    table: str, lines: Sequence[Line], kind_of: Mapping[str, str], kinds: Kinds, faults: Faults
) -> dict[str, dict[str, Entry]]:
    owner, name, value = MORE_HEADS[table]
    found: dict[str, dict[str, Entry]] = {}
    for line in lines:
        kit, key, cell = line[owner], line[name], line[value]
        if kit.text not in kind_of:
            if kit.text or key.text or cell.text:
                sentence = f"there is no kit with the id “{kit.text}” on the sheet “kit”{nearest(kit.text, kind_of)}"
                faults.add(kit.line, f"{table}.{owner}", sentence)
            continue
        held = found.setdefault(kit.text, {})
        if key.text in held:
            faults.add(key.line, f"kit.{kit.text}.{table}", f"“{key.text}” stands twice for this kit; keep one of them")
            continue
        kind = kinds.get(kind_of[kit.text])
        spec = kind.facts.get(key.text) if kind and table == "facts" else None
        unit = spec.unit if spec and spec.type == "quantity" else ""
        held[key.text] = Entry(_scalar(cell, unit), key.line)
    return found


def _with_more(node: MapNode, more: Mapping[str, Mapping[str, Entry]]) -> MapNode:
    entries = dict(node.entries)
    for name, held in more.items():
        if held:
            first = next(iter(held.values())).line
            entries[name] = Entry(MapNode(MappingProxyType(dict(held)), first), first)
    return MapNode(MappingProxyType(entries), node.line)
