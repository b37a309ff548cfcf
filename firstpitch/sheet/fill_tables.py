"""From the tree of a sheet to tables filled with its texts, for a workbook or a CSV file of one van."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from firstpitch.sheet.form import Row
from firstpitch.sheet.kit import Kinds
from firstpitch.sheet.source import ListNode, MapNode, Node, Scalar
from firstpitch.sheet.tables import MORE_HEADS, Filled, columns, free_tables, listings, van_fields


def filled_tables(top: MapNode, kinds: Kinds) -> Filled:
    """The tables of a sheet. The table ``facts`` has a line for every fact its kit may carry, open where the sheet has none."""
    van = {one.name: _text(_at(top, one.path), one.figure) for one in van_fields()}
    lines: dict[str, Sequence[Mapping[str, str]]] = {}
    for name, (path, listing) in listings().items():
        node = _at(top, path)
        items = node.items if isinstance(node, ListNode) else ()
        rows = isinstance(listing.each, Row)
        lines[name] = [_line(name, item, rows=rows) for item in items]
    lines |= _more(top, kinds)
    return Filled(van, lines)


def _at(node: Node | None, path: Sequence[str]) -> Node | None:
    for key in path:
        held = node.entries.get(key) if isinstance(node, MapNode) else None
        node = held.node if held else None
    return node


def _text(node: Node | None, figure: int) -> str:
    if figure >= 0:
        items = node.items if isinstance(node, ListNode) else ()
        node = items[figure] if figure < len(items) else None
    return node.text if isinstance(node, Scalar) and not node.empty else ""


def _line(table: str, item: Node, *, rows: bool) -> dict[str, str]:
    return {column.head: _text(item if rows else _at(item, (column.key,)), column.figure) for column in columns(table)}


def kit_of(top: MapNode) -> tuple[MapNode, ...]:
    """The kit of a tree."""
    node = _at(top, listings()["kit"][0])
    items = node.items if isinstance(node, ListNode) else ()
    return tuple(item for item in items if isinstance(item, MapNode))


def _more(top: MapNode, kinds: Kinds) -> dict[str, list[dict[str, str]]]:
    found: dict[str, list[dict[str, str]]] = {name: [] for name in free_tables()}
    for item in kit_of(top):
        name, key = _text(_at(item, ("id",)), -1), _text(_at(item, ("kind",)), -1)
        for table, lines in found.items():
            held = _at(item, (table,))
            said = (
                {word: _text(entry.node, -1) for word, entry in held.entries.items()}
                if isinstance(held, MapNode)
                else {}
            )
            names = list(kinds[key].facts) if table == "facts" and key in kinds else []
            for word in dict.fromkeys((*names, *said)):
                lines.append(dict(zip(MORE_HEADS[table], (name, word, said.get(word, "")), strict=True)))
    return found
