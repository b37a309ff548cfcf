"""The round: planning time, memory and gap by number of steps, and our total against a greedy order and a general planner."""

from __future__ import annotations

import multiprocessing
import resource
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from statistics import median
from typing import Any

from bench.in_turn import greedy, timed
from bench.sizes import sized
from firstpitch.rounds import Plan, Problem, plan_round, replay
from firstpitch.rounds.pddl_classical import classical_domain_pddl, classical_problem_pddl, steps_of

TITLE = "The round: planning, and our total against others'"
NOTES = (
    "Rounds of other sizes than a whole van's are made from the demo vans (bench/sizes.py): kit taken away, or kit of a "
    "second van added. Each row is planned in a process of its own; without minutes three times, the times being the middle "
    "one of three and the three plans the same, with minutes once. Planned s is by the clock and grows with whatever else the"
    " machine does; CPU s counts our own work on all cores. Most of the memory is there before planning: Python, the units "
    "library, the catalogue and the sheet. The exact solver is loaded when minutes are given, which is why those rows need "
    "more. The rounds of 26 and 40 steps have no waits. Greedy: the nearest step that can be done and spoils nothing "
    "(bench/in_turn.py). General planner: Fast Downward through unified-planning, greedy best-first search on the FF "
    "heuristic with its preferred operators, on the classical PDDL with every step a must and a limit of 60 s by the clock; "
    "its order is then timed with waiting as early as it can be. It is under the GPL and not in the locked lists; `pip "
    "install up-fast-downward` fills its column."
)
SIZES = (20, 40, 80, 120, 160)
GENERAL_SIZES = (20, 40, 120)
WHOLE, MINUTES = 120, (75, 90)
TIMES = 3  # without minutes
ENGINE, PACKAGE = "fast-downward", "up-fast-downward"
SEARCH = "eager_greedy([ff()],preferred=[ff()])"
LIMIT = 60

Row = dict[str, Any]


def rows() -> list[Row]:
    """One row for each number of steps, and whole vans within some minutes. Each is planned in a process of its own."""
    found = []
    for size in SIZES:
        row = _alone(_planned, size, None) | _alone(_greedy, size)
        if size in GENERAL_SIZES:
            row |= _alone(_general, size)
        ours = row["total s"]
        for name in ("greedy", "general planner"):
            total = row.pop(f"{name} total s", None)
            note = row.pop(f"{name} note", "not tried at this size")
            row[f"ours / {name}"] = f"{ours / total:.3f}" if total else note
        found.append(row)
    return found + [_alone(_planned, WHOLE, minutes) for minutes in MINUTES]


def _alone(work: Callable[..., Row], *given: Any) -> Row:
    """``work`` in a fresh process, so that its memory is its own."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        return pool.submit(work, *given).result()


def _peak() -> float:
    """The most memory this process has had so far [MiB]; ``ru_maxrss`` is in KiB on Linux."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def _planned(size: int, minutes: float | None) -> Row:
    problem = replace(sized(size), minutes=minutes)
    before = _peak()
    times = TIMES if minutes is None else 1
    plans, firsts, took, worked = zip(*(_once(problem) for _ in range(times)), strict=True)
    plan = plans[0]
    if any(other != plan for other in plans) or replay(problem, plan.steps):
        raise RuntimeError(f"the round of {size} steps is not sound, or not the same each time")
    return {
        "steps": len(plan.steps),
        "of": len(problem.steps),
        "minutes": "any" if minutes is None else f"{minutes:g}",
        "waits": len(plan.waits),
        "first answer ms": "not told" if None in firsts else f"{1000 * median(firsts):.0f}",
        "planned s": f"{median(took):.2f}",
        "CPU s": f"{median(worked):.2f}",
        "MiB before": round(before),
        "planning adds MiB": round(_peak() - before, 1),
        "total s": plan.total,
        "gap": f"{100 * plan.gap:.2f} %",
    }


def _once(problem: Problem) -> tuple[Plan, float | None, float, float]:
    """The plan, the seconds to the first answer (None where none is told) and to the last, and the seconds of work on all cores."""
    first: list[float] = []
    begun, work = time.perf_counter(), time.process_time()
    plan = plan_round(problem, tell=lambda *_: first.append(time.perf_counter() - begun))
    took, worked = time.perf_counter() - begun, time.process_time() - work
    if not isinstance(plan, Plan):
        raise RuntimeError(f"{problem.van} has no round: {'; '.join(plan.facts)}")
    return plan, first[0] if first else None, took, worked


def _greedy(size: int) -> Row:
    problem = sized(size)
    done, left = greedy(problem)
    if left or replay(problem, done):
        return {"greedy note": f"no round: dead end with {left} of {len(problem.steps)} steps left"}
    return {"greedy total s": done[-1].end}


def _general(size: int) -> Row:
    """A general classical planner's order on the same steps, each a must, timed with waiting as early as it can be."""
    name = "general planner"
    problem = sized(size)
    problem = replace(problem, steps=tuple(replace(step, level="must") for step in problem.steps))
    try:
        order = _order(problem)
    except ModuleNotFoundError as error:
        return {f"{name} note": f"not installed ({error.name}); {PACKAGE} is not in the locked lists"}
    if isinstance(order, str):
        return {f"{name} note": order}
    done = timed(problem, order)
    if done is None or replay(problem, done):
        return {f"{name} note": "its order cannot be held in time"}
    return {f"{name} total s": done[-1].end}


def _order(problem: Problem) -> tuple[str, ...] | str:
    """The steps in the planner's order, or why there is none. ModuleNotFoundError when it is not installed."""
    import up_fast_downward  # type: ignore[import-not-found]  # noqa: F401
    from pyparsing import ParserElement
    from unified_planning.engines import PlanGenerationResultStatus
    from unified_planning.io import PDDLReader
    from unified_planning.shortcuts import OneshotPlanner, get_environment

    get_environment().credits_stream = None
    reader = PDDLReader()
    ParserElement.disable_memoization()
    text = classical_domain_pddl(problem), classical_problem_pddl(problem)
    with OneshotPlanner(name=ENGINE, params={"fast_downward_search_config": SEARCH}) as planner:
        planner.skip_checks = True  # it is unsure about walking times as costs, but takes them
        answer = planner.solve(reader.parse_problem_string(*text), timeout=LIMIT)
    if answer.plan is None:
        late = answer.status == PlanGenerationResultStatus.TIMEOUT
        return f"no plan in {LIMIT} s" if late else f"no plan: {answer.status.name.lower().replace('_', ' ')}"
    return steps_of("\n".join(f"({action.action.name})" for action in answer.plan.actions))
