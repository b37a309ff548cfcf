"""The load-pressure law against printed cells of a textbook's table."""

from __future__ import annotations

import pytest

from firstpitch.outfit.tyres import load_at, load_of


@pytest.mark.parametrize(
    ("index", "bar", "printed"),
    [
        (75, 1.5, 255), (75, 1.8, 300), (75, 2.0, 325), (75, 2.2, 350), (75, 2.5, 387),
        (84, 1.5, 330), (84, 2.0, 420), (84, 2.5, 500),
        (87, 1.5, 360), (87, 2.0, 455), (87, 2.5, 545),
    ],
)  # fmt: skip
def test_load_at_printed(index: int, bar: float, printed: float) -> None:
    """At each printed pressure the tyre carries the printed load within half a step of the table."""
    most = load_of(index)
    assert most is not None
    assert abs(load_at(most, bar * 1e5) - printed) <= 2.5
