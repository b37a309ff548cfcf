"""Random handovers under way, for holding the tablet's rules to the desk's."""

from __future__ import annotations

import random
import uuid
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

from firstpitch.desk.so_far import SoFar, as_sequence, stands_in
from firstpitch.rounds import Broken, Patience, Plan, Problem, TimedStep, plan_round, replay
from tests.demo_rounds import NAMES, demo_round
from tests.random_rounds import random_problem
from tests.unit.rounds.problems import rich_problem

BEGAN = datetime(2026, 11, 25, 10, 0, 0, tzinfo=UTC)
NOW = ("requires", "awaits", "sustains", "guard", "unknown")
_QUICK = Patience(starts=2, tries=200, work=0.5)


@dataclass(frozen=True)
class Seen:
    """An event as the desk reads it."""

    pk: str
    device: str
    number: int
    at: datetime
    what: str
    data: dict[str, Any]

    def as_json(self) -> dict[str, Any]:
        """The same as the tablet has it."""
        at = self.at.isoformat()
        return {"id": self.pk, "device": self.device, "number": self.number, "at": at} | {
            "what": self.what,
            "data": self.data,
            "handover": 1,
        }


@dataclass(frozen=True)
class Case:
    """A problem with a plan of it, if there is one."""

    problem: Problem
    plan: Plan | None


@cache
def cases(count: int = 330) -> tuple[Case, ...]:
    """Random problems of two sorts, and the demo vans."""
    problems = [random_problem(seed) if seed % 2 else rich_problem(seed, 8) for seed in range(count - len(NAMES))]
    random_ones = [Case(problem, _plan(problem)) for problem in problems]
    vans = [demo_round(name) for name in NAMES]
    return (*random_ones, *(Case(van.problem, van.plan) for van in vans))


def _plan(problem: Problem) -> Plan | None:
    plan = plan_round(problem, patience=_QUICK)
    return plan if isinstance(plan, Plan) else None


def any_sequence(case: Case, seed: int) -> list[TimedStep]:
    """A part of a round, good or bad: the plan, the plan with a slip or two, or steps at random."""
    rng = random.Random(seed)
    sort = rng.randrange(3)
    if case.plan and sort < 2:
        sequence = list(case.plan.steps[: rng.randint(1, len(case.plan.steps) or 1)])
        for _ in range(rng.randint(0, 2) if sort else 0):
            if len(sequence) > 1:
                sequence.insert(rng.randrange(len(sequence)), sequence.pop(rng.randrange(len(sequence))))
        return [_slip(rng, timed) for timed in sequence] if rng.random() < 0.4 else sequence
    steps = rng.sample(case.problem.steps, rng.randint(1, min(12, len(case.problem.steps))))
    sequence, now = [], 0
    for step in steps:
        now += rng.randint(0, 8)
        end = now + (step.seconds if rng.random() < 0.8 else rng.randint(0, 9))
        sequence.append(TimedStep("no.such" if rng.random() < 0.05 else step.id, now, end))
        now = end
    if rng.random() < 0.1:
        sequence.append(rng.choice(sequence))
    return sequence


def _slip(rng: random.Random, timed: TimedStep) -> TimedStep:
    by = rng.choice((0, 0, -2, 3, 1))
    return TimedStep(timed.step, max(0, timed.start + by), max(0, timed.end + by))


def any_events(case: Case, seed: int) -> list[Seen]:
    """What one or two tablets saw of a handover: much as planned, with things left, found, taken back, and clocks that jump."""
    rng = random.Random(seed)
    order = [t.step for t in case.plan.steps] if case.plan else [s.id for s in case.problem.steps]
    if rng.random() < 0.4:
        rng.shuffle(order)
    tellers = [_Teller(rng, "tab-a"), *([_Teller(rng, "tab-b")] if rng.random() < 0.4 else [])]
    for step in order[: rng.randint(0, min(len(order), 30))]:
        _tell(rng, rng.choice(tellers), step, case.problem)
    events = [event for teller in tellers for event in teller.events]
    rng.shuffle(events)
    return events


class _Teller:
    """A tablet with a clock of its own."""

    def __init__(self, rng: random.Random, device: str) -> None:
        self.rng, self.device = rng, device
        self.now = BEGAN + timedelta(milliseconds=rng.randint(0, 3000))
        self.events: list[Seen] = []

    def say(self, what: str, **data: Any) -> Seen:
        """One event, a little later than the last; now and then its clock is put back."""
        wait = self.rng.choice((0, 200, 999, 1000, 2500, 7000, 61_000))
        self.now += timedelta(milliseconds=-90_000 if self.rng.random() < 0.01 else wait)
        key = str(uuid.UUID(int=self.rng.getrandbits(128)))
        event = Seen(key, self.device, len(self.events) + 1, self.now, what, data)
        self.events.append(event)
        return event


def _tell(rng: random.Random, teller: _Teller, step: str, problem: Problem) -> None:
    chance = rng.random()
    if chance < 0.85:
        teller.say("step.begun", step=step)
    if chance < 0.75:
        done = teller.say("step.done", step=step, tried=rng.random() < 0.3)
        if rng.random() < 0.08:
            undone = teller.say("undone", event=done.pk)
            if rng.random() < 0.3:
                teller.say("undone", event=undone.pk)
    elif chance > 0.93:
        teller.say("step.left", step=step, reason="Not today.")
    if rng.random() < 0.1 and problem.start:
        name = rng.choice(sorted(problem.start))
        value = rng.choice([e.value for s in problem.steps for e in s.sets if e.condition == name] or ["yes"])
        teller.say("state.set", condition=name, value=value, reason="It was so.")
    if rng.random() < 0.04:
        teller.say("round.replanned", order=[s.id for s in rng.sample(problem.steps, 2)], by="tablet")
    if rng.random() < 0.04:
        teller.say("note", words="A note.")
    if rng.random() < 0.03 and len(teller.events) > 1:
        pair = [teller.events[-1].pk, teller.events[-2].pk]
        teller.say("conflict.settled", events=pair, keeps=pair[0], reason="So it was.")


def verdict(problem: Problem, past: SoFar, step: str, now: datetime) -> set[tuple[str, str, int, str, str, str]]:
    """What pressing "done" would break that is not broken already, by the desk's checker."""
    whole, done = as_sequence(problem, past)
    at = past.second(now) + 1
    place = next((s.place for t in reversed(done) for s in whole.steps if s.id == t.step), problem.start_place)
    stand = stands_in("now.here", place)
    standing = replace(whole, steps=(*whole.steps, stand))
    here = TimedStep(stand.id, at + 1, at + 1)
    before = {_key(b) for b in replay(standing, [*done, here], whole=False)}
    after = replay(standing, [*done, TimedStep(step, at - 1, at), here], whole=False)
    return {told(b) for b in after if b.rule in NOW and b.at <= at and _key(b) not in before}


def _key(broken: Broken) -> tuple[str, str, int, str]:
    return broken.rule, broken.step, broken.at, broken.condition


def told(broken: Broken) -> tuple[str, str, int, str, str, str]:
    """All that is said of a broken rule."""
    return broken.rule, broken.step, broken.at, broken.condition, broken.text, broken.harm
