"""The round: planning time, memory and gap by number of steps, and our total against a greedy order and a general planner."""

from __future__ import annotations

import multiprocessing
import resource
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from typing import Any

from bench.in_turn import greedy, timed
from bench.sizes import sized
from firstpitch.rounds import Plan, Problem, plan_round, replay
from firstpitch.rounds.pddl_classical import classical_domain_pddl, classical_problem_pddl, steps_of

TITLE = "The round: planning, and our total against others'"
SIZES = (20, 40, 80, 120, 160)
GENERAL_SIZES = (20, 40, 120)
ENGINE, PACKAGE = "fast-downward", "up-fast-downward"
SEARCH = "eager_greedy([ff()],preferred=[ff()])"
LIMIT = 60

Row = dict[str, Any]


def rows() -> list[Row]:
    """One row for each number of steps; times in seconds, memory in MiB. Each is planned in a process of its own."""
    found = []
    for size in SIZES:
        row = _alone(_planned, size)
        row |= _alone(_greedy, size)
        if size in GENERAL_SIZES:
            row |= _alone(_general, size)
        ours = row["total s"]
        for name in ("greedy", "general planner"):
            total = row.pop(f"{name} total s", None)
            note = row.pop(f"{name} note", "not tried at this size")
            row[f"ours / {name}"] = f"{ours / total:.3f}" if total else note
        found.append(row)
    return found


def _alone(work: Callable[[int], Row], size: int) -> Row:
    """``work`` in a fresh process, so that its memory is its own."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        return pool.submit(work, size).result()


def _planned(size: int) -> Row:
    problem = sized(size)
    begun, first = time.perf_counter(), []
    plan = plan_round(problem, tell=lambda *_: first.append(time.perf_counter() - begun))
    took = time.perf_counter() - begun
    if not isinstance(plan, Plan) or replay(problem, plan.steps):
        raise RuntimeError(f"the round of {size} steps is not sound")
    return {
        "steps": len(plan.steps),
        "waits": len(plan.waits),
        "first answer s": f"{first[0] if first else took:.2f}",
        "planned s": f"{took:.2f}",
        "peak MiB": round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024),
        "total s": plan.total,
        "gap": f"{100 * plan.gap:.2f} %",
    }


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
    if order is None:
        return {f"{name} note": f"no plan in {LIMIT} s"}
    done = timed(problem, order)
    if done is None or replay(problem, done):
        return {f"{name} note": "its order cannot be held in time"}
    return {f"{name} total s": done[-1].end}


def _order(problem: Problem) -> tuple[str, ...] | None:
    """The steps in the planner's order, or None when it finds none in time. ModuleNotFoundError when it is not installed."""
    import up_fast_downward  # type: ignore[import-not-found]  # noqa: F401
    from pyparsing import ParserElement
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
        return None
    return steps_of("\n".join(f"({action.action.name})" for action in answer.plan.actions))
