"""The least set of facts that cannot all be true: musts, finish conditions and guards, each counted or not.

A question is answered by what is known from earlier ones, by forced orders (they clash), by a first round found quickly (they do not)
and only then by the exact solver.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any

from firstpitch.rounds import exact
from firstpitch.rounds.arrange import first_round
from firstpitch.rounds.choose import choose
from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Contradiction, infer

Fact = tuple[str, int]
"""``must`` and a step, ``finish`` or ``guard`` and its number in the model."""

SMALLEST_TRIES = 60
WORK = 10.0  # deterministic time for one question
LARGE = 40  # steps; above this the walk is left out of the exact solver's questions


class Asker:
    """Answers whether facts of a problem can be true together, whatever other steps of ``able`` are taken."""

    def __init__(self, model: Model, able: frozenset[int], *, walking: bool) -> None:
        self.model, self.able, self.walking = model, able, walking and len(able) <= LARGE
        self.facts: tuple[Fact, ...] = (
            *(("must", i) for i in sorted(model.musts)),
            *(("finish", n) for n in range(len(model.finish))),
            *(("guard", n) for n in range(len(model.guards))),
        )
        self.unsure = False
        self._true: list[frozenset[Fact]] = []
        self._clashes: list[frozenset[Fact]] = []

    def clash(self, chosen: Iterable[Fact]) -> bool:
        """Whether these cannot all be true. Not when the solver runs out of work: then ``unsure`` is set."""
        facts = frozenset(chosen)
        if any(facts <= known for known in self._true):
            return False
        if any(known <= facts for known in self._clashes):
            return True
        found = self._find(facts)
        (self._clashes if found else self._true).append(facts)
        return found

    def _find(self, facts: frozenset[Fact]) -> bool:
        part = self._part(facts)
        try:
            infer(part, part.musts, self.able - part.musts)
        except Contradiction:
            return True
        choice = choose(part, self.able, sum(part.seconds), 0)
        if choice is not None and first_round(part, choice.steps) is not None:
            return False
        program, literals = self._switched
        answer = exact.possible(program, [literals[f] for f in sorted(facts)], exact.Budget(work=WORK))
        self.unsure = self.unsure or answer is None
        return answer is False

    def _part(self, facts: frozenset[Fact]) -> Model:
        """The problem in which only these facts count."""
        model = self.model
        steps = tuple(
            replace(s, level="must" if ("must", i) in facts else "may", worth=0) for i, s in enumerate(model.steps)
        )
        return replace(
            model,
            problem=replace(model.problem, steps=steps),
            finish=tuple(w for n, w in enumerate(model.finish) if ("finish", n) in facts),
            guards=tuple(g for n, g in enumerate(model.guards) if ("guard", n) in facts),
        )

    @cached_property
    def _switched(self) -> tuple[exact.Program, dict[Fact, Any]]:
        """The program with a literal for each fact."""
        facts = exact.Facts(frozenset(), self.able, self.model.finish, self.model.guards)
        program = exact.build(self.model, facts, walking=self.walking, switched=True)
        literals: dict[Fact, Any] = {("must", i): program.present[i] for i in sorted(self.model.musts)}
        return program, {**literals, **program.switches}


def least_clash(asker: Asker) -> tuple[list[Fact], bool] | None:
    """Facts that clash, none of which can be dropped, and whether it is sure that no smaller set does; None when all can be true."""
    if not asker.clash(asker.facts):
        return None
    core = _shrink(asker)
    smallest = _smallest(asker, core)
    return (core, False) if smallest is None else (smallest, not asker.unsure)


def _shrink(asker: Asker) -> list[Fact]:
    """Facts that clash, none of which can be dropped: whole blocks are dropped first, then halves of those that cannot."""
    kept, blocks = list(asker.facts), [list(asker.facts)]
    while blocks:
        block = blocks.pop()
        rest = [f for f in kept if f not in block]
        if asker.clash(rest):
            kept = rest
        elif len(block) > 1:
            half = len(block) // 2
            blocks += [block[half:], block[:half]]
    return kept


def _smallest(asker: Asker, core: list[Fact]) -> list[Fact] | None:
    """The smallest clash by growing hitting sets; None when it takes too many questions."""
    outside: list[frozenset[Fact]] = []
    for _ in range(SMALLEST_TRIES):
        guess = _least_hitting(outside)
        if len(guess) >= len(core):
            return core
        if asker.clash(guess):
            return guess
        grown = _grow(asker, guess, core)
        if len(grown) == len(asker.facts):
            return None
        outside.append(frozenset(asker.facts) - grown)
    return None


def _grow(asker: Asker, guess: Sequence[Fact], core: Sequence[Fact]) -> frozenset[Fact]:
    """All the facts that can be added to ``guess`` with no clash: whole blocks first, those of ``core`` last."""
    grown = set(guess)
    rest = [f for f in asker.facts if f not in grown]
    blocks = [*([f] for f in rest if f in core), [f for f in rest if f not in core]]
    while blocks:
        block = blocks.pop()
        if not asker.clash(grown.union(block)):
            grown.update(block)
        elif len(block) > 1:
            half = len(block) // 2
            blocks += [block[half:], block[:half]]
    return frozenset(grown)


def _least_hitting(sets: Sequence[frozenset[Fact]]) -> list[Fact]:
    """A smallest set of facts that meets every one of ``sets``."""
    from ortools.sat.python import cp_model

    if not sets:
        return []
    cp = cp_model.CpModel()
    facts = sorted(frozenset().union(*sets))
    taken = {f: cp.new_bool_var("") for f in facts}
    for group in sets:
        cp.add_bool_or([taken[f] for f in sorted(group)])
    cp.minimize(sum(taken.values()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.solve(cp)
    return [f for f in facts if solver.value(taken[f])]
