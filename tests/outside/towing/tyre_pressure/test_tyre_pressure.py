"""The pressure law against the printed case."""

from __future__ import annotations

import pytest

from firstpitch.outfit.tyres import pressure_for


@pytest.mark.parametrize(("axle", "printed"), [(1100, 34), (1300, 42)])
def test_pressure_for_printed(axle: float, printed: float) -> None:
    """Half the axle's load on a tyre of 750 kg at 50 psi asks for the printed pressure."""
    assert abs(pressure_for(axle / 2, 750, 50) - printed) <= 0.5
