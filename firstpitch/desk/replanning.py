"""Planning anew from the middle of a handover, within about a second."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from firstpitch.desk.inputs import problem_of
from firstpitch.desk.live_kit import steps_on
from firstpitch.desk.models import Handover
from firstpitch.desk.so_far import Seen, SoFar, as_sequence, so_far, stands_in
from firstpitch.rounds import Clash, LeftOut, Plan, Problem, TimedStep, quick_round
from firstpitch.rounds.replan import Change, back_to_clock, let_go, remaining_problem

HERE = "now.here"
_NO = {"12v": "No 12 V.", "gas": "No gas.", "mains": "No mains.", "water": "No water."}
_RESTS = "It rests on something that is not done today."


def replanned(handover: Handover, events: Sequence[Seen], at: datetime, change: Mapping[str, Any]) -> dict[str, Any]:
    """The rest of the round from ``at``, as the change asks, or why there is none.

    ``order`` with the times of each step [s on the clock of the round], what is left out and why, musts that can no longer be done;
    or ``clash``, the facts in words; or ``order`` None where no quick answer was found and the tablet has to choose step by step.
    """
    past = so_far(events)
    now = past.second(at)
    problem, done = as_sequence(problem_of(handover), past)
    gone = {name: steps_on(handover, [name]) for name in change.get("without_supply") or ()}
    asked = Change(
        minutes_left=change.get("minutes_left"),
        without_kit=frozenset(change.get("without_kit") or ()),
        without_steps=frozenset().union(*gone.values(), past.left),
        indoors_for=int(change.get("indoors_for") or 0),
    )
    rest, lost = let_go(_remaining(problem, done, now, past, asked))
    found = quick_round(rest)
    if isinstance(found, Clash):
        return {"clash": list(found.facts), "least_s": found.least_seconds, "found_s": found.found_seconds}
    if found is None:
        return {"order": None, "lost": list(lost)}
    why = {step: _NO.get(name, f"No {name}.") for name, steps in gone.items() for step in steps} | dict(past.left)
    why |= {m.step: m.what for m in rest.missing if m.step not in why}
    return _answer(problem, found, now, lost, why)


def _remaining(problem: Problem, done: Sequence[TimedStep], now: int, past: SoFar, asked: Change) -> Problem:
    """The rest, from where the presenter stands: at the present step, once it was begun."""
    current = next((step for step in problem.steps if step.id == past.current), None)
    if current is None:
        return remaining_problem(problem, done, now, asked)
    here = stands_in(HERE, current.place)
    with_here = replace(problem, steps=(*problem.steps, here))
    return remaining_problem(with_here, [*done, TimedStep(HERE, now, now)], now, asked)


def _answer(problem: Problem, plan: Plan, now: int, lost: Sequence[str], why: Mapping[str, str]) -> dict[str, Any]:
    titles = {step.id: step.title for step in problem.steps}
    steps = back_to_clock(plan.steps, now)
    return {
        "order": [t.step for t in steps],
        "steps": [{"id": t.step, "start": t.start, "end": t.end} for t in steps],
        "left_out": [
            {"id": one.step, "title": titles[one.step], "reason": why.get(one.step) or _reason(one)}
            for one in plan.left_out
            if one.step in titles
        ],
        "lost": list(lost),
        "ends": now + plan.total - 1,
    }


def _reason(one: LeftOut) -> str:
    """Why a step that nobody ruled out is left out: it has no time, or it can no longer be done at all."""
    return _RESTS if one.cost is None else one.reason
