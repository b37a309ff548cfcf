"""Tyre date codes against the printed readings."""

from __future__ import annotations

import pytest

from firstpitch.outfit.tyres import made_on


@pytest.mark.parametrize(("code", "year", "week"), [("3805", 2005, 38), ("0204", 2004, 2), ("1218", 2018, 12)])
def test_made_on_printed(code: str, year: int, week: int) -> None:
    """The first two digits are the week, the last two the year."""
    made = made_on(code)
    assert made is not None
    assert made.isocalendar()[:2] == (year, week)


def test_made_on_three_digits() -> None:
    """Three digits are from before 2000 and are not read as a date; a page that reads 598 as May 1998 is wrong."""
    assert made_on("598") is None
