"""Conditions and times in words."""

from __future__ import annotations

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


def clock(seconds: int) -> str:
    """Seconds as minutes and seconds.

    >>> clock(754)
    '12:34'
    """
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02d}"
