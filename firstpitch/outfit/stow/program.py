"""The stow as an integer program for CP-SAT. See docs/decisions/0006-stow-solver.md.

What makes it quick: limits, noseweight, level and cost depend only on how much lies in each locker. So each locker's load is a
variable of its own (whole grams), and every other row is written in those few variables.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from numpy.typing import NDArray

from firstpitch.outfit.lockers import why_not
from firstpitch.outfit.stow.problem import Counts, Floats, StowProblem

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import CpModel

Group = Literal["", "locker-mass", "locker-room", "nose-most", "nose-least", "axle", "mtplm", "no-limit"]
Answer = Literal["best", "good", "impossible", "stopped"]

Groups = tuple[tuple[int, ...], ...]

GRAMS = 1000
SHARES = 1_000_000  # the share of a load on the ball, to six decimals
FINE = 10  # parts of a gram in which the noseweight outside its band is counted
POINTS = 100_000  # one point, in units of the program's objective (grams times centimetres, or grams times 0.01 m²)
CUBIC = 1_000_000  # cm³ in a m³
BIG = 10**12
MOST_SECONDS = 20.0


@dataclass(frozen=True)
class Solved:
    """An answer of the program: numbers of each item in each locker, pieces at home, how far a loosened group was passed.

    ``bound`` is a proven lower bound on ``points`` (as the program counts them); ``best`` means the two are equal.
    ``over`` is in kg, for the room of lockers in m³.
    """

    answer: Answer
    counts: Counts | None
    points: float
    bound: float
    over: float
    seconds: float


@dataclass
class _Rows:
    model: CpModel
    loads: list[Any]
    objective: list[Any]
    slack: Any
    slack_unit: int = 1


@dataclass(frozen=True)
class Program:
    """A stow problem as a CP-SAT model: the numbers of each group of like items in each locker are its variables."""

    whole: StowProblem
    groups: Groups
    problem: StowProblem
    model: CpModel
    counts: dict[tuple[int, int], Any]
    rows: _Rows
    loosened: bool

    def lies(self, counts: Counts) -> dict[tuple[int, int], int]:
        """A table of numbers as values of the variables."""
        return {(i, j): int(counts[list(self.groups[i]), j].sum()) for i, j in self.counts}


def program(problem: StowProblem, *, leave: bool = False, loosen: Group = "") -> Program:
    """The model of a problem. ``leave`` lets pieces stay at home, at a price above all else; ``loosen`` lets one group of
    limits be passed and then makes that least instead."""
    from ortools.sat.python import cp_model

    groups = alike(problem)
    whole, problem = problem, merged(problem, groups)
    model = cp_model.CpModel()
    counts, home = _pieces(model, problem, leave=leave, loosen=loosen)
    rows = _Rows(model, [], [], model.new_int_var(0, BIG, "over") if loosen else 0)
    _lockers(rows, problem, counts, loosen)
    _weights(rows, problem, loosen)
    _aims(rows, problem, counts, home)
    model.minimize(rows.slack if loosen else sum(rows.objective))
    return Program(whole, groups, problem, model, counts, rows, bool(loosen))


def solve(
    problem: StowProblem,
    *,
    leave: bool = False,
    loosen: Group = "",
    hint: Counts | None = None,
    seconds: float = MOST_SECONDS,
    tolerance: float = 0.0,
    seed: int = 0,
) -> Solved:
    """The best stow. ``leave`` and ``loosen`` as for ``program``.

    One search thread, so that the same problem and seed give the same answer. ``seconds`` stops the search; an answer
    found by then is "good", with the bound that says how good.
    """
    made = program(problem, leave=leave, loosen=loosen)
    return run(made, hint=hint, seconds=seconds, tolerance=tolerance, seed=seed)


def run(
    made: Program,
    *,
    hint: Counts | None,
    seconds: float,
    tolerance: float,
    seed: int,
    effort: float | None = None,
    only: Collection[tuple[int, int]] | None = None,
) -> Solved:
    """Solve a program. ``effort`` ends it by CP-SAT's own count of work, which is the same on every machine; ``only`` keeps
    all variables but these at nought, and then ``bound`` holds for such stows only."""
    from ortools.sat.python import cp_model

    model = made.model if only is None else made.model.clone()
    for key, variable in made.counts.items():
        if only is not None and key not in only:
            model.add(model.get_int_var_from_proto_index(variable.index) == 0)
    if hint is not None:
        for key, number in made.lies(hint).items():
            model.add_hint(model.get_int_var_from_proto_index(made.counts[key].index), number)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    # Trying values out beforehand takes longer here than it saves.
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = seconds
    if effort is not None:
        solver.parameters.max_deterministic_time = effort
    solver.parameters.absolute_gap_limit = 0.0 if made.loosened else tolerance * POINTS
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return Solved("impossible", None, 0.0, 0.0, 0.0, solver.wall_time)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Solved("stopped", None, 0.0, 0.0, 0.0, solver.wall_time)
    table = np.zeros((len(made.problem.items), len(made.problem.lockers)), dtype=np.int64)
    for (i, j), variable in made.counts.items():
        table[i, j] = solver.value(variable)
    return Solved(
        "best" if status == cp_model.OPTIMAL else "good",
        handed_out(made.whole, made.groups, table),
        solver.objective_value / POINTS,
        solver.best_objective_bound / POINTS,
        solver.value(made.rows.slack) / made.rows.slack_unit if made.loosened else 0.0,
        solver.wall_time,
    )


def alike(problem: StowProblem) -> Groups:
    """Items that the program need not tell apart: same mass, bulk, places and price, and none of them stowed today."""
    found: dict[tuple[object, ...], list[int]] = {}
    for i in range(len(problem.items)):
        lies = problem.today is not None and bool(problem.today[i].any())
        figures = (problem.mass[i], problem.volume[i], problem.home[i], usable_row(problem, i))
        found.setdefault((i,) if lies else figures, []).append(i)
    return tuple(tuple(group) for group in found.values())


def usable_row(problem: StowProblem, i: int) -> tuple[bool, ...]:
    """Where an item may go, locker by locker, those of unknown limit by what else would forbid them."""
    item = problem.items[i]
    known = (replace(locker, limit=1e9) if locker.limit is None else locker for locker in problem.lockers)
    return (*(bool(may) for may in problem.allowed[i]), *(not why_not(item, locker) for locker in known))


def merged(problem: StowProblem, groups: Groups) -> StowProblem:
    """The problem with each group as one item of several pieces."""
    first = [group[0] for group in groups]
    return replace(
        problem,
        items=tuple(problem.items[i] for i in first),
        allowed=problem.allowed[first],
        mass=problem.mass[first],
        number=np.array([problem.number[list(group)].sum() for group in groups], dtype=np.int64),
        volume=problem.volume[first],
        home=problem.home[first],
        today=problem.today[first] if problem.today is not None else None,
    )


def handed_out(problem: StowProblem, groups: Groups, table: Counts) -> Counts:
    """The groups' pieces given back to their items, in order."""
    found = np.zeros((len(problem.items), len(problem.lockers)), dtype=np.int64)
    for group, row in zip(groups, table, strict=True):
        left = row.copy()
        for i in group:
            taken = np.minimum(left, np.maximum(0, problem.number[i] - np.cumsum(left) + left))
            found[i] = taken
            left = left - taken
    return found


def _pieces(
    model: CpModel, problem: StowProblem, *, leave: bool, loosen: Group
) -> tuple[dict[tuple[int, int], Any], list[Any]]:
    """How many of each item lie in each locker that may hold it, and how many stay at home."""
    usable = usable_lockers(problem, loosen)
    counts = {
        (int(i), int(j)): model.new_int_var(0, int(problem.number[i]), f"n{i}_{j}") for i, j in np.argwhere(usable)
    }
    home: list[Any] = []
    for i, number in enumerate(problem.number):
        mine = [counts[i, j] for j in range(len(problem.lockers)) if (i, j) in counts]
        home.append(model.new_int_var(0, int(number), f"home{i}") if leave else 0)
        model.add(sum(mine) + home[i] == int(number))
    return counts, home


def usable_lockers(problem: StowProblem, loosen: Group = "") -> NDArray[np.bool_]:
    """Which item may go where; loosening ``no-limit`` lets the lockers in whose limit is unknown."""
    if loosen != "no-limit":
        return problem.allowed
    open_lockers = [replace(locker, limit=1e9) if locker.limit is None else locker for locker in problem.lockers]
    return np.array([[not why_not(item, locker) for locker in open_lockers] for item in problem.items]).reshape(
        problem.allowed.shape
    )


def _lockers(rows: _Rows, problem: StowProblem, counts: dict[tuple[int, int], Any], loosen: Group) -> None:
    """Each locker's load [g] as a variable, its limit and its room."""
    grams = np.rint(problem.mass * GRAMS).astype(int)
    bulk = np.ceil(problem.volume * CUBIC - 1e-6).astype(int)
    for j, locker in enumerate(problem.lockers):
        inside = [(i, variable) for (i, k), variable in counts.items() if k == j]
        most = int(problem.limit[j] * GRAMS + 1e-6)
        if loosen == "locker-mass" or (loosen == "no-limit" and locker.limit is None):
            load = rows.model.new_int_var(0, int(grams @ problem.number), f"load{j}")
            over = rows.model.new_int_var(0, BIG, f"over{j}")
            rows.model.add(over >= load - most)
            rows.objective.append((j, over))
        else:
            load = rows.model.new_int_var(0, most, f"load{j}")
        rows.loads.append(load)
        rows.model.add(sum(int(grams[i]) * variable for i, variable in inside) == load)
        room = int(problem.room[j] * CUBIC + 1e-6)
        filled = sum(int(bulk[i]) * variable for i, variable in inside)
        if loosen == "locker-room":
            over = rows.model.new_int_var(0, BIG, f"spill{j}")
            rows.model.add(filled <= room + over)
            rows.objective.append((j, over))
        else:
            rows.model.add(filled <= room)
    if loosen in ("locker-mass", "locker-room", "no-limit"):
        rows.model.add(rows.slack == sum(over for _, over in rows.objective))
        rows.slack_unit = CUBIC if loosen == "locker-room" else GRAMS
    rows.objective.clear()


def _scaled(share: Floats) -> list[int]:
    return [int(part) for part in np.rint(share * SHARES)]


def _row(rows: _Rows, share: Floats) -> Any:
    return sum(part * load for part, load in zip(_scaled(share), rows.loads, strict=True))


def _weights(rows: _Rows, problem: StowProblem, loosen: Group) -> None:
    """Laden mass, axles and the hard band of the noseweight, each held clear of its limit by the rounding of the shares."""
    unit = GRAMS * SHARES
    rounding = int(problem.load_mass * GRAMS / 2) + 1
    slack = rows.slack
    own = {name: slack * SHARES if loosen == name else 0 for name in ("nose-most", "nose-least", "axle", "mtplm")}
    if loosen in own:
        rows.slack_unit = GRAMS
    room = int((problem.outfit.van.masses.mtplm - problem.base_mass) * GRAMS + 1e-6)
    rows.model.add(sum(rows.loads) * SHARES <= room * SHARES + own["mtplm"])
    for nose in problem.noses:
        landed = _row(rows, nose.share)
        if problem.band.ruling is not None:
            most = int((problem.band.ruling - nose.base.high) * unit) - rounding
            rows.model.add(landed <= most + own["nose-most"])
        least = int((problem.floor - nose.base.low) * unit) + rounding
        rows.model.add(landed >= least - own["nose-least"])
    for axle in problem.axles:
        most = int((axle.limit - axle.base) * unit) - rounding
        rows.model.add(_row(rows, axle.share) <= most + own["axle"])


def _aims(rows: _Rows, problem: StowProblem, counts: dict[tuple[int, int], Any], home: list[Any]) -> None:
    """What a good stow is, in this order of weight: nothing left, noseweight in band, low and near the axle, level, few moves."""
    model, worth, unit = rows.model, problem.worth, GRAMS * SHARES
    rows.objective.append(
        sum(round(float(cost) * 100) * load for cost, load in zip(problem.cost, rows.loads, strict=True))
    )
    low, high = problem.band.preferred
    for n, nose in enumerate(problem.noses):
        landed = _row(rows, nose.share)
        for name, gap in (
            ("under", int((low - nose.base.low) * unit) - landed),
            ("above", landed - int((high - nose.base.high) * unit)),
        ):
            short = model.new_int_var(0, BIG, f"{name}{n}")
            model.add(short * SHARES >= gap * FINE)
            rows.objective.append(short * (worth.band * POINTS // (GRAMS * FINE)))
    side = model.new_int_var(0, BIG, "side")
    level = sum(round(float(at) * 100) * load for at, load in zip(problem.y, rows.loads, strict=True))
    model.add(side >= level)
    model.add(side >= -level)
    rows.objective.append(side * worth.side)
    grams = np.rint(problem.mass * GRAMS).astype(int)
    rows.objective.extend(
        int(grams[i]) * (int(problem.home[i]) * POINTS // GRAMS) * left for i, left in enumerate(home)
    )
    if problem.today is None:
        return
    for (i, j), variable in counts.items():
        there = int(problem.today[i, j])
        if there:
            out = model.new_int_var(0, there, f"out{i}_{j}")
            model.add(out >= there - variable)
            rows.objective.append(out * (worth.move * POINTS))
