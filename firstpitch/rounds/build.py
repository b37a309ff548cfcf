"""From a build sheet and the catalogue to a planning problem."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import Catalogue, CautionLevel, StartName, StepSpec, WaitSpec
from firstpitch.rounds import ground
from firstpitch.rounds.durations import UnknownTerm, wait_seconds
from firstpitch.rounds.types import Effect, Guard, Literally, Missing, Mode, Place, Problem, Step, Wait
from firstpitch.rounds.walking import Ground, Spot, WalkRates, door_spot, lay_ground, places_and_walks, stand_at
from firstpitch.sheet.types import BuildSheet, FactValue, Kit, Quantity


@dataclass(frozen=True)
class RoundOptions:
    """How the round is to be held.

    ``start`` is a named start state, ``start_values`` conditions that differ from it; ``water`` is how the owner wants the
    water left; ``words_per_minute`` the speaker's pace (> 0; common practice, no source); ``minutes`` None for no limit.
    ``warn`` are the levels of caution that are spoken; with ``brief`` the points are spoken, not the words in full.
    """

    mode: Mode = "handover"
    minutes: float | None = None
    start: StartName = "from-store"
    start_values: Mapping[str, str] = field(default_factory=dict)
    water: Literal["drained", "kept"] = "drained"
    words_per_minute: float = 150.0
    rates: WalkRates = WalkRates()  # noqa: RUF009  (frozen)
    warn: tuple[CautionLevel, ...] = ("stop",)
    brief: bool = False


def build_problem(
    sheet: BuildSheet, catalogue: Catalogue, links: ground.Links, options: RoundOptions = RoundOptions()
) -> Problem:
    """The planning problem of one van. ``links`` are the sheet's links, resolved (``firstpitch.sheet.resolve_links``).

    Raises ValueError when ``start_values`` names a condition the van does not have or a value it cannot take, or a rate is not positive.
    """
    if options.words_per_minute <= 0:
        raise ValueError("the speaking pace must be above zero words a minute")
    van = ground.put_together(sheet, catalogue, links)
    walk_ground = lay_ground(sheet.body, sheet.plan, options.rates)
    start = _start(van, options)
    drafts = [_settled(van, draft, start) for draft in _drafts(van, walk_ground, options)]
    spots = [draft.spot for draft in drafts]
    named, walks = places_and_walks(walk_ground, [door_spot(walk_ground), *spots])
    return Problem(
        van=sheet.identity.name,
        mode=options.mode,
        start_name=options.start if not options.start_values else f"{options.start} with changes",
        start=start,
        finish=_finish(van, options),
        places=tuple(named.values()),
        walks=walks,
        start_place=named[door_spot(walk_ground)].id,
        steps=tuple(_step(van, draft, named[draft.spot], options) for draft in drafts),
        waits=tuple(wait for draft in drafts for wait in draft.waits),
        guards=tuple(_guards(van)),
        minutes=options.minutes,
        missing=tuple(Missing(_step_id(d), lack) for d in drafts for lack in d.lacks),
        labels=_labels(van),
    )


@dataclass(frozen=True)
class _Draft:
    """A step on its way from the catalogue to the problem."""

    kit: Kit
    spec: StepSpec
    spot: Spot
    requires: tuple[Literally, ...]
    waits: tuple[Wait, ...]
    lacks: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def _step_id(draft: _Draft) -> str:
    return f"{draft.kit.id}.{draft.spec.id}"


def _drafts(van: ground.Van, walk_ground: Ground, options: RoundOptions) -> Iterator[_Draft]:
    shown: set[tuple[str, str]] = set()
    told: set[tuple[str, str]] = set()
    for kit in van.kit.values():
        for spec in van.kind(kit).steps:
            if options.mode not in spec.modes or (spec.per == "kind" and (kit.kind, spec.id) in shown):
                continue
            shown.add((kit.kind, spec.id))
            cautions = tuple(text for text in _warned(van, kit, spec, options) if (kit.kind, text) not in told)
            told |= {(kit.kind, text) for text in cautions}
            yield replace(_draft(van, walk_ground, kit, spec), cautions=cautions)


def _warned(van: ground.Van, kit: Kit, spec: StepSpec, options: RoundOptions) -> Iterator[str]:
    """The cautions that are spoken before this step and that its own words do not hold already."""
    kind = van.kind(kit)
    for caution in kind.cautions:
        if caution.level in options.warn and spec.id in caution.steps and caution.text not in spec.say:
            yield fill(caution.text, kit.facts, kind.facts)


def _draft(van: ground.Van, walk_ground: Ground, kit: Kit, spec: StepSpec) -> _Draft:
    spot, at_lacks = _spot(van, walk_ground, kit, spec)
    needs = ground.ground_all(van, kit, spec.requires)
    if spot.inside:
        needs = ground.join([needs, ground.ground_supply(van, kit, "inside")])
    if kit.id != ground.VAN:
        needs = ground.join([needs, ground.ground_supply(van, kit, "round")])
    waits: list[Wait] = []
    lacks = [*at_lacks, *needs.lacks]
    for name in spec.starts:
        wait, wait_lacks = _wait(van, kit, van.kind(kit).waits[name])
        waits.append(wait)
        lacks += wait_lacks
    return _Draft(kit, spec, spot, needs.literals, tuple(waits), tuple(dict.fromkeys(lacks)))


def _settled(van: ground.Van, draft: _Draft, start: Mapping[str, str]) -> _Draft:
    """The draft, where waits that have nothing left to do at the start last a second.

    Water that is hot already needs no heating. That is only sure while it stays so: the short wait needs its own outcome to hold.
    """
    asked = {need.condition: need.values for need in draft.requires}
    turned = {effect.condition for effect in _sets(van, draft)}
    waits = []
    for wait in draft.waits:
        done = bool(wait.sets) and all(
            start[e.condition] == e.value
            and e.condition not in turned
            and e.value in asked.get(e.condition, frozenset({e.value}))
            for e in wait.sets
        )
        kept = tuple(Literally(e.condition, frozenset({e.value})) for e in wait.sets)
        waits.append(replace(wait, seconds=1, sustains=(*wait.sustains, *kept)) if done else wait)
    return replace(draft, waits=tuple(waits))


def _spot(van: ground.Van, walk_ground: Ground, kit: Kit, spec: StepSpec) -> tuple[Spot, list[str]]:
    if spec.at == "door":
        return door_spot(walk_ground), []
    held = ground.owners(van, kit, spec.at)
    at = held[0] if held else kit
    if at.id == ground.VAN:
        return door_spot(walk_ground), []
    lacks = [] if held else [ground.lacking_link(van, kit, spec.at)]
    return stand_at(walk_ground, at.x, at.y, inside=van.kind(at).stands == "inside"), lacks


def _wait(van: ground.Van, kit: Kit, spec: WaitSpec) -> tuple[Wait, list[str]]:
    def look(term: str) -> FactValue | None:
        if term == "cold_water":
            cold = van.sheet.cold_water
            return None if cold is None else Quantity(cold, "K", "")
        owner, _, fact = term.rpartition(".")
        held = ground.owners(van, kit, owner or "self")
        return held[0].facts.get(fact) if held else None

    seconds = wait_seconds(spec.duration, look)
    sustains = ground.ground_all(van, kit, spec.sustains)
    lacks = list(sustains.lacks)
    if isinstance(seconds, UnknownTerm):
        lacks.append(
            f"How long “{spec.title}” takes cannot be worked out: the sheet lacks {_term_words(van, kit, seconds.term)}."
        )
        seconds = 1
    sets = tuple(e for ref in spec.sets for e in _effects(van, kit, ref.owner, ref.name, ref.values[0]))
    return Wait(f"{kit.id}.{spec.id}", kit.id, spec.title, seconds, sustains.literals, sets), lacks


def _term_words(van: ground.Van, kit: Kit, term: str) -> str:
    if term == "cold_water":
        return "the temperature of the cold water (cold_water)"
    owner, _, fact = term.rpartition(".")
    held = ground.owners(van, kit, owner or "self")
    if not held:
        return f"the {owner.replace('_', ' ')} that {kit.name} needs"
    spec = van.kind(held[0]).facts.get(fact)
    return f"“{spec.what if spec else fact}” of {held[0].name} (kit {held[0].id}, fact {fact})"


def _effects(van: ground.Van, kit: Kit, owner: str, name: str, value: str) -> tuple[Effect, ...]:
    return tuple(Effect(f"{k.id}.{name}", value) for k in ground.owners(van, kit, owner))


def _sets(van: ground.Van, draft: _Draft) -> tuple[Effect, ...]:
    """What the step of a draft changes."""
    return tuple(e for ref in draft.spec.sets for e in _effects(van, draft.kit, ref.owner, ref.name, ref.values[0]))


def _step(van: ground.Van, draft: _Draft, place: Place, options: RoundOptions) -> Step:
    kit, spec, kind = draft.kit, draft.spec, van.kind(draft.kit)
    say = fill(_brief(spec) if options.brief else spec.say, kit.facts, kind.facts)
    spoken = sum(len(text.split()) for text in (*draft.cautions, say)) * 60 / options.words_per_minute
    own_try = spec.owner_try if options.mode == "handover" else 0.0
    return Step(
        id=_step_id(draft),
        kit=kit.id,
        kit_name=kit.name,
        topic=kind.topic,
        title=spec.title,
        place=place.id,
        seconds=max(1, math.ceil(spoken + spec.hands + own_try)),
        level=spec.level,
        worth=spec.worth,
        requires=draft.requires,
        sets=_sets(van, draft),
        starts=tuple(wait.id for wait in draft.waits),
        awaits=tuple(f"{kit.id}.{name}" for name in spec.awaits),
        say=say,
        points=spec.points,
        cautions=draft.cautions,
        spoken=math.ceil(spoken),
        hands=math.ceil(spec.hands),
        owner_try=math.ceil(own_try),
    )


def _brief(spec: StepSpec) -> str:
    """The points of a step as short sentences; the words in full where it has none."""
    return " ".join(f"{point[:1].upper()}{point[1:].rstrip('.')}." for point in spec.points) or spec.say


def _guards(van: ground.Van) -> Iterator[Guard]:
    for kit in van.kit.values():
        for spec in van.kind(kit).guards:
            combinations = ground.ground_never(van, kit, spec.never)
            for number, never in enumerate(combinations, start=1):
                tail = f".{number}" if len(combinations) > 1 else ""
                yield Guard(f"{kit.id}.{spec.id}{tail}", kit.id, never, spec.harm)


def _start(van: ground.Van, options: RoundOptions) -> dict[str, str]:
    allowed = {f"{kit.id}.{c.name}": c for kit in van.kit.values() for c in van.kind(kit).conditions.values()}
    for name, value in options.start_values.items():
        if name not in allowed:
            raise ValueError(f"the start names “{name}”, a condition this van does not have")
        if value not in allowed[name].values:
            raise ValueError(f"the start sets {name} to “{value}”; it can be {', '.join(allowed[name].values)}")
    return {name: options.start_values.get(name, c.start[options.start]) for name, c in allowed.items()}


def _finish(van: ground.Van, options: RoundOptions) -> tuple[Literally, ...]:
    parts = (
        ground.ground_all(van, kit, van.kind(kit).finish.get(when, ()))
        for kit in van.kit.values()
        for when in ("always", options.water)
    )
    return ground.join(parts).literals


def _labels(van: ground.Van) -> dict[str, str]:
    labels: dict[str, str] = {}
    for kit in van.kit.values():
        kind = van.kind(kit)
        alone = len(van.sheet.by_kind(kit.kind)) <= 1
        for condition in kind.conditions.values():
            labels[f"{kit.id}.{condition.name}"] = condition.what if alone else f"{condition.what} ({kit.name})"
    return labels
