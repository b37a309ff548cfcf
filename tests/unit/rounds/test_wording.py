"""Conditions, times and lists in words."""

from __future__ import annotations

import pytest

from firstpitch.rounds.model import index_problem
from firstpitch.rounds.wording import clock, condition_words, listed, need_words, value_words
from tests.unit.rounds.small import problem, step


def test_values() -> None:
    """Hyphens in a value are spaces in a sentence."""
    assert value_words("in-the-locker") == "in the locker"


def test_conditions() -> None:
    """A condition reads by its label, or its id where it has none, with its values in order of the alphabet."""
    assert (
        condition_words({"t.tap": "hot tap"}, "t.tap", frozenset({"shut", "half-open"})) == "hot tap: half open or shut"
    )
    assert condition_words({}, "t.tap", frozenset({"shut"})) == "t.tap: shut"


def test_needs() -> None:
    """A need of a step reads like its condition."""
    model = index_problem(problem(step("a", asks="tap=shut"), start="tap=shut"))
    assert need_words(model, model.windows[0]) == "tap: shut"


@pytest.mark.parametrize(
    ("seconds", "words"), [(0, "0:00"), (59, "0:59"), (60, "1:00"), (754, "12:34"), (6000, "100:00")]
)
def test_clock(seconds: int, words: str) -> None:
    """Times are minutes and two figures of seconds; hours stay minutes."""
    assert clock(seconds) == words


@pytest.mark.parametrize(
    ("names", "words"),
    [
        ([], ""),
        (["a"], "a"),
        (["a", "b"], "a and b"),
        (["a", "b", "c"], "a, b and 1 more"),
        (["a", "b", "c", "d"], "a, b and 2 more"),
    ],
)
def test_lists(names: list[str], words: str) -> None:
    """Two names are told, the rest counted."""
    assert listed(names, 2) == words
