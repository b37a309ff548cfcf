"""Planning the round of a handover with its wishes: at once, then better; and a kept round read back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from firstpitch.desk.inputs import problem_of
from firstpitch.desk.models import Handover
from firstpitch.rounds import (
    Clash,
    LeftOut,
    Patience,
    Plan,
    Problem,
    TimedStep,
    TimedWait,
    plan_round,
    quick_round,
    replay,
    round_object,
    with_wishes,
)

WISHES = ("first", "last", "without")
Options = Mapping[str, Any]
AT_ONCE = Patience(starts=1, tries=0, work=0.0)


def problem_with(handover: Handover, options: Options) -> Problem:
    """The problem of these options with their wishes; wishes for steps that the van does not have (any more) are passed over."""
    problem = problem_of(handover, dict(options))
    known = {step.id for step in problem.steps}
    first, last, without = ([s for s in options.get(name, ()) if s in known] for name in WISHES)
    return with_wishes(problem, first, last, without)


def at_once(handover: Handover, options: Options) -> Plan | Clash:
    """A sound round within about a second, or why there is none."""
    problem = problem_with(handover, options)
    quick = quick_round(problem)
    if isinstance(quick, Plan):
        return quick
    return plan_round(problem, patience=AT_ONCE)


def to_keep(handover: Handover, options: Options, plan: Plan) -> dict[str, Any]:
    """A plan as it is kept: the round as anybody can replay it, without the wishes' own conditions."""
    return round_object(problem_of(handover, dict(options)), plan)


def is_better(problem: Problem, plan: Plan, kept: Mapping[str, Any]) -> bool:
    """Whether a plan takes in more worth than the kept one, or as much in less time, or is proven nearer to the least."""
    out = sum(one["worth"] for one in kept["left_out"] if one["level"] != "must")
    worth = sum(step.worth for step in problem.steps if step.level != "must") - out
    return (plan.worth, -plan.total, plan.bound) > (worth, -kept["total_s"], kept["bound_s"])


@dataclass(frozen=True)
class KeptRound:
    """The round of a handover as it was kept, with its problem; ``sound`` is false where the van has changed since."""

    problem: Problem
    plan: Plan
    sound: bool


def kept_round(handover: Handover) -> KeptRound | None:
    """The kept round, None where none is kept or none of its steps is left."""
    if not handover.plan:
        return None
    problem = problem_of(handover)
    known = {step.id: step for step in problem.steps}
    steps = [TimedStep(s["id"], s["start_s"], s["end_s"]) for s in handover.plan["steps"] if s["id"] in known]
    waits = {wait.id for wait in problem.waits}
    if not steps:
        return None
    topics = [known[timed.step].topic for timed in steps]
    plan = Plan(
        steps=tuple(steps),
        waits=tuple(TimedWait(w["id"], w["start_s"], w["end_s"]) for w in handover.plan["waits"] if w["id"] in waits),
        left_out=tuple(LeftOut(o["id"], o["reason"], None) for o in handover.plan["left_out"] if o["id"] in known),
        total=handover.plan["total_s"],
        bound=handover.plan["bound_s"],
        worth=0,
        worth_bound=0,
        breaks=sum(a != b for a, b in pairwise(topics)),
        seed=handover.plan.get("seed", 0),
        proven=handover.plan["total_s"] == handover.plan["bound_s"],
    )
    sound = len(steps) == len(handover.plan["steps"]) and not replay(problem, steps)
    return KeptRound(problem, plan, sound)


@dataclass(frozen=True)
class Price:
    """What a wish costs, in a sentence; ``facts`` say why where it cannot be."""

    words: str
    facts: tuple[str, ...] = ()


def price(handover: Handover, before: Options, after: Options) -> Price:
    """What going from one set of wishes to another costs, both planned at once."""
    new = at_once(handover, after)
    if isinstance(new, Clash):
        return Price("That cannot be.", new.facts)
    old = at_once(handover, before)
    if isinstance(old, Clash):
        return Price(f"With that there is a round: it takes {lasting(new.total)}.")
    parts = []
    later = new.total - old.total
    if later:
        parts.append(f"the round ends {lasting(abs(later))} {'later' if later > 0 else 'earlier'}")
    fewer = len(old.steps) - len(new.steps)
    if fewer:
        parts.append(f"{abs(fewer)} step{'s' if abs(fewer) > 1 else ''} {'fall out' if fewer > 0 else 'come in'}")
    if not parts:
        return Price("It costs nothing: the round is as long as before.")
    return Price(f"{' and '.join(parts).capitalize()}.")


def lasting(seconds: int) -> str:
    """A short length of time.

    >>> lasting(46), lasting(80)
    ('46 s', '1 min 20 s')
    """
    minutes, rest = divmod(seconds, 60)
    return f"{minutes} min {rest:02d} s" if minutes else f"{rest} s"
