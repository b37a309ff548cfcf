"""A day and time as people write it."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.desk.when import WhenError, read_when

TODAY = date(2026, 11, 25)  # a Wednesday

UNDERSTOOD = {
    "tomorrow 10:30": datetime(2026, 11, 26, 10, 30),
    "day after tomorrow 8am": datetime(2026, 11, 27, 8, 0),
    "Fri 4 Dec 2pm": datetime(2026, 12, 4, 14, 0),
    "4/12 at 14.00": datetime(2026, 12, 4, 14, 0),
    "4.12 14.30": datetime(2026, 12, 4, 14, 30),
    "4.12.2026 14:00": datetime(2026, 12, 4, 14, 0),
    "14:00 4 dec": datetime(2026, 12, 4, 14, 0),
    "2026-12-04T10:30": datetime(2026, 12, 4, 10, 30),
    "4th of December 2026, 10.15": datetime(2026, 12, 4, 10, 15),
    "today noon": datetime(2026, 11, 25, 12, 0),
    "12am tomorrow": datetime(2026, 11, 26, 0, 0),
    "12pm tomorrow": datetime(2026, 11, 26, 12, 0),
    "Friday at 9": datetime(2026, 11, 27, 9, 0),
    "wednesday 10am": datetime(2026, 12, 2, 10, 0),
    "next Tuesday 9.30am": datetime(2026, 12, 1, 9, 30),
    "in 2 weeks 10am": datetime(2026, 12, 9, 10, 0),
    "3 mar 2.30pm": datetime(2027, 3, 3, 14, 30),
    "29 feb 10am": datetime(2028, 2, 29, 10, 0),
}

REFUSED = {
    "10:30": "The day is missing",
    "tomorrow": "The time is missing",
    "soon": "“soon” is not understood",
    "tomorrow 10:30 sharp": "“sharp” is not understood",
    "31/2 10am": "not a day in the calendar",
    "Thu 4 Dec 10am": "4 December 2026 is a Friday, not a Thursday",
    "24/11 10am": "24 November has gone by; write the year if you mean 2027",
    "13pm tomorrow": "“13pm” is not a time",
    "tomorrow 25:00": "“25:00” is not a time of day",
    "": "The day is missing",
}


@pytest.mark.parametrize("text", list(UNDERSTOOD))
def test_read_when(text: str) -> None:
    """What people in Britain write for a day and time is understood: day before month, next such day where the year is left out."""
    assert read_when(text, TODAY) == UNDERSTOOD[text]


@pytest.mark.parametrize("text", list(REFUSED))
def test_read_when_refused(text: str) -> None:
    """What is missing, doubtful or no day is said, never guessed."""
    with pytest.raises(WhenError, match=REFUSED[text].replace("?", r"\?")):
        read_when(text, TODAY)


@given(st.datetimes(datetime(2026, 11, 26), datetime(2027, 9, 1)).map(lambda d: d.replace(second=0, microsecond=0)))
def test_read_when_round_trip(moment: datetime) -> None:
    """Any moment written the ways the desk itself writes it reads back as that moment."""
    for text in (
        f"{moment:%a} {moment.day} {moment:%b %Y %H:%M}",
        f"{moment.day}/{moment.month}/{moment.year} at {moment:%H:%M}",
    ):
        assert read_when(text, TODAY) == moment


@given(st.text(max_size=40))
def test_read_when_never_breaks(text: str) -> None:
    """Whatever is typed gives a moment or a sentence."""
    said = ""
    try:
        found = read_when(text, TODAY)
    except WhenError as wrong:
        said, found = str(wrong), None
    assert found is not None or said.endswith(".")
