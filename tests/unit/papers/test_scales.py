"""A figure against its limit on one scale."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import Span
from firstpitch.papers.drawing.scales import draw_figure_scale

MASSES = st.floats(0.01, 1e5)


def pointers(svg: str) -> list[float]:
    """Where the pointers stand [units]."""
    tips = re.findall(r'class="fp-arrow" d="M[\d.]+ [\d.]+L[\d.]+ [\d.]+L([\d.]+) ', svg)
    return sorted(float(tip) for tip in tips)


def limit_at(svg: str) -> float:
    """Where the line of the limit stands [units]."""
    return float(re.findall(r'class="fp-state-heavy" d="M([\d.]+) ', svg)[0])


@given(MASSES, MASSES)
def test_order_on_the_scale(figure: float, limit: float) -> None:
    """The figure stands on the side of the limit where it belongs, and both stand on the scale."""
    svg = draw_figure_scale(Span(figure, figure), limit)
    (at,), line = pointers(svg), limit_at(svg)
    assert 0 <= at <= 380
    assert 0 <= line <= 380
    if abs(figure - limit) > 0.001 * max(figure, limit):
        assert (at < line) == (figure < limit)


@pytest.mark.parametrize("figure", [None, Span(-math.inf, math.inf)])
def test_unknown_is_hatched(figure: Span | None) -> None:
    """A figure nobody knows has no pointer; the whole scale is hatched."""
    svg = draw_figure_scale(figure, 90.0)
    assert pointers(svg) == []
    assert svg.count("fp-wait-hatch") > 30


def test_span_is_hatched_between_two_pointers() -> None:
    """A figure that lies from 68 to 126 kg has a pointer at each end and is hatched between."""
    svg = draw_figure_scale(Span(68.0, 126.0), 90.0)
    low, high = pointers(svg)
    assert low < limit_at(svg) < high
    assert "fp-wait-hatch" in svg


def test_allowed_part_of_a_least_limit() -> None:
    """Where the limit is a lower one, the part above it is the allowed one."""
    most, least = (
        re.findall(r'class="fp-band" x="([\d.]+)"', draw_figure_scale(None, 90.0, least=w)) for w in (False, True)
    )
    assert float(most[0]) == 8.0
    assert float(least[0]) == pytest.approx(limit_at(draw_figure_scale(None, 90.0)), abs=0.01)


def test_read_past_by_screen_readers() -> None:
    """The words beside the scale say the same, so it is hidden from whoever hears the page."""
    assert 'aria-hidden="true"' in draw_figure_scale(Span(66.0, 66.0), 100.0)
