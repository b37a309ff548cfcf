"""The payload formula of EN 1645-2 against the two printed answers."""

from __future__ import annotations

from firstpitch.outfit.limits import least_payload


def test_least_payload_printed() -> None:
    """A body of 5.2 m with two berths needs 102 kg for personal effects."""
    assert least_payload(5.2, 2) == 102.0


def test_least_payload_printed_uk() -> None:
    """The UK trade body raises the fixed part, so the same van needs 122 kg."""
    assert least_payload(5.2, 2, uk=True) == 122.0
