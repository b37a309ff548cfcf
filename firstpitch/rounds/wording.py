"""Conditions and times in words."""

from __future__ import annotations

from collections.abc import Sequence

from firstpitch.rounds.model import Model, Window


def value_words(value: str) -> str:
    """A condition's value as it reads in a sentence.

    >>> value_words("under-water")
    'under water'
    """
    return value.replace("-", " ")


def condition_words(labels: dict[str, str], condition: str, values: frozenset[str]) -> str:
    """A condition with the values it should have.

    >>> condition_words({"hob.lid": "hob lid"}, "hob.lid", frozenset({"up"}))
    'hob lid: up'
    """
    return f"{labels.get(condition, condition)}: {' or '.join(sorted(map(value_words, values)))}"


def need_words(model: Model, window: Window) -> str:
    """A need in words."""
    return condition_words(dict(model.problem.labels), model.conditions[window.condition], window.values)


def listed(names: Sequence[str], most: int) -> str:
    """So many names in a row, the rest counted.

    >>> listed(["the hob", "the heater"], 2), listed(["the hob", "the heater", "the fridge", "the grill"], 2)
    ('the hob and the heater', 'the hob, the heater and 2 more')
    """
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def clock(seconds: int) -> str:
    """Seconds as minutes and seconds.

    >>> clock(754)
    '12:34'
    """
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02d}"
