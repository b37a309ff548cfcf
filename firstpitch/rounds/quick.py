"""A sound round at once, for somebody who stands beside the van with the owner: no long search, no long proof.

It takes every step there is a round for; where the minutes are short it leaves out what is worth least and times the rest again in the
same order. The answer keeps every rule of docs/rounds.md. What it lacks against ``plan_round`` is quality and a good bound.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import replace

from firstpitch.rounds.answer import plan_of
from firstpitch.rounds.arrange import Arranged
from firstpitch.rounds.causes import frame_of
from firstpitch.rounds.choose import Lesson, choose, learn, worth_of
from firstpitch.rounds.clash import explain, musts_too_long, start_clash
from firstpitch.rounds.course import begin
from firstpitch.rounds.greedy import Taste, build
from firstpitch.rounds.improve import Effort, Scale, improve
from firstpitch.rounds.model import Model, index_problem
from firstpitch.rounds.orders import Contradiction, infer
from firstpitch.rounds.reach import reachable
from firstpitch.rounds.types import Clash, Plan, Problem

Ends = Mapping[int, int]
CHOICES = 10  # so many sets of steps are tried
LEAST = 20  # seconds of steps that are not worth another try
TASTES = (Taste(), Taste(topic=12.0), Taste(topic=0.0))
TRIES = 1500  # moves of the local search at the end


def quick_round(problem: Problem, *, seed: int = 0) -> Plan | Clash | None:
    """A round of ``problem`` within about a second for some hundred steps; None when this way finds none (``plan_round`` may).

    ``bound`` is only the seconds of the steps taken, ``worth_bound`` only the worth of all steps that can be done.
    """
    model = index_problem(problem)
    clash = start_clash(model)
    if clash:
        return clash
    able = reachable(model, range(len(model.steps)))
    if model.musts - able:
        return explain(model, able)
    found = at_once(model, able, random.Random(seed))
    if found is None:
        return None
    if not _fits(model, found) and model.limit is not None:
        return musts_too_long(model.limit, _total(found), sum(model.seconds[i] for i in model.musts))
    return plan_of(model, able, Arranged(found, sum(model.seconds[i] for i in found)), worth_of(model, able), seed)


def at_once(model: Model, able: frozenset[int], rng: random.Random) -> Ends | None:
    """A valid round of steps among ``able``, of as much worth as is found quickly; None when this way finds none.

    It is over the minutes only where no round of the musts is found that keeps to them.
    """
    found = _arranged(model, able, rng)
    if found is None or not _fits(model, found):
        order = list(found or ())
        found = _shortened(model, able, order, rng) or _shortened(_musts_only(model), able, order, rng)
    return None if found is None else _polished(model, found, rng)


def _total(ends: Ends) -> int:
    return max(ends.values(), default=0)


def _fits(model: Model, ends: Ends) -> bool:
    return model.limit is None or _total(ends) <= model.limit


def _musts_only(model: Model) -> Model:
    """The same with nothing worth anything but the musts, and no limit."""
    steps = tuple(replace(step, worth=0) for step in model.steps)
    return index_problem(replace(model.problem, steps=steps, minutes=None))


def _arranged(model: Model, steps: frozenset[int], rng: random.Random) -> Ends | None:
    """A valid round of exactly these steps, by the first taste that finds one."""
    try:
        orders = infer(model, steps)
    except Contradiction:
        return None
    courses = (build(model, steps, orders, taste, rng) for taste in TASTES)
    return next((course.ends for course in courses if course is not None), None)


def _shortened(model: Model, able: frozenset[int], order: Sequence[int], rng: random.Random) -> Ends | None:
    """A round of the most worth that fits the minutes once the walking is known; None when none is found.

    How many seconds of steps leave enough for the walk is found by trying: what is too much shrinks, what is enough grows.
    """
    room = limit = sum(model.seconds) if model.limit is None else model.limit
    enough, too_much, best = 0, limit + 1, None
    lessons: list[Lesson] = []
    for _ in range(CHOICES):
        choice = choose(model, able, room, 0, lessons)
        lesson = None if choice is None else learn(model, able, choice.steps)
        if lesson is not None:
            lessons.append(lesson)
            continue
        guess = 0
        if choice is None:
            enough = room
        else:
            found = _again(model, choice.steps, order, rng)
            if found is None:
                return best
            found = _polished(model, found, rng)
            order = order or list(found)
            if _fits(model, found):
                best, enough = found, room
            else:
                too_much = room
                guess = min(room, choice.seconds) - (_total(found) - limit)
        if model.limit is None or too_much - enough <= LEAST:
            break
        room = guess if enough < guess < too_much else (enough + too_much) // 2
    return best


def _again(model: Model, steps: frozenset[int], order: Sequence[int], rng: random.Random) -> Ends | None:
    """These steps in the order they stood in, where that still goes; else in an order of their own."""
    kept = [i for i in order if i in steps]
    return (_timed(model, kept) if len(kept) == len(steps) else None) or _arranged(model, steps, rng)


def _timed(model: Model, order: Sequence[int]) -> Ends | None:
    """The steps in this order, each as early as it can be; None where the order breaks a rule."""
    course = begin(model)
    for at, step in enumerate(order, start=1):
        start = course.earliest(step, last=at == len(order))
        if start is None:
            return None
        course.take(step, start)
    return None if any(True for _ in course.missing_at_end()) else course.ends


def _polished(model: Model, ends: Ends, rng: random.Random) -> Ends:
    """The same steps after a short search."""
    scale = Scale(model, frame_of(model, ends))
    better = scale.ends(improve(scale, list(ends), Effort(tries=TRIES), rng))
    return ends if better is None or _total(better) > _total(ends) else better
