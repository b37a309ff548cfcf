"""Proof that guards leave both starts alone, and that no step asks for what cannot be or must not be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from firstpitch.catalogue import allowed
from firstpitch.catalogue.lines import Kinds, held_by, one_owner
from firstpitch.catalogue.literals import write
from firstpitch.catalogue.types import GuardSpec, Kind, Needed, Ref, SupplyRef
from firstpitch.catalogue.wording import said

Known = dict[tuple[str, str], set[str]]
"""What a step or wait is sure of: owner and condition, and the values it may have then."""


def sense_faults(kinds: Kinds, kind: Kind) -> Iterator[str]:
    """One sentence for each guard of ``kind`` that a start breaks, and each step or wait that contradicts itself or a guard."""
    for guard in kind.guards:
        for start in allowed.STARTS:
            if _holds_at_start(kinds, kind, guard, start):
                wrong = f"this already holds at the start “{start}”, so no round could begin"
                yield said(kind.file, f"guards.{guard.id}.never", wrong)
    for step in kind.steps:
        yield from _clashes(kinds, kind, f"steps.{step.id}", step.requires, step.sets)
    for name, wait in kind.waits.items():
        yield from _clashes(kinds, kind, f"waits.{name}", wait.sustains, wait.sets)
    for when in ("drained", "kept"):
        yield from _finish(kinds, kind, when)


def _holds_at_start(kinds: Kinds, kind: Kind, guard: GuardSpec, start: str) -> bool:
    return all(
        line.optional
        or any(kinds[key].conditions[name].start[start] in line.values for key, name in held_by(kind, line))
        for line in guard.never
    )


def _meet(kinds: Kinds, kind: Kind, lines: Iterable[Needed]) -> tuple[Known, Needed | None]:
    """What holds when all the lines hold, and the first line that cannot hold with those before it."""
    known: Known = {}
    for line in lines:
        for ref in _own_part(kinds, kind, line) if isinstance(line, SupplyRef) else [line]:
            if one_owner(kind, ref.owner):
                values = known.setdefault((ref.owner, ref.name), set(ref.values))
                values &= set(ref.values)
                if not values:
                    return known, line
    return known, None


def _own_part(kinds: Kinds, kind: Kind, line: SupplyRef) -> list[Ref]:
    """What the supply asks of the kit itself: its gates, and its source where there is no other."""
    sources = sum(s.name == line.supply and s.role == "source" for other in kinds.values() for s in other.supplies)
    own = [s for s in kind.supplies if s.name == line.supply and (s.role == "gate" or sources == 1)]
    return [ref for supply in own for ref in supply.when]


def _clashes(kinds: Kinds, kind: Kind, key: str, needs: tuple[Needed, ...], sets: tuple[Ref, ...]) -> Iterator[str]:
    known, clash = _meet(kinds, kind, needs)
    if clash is not None:
        part = "requires" if key.startswith("steps") else "sustains"
        yield said(kind.file, f"{key}.{part}", f"“{write(clash)}” cannot hold together with the lines before it")
        return
    for when, verb in (("while it goes on", "asks for"), ("at its end", "leaves")):
        for guard in kind.guards:
            if all(line.optional or _sure(known, line) for line in guard.never):
                yield said(kind.file, key, f"{when} it {verb} just what the guard “{guard.id}” forbids")
                return
        known |= {(ref.owner, ref.name): set(ref.values) for ref in sets if one_owner(kind, ref.owner)}


def _sure(known: Known, line: Ref) -> bool:
    values = known.get((line.owner, line.name))
    return values is not None and values <= set(line.values)


def _finish(kinds: Kinds, kind: Kind, when: str) -> Iterator[str]:
    _, clash = _meet(kinds, kind, (*kind.finish["always"], *kind.finish[when]))
    if clash is not None:
        wrong = f"“{write(clash)}” cannot hold together with the other lines of the finish"
        yield said(kind.file, f"finish.{when}", wrong)
