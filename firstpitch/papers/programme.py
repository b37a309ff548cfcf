"""The round as a programme: stops (steps one after another at one place), with their times and words for the place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from firstpitch.rounds.types import Place, Plan, Problem, Step, TimedStep

LANES = ("front", "nearside", "rear", "offside", "inside, front", "inside, rear")
_MINUTE = 60
_BESIDE = 0.05  # a place this near the outermost line [m] is on a side, not round the front or rear


@dataclass(frozen=True)
class Stop:
    """Steps one after another at one place; times in seconds from the start of the round."""

    number: int
    start: int
    end: int
    place: str
    lane: str
    steps: tuple[Step, ...]
    timed: tuple[TimedStep, ...]


def lanes(problem: Problem) -> Mapping[str, str]:
    """For each place of the round, the part of the van it belongs to (one of ``LANES``)."""
    out = [p for p in problem.places if not p.inside]
    within = [p for p in problem.places if p.inside]
    reach = max((abs(p.y) for p in out), default=0.0)
    middle_out = _middle(out)
    middle_in = _middle(within)
    named: dict[str, str] = {}
    for place in problem.places:
        if place.inside:
            named[place.id] = "inside, front" if place.x < middle_in else "inside, rear"
        elif reach and abs(place.y) >= reach - _BESIDE:
            named[place.id] = "nearside" if place.y > 0 else "offside"
        else:
            named[place.id] = "front" if place.x < middle_out else "rear"
    return MappingProxyType(named)


def _middle(places: list[Place]) -> float:
    return (min(p.x for p in places) + max(p.x for p in places)) / 2 if places else 0.0


def stops(problem: Problem, plan: Plan) -> tuple[Stop, ...]:
    """The plan's steps gathered into stops, numbered from 1."""
    by_id = {step.id: step for step in problem.steps}
    where = lanes(problem)
    groups: list[list[TimedStep]] = []
    for timed in plan.steps:
        if groups and by_id[groups[-1][-1].step].place == by_id[timed.step].place:
            groups[-1].append(timed)
        else:
            groups.append([timed])
    return tuple(
        Stop(
            number=i,
            start=group[0].start,
            end=group[-1].end,
            place=by_id[group[0].step].place,
            lane=where[by_id[group[0].step].place],
            steps=tuple(by_id[t.step] for t in group),
            timed=tuple(group),
        )
        for i, group in enumerate(groups, start=1)
    )


def clock(seconds: int) -> str:
    """Minutes and seconds from the start, or hours too when the round is long.

    >>> clock(0), clock(75), clock(3700)
    ('0:00', '1:15', '1:01:40')
    """
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def minutes_words(seconds: int) -> str:
    """A length of time in words.

    >>> minutes_words(40), minutes_words(60), minutes_words(5430)
    ('40 seconds', '1 minute', '1 hour 31 minutes')
    """
    if seconds < _MINUTE:
        return f"{seconds} second{'' if seconds == 1 else 's'}"
    whole = -(-seconds // 60)
    hours, minutes = divmod(whole, 60)
    parts = [f"{n} {unit}{'' if n == 1 else 's'}" for n, unit in ((hours, "hour"), (minutes, "minute")) if n]
    return " ".join(parts)


@dataclass(frozen=True)
class StopLine:
    """A stop as printed: what is shown there, thing by thing, with the number of each on the drawing."""

    number: int
    time: str
    where: str
    things: tuple[ThingLine, ...]


@dataclass(frozen=True)
class ThingLine:
    """One thing shown at a stop. ``tries``: the owner has a go."""

    mark: str
    name: str
    steps: tuple[str, ...]
    tries: bool


@dataclass(frozen=True)
class LeftOutLine:
    """A step that the round leaves out, and why."""

    step: str
    reason: str


@dataclass(frozen=True)
class Programme:
    """The round as printed. ``problem`` and ``plan`` are kept for its picture."""

    total: str
    bound: str
    mode: str
    stops: tuple[StopLine, ...]
    waits: tuple[str, ...]
    left_out: tuple[LeftOutLine, ...]
    problem: Problem
    plan: Plan


def programme(problem: Problem, plan: Plan, numbers: Mapping[str, int]) -> Programme:
    """The plan in words; ``numbers`` gives each kit's number on the drawing."""
    steps = {step.id: step for step in problem.steps}
    titles = {wait.id: wait.title for wait in problem.waits}
    places = {place.id: place.words for place in problem.places}
    return Programme(
        total=minutes_words(plan.total),
        bound=minutes_words(plan.bound),
        mode=problem.mode,
        stops=tuple(_stop_line(stop, numbers, places) for stop in stops(problem, plan)),
        waits=tuple(f"{titles.get(w.wait, w.wait)}: {clock(w.start)} to {clock(w.end)}" for w in plan.waits),
        left_out=tuple(_left_out_line(steps, left.step, left.reason) for left in plan.left_out),
        problem=problem,
        plan=plan,
    )


def _left_out_line(steps: Mapping[str, Step], step_id: str, reason: str) -> LeftOutLine:
    step = steps.get(step_id)
    return LeftOutLine(f"{step.kit_name}: {step.title}" if step else step_id, reason)


def _short_title(step: Step) -> str:
    """The step's title without the name of its kit in front, which the line has already."""
    rest = step.title.removeprefix(f"{step.kit_name}: ")
    return rest[:1].upper() + rest[1:]


def _stop_line(stop: Stop, numbers: Mapping[str, int], places: Mapping[str, str]) -> StopLine:
    things: list[ThingLine] = []
    for step in stop.steps:
        mark = str(numbers.get(step.kit, ""))
        title = _short_title(step)
        if things and (things[-1].mark, things[-1].name) == (mark, step.kit_name):
            last = things.pop()
            things.append(ThingLine(mark, last.name, (*last.steps, title), tries=last.tries or step.owner_try > 0))
        else:
            things.append(ThingLine(mark, step.kit_name, (title,), step.owner_try > 0))
    return StopLine(stop.number, clock(stop.start), places[stop.place] or stop.lane, tuple(things))
