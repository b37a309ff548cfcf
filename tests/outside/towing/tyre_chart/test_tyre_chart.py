"""The load-pressure law of American-style tyres against printed cells of a chart."""

from __future__ import annotations

import pytest

from firstpitch.outfit.tyres import load_at


@pytest.mark.parametrize(
    ("most", "kpa", "printed"),
    [
        (250, 140, 176),
        (250, 180, 207),
        (250, 200, 222),
        (250, 240, 250),
        (335, 140, 236),
        (335, 200, 298),
        (335, 240, 335),
    ],
)
def test_load_at_printed(most: float, kpa: float, printed: float) -> None:
    """At each printed pressure the tyre carries the printed load."""
    assert abs(load_at(most, kpa * 1e3, american=True) - printed) <= 0.5
