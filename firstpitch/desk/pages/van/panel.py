"""What the panel beside the drawing says of one kit, or of the van when none is picked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from firstpitch.catalogue import fill
from firstpitch.catalogue.texts import fact_words
from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.pages.van.plan import VanDrawing
from firstpitch.papers.cautions import CautionLine, kit_cautions
from firstpitch.papers.numbering import NumberedKit
from firstpitch.sheet import Quantity, Unknown
from firstpitch.sheet.types import FactSpec, FactValue
from firstpitch.sheet.units import show, sort_of

_DIGITS = 4


@dataclass(frozen=True)
class Fact:
    """A known figure as it reads here: as written, and in the kind's own unit where that differs."""

    field: str
    what: str
    value: str
    other: str
    written: str


@dataclass(frozen=True)
class Tie:
    """What this kit has to do with others (id, number, name); with none it says what the van lacks."""

    what: str
    kits: tuple[tuple[str, int, str], ...] = ()


@dataclass(frozen=True)
class KitPanel:
    """One kit."""

    id: str
    number: int
    name: str
    kind: str
    kind_title: str
    about: str
    where: str
    note: str
    facts: tuple[Fact, ...]
    unknown: tuple[Unknown, ...]
    cautions: tuple[CautionLine, ...]
    ties: tuple[Tie, ...]
    start_up: tuple[str, ...]
    steps: tuple[str, ...]


def kit_panel(opened: OpenVan, drawing: VanDrawing, kit: str) -> KitPanel | None:
    """The panel of a kit, None when the van has no such kit."""
    one = next((n for n in drawing.numbered if n.kit.id == kit), None)
    if one is None:
        return None
    kind, facts = one.kind, one.kit.facts
    return KitPanel(
        id=kit,
        number=one.number,
        name=one.kit.name,
        kind=kind.key,
        kind_title=kind.title,
        about=fill(kind.about, facts, kind.facts),
        where=one.where,
        note=one.kit.note,
        facts=tuple(_fact(kit, spec, facts[name]) for name, spec in kind.facts.items() if name in facts),
        unknown=tuple(u for u in drawing.unknown if u.kit == kit),
        cautions=kit_cautions(kind, facts),
        ties=_ties(opened, drawing, one),
        start_up=tuple(_wanted(item.number, item.item, item.why) for item in kind.start_up),
        steps=tuple(step.title for step in kind.steps),
    )


def _wanted(number: int, item: str, why: str) -> str:
    return f"{f'{number} × ' if number > 1 else ''}{item}: {why}"


def _fact(kit: str, spec: FactSpec, value: FactValue) -> Fact:
    words = fact_words(value)
    other = _other(spec, value) if isinstance(value, Quantity) else ""
    written = value.isoformat() if isinstance(value, date) else words
    same = other.replace(" ", "") == words.replace(" ", "")
    return Fact(f"kit.{kit}.facts.{spec.name}", spec.what, words, "" if same else other, written)


def _other(spec: FactSpec, value: Quantity) -> str:
    """The figure in another unit that people use for it: tyre and water pressure in both, all else in the kind's own unit."""
    written = value.written.lower()
    if sort_of(spec.unit) == "pressure" and spec.unit in ("bar", "psi"):
        return show(value.si, "bar" if written.endswith("psi") else "psi")
    return "" if value.written.endswith(spec.unit) else show(value.si, spec.unit, _DIGITS)


def _ties(opened: OpenVan, drawing: VanDrawing, one: NumberedKit) -> tuple[Tie, ...]:
    """Kit this one belongs with, kit that needs it, and what is missing."""
    own = opened.links.filled.get(one.kit.id, {})
    with_it = {kit for filled in own.values() for kit in filled}
    served = {
        owner for owner, links in opened.links.filled.items() if any(one.kit.id in filled for filled in links.values())
    }
    found = [
        Tie(what, tuple((n.kit.id, n.number, n.kit.name) for n in drawing.numbered if n.kit.id in kits))
        for what, kits in (("goes with", with_it), ("is needed by", served - with_it))
        if kits
    ]
    kinds = opened.catalogue.kinds
    for gap in opened.links.must_gaps:
        if gap.kit == one.kit.id:
            names = " or ".join(kinds[kind].title for kind in gap.kinds if kind in kinds)
            found.append(Tie(f"needs “{names}”, and the van has none"))
    return tuple(found)


def van_unknown(drawing: VanDrawing) -> tuple[Unknown, ...]:
    """Figures of the van itself that nobody has yet."""
    return tuple(u for u in drawing.unknown if not u.kit)


def kit_waiting(drawing: VanDrawing) -> Sequence[tuple[int, str, str, int]]:
    """Number, id, name and count of the kit whose figures results wait for."""
    return [(kit.number, kit.id, kit.name, kit.lacks) for kit in drawing.listed if kit.lacks]
