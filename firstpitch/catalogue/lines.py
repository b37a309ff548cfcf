"""Walking through the condition lines of kinds, and finding the kinds a line is about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstpitch.catalogue.types import Kind, Needed, Ref

VAN = "van"
"""The kind, and the owner in a line, that every van has without listing it."""
Kinds = Mapping[str, Kind]
Held = tuple[str, str]
"""A kind and the name of one of its conditions."""


def asked_lines(kind: Kind) -> Iterator[tuple[str, Needed]]:
    """Every line that must hold for something, with its key: requires, sustains, when and finish."""
    for step in kind.steps:
        yield from ((f"steps.{step.id}.requires", line) for line in step.requires)
    for name, wait in kind.waits.items():
        yield from ((f"waits.{name}.sustains", line) for line in wait.sustains)
    for place, supply in enumerate(kind.supplies, 1):
        yield from ((f"supplies.{place}.when", line) for line in supply.when)
    for when, lines in kind.finish.items():
        yield from ((f"finish.{when}", line) for line in lines)


def set_lines(kind: Kind) -> Iterator[tuple[str, Ref]]:
    """Every line that a step or wait brings about, with its key."""
    for step in kind.steps:
        yield from ((f"steps.{step.id}.sets", line) for line in step.sets)
    for name, wait in kind.waits.items():
        yield from ((f"waits.{name}.sets", line) for line in wait.sets)


def guard_lines(kind: Kind) -> Iterator[tuple[str, Ref]]:
    """Every line of a guard, with its key."""
    for guard in kind.guards:
        yield from ((f"guards.{guard.id}.never", line) for line in guard.never)


def all_lines(kind: Kind) -> Iterator[tuple[str, Needed]]:
    """Every line of the kind, with its key."""
    yield from asked_lines(kind)
    yield from set_lines(kind)
    yield from guard_lines(kind)


def owners(kind: Kind, owner: str) -> tuple[str, ...]:
    """The keys of the kinds that ``owner`` may be in a line of ``kind``; none when it is no owner."""
    if owner == "self":
        return (kind.key,)
    if owner == VAN:
        return (VAN,)
    return kind.links[owner].kinds if owner in kind.links else ()


def held_by(kind: Kind, line: Ref) -> tuple[Held, ...]:
    """The conditions that ``line`` may be about, one for each kind its owner may be."""
    if line.owner == "self":
        return ((kind.key, line.name),)
    return tuple((key, line.name) for key in owners(kind, line.owner))


def one_owner(kind: Kind, owner: str) -> bool:
    """Whether ``owner`` stands for one kit at most, not for every kit of its kinds."""
    return owner not in kind.links or not kind.links[owner].every


def stands_inside(kinds: Kinds, kind: Kind, at: str) -> bool:
    """Whether a step of ``kind`` at ``at`` is taken inside the van, whichever kind its link turns out to be."""
    return at != "door" and all(kinds[key].stands == "inside" for key in owners(kind, at))


def asked_unsaid(kinds: Kinds, kind: Kind, at: str) -> tuple[str, ...]:
    """The supplies that a step of ``kind`` at ``at`` needs without saying so."""
    inside = ("inside",) if stands_inside(kinds, kind, at) else ()
    return inside if kind.key == VAN else (*inside, "round")
