"""The parts of a kind file that the round is made of: steps, waits, guards, supplies, what must hold at the end."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TypeVar

from firstpitch.catalogue import allowed
from firstpitch.catalogue.literals import LiteralFault, parse_needed, parse_ref
from firstpitch.catalogue.table import Table
from firstpitch.catalogue.types import Duration, GuardSpec, Needed, Ref, StepSpec, SupplyRef, SupplySpec, WaitSpec
from firstpitch.catalogue.wording import listed
from firstpitch.sheet.faults import nearest

Line = TypeVar("Line", Ref, Needed)

_STEP_KEYS = (
    *("id", "title", "at", "level", "worth", "say", "points", "hands", "try", "modes", "per"),
    *("requires", "sets", "starts", "awaits"),
)


def _lines(table: Table, key: str, parse: Callable[[str], Line], may_drop: bool = False) -> tuple[Line, ...]:
    found: list[Line] = []
    for text in table.texts(key):
        try:
            line = parse(text)
        except LiteralFault as wrong:
            raise table.fault(key, str(wrong)) from None
        if not may_drop and isinstance(line, Ref) and line.optional:
            raise table.fault(key, f"“{text}” is marked with “?”, which only a line of a guard can be")
        if isinstance(line, SupplyRef) and line.supply not in allowed.SUPPLIES:
            known = f"the supplies are {listed(allowed.SUPPLIES)}{nearest(line.supply, allowed.SUPPLIES)}"
            raise table.fault(key, f"“{line.supply}” is not a supply; {known}")
        if line in found:
            raise table.fault(key, f"“{text}” stands twice; write it once")
        found.append(line)
    return tuple(found)


def _sets(table: Table) -> tuple[Ref, ...]:
    found = _lines(table, "sets", parse_ref)
    for line in found:
        if len(line.values) > 1:
            raise table.fault("sets", f"“{'|'.join(line.values)}” is more than one value; a step or wait sets just one")
    owners = [(line.owner, line.name) for line in found]
    for owner, name in owners:
        if owners.count((owner, name)) > 1:
            raise table.fault("sets", f"“{owner}.{name}” is set twice at one instant; set it once")
    return found


def parse_steps(top: Table) -> tuple[StepSpec, ...]:
    """The steps, in file order; at least one must stand there."""
    found = tuple(_step(table) for table in top.tables("steps", _STEP_KEYS))
    if not found:
        raise top.fault("steps", "there is none, but a kind has at least one step that shows it")
    _all_different(top, "steps", [step.id for step in found])
    return found


def _step(table: Table) -> StepSpec:
    level = table.choice("level", allowed.LEVELS)
    worth = table.whole("worth", 0, allowed.MOST_WORTH, default=0)
    if (level == "must") != (worth == 0):
        wanted = "0 or left out for a must" if level == "must" else f"1 to {allowed.MOST_WORTH} for a {level}"
        raise table.fault("worth", f"found {worth}; allowed is {wanted}")
    modes = table.texts("modes") or allowed.MODES
    for mode in modes:
        if mode not in allowed.MODES:
            known = f"{listed(allowed.MODES)}{nearest(mode, allowed.MODES)}"
            raise table.fault("modes", f"found “{mode}”; allowed are {known}")
    return StepSpec(
        id=table.name("id"),
        title=table.text("title"),
        at=table.text("at", default="self"),
        level=level,
        worth=worth,
        say=table.text("say"),
        points=table.texts("points"),
        hands=table.number("hands", 0, allowed.LONGEST_HANDS, default=0),
        owner_try=table.number("try", 0, allowed.LONGEST_HANDS, default=0),
        modes=modes,
        per=table.choice("per", allowed.PERS, default="kit"),
        requires=_lines(table, "requires", parse_needed),
        sets=_sets(table),
        starts=table.texts("starts"),
        awaits=table.texts("awaits"),
    )


def parse_waits(top: Table) -> Mapping[str, WaitSpec]:
    """The waits by name."""
    waits = top.table("waits", None)
    keys = ("title", "duration", "sustains", "sets")
    return MappingProxyType({name: _wait(name, waits.needed_table(name, keys)) for name in waits.names()})


def _wait(name: str, table: Table) -> WaitSpec:
    return WaitSpec(
        id=name,
        title=table.text("title"),
        duration=_duration(table),
        sustains=_lines(table, "sustains", parse_needed),
        sets=_sets(table),
    )


def _duration(wait: Table) -> Duration:
    loose = wait.needed_table("duration", None)
    by = loose.choice("by", tuple(allowed.TERMS))
    needed, optional = allowed.TERMS[by]
    table = wait.needed_table("duration", ("by", *needed, *optional))
    terms: dict[str, str | float] = {}
    for term in (*needed, *optional):
        if term == "note" or (term in optional and not table.has(term)):
            continue
        if term == "seconds":
            terms[term] = table.number(term, 1, allowed.LONGEST_WAIT)
        elif term == "efficiency" and not isinstance(table.raw(term), str):
            terms[term] = table.number(term, 0.01, 1)
        else:
            terms[term] = table.text(term)
    return Duration(by, MappingProxyType(terms), table.text("note", default=None if "note" in needed else ""))


def parse_guards(top: Table) -> tuple[GuardSpec, ...]:
    """The guards, each with its harm and its source."""
    found = tuple(_guard(table) for table in top.tables("guards", ("id", "never", "harm", "source")))
    _all_different(top, "guards", [guard.id for guard in found])
    return found


def _guard(table: Table) -> GuardSpec:
    never = _lines(table, "never", parse_ref, may_drop=True)
    if not never:
        raise table.fault("never", "it is empty, but a guard names at least one condition that must not hold")
    return GuardSpec(table.name("id"), never, table.text("harm"), table.text("source"))


def parse_supplies(top: Table) -> tuple[SupplySpec, ...]:
    """The supplies this kind is a source of or a gate on."""
    return tuple(_supply(table) for table in top.tables("supplies", ("name", "role", "rank", "when")))


def _supply(table: Table) -> SupplySpec:
    name = table.choice("name", allowed.SUPPLIES)
    role = table.choice("role", allowed.ROLES)
    if name in allowed.WITHOUT_SOURCE and role == "source":
        raise table.fault("role", f"found “source”, but the supply “{name}” has gates only")
    rank = table.whole("rank", 1, allowed.MOST, default=1)
    when = _lines(table, "when", parse_ref)
    if not when:
        raise table.fault("when", "it is empty; name what must hold for this supply")
    return SupplySpec(name, role, rank, when)


def parse_finish(top: Table) -> Mapping[str, tuple[Ref, ...]]:
    """What must hold when the round ends; every one of ``always``, ``drained`` and ``kept`` is there, perhaps empty."""
    table = top.table("finish", allowed.FINISHES)
    return MappingProxyType({when: _lines(table, when, parse_ref) for when in allowed.FINISHES})


def _all_different(top: Table, key: str, ids: list[str]) -> None:
    for one in ids:
        if ids.count(one) > 1:
            raise top.fault(f"{key}.{one}.id", "this id stands twice; give each its own")
