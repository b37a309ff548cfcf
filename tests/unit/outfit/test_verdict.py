"""The four words, and what makes a verdict one or the other."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit.judged import Asked, judge
from firstpitch.outfit.verdict import WORST_FIRST, Span, Verdict, compare, exactly, shown_span, worst

figures = st.floats(-1e4, 1e4)
ASKED = Asked("x", "X", "maker's limit", "It weighs", "its limit is")


def test_compare_words() -> None:
    """Within the limit it fits, close to it it is tight, over it it does not fit, across it nobody can say."""
    assert compare(exactly(96.9), 100.0) == "fits"
    assert compare(exactly(97.1), 100.0) == "tight"
    assert compare(exactly(100.0), 100.0) == "tight"
    assert compare(exactly(100.1), 100.0) == "does not fit"
    assert compare(Span(99.0, 101.0), 100.0) == "cannot say"
    assert compare(Span(101.0, math.inf), 100.0) == "does not fit"
    assert compare(Span(0.0, math.inf), 100.0) == "cannot say"


@given(low=figures, extra=st.floats(0, 1e3), limit=st.floats(1, 1e4))
def test_compare_span_agrees_with_its_ends(low: float, extra: float, limit: float) -> None:
    """A span fits only if its worst end does, and does not fit only if its best end does not."""
    word = compare(Span(low, low + extra), limit)
    best, last = compare(exactly(low), limit), compare(exactly(low + extra), limit)
    if word in ("fits", "tight"):
        assert last == word
    if word == "does not fit":
        assert best == "does not fit"
    if word == "cannot say":
        assert best != "does not fit"
        assert last == "does not fit"


@given(number=figures, limit=st.floats(1, 1e4))
def test_margin_is_room_left(number: float, limit: float) -> None:
    """The margin is the limit less the figure, and it is negative exactly when something does not fit."""
    verdict = judge(ASKED, exactly(number), limit)
    assert verdict.margin == pytest.approx(limit - number)
    assert (verdict.word == "does not fit") == (number > limit + 1e-9 * max(1.0, limit))


def test_judge_unknown_limit_never_fits() -> None:
    """An unknown limit is not an infinite one: nobody can say."""
    verdict = judge(ASKED, exactly(1.0), None, unknown=("the limit",))
    assert verdict.word == "cannot say"
    assert verdict.unknown == ("the limit",)
    assert "the limit is not known" in verdict.sentence


@pytest.mark.parametrize("number", [50.0, 200.0])
def test_judge_assumed_never_decides(number: float) -> None:
    """A figure that rests on an assumption neither fits nor fails; it asks to be measured."""
    verdict = judge(ASKED, exactly(number), 100.0, assumed=("the empty van's noseweight",))
    assert verdict.word == "cannot say"
    assert "measure it" in verdict.sentence


def test_worst_order() -> None:
    """One thing that does not fit outweighs all that does; nothing known at all is not a yes."""
    assert worst(list(WORST_FIRST)) == "does not fit"
    assert worst([]) == "cannot say"


def test_guideline_never_binds() -> None:
    """A guideline is never law: it does not count in the whole answer."""
    verdict = Verdict("x", "X", "does not fit", "guideline", "")
    assert not verdict.binding


@given(a=figures, b=st.floats(0, 100), factor=st.floats(-5, 5))
def test_span_times_keeps_order(a: float, b: float, factor: float) -> None:
    """A span stays a span whatever it is multiplied by."""
    found = Span(a, a + b).times(factor)
    assert found.low <= found.high


def test_shown_span_words() -> None:
    """What is not bounded is said to be so, and equal ends read as one figure."""
    assert shown_span(Span(-math.inf, math.inf), "kg") == "unknown"
    assert shown_span(Span(89.6, 90.4), "kg") == "90 kg"
    assert shown_span(Span(-math.inf, 5.0), "kg") == "at most 5 kg"
