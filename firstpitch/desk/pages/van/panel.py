"""What the panel beside the drawing says of one kit, or of the van when none is picked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstpitch.catalogue import fill
from firstpitch.catalogue.texts import fact_words
from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.pages.van.plan import VanDrawing
from firstpitch.papers.cautions import CautionLine, kit_cautions
from firstpitch.papers.numbering import NumberedKit
from firstpitch.sheet import Quantity, Unknown
from firstpitch.sheet.types import FactSpec, FactValue
from firstpitch.sheet.units import show, sort_of

_ROUND_TRIP = 4


@dataclass(frozen=True)
class Fact:
    """A known figure as it reads here: as written, and in the kind's own unit where that differs."""

    field: str
    what: str
    value: str
    other: str


@dataclass(frozen=True)
class Tie:
    """A link to other kit: its id, number and name; without an id nothing on the van fills it."""

    what: str
    kit: str = ""
    number: int = 0
    name: str = ""


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
    other = ""
    if isinstance(value, Quantity) and sort_of(spec.unit) == "pressure":
        unit = (
            "bar"
            if value.written.lower().endswith("psi")
            else "psi"
            if value.written.endswith("bar") and "mbar" not in value.written
            else ""
        )
        other = show(value.si, unit) if unit else ""
    elif isinstance(value, Quantity) and not value.written.endswith(spec.unit):
        other = show(value.si, spec.unit, _ROUND_TRIP)
    plain = other.replace(" ", "")
    words = fact_words(value)
    return Fact(f"kit.{kit}.facts.{spec.name}", spec.what, words, "" if plain == words.replace(" ", "") else other)


def _ties(opened: OpenVan, drawing: VanDrawing, one: NumberedKit) -> tuple[Tie, ...]:
    """Kit this one belongs with, kit that belongs with it, and what is missing."""
    by_id = {n.kit.id: n for n in drawing.numbered}
    found: list[Tie] = []
    for link in opened.links.filled.get(one.kit.id, {}).values():
        found += [Tie("belongs with", kit, by_id[kit].number, by_id[kit].kit.name) for kit in link]
    for owner, links in opened.links.filled.items():
        if any(one.kit.id in filled for filled in links.values()):
            found.append(Tie("serves", owner, by_id[owner].number, by_id[owner].kit.name))
    for gap in opened.links.gaps:
        if gap.kit == one.kit.id and gap.need == "must":
            names = " or ".join(
                opened.catalogue.kinds[kind].title for kind in gap.kinds if kind in opened.catalogue.kinds
            )
            found.append(Tie(f"needs a {names.lower()}, and the van has none"))
    return tuple({(tie.what, tie.kit): tie for tie in found}.values())


def van_unknown(drawing: VanDrawing) -> tuple[Unknown, ...]:
    """Figures of the van itself that nobody has yet."""
    return tuple(u for u in drawing.unknown if not u.kit)


def kit_waiting(drawing: VanDrawing) -> Sequence[tuple[int, str, str, int]]:
    """Number, id, name and count of the kit whose figures results wait for."""
    return [(kit.number, kit.id, kit.name, kit.lacks) for kit in drawing.listed if kit.lacks]
