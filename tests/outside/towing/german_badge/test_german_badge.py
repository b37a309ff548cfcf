"""The factors of the German 100 km/h badge against the printed masses."""

from __future__ import annotations

from typing import Any

import pytest

from firstpitch.outfit.law import badge_factor

CASES = [
    (1500, {"trailer": "other", "brake": False, "dampers": False, "stabiliser": False}, 450),
    (1500, {"trailer": "other", "brake": True, "dampers": True, "stabiliser": False}, 1650),
    (1500, {"trailer": "other", "brake": True, "dampers": True, "stabiliser": True}, 1800),
    (1300, {"trailer": "caravan", "brake": True, "dampers": True, "stabiliser": True}, 1300),
]


@pytest.mark.parametrize(("car", "trailer", "printed"), CASES)
def test_badge_factor_printed(car: float, trailer: dict[str, Any], printed: float) -> None:
    """The car's empty mass times the factor is the printed greatest mass of the trailer."""
    assert round(car * badge_factor(**trailer), 6) == printed
