"""The script of a film: shot by shot in round order, with what must be said before each act and the figures from the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from firstpitch.catalogue.texts import fact_words, fill
from firstpitch.catalogue.types import CautionLevel, Kind
from firstpitch.film.types import Script, Shot
from firstpitch.rounds.types import Plan, Problem, Step
from firstpitch.sheet.types import BuildSheet, Kit


def script_of(
    sheet: BuildSheet,
    kinds: Mapping[str, Kind],
    problem: Problem,
    plan: Plan,
    words_per_minute: float,
    *,
    warn: tuple[CautionLevel, ...] = ("stop", "care"),
) -> Script:
    """The shots of ``plan``, a round of ``problem`` in mode ``film`` at ``words_per_minute``.

    A caution of the levels ``warn`` is said once for a kind of kit, in the first shot it warns of: always before the act; one that
    stands for the whole kit in the kit's first shot. Figures are those the kit's card shows, at the first shot of kit that is alike
    (four corner steadies have one first shot); an unknown one says where to read it. A shot lasts as long as its words and hands
    take; none begins before the plan has it, so that every wait is over.
    """
    steps = {step.id: step for step in problem.steps}
    kits = sheet.kit_by_id()
    seen: set[tuple[str, str]] = set()
    told: set[tuple[str, str]] = set()
    shots: list[Shot] = []
    planned_end = end = 0
    for number, timed in enumerate(plan.steps, start=1):
        step = steps[timed.step]
        kit = kits.get(step.kit)
        kind = kinds[kit.kind if kit else step.kit]
        alike = (kind.key, repr(sorted(kit.facts.items())) if kit else "")
        cautions = tuple(_due(kind, step, kit, warn, told, first=alike not in seen))
        walk = max(0, timed.start - planned_end)
        start = max(timed.start, end + walk)
        seconds = math.ceil(_words(step.say, *cautions) * 60 / words_per_minute + step.hands) or 1
        shot = _shot(number, problem, step, kit, kind, first=alike not in seen)
        shots.append(replace(shot, cautions=cautions, walk=start - end, start=start, seconds=seconds))
        seen.add(alike)
        planned_end, end = timed.end, start + seconds
    left = tuple(f"{steps[out.step].title} ({steps[out.step].kit_name}): {out.reason}" for out in plan.left_out)
    return Script(problem.van, tuple(shots), end, words_per_minute, left)


def _words(*texts: str) -> int:
    return sum(len(text.split()) for text in texts)


def _shot(number: int, problem: Problem, step: Step, kit: Kit | None, kind: Kind, *, first: bool) -> Shot:
    place = next(place for place in problem.places if place.id == step.place)
    titles = {wait.id: wait.title for wait in problem.waits}
    facts = kit.facts if kit else {}
    return Shot(
        number=number,
        step=step.id,
        kit=step.kit,
        title=step.title,
        place=place.words,
        sees=_sees(step),
        cautions=(),
        points=tuple(fill(point, facts, kind.facts) for point in step.points),
        say=step.say,
        figures=dict(_figures(kit, kind)) if first and kit else {},
        walk=0,
        start=0,
        seconds=0,
        waits=tuple(titles[wait] for wait in step.starts),
    )


def _due(
    kind: Kind, step: Step, kit: Kit | None, warn: tuple[CautionLevel, ...], told: set[tuple[str, str]], *, first: bool
) -> Iterator[str]:
    """The cautions to say in this shot that were not said yet, the gravest first; they go into ``told``."""
    spec = step.id.removeprefix(f"{step.kit}.")
    for level in warn:
        for caution in kind.cautions:
            text = fill(caution.text, kit.facts if kit else {}, kind.facts)
            here = spec in caution.steps or (first and not caution.steps)
            if caution.level == level and here and (kind.key, text) not in told and text not in step.say:
                told.add((kind.key, text))
                yield text


def _sees(step: Step) -> str:
    """What the camera looks at: wide where it stands, then close; the hands where hands are at work."""
    return f"{step.kit_name}: wide, so that one sees where it is, then {'the hands' if step.hands else 'the thing itself'} close up"


def _figures(kit: Kit, kind: Kind) -> Iterator[tuple[str, str]]:
    for name in kind.card.figures:
        value = kit.facts.get(name)
        yield (
            kind.facts[name].what,
            fact_words(value) if value is not None else "not on the sheet: read it off the plate",
        )
