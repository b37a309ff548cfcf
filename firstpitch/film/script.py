"""The script of a film: shot by shot in round order, with what must be said before each act and the figures from the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstpitch.catalogue.texts import fact_words, fill
from firstpitch.catalogue.types import Caution, Kind
from firstpitch.film.types import Script, Shot
from firstpitch.rounds.types import Plan, Problem, Step
from firstpitch.sheet.types import BuildSheet, Kit

_TO_BE_SAID = ("stop", "care")


def script_of(
    sheet: BuildSheet, kinds: Mapping[str, Kind], problem: Problem, plan: Plan, words_per_minute: float
) -> Script:
    """The shots of ``plan``, a round of ``problem`` in mode ``film`` at ``words_per_minute``.

    A caution that stands for a whole kit is said in the first shot of that kit, one that names steps in each shot of them: always
    before the act. Figures are those the kit's card shows, at the kit's first shot; an unknown one says where to read it.
    Kit that is alike (four corner steadies) has one first shot.
    """
    steps = {step.id: step for step in problem.steps}
    kits = sheet.kit_by_id()
    seen: set[tuple[str, str]] = set()
    shots: list[Shot] = []
    before = 0
    for number, timed in enumerate(plan.steps, start=1):
        step = steps[timed.step]
        kit = kits.get(step.kit)
        kind = kinds[kit.kind if kit else step.kit]
        alike = (kind.key, repr(sorted(kit.facts.items())) if kit else "")
        first = alike not in seen
        seen.add(alike)
        shots.append(_shot(number, problem, step, kit, kind, first=first, start=timed.start, before=before))
        before = timed.end
    left = tuple(f"{steps[out.step].title} ({steps[out.step].kit_name}): {out.reason}" for out in plan.left_out)
    return Script(problem.van, tuple(shots), plan.total, words_per_minute, left)


def _shot(
    number: int, problem: Problem, step: Step, kit: Kit | None, kind: Kind, *, first: bool, start: int, before: int
) -> Shot:
    place = next(place for place in problem.places if place.id == step.place)
    titles = {wait.id: wait.title for wait in problem.waits}
    facts = kit.facts if kit else {}
    spec = step.id.removeprefix(f"{step.kit}.")
    return Shot(
        number=number,
        step=step.id,
        kit=step.kit,
        title=step.title,
        place=place.words,
        sees=_sees(step),
        cautions=tuple(fill(c.text, facts, kind.facts) for c in _due(kind, spec, first=first)),
        points=tuple(fill(point, facts, kind.facts) for point in step.points),
        say=step.say,
        figures=dict(_figures(kit, kind)) if first and kit else {},
        walk=max(0, start - before),
        start=start,
        seconds=step.seconds,
        waits=tuple(titles[wait] for wait in step.starts),
    )


def _due(kind: Kind, spec: str, *, first: bool) -> Iterator[Caution]:
    """The cautions of this shot, the gravest first."""
    for level in _TO_BE_SAID:
        yield from (c for c in kind.cautions if c.level == level and (spec in c.steps or (first and not c.steps)))


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
