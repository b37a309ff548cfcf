"""The newcomers' mass guideline against a dealer's printed figure."""

from __future__ import annotations

import math

from firstpitch.outfit.limits import kerb_needed


def test_kerb_needed_printed() -> None:
    """For a caravan of 1300 kg the guideline asks for a car of 1530 kg."""
    assert math.ceil(kerb_needed(1300)) == 1530
    assert abs(kerb_needed(1300) - 1529.4) < 0.05
