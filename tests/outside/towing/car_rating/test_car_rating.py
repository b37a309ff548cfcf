"""The least noseweight rating of a car against the printed example."""

from __future__ import annotations

from firstpitch.outfit.coupling import least_car_rating


def test_least_car_rating_printed() -> None:
    """A car that may tow 3500 kg must carry at least 140 kg on its ball."""
    assert least_car_rating(3500) == 140.0


def test_least_car_rating_floor() -> None:
    """No car that tows at all may be rated below 25 kg."""
    assert least_car_rating(400) == 25.0
