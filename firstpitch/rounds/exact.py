"""The round as a constraint program (OR-Tools CP-SAT): exact, for proofs, bounds, choices of steps and clashes.

OR-Tools is imported only when a program is built: it takes more than a second.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from firstpitch.rounds.model import FINISH, IndexedGuard, Model, Setter, Window
from firstpitch.rounds.orders import Orders


@dataclass
class Program:
    """A program under construction. ``present`` and ``end`` by step; ``total`` the end of the round; ``arcs`` who follows whom."""

    model: Model
    cp: Any
    present: dict[int, Any]
    end: dict[int, Any]
    total: Any
    horizon: int
    arcs: dict[tuple[int, int], Any] = field(default_factory=dict)
    earlier: dict[tuple[Setter, Setter], Any] = field(default_factory=dict)
    switches: dict[tuple[str, int], Any] = field(default_factory=dict)

    def time(self, setter: Setter) -> Any:
        """When a setter acts."""
        return self.end[setter.step] + setter.lag


@dataclass(frozen=True)
class Facts:
    """What a program must obey: steps that have to be in, steps that may be, and which finish conditions and guards count."""

    required: frozenset[int]
    optional: frozenset[int] = frozenset()
    finish: tuple[Window, ...] = ()
    guards: tuple[IndexedGuard, ...] = ()


def whole(model: Model, required: Iterable[int], optional: Iterable[int] = ()) -> Facts:
    """All finish conditions and guards of the model."""
    return Facts(frozenset(required), frozenset(optional) - frozenset(required), model.finish, model.guards)


def build(
    model: Model, facts: Facts, *, walking: bool, orders: Orders | None = None, switched: bool = False
) -> Program:
    """The program for these facts; without ``walking`` the walk is left out (quicker, enough to tell what is possible).

    ``switched``: each finish condition and guard counts only while its literal in ``switches`` is true.
    """
    from ortools.sat.python import cp_model

    steps = sorted(facts.required | facts.optional)
    horizon = sum(model.seconds[i] for i in steps) + sum(s for _, s in model.wait_ends) + 1
    horizon += (len(steps) + 1) * max((max(row) for row in model.walk), default=0)
    cp = cp_model.CpModel()
    present = {i: cp.new_constant(1) if i in facts.required else cp.new_bool_var(f"in{i}") for i in steps}
    end = {i: cp.new_int_var(model.seconds[i], horizon, f"end{i}") for i in steps}
    program = Program(model, cp, present, end, cp.new_int_var(0, horizon, "total"), horizon)
    if walking:
        _circuit(program, steps, orders)
    else:
        _no_overlap(program, steps)
    if orders is not None:
        _known_orders(program, facts.required, orders)
    _awaits(program)
    for window in model.windows:
        if window.step in present:
            _hold(program, window, [present[window.step]])
    for number, window in enumerate(facts.finish):
        _hold(program, window, _switch(program, "finish", number, switched))
    for number, guard in enumerate(facts.guards):
        _guard(program, guard, _switch(program, "guard", number, switched))
    _apart(program)
    return program


def _switch(program: Program, sort: str, number: int, switched: bool) -> list[Any]:
    """A literal that turns one fact on, where facts are to be switched."""
    if not switched:
        return []
    lit = program.cp.new_bool_var(f"{sort}{number}")
    program.switches[sort, number] = lit
    return [lit]


def _circuit(program: Program, steps: Sequence[int], orders: Orders | None) -> None:
    model, cp, last = program.model, program.cp, len(program.model.steps)
    arcs: list[tuple[int, int, Any]] = []
    for i in steps:
        first = cp.new_bool_var(f"first{i}")
        arcs.append((last, i, first))
        walk = model.walk[model.start_place][model.place[i]]
        cp.add(program.end[i] >= walk + model.seconds[i]).only_enforce_if(first)
        final = cp.new_bool_var(f"last{i}")
        arcs.append((i, last, final))
        cp.add(program.total == program.end[i]).only_enforce_if(final)
        arcs.append((i, i, ~program.present[i]))
        for j in steps:
            if i != j and not _ruled_out(orders, i, j):
                follows = cp.new_bool_var(f"{i}>{j}")
                program.arcs[i, j] = follows
                arcs.append((i, j, follows))
                gap = model.walk[model.place[i]][model.place[j]] + model.seconds[j]
                cp.add(program.end[j] >= program.end[i] + gap).only_enforce_if(follows)
    if not steps:
        return
    empty = cp.new_bool_var("empty")
    arcs.append((last, last, empty))
    cp.add_circuit(arcs)
    _round_end(program, steps)


def _ruled_out(orders: Orders | None, i: int, j: int) -> bool:
    """Whether j can never come straight after i."""
    if orders is None:
        return False
    return orders.precedes(j, i) or bool(orders.after[i] & orders.before[j])


def _no_overlap(program: Program, steps: Sequence[int]) -> None:
    model, cp = program.model, program.cp
    intervals = [
        cp.new_optional_interval_var(
            program.end[i] - model.seconds[i], model.seconds[i], program.end[i], program.present[i], f"step{i}"
        )
        for i in steps
    ]
    cp.add_no_overlap(intervals)
    last = {i: cp.new_bool_var(f"last{i}") for i in steps}
    for i, lit in last.items():
        cp.add_implication(lit, program.present[i])
        cp.add(program.total == program.end[i]).only_enforce_if(lit)
        cp.add_bool_or([~program.present[i], *last.values()])
    _round_end(program, steps)


def _round_end(program: Program, steps: Sequence[int]) -> None:
    """Every step and every wait is over when the round ends."""
    cp = program.cp
    for i in steps:
        cp.add(program.total >= program.end[i]).only_enforce_if(program.present[i])
    for starter, seconds in program.model.wait_ends:
        if starter in program.end:
            cp.add(program.total >= program.end[starter] + seconds).only_enforce_if(program.present[starter])


def _known_orders(program: Program, required: frozenset[int], orders: Orders) -> None:
    seconds = program.model.seconds
    for j in required:
        for i in required:
            if orders.precedes(i, j) and not orders.after[i] & orders.before[j]:
                program.cp.add(program.end[j] >= program.end[i] + seconds[j])
    for (i, j), least in orders.lags.items():
        if i in required and j in required:
            program.cp.add(program.end[j] >= program.end[i] + least)


def _awaits(program: Program) -> None:
    model, cp = program.model, program.cp
    for wait in model.awaits:
        if wait.step not in program.present:
            continue
        if wait.starter not in program.present or wait.starter == wait.step:
            cp.add(program.present[wait.step] == 0)
            continue
        cp.add_implication(program.present[wait.step], program.present[wait.starter])
        gap = wait.lag + model.seconds[wait.step]
        cp.add(program.end[wait.step] >= program.end[wait.starter] + gap).only_enforce_if(program.present[wait.step])


def _hold(program: Program, window: Window, active: Sequence[Any]) -> None:
    """While all of ``active`` hold, so does ``window``."""
    model, cp = program.model, program.cp
    setters = [s for s in model.by_condition[window.condition] if s.step in program.present]
    bad = [s for s in setters if s.value not in window.values]
    supports: list[Any] = []
    if model.start[window.condition] in window.values:
        supports.append(start := cp.new_bool_var(""))
        for rival in bad:
            after = _after(program, window, rival)
            cp.add_bool_or(
                [*(~a for a in active), ~start, ~program.present[rival.step], *([after] if after is not None else [])]
            )
    for setter in setters:
        if setter.value not in window.values:
            continue
        supports.append(by := cp.new_bool_var(""))
        cp.add_implication(by, program.present[setter.step])
        if window.step != FINISH:
            cp.add(program.time(setter) <= program.end[window.step] + window.a).only_enforce_if(by)
        for rival in bad:
            after = _after(program, window, rival)
            ways = [_earlier(program, rival, setter), *([after] if after is not None else [])]
            cp.add_bool_or([*(~a for a in active), ~by, ~program.present[rival.step], *ways])
    cp.add_bool_or([*(~a for a in active), *supports])


def _after(program: Program, window: Window, rival: Setter) -> Any | None:
    """A literal that says ``rival`` acts only when the window is over; None where that cannot be."""
    if window.step == FINISH:
        return None
    over = window.b if window.b > window.a else window.a + 1
    lit = program.cp.new_bool_var("")
    program.cp.add(program.time(rival) >= program.end[window.step] + over).only_enforce_if(lit)
    return lit


def _earlier(program: Program, one: Setter, other: Setter) -> Any:
    """A literal that says ``one`` acts before ``other``."""
    if (one, other) not in program.earlier:
        lit = program.cp.new_bool_var("")
        program.cp.add(program.time(one) + 1 <= program.time(other)).only_enforce_if(lit)
        program.earlier[one, other] = lit
    return program.earlier[one, other]


def _guard(program: Program, guard: IndexedGuard, active: Sequence[Any]) -> None:
    model, cp = program.model, program.cp
    values: list[set[str]] = [{v} for v in model.start]
    for setter in model.setters:
        values[setter.condition].add(setter.value)
    for mine, wrong in guard.never:
        for setter in model.by_condition[mine]:
            if setter.step not in program.present or setter.value not in wrong:
                continue
            saves: list[Any] = []
            for other, bad in guard.never:
                allowed = frozenset(values[other] - bad)
                if other != mine and allowed:
                    saves.append(saved := cp.new_bool_var(""))
                    window = Window(setter.step, setter.lag, setter.lag, other, allowed)
                    _hold(program, window, [*active, saved, program.present[setter.step]])
            cp.add_bool_or([*(~a for a in active), ~program.present[setter.step], *saves])


def _apart(program: Program) -> None:
    """No condition is changed twice at one instant."""
    for setters in program.model.by_condition:
        acting = [s for s in setters if s.step in program.present]
        for number, one in enumerate(acting):
            for other in acting[:number]:
                if (one.lag or other.lag) and one.step != other.step:
                    absent = [~program.present[one.step], ~program.present[other.step]]
                    program.cp.add_bool_or([*absent, _earlier(program, one, other), _earlier(program, other, one)])


@dataclass(frozen=True)
class Budget:
    """How much deterministic time the solver may spend (the same work gives the same answer), with how many workers."""

    work: float = 8.0
    workers: int = 1
    seed: int = 0


@dataclass(frozen=True)
class Outcome:
    """What the solver says: ends of the steps taken, in order, and the proven bound of the objective.

    ``possible`` is None when the solver ran out of work before it found anything: then ``bound`` says nothing.
    """

    possible: bool | None
    ends: Mapping[int, int]
    bound: float
    proven: bool


def solve(program: Program, budget: Budget) -> Outcome:
    """Solve within the budget."""
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = budget.work
    solver.parameters.num_workers = budget.workers
    solver.parameters.interleave_search = budget.workers > 1
    solver.parameters.random_seed = budget.seed % 2**31
    status = solver.solve(program.cp)
    if status == cp_model.INFEASIBLE:
        return Outcome(False, {}, math.nan, True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Outcome(None, {}, math.nan, False)
    ends = {i: solver.value(program.end[i]) for i, lit in program.present.items() if solver.value(lit)}
    ends = dict(sorted(ends.items(), key=lambda e: e[1]))
    return Outcome(True, ends, solver.best_objective_bound, status == cp_model.OPTIMAL)


def possible(program: Program, literals: Sequence[Any], budget: Budget) -> bool | None:
    """Whether all of ``literals`` can hold together; None when the solver runs out of work."""
    from ortools.sat.python import cp_model

    program.cp.clear_assumptions()
    program.cp.add_assumptions(list(literals))
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = budget.work
    solver.parameters.num_workers = budget.workers
    status = solver.solve(program.cp)
    return None if status == cp_model.UNKNOWN else status != cp_model.INFEASIBLE


def hint(program: Program, ends: Mapping[int, int]) -> None:
    """Give the solver a valid round to start from."""
    order = list(ends)
    follows = set(pairwise(order))
    for i, end in ends.items():
        program.cp.add_hint(program.end[i], end)
    for arc, lit in program.arcs.items():
        program.cp.add_hint(lit, arc in follows)
    program.cp.add_hint(program.total, max(ends.values(), default=0))
