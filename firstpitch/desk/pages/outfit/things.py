"""The load list as forms: one thing at a time, the water on the road, what was measured."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.pages.outfit.fields import flat, listing, mapping, scalar, tree_of, with_unit
from firstpitch.outfit.forms import SIZE_CLASSES
from firstpitch.sheet.source import ListNode, MapNode, Node, Scalar

SIZE = ("long", "wide", "high")
REACH = {"any": "anywhere", "outside": "outside", "inside": "inside"}
_LONGEST = 400
_NEW = "What goes along"
_CM = 100


@dataclass(frozen=True)
class SizeWords:
    """A size class with its measures in words."""

    key: str
    words: str


def size_words() -> tuple[SizeWords, ...]:
    """The size classes to choose from.

    >>> size_words()[0].words
    'small (25 × 20 × 15 cm)'
    """
    return tuple(
        SizeWords(key, f"{key} ({' × '.join(f'{side * _CM:.0f}' for side in size)} cm)")
        for key, size in SIZE_CLASSES.items()
    )


@dataclass(frozen=True)
class WaterField:
    """A tank: its kit, its name, what is in it."""

    kit: str
    name: str
    holds: str
    typed: str
    fault: str = ""


def load_tree(text: str) -> MapNode:
    """The load sheet as a tree; a new one where there is none."""
    top = tree_of(text)
    if "load" in top.entries:
        return top
    return mapping({"firstpitch": scalar("1"), "load": mapping({"name": scalar(_NEW)}), "items": listing(())})


def things_of(top: MapNode) -> tuple[MapNode, ...]:
    """The things on a load list."""
    held = top.entries.get("items")
    if held is None or not isinstance(held.node, ListNode):
        return ()
    return tuple(item for item in held.node.items if isinstance(item, MapNode))


def text_at(node: MapNode, key: str) -> str:
    """A text under a key, or nothing."""
    entry = node.entries.get(key)
    return entry.node.text if entry and isinstance(entry.node, Scalar) else ""


def thing_values(item: MapNode) -> dict[str, str]:
    """What the form of a thing begins with: sizes in centimetres where they are written in metres."""
    names = ("id", "name", "mass", "number", "size_class", "reach", "upright", "needed", "fixed", "only_in", "never_in")
    found = {name: text_at(item, name) for name in names}
    found |= {"mass": found["mass"].removesuffix(" kg"), "kilos": "yes" if found["mass"].endswith(" kg") else ""}
    held = item.entries.get("size")
    if held and isinstance(held.node, ListNode):
        parts = [part.text for part in held.node.items if isinstance(part, Scalar)]
        found |= {f"size_{name}": _in_cm(text) for name, text in zip(SIZE, parts, strict=False)}
    return found


def _in_cm(text: str) -> str:
    metres = re.fullmatch(r"([0-9.]+) m", text)
    return f"{float(metres[1]) * _CM:g}" if metres else text.removesuffix(" cm")


def thing_typed(sent: Mapping[str, str], lists: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """What the form of a thing sent."""
    names = ("id", "name", "mass", "number", "size_class", "reach", "upright", "needed", "fixed")
    found = {name: sent.get(name, "").strip()[:_LONGEST] for name in (*names, *(f"size_{side}" for side in SIZE))}
    return found | {name: ", ".join(lists.get(name, ())) for name in ("only_in", "never_in")}


def thing_node(typed: Mapping[str, str], taken: Iterable[str]) -> MapNode:
    """The thing that was typed; a new one gets an id from its name. A measured size stands before a size class."""
    sides = [with_unit(typed[f"size_{side}"], "cm") for side in SIZE]
    found: dict[str, Node] = {
        "id": scalar(typed["id"] or _id_of(typed["name"], set(taken))),
        "name": scalar(typed["name"]),
        "mass": scalar(with_unit(typed["mass"], "kg")),
    }
    if typed["number"] not in ("", "1"):
        found["number"] = scalar(typed["number"])
    if any(sides):
        found["size"] = listing(scalar(side) for side in sides)
    elif typed["size_class"]:
        found["size_class"] = scalar(typed["size_class"])
    if typed["reach"] not in ("", "any"):
        found["reach"] = scalar(typed["reach"])
    found |= {name: scalar("yes") for name in ("upright", "needed") if typed[name]}
    found |= {name: scalar(typed[name]) for name in ("fixed", "only_in", "never_in") if typed[name]}
    return mapping({name: node for name, node in found.items() if not (isinstance(node, Scalar) and not node.text)})


def _id_of(name: str, taken: set[str]) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-") or "thing"
    stem = stem if stem[0].isalpha() else f"thing-{stem}"
    numbers = (f"{stem}-{n}" for n in range(2, len(taken) + 3))
    return stem if stem not in taken else next(one for one in numbers if one not in taken)


def with_thing(top: MapNode, node: MapNode) -> MapNode:
    """The list with a thing: in the place of the one with its id, else at the end."""
    key, items = text_at(node, "id"), list(things_of(top))
    at = next((i for i, item in enumerate(items) if text_at(item, "id") == key), len(items))
    return _put(top, items=listing([*items[:at], node, *items[at + 1 :]]))


def without_thing(top: MapNode, key: str) -> MapNode:
    """The list without a thing."""
    return _put(top, items=listing(item for item in things_of(top) if text_at(item, "id") != key))


def _put(top: MapNode, **parts: Node) -> MapNode:
    held = {key: entry.node for key, entry in top.entries.items()}
    return mapping({**held, **parts})


def water_fields(opened: OpenVan, top: MapNode, typed: Mapping[str, str] | None = None) -> tuple[WaterField, ...]:
    """A field for each tank of the van that may hold water on the road."""
    held = top.entries.get("water")
    rows = held.node.items if held and isinstance(held.node, ListNode) else ()
    kept = {text_at(row, "kit"): text_at(row, "volume").removesuffix(" l") for row in rows if isinstance(row, MapNode)}
    found = []
    for kit in opened.sheet.kit:
        kind = opened.catalogue.kinds.get(kit.kind)
        facts = [use.fact for use in kind.water if use.role == "holds"] if kind else []
        if facts:
            most = kit.facts.get(facts[0])
            value = typed.get(f"water-{kit.id}", "") if typed is not None else kept.get(kit.id, "")
            found.append(WaterField(kit.id, kit.name, str(getattr(most, "written", "") or "unknown"), value))
    return tuple(found)


def with_figures(top: MapNode, typed: Mapping[str, str], axles: int) -> MapNode:
    """The sheet with its name, water and readings as typed; an empty field is unknown."""
    water = {name.removeprefix("water-"): text for name, text in typed.items() if name.startswith("water-") and text}
    rows = [mapping({"kit": scalar(kit), "volume": scalar(with_unit(text, "l"))}) for kit, text in water.items()]
    units = {"mass": "kg", "noseweight": "kg", "brake_force": "N"}
    read: dict[str, Node] = {
        name: scalar(with_unit(typed[name], unit)) for name, unit in units.items() if typed.get(name)
    }
    each = [with_unit(typed.get(f"axle-{n}", ""), "kg") for n in range(1, axles + 1)]
    if any(each):
        read["axles"] = listing(scalar(text) for text in each if text)
    new = _put(top, load=mapping({"name": scalar(typed.get("name", "") or _NEW)}), water=listing(rows))
    kept = {key: entry.node for key, entry in new.entries.items() if key != "readings"}
    return mapping({**kept, "readings": mapping(read)}) if read else mapping(kept)


def reading_values(top: MapNode) -> dict[str, str]:
    """The name of the load and what was measured, as the form begins."""
    texts = flat(top)
    found = {name: texts.get(f"readings.{name}", "") for name in ("mass", "noseweight", "brake_force")}
    found = {name: text.removesuffix(" kg").removesuffix(" N") for name, text in found.items()}
    readings = top.entries.get("readings")
    held = readings.node.entries.get("axles") if readings and isinstance(readings.node, MapNode) else None
    axles = (
        [one.text for one in held.node.items if isinstance(one, Scalar)]
        if held and isinstance(held.node, ListNode)
        else []
    )
    more = {f"axle-{n}": text.removesuffix(" kg") for n, text in enumerate(axles, 1)}
    return {"name": texts.get("load.name", ""), **found, **more}
