"""A kept round as the page shows it: parts of the walk with their drawings and steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from django.utils.safestring import SafeString, mark_safe

from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.planning import KeptRound
from firstpitch.papers import way
from firstpitch.papers.drawing import Mark, draw
from firstpitch.papers.drawing.ink import Point
from firstpitch.papers.drawing.signs import State
from firstpitch.papers.drawing.timeline import draw_timeline
from firstpitch.papers.numbering import number_kit
from firstpitch.papers.programme import Stop, clock, minutes_words, stops
from firstpitch.rounds import Problem, Step

_SCALE = 82.0  # units per metre: small enough that numbers are read beside a list
_LEVELS = {"must": "must", "should": "should", "may": "may"}


@dataclass(frozen=True)
class ShownStep:
    """One step of the list: ``wish`` says what somebody asked for it."""

    id: str
    at: str
    title: str
    kit: str
    mark: str
    level: str
    tries: bool
    wish: str


@dataclass(frozen=True)
class ShownStop:
    """Steps one after another at one place."""

    number: int
    where: str
    steps: tuple[ShownStep, ...]


@dataclass(frozen=True)
class Part:
    """Stops in a row outside, or inside, with the walk between them."""

    number: int
    name: str
    times: str
    stops: tuple[ShownStop, ...]
    picture: SafeString


@dataclass(frozen=True)
class ShownLeftOut:
    """A step that is not in the round, and why."""

    id: str
    title: str
    reason: str
    state: State
    wished: bool


def parts_of(opened: OpenVan, kept: KeptRound, options: dict[str, list[str]]) -> tuple[Part, ...]:
    """The round in parts, each time the walk goes through the door a new one."""
    problem = kept.problem
    inside = {place.id: place.inside for place in problem.places}
    marks = {n.kit.id: str(n.number) for n in number_kit(opened.sheet, opened.catalogue)}
    wishes = {step: name for name in ("first", "last") for step in options.get(name, ())}
    found: list[Part] = []
    came = problem.start_place
    for within, group in groupby(stops(problem, kept.plan), key=lambda stop: inside[stop.place]):
        row = list(group)
        picture = _picture(opened, problem, came, row, len(found) + 1)
        found.append(
            Part(
                number=len(found) + 1,
                name="Inside" if within else "Outside",
                times=f"{clock(row[0].start)} to {clock(row[-1].end)}",
                stops=tuple(_stop(problem, stop, marks, wishes) for stop in row),
                picture=picture,
            )
        )
        came = row[-1].place
    return tuple(found)


def _stop(problem: Problem, stop: Stop, marks: dict[str, str], wishes: dict[str, str]) -> ShownStop:
    words = next(p.words for p in problem.places if p.id == stop.place)
    shown = tuple(
        ShownStep(
            step.id,
            clock(timed.start),
            step.title,
            step.kit_name,
            marks.get(step.kit, ""),
            _LEVELS[step.level],
            step.owner_try > 0,
            wishes.get(step.id, ""),
        )
        for step, timed in zip(stop.steps, stop.timed, strict=True)
    )
    return ShownStop(stop.number, words or stop.lane, shown)


def _picture(opened: OpenVan, problem: Problem, came: str, row: Sequence[Stop], number: int) -> SafeString:
    """The walk of one part on the plan, its stops numbered where the presenter stands."""
    places = {place.id: place for place in problem.places}
    route: list[Point] = []
    for here, there in zip([came, *(stop.place for stop in row)], (stop.place for stop in row), strict=False):
        route += way(opened.sheet, places[here], places[there])
    stands = [(stop.number, places[stop.place]) for stop in row]
    marks = [Mark(str(n), f"stop {n}", place.x, place.y, inside=place.inside) for n, place in stands]
    return mark_safe(draw(opened.sheet, marks=marks, route=route, key=f"part{number}", scale=_SCALE))


def timeline_of(kept: KeptRound) -> SafeString:
    """The round in time."""
    return mark_safe(draw_timeline(kept.problem, kept.plan, key="round"))


def left_out_of(kept: KeptRound, without: Sequence[str]) -> tuple[ShownLeftOut, ...]:
    """What the round leaves out, wished or not."""
    titles = {step.id: _named(step) for step in kept.problem.steps}
    return tuple(
        ShownLeftOut(one.step, titles[one.step], one.reason, "left-out", one.step in without)
        for one in kept.plan.left_out
    )


def _named(step: Step) -> str:
    return step.title if step.title.startswith(step.kit_name) else f"{step.kit_name}: {step.title}"


def in_short(kept: KeptRound) -> dict[str, str]:
    """Figures for the head of the sheet."""
    plan = kept.plan
    proof = "No order of these steps is quicker" if plan.proven else f"No order is quicker than {clock(plan.bound)}"
    return {
        "takes": minutes_words(plan.total),
        "steps": str(len(plan.steps)),
        "left_out": str(len(plan.left_out)),
        "proof": proof,
    }
