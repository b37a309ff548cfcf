"""From the tables of one kind file to a ``Kind``. Whether its parts fit together is for the proofs."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from firstpitch.catalogue import allowed
from firstpitch.catalogue.literals import VALUE
from firstpitch.catalogue.owner_parts import (
    parse_card,
    parse_cautions,
    parse_energy,
    parse_film,
    parse_inspection,
    parse_start_up,
    parse_water,
)
from firstpitch.catalogue.round_parts import parse_finish, parse_guards, parse_steps, parse_supplies, parse_waits
from firstpitch.catalogue.table import Table
from firstpitch.catalogue.types import Condition, Kind
from firstpitch.catalogue.wording import listed, shown
from firstpitch.sheet.faults import nearest
from firstpitch.sheet.types import FactSpec, LinkSpec

_KEYS = (
    *("kind", "title", "about", "group", "stands", "topic", "max", "facts", "links", "conditions", "supplies"),
    *("steps", "waits", "guards", "finish", "cautions", "inspection", "energy", "water", "start_up", "card", "film"),
)


def parse_kind(raw: Mapping[str, object], file: str, key: str) -> Kind:
    """Read the tables of the kind file ``file`` whose name is ``key``; raises CatalogueError at the first fault."""
    top = Table(dict(raw), file, "", _KEYS)
    if top.name("kind") != key:
        raise top.fault("kind", f"found “{top.text('kind')}”, but the file is called “{key}.toml”; give both one name")
    return Kind(
        key=key,
        title=top.text("title"),
        about=top.text("about"),
        group=top.choice("group", allowed.GROUPS),
        stands=top.choice("stands", allowed.STANDS),
        topic=top.choice("topic", allowed.TOPICS),
        max=top.whole("max", 1, allowed.MOST) if top.has("max") else None,
        facts=_facts(top),
        links=_links(top),
        conditions=_conditions(top),
        supplies=parse_supplies(top),
        steps=parse_steps(top),
        waits=parse_waits(top),
        guards=parse_guards(top),
        finish=parse_finish(top),
        cautions=parse_cautions(top),
        inspection=parse_inspection(top),
        energy=parse_energy(top),
        water=parse_water(top),
        start_up=parse_start_up(top),
        card=parse_card(top),
        film=parse_film(top),
        file=file,
    )


def _facts(top: Table) -> Mapping[str, FactSpec]:
    facts = top.table("facts", None)
    keys = ("what", "type", "unit", "need", "least", "most", "choices")
    return MappingProxyType({name: _fact(name, facts.needed_table(name, keys)) for name in facts.names()})


def _fact(name: str, table: Table) -> FactSpec:
    kind = table.choice("type", allowed.FACT_TYPES)
    bounded = ("quantity", "count", "date")
    _only_for(table, kind, {"unit": ("quantity",), "choices": ("choice",), "least": bounded, "most": bounded})
    far = allowed.FURTHEST
    least = table.number("least", -far, far) if table.has("least") else None
    most = table.number("most", -far, far) if table.has("most") else None
    if least is not None and most is not None and least >= most:
        raise table.fault("most", f"found {most:g}; allowed is a number above least, which is {least:g}")
    return FactSpec(
        name=name,
        what=table.text("what"),
        type=kind,
        unit=table.text("unit") if kind == "quantity" else "",
        need=table.choice("need", allowed.NEEDS, default="must"),
        choices=table.texts("choices", least=2) if kind == "choice" else (),
        least=least,
        most=most,
    )


def _only_for(table: Table, kind: str, keys: Mapping[str, tuple[str, ...]]) -> None:
    for key, kinds in keys.items():
        if table.has(key) and kind not in kinds:
            raise table.fault(key, f"this is only for facts of type {listed(kinds)}, and this one is a {kind}")


def _links(top: Table) -> Mapping[str, LinkSpec]:
    links = top.table("links", None)
    for name in links.names():
        if name in allowed.RESERVED:
            raise links.fault(
                name, f"“{name}” has a meaning of its own in the lines of a kind; call the link otherwise"
            )
    found = {}
    for name in links.names():
        table = links.needed_table(name, ("kinds", "need", "every"))
        need = table.choice("need", allowed.NEEDS, default="must")
        found[name] = LinkSpec(name, table.texts("kinds", least=1), need, table.yes("every"))
    return MappingProxyType(found)


def _conditions(top: Table) -> Mapping[str, Condition]:
    conditions = top.table("conditions", None)
    keys = ("what", "values", "start")
    return MappingProxyType(
        {name: _condition(name, conditions.needed_table(name, keys)) for name in conditions.names()}
    )


def _condition(name: str, table: Table) -> Condition:
    values = table.texts("values", least=2)
    for value in values:
        if not VALUE.fullmatch(value):
            raise table.fault("values", f"{shown(value)} is not a value; {allowed.VALUES}")
    start = table.needed_table("start", allowed.STARTS)
    found: dict[str, str] = {state: start.text(state) for state in allowed.STARTS}
    for state, value in found.items():
        if value not in values:
            known = f"{listed(values)}{nearest(value, values)}"
            raise start.fault(state, f"found {shown(value)}; the values of this condition are {known}")
    return Condition(name, table.text("what"), values, MappingProxyType(found))
