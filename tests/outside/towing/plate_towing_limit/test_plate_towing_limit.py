"""The towing limit from a car's plate against two printed examples."""

from __future__ import annotations

import pytest

from firstpitch.outfit.limits import towing_limit
from firstpitch.outfit.types import Car


@pytest.mark.parametrize(("gross", "train", "printed"), [(2505, 4200, 1695), (3000, 5000, 2000)])
def test_towing_limit_printed(gross: float, train: float, printed: float) -> None:
    """Gross train mass less gross vehicle mass is the printed towing limit."""
    found, _ = towing_limit(Car("plate", gross_vehicle_mass=gross, gross_train_mass=train))
    assert found == printed
