"""Hand-made problems in few words.

Conditions are written ``"tap=open, pump=on|off"``. Places a, b and c lie on a line at 0, 5 and 12 m, walked at one metre a second;
the presenter begins at a.
"""

from __future__ import annotations

from collections.abc import Iterable

from firstpitch.rounds import Effect, Guard, Literally, Missing, Place, Problem, Step, TimedStep, Wait

PLACES = tuple(Place(name, x, 0.0, inside=False) for name, x in (("a", 0.0), ("b", 5.0), ("c", 12.0)))
WALKS = {one.id: {other.id: int(abs(one.x - other.x)) for other in PLACES} for one in PLACES}


def pairs(text: str) -> list[tuple[str, str]]:
    """The names and values of a text such as ``"tap=open, pump=on"``."""
    return [(name, value) for name, _, value in (part.strip().partition("=") for part in text.split(",")) if name]


def needs(text: str) -> tuple[Literally, ...]:
    """Conditions that must hold; several allowed values stand with a bar between."""
    return tuple(Literally(name, frozenset(value.split("|"))) for name, value in pairs(text))


def effects(text: str) -> tuple[Effect, ...]:
    """What is set."""
    return tuple(Effect(name, value) for name, value in pairs(text))


def step(
    name: str,
    seconds: int = 10,
    *,
    place: str = "a",
    level: str = "must",
    worth: int | None = None,
    asks: str = "",
    sets: str = "",
    starts: str = "",
    awaits: str = "",
    topic: str = "water",
    kit: str = "van",
) -> Step:
    """A step called ``name``, a must unless told otherwise."""
    return Step(
        id=name,
        kit=kit,
        kit_name=kit,
        topic=topic,
        title=name.capitalize(),
        place=place,
        seconds=seconds,
        level=level,  # type: ignore[arg-type]
        worth=(0 if level == "must" else 1) if worth is None else worth,
        requires=needs(asks),
        sets=effects(sets),
        starts=tuple(starts.split()),
        awaits=tuple(awaits.split()),
    )


def wait(name: str, seconds: int, *, keeps: str = "", sets: str = "") -> Wait:
    """A wait that lasts ``seconds``, needs ``keeps`` all the while and sets ``sets`` when it is over."""
    return Wait(name, "van", name.capitalize(), seconds, needs(keeps), effects(sets))


def guard(name: str, never: str, harm: str = "Harm is done.") -> Guard:
    """What must never hold together."""
    return Guard(name, "van", needs(never), harm)


def problem(
    *steps: Step,
    start: str = "",
    finish: str = "",
    waits: Iterable[Wait] = (),
    guards: Iterable[Guard] = (),
    minutes: float | None = None,
    missing: Iterable[Missing] = (),
) -> Problem:
    """A problem of these steps."""
    return Problem(
        van="small",
        mode="handover",
        start_name="small",
        start=dict(pairs(start)),
        finish=needs(finish),
        places=PLACES,
        walks=WALKS,
        start_place="a",
        steps=steps,
        waits=tuple(waits),
        guards=tuple(guards),
        minutes=minutes,
        missing=tuple(missing),
    )


def timed(of: Problem, *begins: tuple[str, int]) -> list[TimedStep]:
    """A sequence from names and starting seconds; each step lasts as long as it should."""
    length = {s.id: s.seconds for s in of.steps}
    return [TimedStep(name, start, start + length[name]) for name, start in begins]
