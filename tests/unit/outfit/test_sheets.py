"""Reading load and stow sheets."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import Placed, Stow, nose_scale, stow_text
from firstpitch.outfit.coupling import nose_band
from firstpitch.outfit.sheets import read_load_text, read_stow_text
from firstpitch.outfit.verdict import Span
from firstpitch.sheet import SheetError
from tests.unit.outfit.vans import KINDS, LOAD, LOCKERS, kit, outfit, quantity, van

TODAY = date(2027, 5, 1)
HEAD = "firstpitch: 1\nload:\n  name: Test\nitems: []\n"
TANK = van(kit("tank", "tank", 3.0, volume=quantity(0.04, "l")))


@given(
    places=st.lists(
        st.tuples(st.sampled_from(["awning", "lead"]), st.sampled_from([locker.id for locker in LOCKERS])),
        unique_by=lambda pair: pair[0],
    )
)
def test_stow_is_read_back_as_written(places: list[tuple[str, str]]) -> None:
    """A stow written as a sheet is the same stow when it is read."""
    stow = Stow(tuple(Placed(item, locker) for item, locker in places))
    assert read_stow_text(stow_text(stow), LOAD, van(), today=TODAY) == stow


def test_stow_of_more_than_there_is() -> None:
    """Three food boxes are stowed and the load has two: refused."""
    text = stow_text(Stow((Placed("food", "front", 2), Placed("food", "rear", 1))))
    with pytest.raises(SheetError, match="3 of “food” are stowed, but the load has 2"):
        read_stow_text(text, LOAD, van(), today=TODAY)


def test_readings_for_each_axle() -> None:
    """Two axle loads for a van of one axle: refused."""
    with pytest.raises(SheetError, match="2 axle loads stand here, but this van has 1"):
        read_load_text(f"{HEAD}readings:\n  axles: [600 kg, 600 kg]\n", van(), KINDS, today=TODAY)


@pytest.mark.parametrize(
    ("row", "said"),
    [("kit: tank, volume: 50 l", "more than it holds"), ("kit: coupling, volume: 5 l", "holds water on the road")],
)
def test_water_where_it_can_be(row: str, said: str) -> None:
    """No tank holds more than its figure, and only what holds water can have any."""
    with pytest.raises(SheetError, match=said):
        read_load_text(f"{HEAD}water:\n  - {{ {row} }}\n", TANK, KINDS, today=TODAY)


def test_scale_shows_every_limit() -> None:
    """On the noseweight scale stand all known limits, one of them as the ruling one, and the bands."""
    scale = nose_scale(nose_band(outfit(), 1300.0), Span(80.0, 85.0))
    assert [mark.low for mark in scale.marks if mark.role == "ruling"] == [90.0]
    assert {mark.low for mark in scale.marks if mark.role == "limit"} == {100.0, 120.0}
    assert {"guideline", "preferred", "now"} <= {mark.role for mark in scale.marks}
    assert all(mark.high < scale.top for mark in scale.marks)
