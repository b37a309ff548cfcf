"""The stow program without whole numbers: a bound in a hundredth of a second, and what each place would cost beyond it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from firstpitch.outfit.stow.program import Program

LARGEST = 2**62  # beyond it CP-SAT means that nothing bounds a row
ROUNDED = 6  # decimals of a point


@dataclass(frozen=True)
class Relaxed:
    """No stow has fewer than ``points``. ``extra``: by how much more it is at least if a piece lies there, for each variable."""

    points: float
    extra: dict[tuple[int, int], float]


def relaxed(made: Program, unit: int) -> Relaxed | None:
    """The linear relaxation of a program, row for row from its model; None where it has no answer. ``unit``: of the program's
    objective in one point."""
    from ortools.linear_solver import pywraplp

    solver = pywraplp.Solver.CreateSolver("GLOP")
    proto = made.model.proto
    variables = [solver.NumVar(*_ends(one.domain), "") for one in proto.variables]
    for constraint in proto.constraints:
        if constraint.has_linear():
            _linear(solver, variables, constraint.linear)
    aim = solver.Objective()
    for index, coefficient in zip(proto.objective.vars, proto.objective.coeffs, strict=True):
        aim.SetCoefficient(variables[index], coefficient / unit)
    aim.SetOffset(proto.objective.offset / unit)
    aim.SetMinimization()
    if solver.Solve() != pywraplp.Solver.OPTIMAL:
        return None
    extra = {key: round(max(0.0, variables[one.index].reduced_cost()), ROUNDED) for key, one in made.counts.items()}
    return Relaxed(aim.Value(), extra)


def _linear(solver: Any, variables: list[Any], linear: Any) -> None:
    """One row, brought to coefficients of at most one."""
    coefficients = list(linear.coeffs)
    scale, end = float(max(map(abs, coefficients), default=1)), solver.infinity()
    low, high = _ends(linear.domain)
    row = solver.Constraint(low / scale if low > -LARGEST else -end, high / scale if high < LARGEST else end)
    for index, coefficient in zip(linear.vars, coefficients, strict=True):
        row.SetCoefficient(variables[index], coefficient / scale)


def _ends(domain: Any) -> tuple[float, float]:
    """The least and the greatest value of a domain, which is a list of intervals."""
    ends = list(domain)
    return float(ends[0]), float(ends[-1])
