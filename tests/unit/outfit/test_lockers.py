"""Which thing may go where."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import LoadItem
from firstpitch.outfit.lockers import fits_in, lockers_for, why_not
from tests.unit.outfit.vans import FRONT, HIGH, LEAD, LOCKERS, REAR

side = st.floats(0.05, 1.5)
BOX = LoadItem("box", "Box", 5.0, (0.4, 0.3, 0.2))


@given(item=st.tuples(side, side, side), space=st.tuples(side, side, side))
def test_fits_in_upright_is_stricter(item: tuple[float, float, float], space: tuple[float, float, float]) -> None:
    """What fits standing upright fits; and a box that fits one way round fits however it is written down."""
    if fits_in(item, space, upright=True):
        assert fits_in(item, space)
    assert fits_in(item, space) == fits_in((item[2], item[0], item[1]), space)


@pytest.mark.parametrize(
    ("changes", "locker", "reason"),
    [
        ({}, FRONT, ""),
        ({"reach": "inside"}, FRONT, "reached from inside"),
        ({"reach": "outside"}, HIGH, "reached from outside"),
        ({"never_in": ("front",)}, FRONT, "never be there"),
        ({"only_in": ("rear",)}, FRONT, "belongs in another"),
        ({"fixed": "rear"}, FRONT, "fixed place elsewhere"),
        ({"size": (2.0, 0.1, 0.1)}, FRONT, "too big"),
        ({"size": (0.3, 0.3, 0.4), "upright": True}, HIGH, "standing upright"),
        ({"mass": 13.0}, HIGH, "heavier than that locker's limit"),
    ],
)
def test_why_not(changes: dict[str, object], locker: object, reason: str) -> None:
    """Every rule that keeps a thing out of a locker gives its reason."""
    found = why_not(replace(BOX, **changes), locker)  # type: ignore[arg-type]
    assert reason in found
    assert bool(found) == bool(reason)


def test_unknown_limit_refuses() -> None:
    """Nobody can say what a locker of unknown limit bears, so nothing is put there."""
    assert "not on the build sheet" in why_not(BOX, replace(REAR, limit=None))


def test_lockers_for() -> None:
    """The lead must be got at from outside: only the two outside lockers will do."""
    assert [locker.id for locker in lockers_for(LEAD, LOCKERS)] == ["front", "rear"]
