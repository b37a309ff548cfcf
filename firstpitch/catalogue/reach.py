"""Proof that every step can happen, every kind taken together and ignoring that a condition can be unset again.

From a start state the values that some step or wait can bring about are gathered until no more come. A link stands for any of its
kinds; a supply is there when some source and every gate can be right; a step taken inside needs the supply
``inside``, a step of listed kit the supply ``round``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from firstpitch.catalogue import allowed
from firstpitch.catalogue.lines import Held, Kinds, asked_lines, asked_unsaid, held_by, set_lines
from firstpitch.catalogue.literals import write
from firstpitch.catalogue.types import Kind, Needed, Ref, StepSpec, SupplyRef, WaitSpec
from firstpitch.catalogue.wording import listed, said

_UNSAID = {
    "inside": "nobody can get inside before it",
    "round": "the round of the van can never be under way before it",
}


@dataclass(frozen=True)
class Unmet:
    """Why something can never happen: in words, and the line or the wait that is to blame."""

    words: str
    line: Needed | None = None
    wait: str = ""


class Reach:
    """What can come about from the start state ``start`` in a round of mode ``mode``: values of conditions, steps and waits."""

    def __init__(self, kinds: Kinds, start: str, mode: str) -> None:
        self._kinds, self.begun = kinds, f"from the start “{start}” in mode {mode}"
        self._steps = {key: [step for step in kind.steps if mode in step.modes] for key, kind in kinds.items()}
        self.values: dict[Held, set[str]] = {
            (key, name): {condition.start[start]}
            for key, kind in kinds.items()
            for name, condition in kind.conditions.items()
        }
        self._supplies = {name: _alternatives(kinds, name) for name in allowed.SUPPLIES}
        self.steps: set[tuple[str, str]] = set()
        self.waits: set[tuple[str, str]] = set()
        self._there: set[str] = set()
        while self._once():
            pass

    def _once(self) -> bool:
        found = False
        for key, kind in self._kinds.items():
            for step in self._steps[key]:
                if (key, step.id) not in self.steps and self.unmet(kind, step) is None:
                    self.steps.add((key, step.id))
                    found = True
                    self._bring(kind, step.sets)
            for name, wait in kind.waits.items():
                if (key, name) not in self.waits and self.unmet_wait(kind, wait) is None:
                    self.waits.add((key, name))
                    found = True
                    self._bring(kind, wait.sets)
        return found

    def _bring(self, kind: Kind, lines: Sequence[Ref]) -> None:
        for line in lines:
            for held in held_by(kind, line):
                self.values[held].update(line.values)

    def can(self, kind: Kind, line: Ref) -> bool:
        """Whether the line can come about."""
        return any(not self.values[held].isdisjoint(line.values) for held in held_by(kind, line))

    def _supplied(self, name: str) -> bool:
        if name not in self._there:
            sources, gates = self._supplies[name]
            sourced = name in allowed.WITHOUT_SOURCE or any(
                all(self.can(kind, line) for line in when) for kind, when in sources
            )
            if sourced and all(self.can(kind, line) for kind, when in gates for line in when):
                self._there.add(name)
        return name in self._there

    def _met(self, kind: Kind, line: Needed) -> bool:
        return self._supplied(line.supply) if isinstance(line, SupplyRef) else self.can(kind, line)

    def unmet(self, kind: Kind, step: StepSpec) -> Unmet | None:
        """What keeps the step from ever happening; None when nothing does."""
        for wait in step.awaits:
            if (kind.key, wait) not in self.waits:
                return Unmet(f"the wait “{wait}” can never be over before it", wait=wait)
        for line in step.requires:
            if not self._met(kind, line):
                return Unmet(f"“{write(line)}” can never come about before it", line)
        for supply in asked_unsaid(self._kinds, kind, step.at):
            if not self._supplied(supply):
                return Unmet(_UNSAID[supply], SupplyRef(supply))
        return None

    def unmet_wait(self, kind: Kind, wait: WaitSpec) -> Unmet | None:
        """What keeps the wait from ever being over; None when nothing does."""
        if not any(wait.id in step.starts and (kind.key, step.id) in self.steps for step in kind.steps):
            return Unmet("no step that starts it can ever happen", wait=wait.id)
        unmet = next((line for line in wait.sustains if not self._met(kind, line)), None)
        return None if unmet is None else Unmet(f"“{write(unmet)}” can never come about before it", unmet)

    def stuck(self) -> Iterator[tuple[Kind, str, Unmet, tuple[Ref, ...]]]:
        """Every step and wait that can never happen: its kind, its key, what keeps it, and what it would have set."""
        for key, kind in self._kinds.items():
            for step in self._steps[key]:
                unmet = None if (key, step.id) in self.steps else self.unmet(kind, step)
                if unmet is not None:
                    yield kind, f"steps.{step.id}", unmet, step.sets
            for name, wait in kind.waits.items():
                needed = any(name in (*step.starts, *step.awaits) for step in self._steps[key])
                unmet = self.unmet_wait(kind, wait) if needed and (key, name) not in self.waits else None
                if unmet is not None:
                    yield kind, f"waits.{name}", unmet, wait.sets


Whens = list[tuple[Kind, tuple[Ref, ...]]]


def _alternatives(kinds: Kinds, name: str) -> tuple[Whens, Whens]:
    found: dict[str, Whens] = {"source": [], "gate": []}
    for kind in kinds.values():
        for supply in kind.supplies:
            if supply.name == name:
                found[supply.role].append((kind, supply.when))
    return found["source"], found["gate"]


def reach_faults(kinds: Kinds) -> Iterator[str]:
    """One sentence for each line that nothing brings about and each step or wait that can never happen."""
    yield from _never_brought(kinds)
    told: set[tuple[str, str]] = set()
    for start, mode in product(allowed.STARTS, allowed.MODES):
        reach = Reach(kinds, start, mode)
        for file, key, sentence in (*_stuck(reach), *_unfinished(kinds, reach)):
            if (file, key) not in told:
                told.add((file, key))
                yield said(file, key, sentence)


def _never_brought(kinds: Kinds) -> Iterator[str]:
    brought: dict[Held, set[str]] = {}
    for key, kind in kinds.items():
        for name, condition in kind.conditions.items():
            brought.setdefault((key, name), set()).update(condition.start.values())
        for _, line in set_lines(kind):
            for held in held_by(kind, line):
                brought.setdefault(held, set()).update(line.values)
    for kind in kinds.values():
        for key, asked in asked_lines(kind):
            if isinstance(asked, Ref) and all(brought[h].isdisjoint(asked.values) for h in held_by(kind, asked)):
                wrong = f"nothing brings about “{write(asked)}”: no step or wait sets it and no start has it"
                yield said(kind.file, key, wrong)


def _stuck(reach: Reach) -> Iterator[tuple[str, str, str]]:
    """What can never happen, without what merely hangs on it; all of it where each hangs on another."""
    stuck = list(reach.stuck())
    missed = {
        (held, value) for kind, *_, sets in stuck for ref in sets for held in held_by(kind, ref) for value in ref.values
    }
    roots = [found for found in stuck if not _hangs(found[0], found[2], missed)]
    for kind, key, unmet, _ in roots or stuck:
        what = "this step can never happen" if key.startswith("steps") else "this wait can never be over"
        yield kind.file, key, f"{what} {reach.begun}, because {unmet.words}"


def _hangs(kind: Kind, unmet: Unmet, missed: set[tuple[Held, str]]) -> bool:
    if not isinstance(unmet.line, Ref):
        return bool(missed)
    return any((held, value) in missed for held in held_by(kind, unmet.line) for value in unmet.line.values)


def _unfinished(kinds: Kinds, reach: Reach) -> Iterator[tuple[str, str, str]]:
    for kind in kinds.values():
        for when, lines in kind.finish.items():
            for line in lines:
                if not reach.can(kind, line):
                    values = f"values that can are {_values(reach, kind, line)}"
                    yield kind.file, f"finish.{when}", f"“{write(line)}” can never come about {reach.begun}; {values}"


def _values(reach: Reach, kind: Kind, line: Ref) -> str:
    return listed(sorted({value for held in held_by(kind, line) for value in reach.values[held]}))
