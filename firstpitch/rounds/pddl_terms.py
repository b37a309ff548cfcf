"""The terms that both PDDL writings of a problem share: names made legal and back again, conditions, changes, guards.

PDDL names are letters, digits, hyphens and underscores, and capitals do not count. A full stop becomes two underscores; any other sign
that is not a small letter, a digit or a hyphen becomes its code between underscores. Each sort of thing has a prefix of its own, so
that no two things share a name.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from firstpitch.rounds.types import Effect, Guard, Literally, Problem, Step, Wait

_PLAIN = re.compile(r"[a-z0-9-]")
_TOKEN = re.compile(r"__|_by_|_[0-9a-f]+_|[a-z0-9-]")
NEVER = "(never)"
Values = Mapping[str, tuple[str, ...]]


def mangle(name: str) -> str:
    """``name`` in signs that PDDL allows; ``unmangle`` gives it back.

    >>> mangle("water-heater.element"), mangle("Tap_2")
    ('water-heater__element', '_54_ap_5f_2')
    """
    return "".join(sign if _PLAIN.fullmatch(sign) else "__" if sign == "." else f"_{ord(sign):x}_" for sign in name)


def unmangle(text: str) -> tuple[str, ...]:
    """The name or names that ``text`` was made of; several where they were joined with ``_by_``.

    >>> unmangle("water-heater__element"), unmangle("heating_by_heater__on")
    (('water-heater.element',), ('heating', 'heater.on'))
    """
    parts = [""]
    at = 0
    while at < len(text):
        token = _TOKEN.match(text, at)
        if token is None:
            raise ValueError(f"“{text}” is not a name this program writes")
        sign, at = token.group(), token.end()
        if sign == "_by_":
            parts.append("")
        else:
            parts[-1] += "." if sign == "__" else chr(int(sign[1:-1], 16)) if sign[0] == "_" else sign
    return tuple(parts)


def both(parts: Iterable[str]) -> str:
    """All of several.

    >>> both(["(a)"]), both(["(a)", "(b)"])
    ('(a)', '(and (a) (b))')
    """
    listed = list(parts)
    return listed[0] if len(listed) == 1 else f"(and {' '.join(listed)})"


def either(parts: Iterable[str]) -> str:
    """One of several; of none, what never holds."""
    listed = list(parts)
    return NEVER if not listed else listed[0] if len(listed) == 1 else f"(or {' '.join(listed)})"


def now(condition: str, value: str) -> str:
    """That a condition has a value."""
    return f"(now c-{mangle(condition)} v-{mangle(value)})"


def holds(literal: Literally) -> str:
    """That a condition has one of some values."""
    return either(now(literal.condition, value) for value in sorted(literal.values))


def values(problem: Problem) -> Values:
    """Every condition with every value that the problem names for it, in alphabetical order."""
    found: dict[str, set[str]] = {condition: {value} for condition, value in problem.start.items()}
    for effect in _effects(problem):
        found.setdefault(effect.condition, set()).add(effect.value)
    for literal in _literals(problem):
        found.setdefault(literal.condition, set()).update(literal.values)
    return {condition: tuple(sorted(found[condition])) for condition in sorted(found)}


def _effects(problem: Problem) -> Iterator[Effect]:
    for step in problem.steps:
        yield from step.sets
    for wait in problem.waits:
        yield from wait.sets


def _literals(problem: Problem) -> Iterator[Literally]:
    yield from problem.finish
    for step in problem.steps:
        yield from step.requires
    for wait in problem.waits:
        yield from wait.sustains
    for guard in problem.guards:
        yield from guard.never


def changes(sets: Iterable[Effect], known: Values) -> list[str]:
    """The new value and the end of every other value that the condition can have."""
    return [
        now(effect.condition, value) if value == effect.value else f"(not {now(effect.condition, value)})"
        for effect in sets
        for value in known[effect.condition]
    ]


def able(problem: Problem) -> tuple[Step, ...]:
    """The steps that can be done at all: nothing is missing for them, and they change no condition twice.

    ValueError when a step takes less than a second, or a walk between two places does: PDDL 2.1 keeps an end and a start apart.
    """
    for step in problem.steps:
        if step.seconds < 1:
            raise ValueError(f"the step {step.id} takes {step.seconds} s; written as PDDL a step takes at least 1 s")
    for a, row in problem.walks.items():
        for b, seconds in row.items():
            if a != b and seconds < 1:
                raise ValueError(
                    f"the walk from {a} to {b} takes {seconds} s; written as PDDL a walk takes at least 1 s"
                )
    barred = {missing.step for missing in problem.missing}
    return tuple(s for s in problem.steps if s.id not in barred and not _twice(s.sets))


def _twice(sets: Iterable[Effect]) -> bool:
    changed = [effect.condition for effect in sets]
    return len(set(changed)) < len(changed)


def started(problem: Problem, step: Step) -> list[Wait]:
    """The waits that begin when ``step`` ends."""
    by_id = {wait.id: wait for wait in problem.waits}
    return [by_id[name] for name in step.starts]


def not_all(guard: Guard) -> str:
    """That at least one condition of a guard does not hold."""
    return either(f"(not {holds(literal)})" for literal in guard.never)


def constants(problem: Problem) -> str:
    """Every place, condition, value, step and wait by name."""
    known = values(problem)
    sorts = {
        "place": [f"p-{mangle(place.id)}" for place in problem.places],
        "condition": [f"c-{mangle(condition)}" for condition in known],
        "value": [f"v-{mangle(value)}" for value in sorted({v for row in known.values() for v in row})],
        "step": [f"s-{mangle(step.id)}" for step in problem.steps],
        "wait": [f"w-{mangle(wait)}" for wait in sorted({w.id for w in problem.waits})],
    }
    lines = [f"    {' '.join(names)} - {sort}" for sort, names in sorts.items() if names]
    return "\n".join(["  (:constants", *lines, "  )"])


def goal(problem: Problem) -> list[str]:
    """Every must step done, and what must hold when the round ends."""
    musts = [f"(done s-{mangle(step.id)})" for step in problem.steps if step.level == "must"]
    return [*musts, *map(holds, problem.finish)]


def beginning(problem: Problem) -> list[str]:
    """Where the presenter stands, which steps are still to be done, and what every condition is."""
    return [
        f"(here p-{mangle(problem.start_place)})",
        *(f"(todo s-{mangle(step.id)})" for step in problem.steps),
        *(now(condition, value) for condition, value in sorted(problem.start.items())),
    ]
