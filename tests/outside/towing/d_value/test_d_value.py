"""The D value against the printed example, and its inverse against exact arithmetic."""

from __future__ import annotations

from fractions import Fraction

from firstpitch.outfit.coupling import d_value, largest_trailer


def test_d_value_printed() -> None:
    """A car of 18 t with a trailer of 22 t asks for a coupling of D 97 kN."""
    assert abs(d_value(18_000, 22_000) - 97_000) < 500


def test_d_value_exact() -> None:
    """3.5 t behind 3.5 t asks for exactly 17.1675 kN; a printed 17.7 is a misprint."""
    exact = Fraction(981, 100) * 3500 * 3500 / 7000
    assert abs(d_value(3500, 3500) - float(exact)) < 1e-6
    assert abs(d_value(3500, 3500) - 17_167.5) < 1e-6


def test_largest_trailer_is_the_inverse() -> None:
    """The heaviest trailer for a D value is the one that asks for just that D value."""
    for car, trailer in ((2200, 1500), (2000, 1300), (2505, 1695)):
        assert abs(largest_trailer(d_value(car, trailer), car) - trailer) < 1e-9 * trailer
