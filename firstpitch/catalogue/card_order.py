"""Proof that the arriving, leaving, towing and winter cards can be followed from top to bottom.

A card is read in the order of its lines, all kinds together. A line that names a step does what the step and its waits do. Nothing
is supposed about the state the van is found in, so a line is wrong only where the card itself shows it: a line above has undone
what it needs, a line below brings about what it needs, or the lines above have brought about what a guard forbids.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from firstpitch.catalogue import allowed
from firstpitch.catalogue.lines import Held, Kinds, held_by
from firstpitch.catalogue.literals import write
from firstpitch.catalogue.types import CardLine, Kind, Needed, Ref, StepSpec, SupplyRef
from firstpitch.catalogue.wording import said


@dataclass(frozen=True, eq=False)
class _Line:
    kind: Kind
    key: str
    order: int
    step: StepSpec
    brings: dict[Held, str]


def card_faults(kinds: Kinds) -> Iterator[str]:
    """One sentence for each card line whose step comes too early or too late on its card.

    Lines of one order number may come to stand either way round, so none of them may need another.
    """
    for card in allowed.CARDS:
        lines = sorted(_lines(kinds, card), key=lambda line: line.order)
        above: dict[Held, str] = {}
        for order, group in groupby(lines, key=lambda line: line.order):
            level = list(group)
            below = [line for line in lines if line.order > order]
            for line in level:
                later = [other for other in level if other is not line]
                yield from _too_soon(kinds, line, above, _later([*later, *below]))
                yield from _guarded(kinds, line, _brought_by(above, [line]))
            above = _brought_by(above, level)


def _brought_by(state: dict[Held, str], lines: list[_Line]) -> dict[Held, str]:
    for line in lines:
        state = state | line.brings
    return state


def _later(lines: list[_Line]) -> dict[Held, set[str]]:
    found: dict[Held, set[str]] = {}
    for line in lines:
        for held, value in line.brings.items():
            found.setdefault(held, set()).add(value)
    return found


def _lines(kinds: Kinds, card: str) -> Iterator[_Line]:
    for kind in kinds.values():
        steps = {step.id: step for step in kind.steps}
        written: tuple[CardLine, ...] = getattr(kind.card, card)
        for place, line in enumerate(written, 1):
            if line.step:
                step = steps[line.step]
                yield _Line(kind, f"card.{card}.{place}", line.order, step, dict(_brought(kind, step)))


def _brought(kind: Kind, step: StepSpec) -> Iterator[tuple[Held, str]]:
    for ref in (*step.sets, *(ref for name in step.starts for ref in kind.waits[name].sets)):
        yield from ((held, ref.values[0]) for held in held_by(kind, ref))


def _needs(kinds: Kinds, kind: Kind, needs: tuple[Needed, ...]) -> Iterator[tuple[Kind, Ref, Needed]]:
    for need in needs:
        if isinstance(need, Ref):
            yield kind, need, need
        else:
            yield from ((other, ref, need) for other, ref in _gates(kinds, need))


def _gates(kinds: Kinds, need: SupplyRef) -> Iterator[tuple[Kind, Ref]]:
    supplies = [(other, s) for other in kinds.values() for s in other.supplies if s.name == need.supply]
    sources = [pair for pair in supplies if pair[1].role == "source"]
    for other, supply in supplies:
        if supply.role == "gate" or len(sources) == 1:
            yield from ((other, ref) for ref in supply.when)


def _too_soon(kinds: Kinds, line: _Line, state: dict[Held, str], later: dict[Held, set[str]]) -> Iterator[str]:
    for owner, ref, need in _needs(kinds, line.kind, line.step.requires):
        held = held_by(owner, ref)
        undone = [h for h in held if h in state and state[h] not in ref.values]
        early = [h for h in held if h not in state and later.get(h, set()) & set(ref.values)]
        if len(undone) + len(early) == len(held):
            why = "further up the card has undone" if undone else "that does not stand above it brings about"
            wrong = f"step “{line.step.id}” needs “{write(need)}”, which a line {why}; change the order"
            yield said(line.kind.file, line.key, wrong)
            return


def _guarded(kinds: Kinds, line: _Line, state: dict[Held, str]) -> Iterator[str]:
    for kind in kinds.values():
        for guard in kind.guards:
            touched = any(held in line.brings for ref in guard.never for held in held_by(kind, ref))
            if touched and all(ref.optional or _holds(kind, ref, state) for ref in guard.never):
                wrong = f"after step “{line.step.id}” the guard “{guard.id}” of {kind.file} holds: {guard.harm}"
                yield said(line.kind.file, line.key, wrong.rstrip("."))
                return


def _holds(kind: Kind, ref: Ref, state: dict[Held, str]) -> bool:
    return any(state.get(held) in ref.values for held in held_by(kind, ref))
