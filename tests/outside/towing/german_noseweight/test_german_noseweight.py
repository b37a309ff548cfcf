"""The German least noseweight against the printed answer and the wording of the rule."""

from __future__ import annotations

import pytest

from firstpitch.outfit.coupling import least_noseweight_germany


def test_least_noseweight_printed() -> None:
    """A trailer of 600 kg needs 24 kg on the ball."""
    assert least_noseweight_germany(600) == 24.0


@pytest.mark.parametrize("mass", [625, 700, 1330, 3500])
def test_least_noseweight_never_above_25(mass: float) -> None:
    """From 625 kg on 25 kg is enough."""
    assert least_noseweight_germany(mass) == 25.0
