"""The kit of a van as a CSV file: a line for each kit, a column ``facts.…`` or ``links.…`` for whatever more its kind asks for."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from types import MappingProxyType

from firstpitch.sheet.errors import SheetError, quoted
from firstpitch.sheet.faults import Faults, either, nearest
from firstpitch.sheet.fill_tables import filled_tables
from firstpitch.sheet.kit import Kinds
from firstpitch.sheet.source import Entry, ListNode, MapNode
from firstpitch.sheet.tables import MORE_HEADS, Cell, Line, Places, columns, free_tables, kit_nodes

MOST_BYTES = 2 * 1024 * 1024
MOST_LINES = 1001
MOST_COLUMNS = 300
FILE = "the kit list"
_FORMULA = ("=", "+", "@", "\t", "\r")


def with_kit_list(data: bytes, top: MapNode, kinds: Kinds, places: Places, faults: Faults) -> MapNode:
    """The sheet ``top`` with the kit of a CSV file in place of its own; each cell gets its place, what does not belong goes to
    ``faults``. Raises SheetError when the file is no CSV text of bearable size.
    """
    rows = _rows(data)
    heads = [head.strip() for head in rows[0]]
    known = {column.head.lower(): column.head for column in columns("kit")}
    for number, head in enumerate(heads):
        if head and head.lower() not in known and head.partition(".")[0] not in free_tables():
            line = places.add(f"line 1, column {number + 1}")
            near = nearest(head, known.values())
            faults.add(
                line, "", f"there is no column {quoted(head)}{near}; more of the kit goes under “facts.…” or “links.…”"
            )
        if head and head in heads[:number]:
            faults.add(places.add(f"line 1, column {number + 1}"), "", f"the column {quoted(head)} stands twice")
    missing = [head for low, head in known.items() if low not in [h.lower() for h in heads] and head != "note"]
    if missing:
        faults.add(places.add("line 1"), "", f"a column is missing: {either(missing, 20)}")
        return top
    lines = [_cells(heads, known, row, number, places) for number, row in enumerate(rows[1:], 2) if any(row)]
    more = {table: _more(table, heads, lines) for table in free_tables()}
    kit = ListNode(tuple(kit_nodes(lines, more, kinds, faults)), places.add("line 1"))
    return MapNode(MappingProxyType({**top.entries, "kit": Entry(kit, kit.line)}), top.line)


def _rows(data: bytes) -> list[list[str]]:
    if len(data) > MOST_BYTES:
        raise SheetError(f"{FILE}: it has {len(data):,} bytes, but a kit list has at most {MOST_BYTES:,}.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise SheetError(f"{FILE}: this is not UTF-8 text; save it as “CSV UTF-8” and choose that file.") from None
    head = text.partition("\n")[0]
    mark = max(",;\t", key=head.count)
    try:
        rows = [
            row
            for row, _ in zip(
                csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True),
                range(MOST_LINES + 1),
                strict=False,
            )
        ]
    except csv.Error as wrong:
        raise SheetError(f"{FILE}: this is not a CSV file ({wrong}); save it as “CSV UTF-8”.") from None
    if not rows or "\0" in text:
        raise SheetError(f"{FILE}: there is nothing in it that could be read; save it as “CSV UTF-8”.")
    if len(rows) > MOST_LINES or max(map(len, rows)) > MOST_COLUMNS:
        raise SheetError(
            f"{FILE}: it has more than {MOST_LINES - 1:,} lines or {MOST_COLUMNS} columns; check that it is the right file."
        )
    return rows


def _cells(heads: Sequence[str], known: dict[str, str], row: Sequence[str], number: int, places: Places) -> Line:
    cells: dict[str, Cell] = {}
    for column, head in enumerate(heads):
        if head:
            text = row[column] if column < len(row) else ""
            text = " ".join(text[1:].split() if text[:1] == "'" and text[1:2] in _FORMULA else text.split())
            cells[known.get(head.lower(), head)] = Cell(text, places.add(f"line {number}, column {quoted(head)}"))
    return cells


def _more(table: str, heads: Sequence[str], lines: Sequence[Line]) -> list[Line]:
    owner, name, value = MORE_HEADS[table]
    return [
        {owner: line["id"], name: Cell(head.partition(".")[2], line[head].line), value: line[head]}
        for line in lines
        for head in heads
        if head.partition(".")[0] == table and line[head].text
    ]


def write_kit_list(top: MapNode, kinds: Kinds) -> str:
    """The kit of a sheet as a CSV file with a column for every fact that any of its kinds asks for."""
    lines = filled_tables(top, kinds).lines
    more: dict[str, dict[str, str]] = {line["id"]: {} for line in lines["kit"]}
    heads = [column.head for column in columns("kit")]
    for table in free_tables():
        owner, name, value = MORE_HEADS[table]
        for line in lines[table]:
            more[line[owner]][f"{table}.{line[name]}"] = line[value]
        heads += sorted({f"{table}.{line[name]}" for line in lines[table]})
    out = io.StringIO()
    writer = csv.DictWriter(out, heads, restval="", lineterminator="\r\n")
    writer.writeheader()
    for line in lines["kit"]:
        row = {**line, **more[line["id"]]}
        writer.writerow({head: f"'{text}" if text.startswith(_FORMULA) else text for head, text in row.items()})
    return "\ufeff" + out.getvalue()
