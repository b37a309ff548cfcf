"""The stow problem written for HiGHS, piece counts and continuous loads, in kilograms and metres."""

from __future__ import annotations

from dataclasses import dataclass

import highspy
import numpy as np

from firstpitch.outfit.stow import StowProblem


@dataclass(frozen=True)
class Answer:
    """Whether it is proven, its points, and the bound below which there is none."""

    proven: bool
    points: float
    bound: float
    seconds: float


def by_highs(problem: StowProblem, *, seconds: float, gap: float = 0.0, threads: int = 0) -> Answer:
    """The best stow with everything aboard. ``gap`` in points; ``threads`` 0 leaves their number to the solver."""
    items, lockers = problem.allowed.shape
    model = highspy.Highs()
    options = {"time_limit": seconds, "mip_abs_gap": gap, "mip_rel_gap": 0.0, "threads": threads}
    for option, value in {"output_flag": False, **options}.items():
        model.setOptionValue(option, value)
    counts = {(int(i), int(j)): model.addIntegral(0, int(problem.number[i])) for i, j in np.argwhere(problem.allowed)}
    loads = [model.addVariable(0, float(problem.limit[j])) for j in range(lockers)]
    for i in range(items):
        model.addConstr(sum(counts[i, j] for j in range(lockers) if (i, j) in counts) == int(problem.number[i]))
    for j in range(lockers):
        inside = [i for i in range(items) if (i, j) in counts]
        model.addConstr(sum(float(problem.mass[i]) * counts[i, j] for i in inside) == loads[j])
        litres = sum(float(problem.volume[i]) * 1000 * counts[i, j] for i in inside)
        model.addConstr(litres <= float(problem.room[j]) * 1000)
    model.addConstr(sum(loads) <= problem.outfit.van.masses.mtplm - problem.base_mass)
    for axle in problem.axles:
        model.addConstr(sum(float(axle.share[j]) * loads[j] for j in range(lockers)) <= axle.limit - axle.base)
    objective = sum(float(problem.cost[j]) * loads[j] for j in range(lockers))
    low, high = problem.band.preferred
    for nose in problem.noses:
        landed = sum(float(nose.share[j]) * loads[j] for j in range(lockers))
        if problem.band.ruling is not None:
            model.addConstr(landed <= problem.band.ruling - nose.base.high)
        model.addConstr(landed >= problem.floor - nose.base.low)
        under, above = model.addVariable(0, 1e5), model.addVariable(0, 1e5)
        model.addConstr(landed + under >= low - nose.base.low)
        model.addConstr(landed - above <= high - nose.base.high)
        objective += problem.worth.band * (under + above)
    side = model.addVariable(0, 1e6)
    level = sum(float(problem.y[j]) * loads[j] for j in range(lockers))
    model.addConstr(side - level >= 0)
    model.addConstr(side + level >= 0)
    model.minimize(objective + problem.worth.side * side)
    info = model.getInfo()
    proven = model.modelStatusToString(model.getModelStatus()) == "Optimal"
    return Answer(proven, info.objective_function_value, info.mip_dual_bound, model.getRunTime())
