"""Rounds of any size, made from the demo vans: kit taken away for smaller ones, kit of a second van added for larger ones."""

from __future__ import annotations

import random
from collections.abc import Collection, Iterable
from dataclasses import replace
from datetime import date
from functools import cache

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.rounds import (
    Effect,
    Guard,
    Literally,
    Patience,
    Place,
    Plan,
    Problem,
    Step,
    TimedStep,
    Wait,
    build_problem,
    plan_round,
    replay,
)
from firstpitch.sheet import BuildSheet, read_sheet_text, resolve_links

TODAY = date(2026, 11, 25)
QUICK = Patience(starts=1, tries=0, work=0.0)
SECOND = "second."


@cache
def demo_sheet(name: str) -> BuildSheet:
    """One demo van's build sheet."""
    return read_sheet_text(sheets()[name].read_text("utf-8"), load().kinds, today=TODAY, file=f"{name}.yaml")


@cache
def demo_problem(name: str) -> Problem:
    """One demo van's whole round, in mode handover, from store."""
    sheet = demo_sheet(name)
    return build_problem(sheet, load(), resolve_links(sheet.kit, load().kinds).filled)


def first_round(problem: Problem) -> tuple[TimedStep, ...]:
    """A valid round of ``problem``, quickly found."""
    plan = plan_round(problem, patience=QUICK)
    if not isinstance(plan, Plan):
        raise ValueError(f"{problem.van} has no round: {'; '.join(plan.facts)}")
    return plan.steps


def smaller(problem: Problem, size: int, seed: int = 0, keep: Collection[str] = ()) -> Problem:
    """``problem`` without some of its kit, so that ``size`` steps are left, or nearly; it still has a round.

    Kit is taken away in a random order, each time only if the round without its steps is still clean; kit with waits goes last.
    Kit in ``keep`` stays, and with it all that it rests on.
    """
    rng = random.Random(seed)
    kit = sorted({step.kit for step in problem.steps}.difference(keep))
    rng.shuffle(kit)
    waiting = {wait.kit for wait in problem.waits}
    steps = first_round(problem)
    for takes in ([k for k in kit if k not in waiting], kit):
        gone = True
        while gone:
            gone = False
            for name in takes:
                trial, rest = _without(problem, name), _steps_without(problem, steps, name)
                if len(problem.steps) > size and len(trial.steps) < len(problem.steps) and not replay(trial, rest):
                    problem, steps, gone = trial, rest, True
    return problem


def _steps_without(problem: Problem, steps: Iterable[TimedStep], kit: str) -> tuple[TimedStep, ...]:
    dropped = {step.id for step in problem.steps if step.kit == kit}
    return tuple(timed for timed in steps if timed.step not in dropped)


def _without(problem: Problem, kit: str) -> Problem:
    """``problem`` without the steps of one kit, and without the places and waits that nothing is left to use."""
    steps = tuple(step for step in problem.steps if step.kit != kit)
    places = {problem.start_place, *(step.place for step in steps)}
    begun = {wait for step in steps for wait in step.starts}
    return replace(
        problem,
        steps=steps,
        places=tuple(place for place in problem.places if place.id in places),
        walks={a: {b: s for b, s in row.items() if b in places} for a, row in problem.walks.items() if a in places},
        waits=tuple(wait for wait in problem.waits if wait.id in begun),
    )


def larger(problem: Problem, other: Problem, size: int, seed: int = 0) -> Problem:
    """``problem`` with as much of a second van's kit as brings it to ``size`` steps, worked from the same standing points."""
    added = smaller(other, size - len(problem.steps), seed)
    where = {place.id: _twin(place, problem.places) for place in added.places}
    return replace(
        problem,
        van=f"{problem.van} and {other.van}",
        start={**problem.start, **{SECOND + c: v for c, v in added.start.items()}},
        finish=(*problem.finish, *map(_literal, added.finish)),
        steps=(*problem.steps, *(_step(step, where) for step in added.steps)),
        waits=(*problem.waits, *map(_wait, added.waits)),
        guards=(*problem.guards, *map(_guard, added.guards)),
    )


def _twin(place: Place, places: Iterable[Place]) -> str:
    """The standing point nearest to ``place`` on the same side of the door."""
    same = [p for p in places if p.inside == place.inside]
    return min(same, key=lambda p: (p.x - place.x) ** 2 + (p.y - place.y) ** 2).id


def _literal(literal: Literally) -> Literally:
    return replace(literal, condition=SECOND + literal.condition)


def _effect(effect: Effect) -> Effect:
    return replace(effect, condition=SECOND + effect.condition)


def _step(step: Step, where: dict[str, str]) -> Step:
    return replace(
        step,
        id=SECOND + step.id,
        kit=SECOND + step.kit,
        place=where[step.place],
        requires=tuple(map(_literal, step.requires)),
        sets=tuple(map(_effect, step.sets)),
        starts=tuple(SECOND + wait for wait in step.starts),
        awaits=tuple(SECOND + wait for wait in step.awaits),
    )


def _wait(wait: Wait) -> Wait:
    return replace(
        wait,
        id=SECOND + wait.id,
        sustains=tuple(map(_literal, wait.sustains)),
        sets=tuple(map(_effect, wait.sets)),
    )


def _guard(guard: Guard) -> Guard:
    return replace(guard, id=SECOND + guard.id, never=tuple(map(_literal, guard.never)))


def sized(size: int, seed: int = 0) -> Problem:
    """A round of about ``size`` steps made from the demo vans."""
    whole, other = demo_problem("heron"), demo_problem("plover")
    if size == len(whole.steps):
        return whole
    return smaller(whole, size, seed) if size < len(whole.steps) else larger(whole, other, size, seed)
