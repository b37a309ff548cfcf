"""A new van's sheet from that of a van like it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from firstpitch.sheet.fill_tables import kit_of
from firstpitch.sheet.kit import Kinds
from firstpitch.sheet.source import Entry, ListNode, MapNode, Node, Scalar

# What is this one van's own: plated on it, weighed, moulded or stamped. A van like it may differ, so none of it is carried over.
OWN = (
    "van.name",
    "van.chassis_number",
    "van.model_year",
    "van.built",
    "masses.miro",
    "masses.mtplm",
    "masses.noseweight_limit",
    "masses.axle_limit",
    "masses.measured_mass",
    "masses.measured_noseweight",
    "running_gear.tyre.date_code",
)


def similar_tree(top: MapNode, kinds: Kinds, said: Mapping[str, str]) -> MapNode:
    """The sheet ``top`` for another van: everything in ``OWN`` and every date of its kit is left open, then ``said`` (dotted
    field: text) is put in.
    """
    new = top
    for field in (*OWN, *said):
        text = said.get(field, "")
        new = _put(new, field.split("."), Scalar(text, 1, plain=not text))
    kit = tuple(_without_dates(item, kinds) for item in kit_of(new))
    held = new.entries["kit"]
    return MapNode(MappingProxyType({**new.entries, "kit": Entry(ListNode(kit, held.line), held.line)}), new.line)


def _put(node: MapNode, path: Sequence[str], value: Node) -> MapNode:
    key, rest = path[0], path[1:]
    held = node.entries.get(key)
    line = held.line if held else node.line
    if rest:
        inner = held.node if held and isinstance(held.node, MapNode) else MapNode(MappingProxyType({}), line)
        value = _put(inner, rest, value)
    return MapNode(MappingProxyType({**node.entries, key: Entry(value, line)}), node.line)


def _without_dates(item: MapNode, kinds: Kinds) -> MapNode:
    facts, kind = item.entries.get("facts"), item.entries.get("kind")
    key = kind.node.text if kind and isinstance(kind.node, Scalar) else ""
    if facts is None or not isinstance(facts.node, MapNode) or key not in kinds:
        return item
    specs = kinds[key].facts
    kept = {
        name: entry for name, entry in facts.node.entries.items() if name not in specs or specs[name].type != "date"
    }
    inner = Entry(MapNode(MappingProxyType(kept), facts.node.line), facts.line)
    entries = {**item.entries, "facts": inner}
    if not kept:
        del entries["facts"]
    return MapNode(MappingProxyType(entries), item.line)
