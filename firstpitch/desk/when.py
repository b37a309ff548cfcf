"""A day and time as people write it: “tomorrow 10:30”, “Fri 4 Dec 2pm”, “4/12 at 14.00”, “2026-12-04 10:30”."""

from __future__ import annotations

import re
from calendar import isleap
from datetime import date, datetime, time, timedelta

_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_TIME = re.compile(
    r"\b(?:at )?(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)\b|\b(?:at )?(\d{1,2})[:.](\d{2})\b(?![/.-]\d)|\bat (\d{1,2})\b"
)
_ISO = re.compile(r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b")
_SLASHED = re.compile(r"\b(\d{1,2})[/.-](\d{1,2})(?:[/.-](\d{2}|\d{4}))?\b")
_NAMED = re.compile(r"\b(\d{1,2})(?:st|nd|rd|th)? (?:of )?([a-z]{3,9})\.?(?:,? (\d{4}))?\b")
_IN_DAYS = re.compile(r"\bin (\d{1,3}) (day|week)s?\b")
_FILL = re.compile(r"\b(?:the|on|at|next|this|noon|midday)\b|[,;]")
_CENTURY = 2000
_JUST_GONE = 60
_LEAP_DAY, _FEBRUARY = 29, 2
EXAMPLES = "“tomorrow 10:30”, “Fri 4 Dec 2pm” or “4/12 at 14:00”"


class WhenError(ValueError):
    """A text that is no day with a time; the message says what is missing."""


def read_when(text: str, today: date) -> datetime:
    """The day and time in ``text``, without a zone; ``today`` gives “tomorrow” and a missing year their meaning.

    A day without a year is the next such day. WhenError says what was not understood.

    >>> read_when("Fri 4 Dec 2pm", date(2026, 11, 25))
    datetime.datetime(2026, 12, 4, 14, 0)
    """
    plain = re.sub(r"(\d{4}-\d{1,2}-\d{1,2})t(\d)", r"\1 \2", " ".join(text.lower().split()))
    iso_free, day = _iso(plain)
    rest, at = _time(iso_free)
    if day is None:
        rest, day = _day(rest, today)
    rest, named = _weekday(rest, today)
    if day is None:
        day = named
    elif named is not None and named.weekday() != day.weekday():
        raise WhenError(f"{day.day} {day:%B %Y} is a {day:%A}, not a {named:%A}; check the day.")
    left = _FILL.sub(" ", rest).split()
    if left:
        raise WhenError(f"“{' '.join(left)[:40]}” is not understood; write for example {EXAMPLES}.")
    if day is None:
        raise WhenError(f"The day is missing; write for example {EXAMPLES}.")
    if at is None:
        raise WhenError(f"The time is missing; write for example {EXAMPLES}.")
    return datetime.combine(day, at)


def _without(text: str, found: re.Match[str]) -> str:
    return f"{text[: found.start()]} {text[found.end() :]}"


def _iso(text: str) -> tuple[str, date | None]:
    found = _ISO.search(text)
    if not found:
        return text, None
    return _without(text, found), _date(int(found[1]), int(found[2]), int(found[3]))


def _time(text: str) -> tuple[str, time | None]:
    if re.search(r"\b(?:noon|midday)\b", text):
        return text, time(12)
    every = list(_TIME.finditer(text))
    if not every:
        return text, None
    # “4.12 14.30” is a day and a time: of several, the one that can only be a time, else the last.
    found = next((one for one in every if one[3] or ":" in one[0] or "at " in one[0]), every[-1])
    hour, minute = int(found[1] or found[4] or found[6]), int(found[2] or found[5] or 0)
    half = found[3]
    if half and not 1 <= hour <= 12:  # noqa: PLR2004
        raise WhenError(f"“{found[0].strip()}” is not a time; with am or pm the hour is from 1 to 12.")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    try:
        return _without(text, found), time(hour, minute)
    except ValueError:
        raise WhenError(f"“{found[0].strip()}” is not a time of day.") from None


def _date(year: int, month: int, day: int) -> date:
    try:
        return date(year, month, day)
    except ValueError:
        raise WhenError(f"{day}/{month}/{year} is not a day in the calendar; write day, month, year.") from None


def _next(day: int, month: int, today: date) -> date:
    """The next day with this date, from today on; WhenError for one that has only just gone by."""
    for year in range(today.year, today.year + 9):  # 29 February may be eight years away
        if day == _LEAP_DAY and month == _FEBRUARY and not isleap(year):
            continue
        found = _date(year, month, day)
        if found >= today:
            return found
        if (today - found).days <= _JUST_GONE:
            raise WhenError(f"{found.day} {found:%B} has gone by; write the year if you mean {today.year + 1}.")
    raise WhenError(f"{day}/{month} is not a day in the calendar; write day, month, year.")


def _day(text: str, today: date) -> tuple[str, date | None]:
    for words, away in (("day after tomorrow", 2), ("today", 0), ("tomorrow", 1), ("tmrw", 1)):
        if re.search(rf"\b{words}\b", text):
            return re.sub(rf"\b{words}\b", " ", text), today + timedelta(days=away)
    found = _IN_DAYS.search(text)
    if found:
        return _without(text, found), today + timedelta(days=int(found[1]) * (7 if found[2] == "week" else 1))
    found = _NAMED.search(text)
    if found and _month(found[2]):
        day, month = int(found[1]), _month(found[2])
        return _without(text, found), _date(int(found[3]), month, day) if found[3] else _next(day, month, today)
    found = _SLASHED.search(text)
    if not found:
        return text, None
    day, month, year = int(found[1]), int(found[2]), int(found[3] or 0)
    year += _CENTURY if found[3] and len(found[3]) == 2 else 0  # noqa: PLR2004
    return _without(text, found), _date(year, month, day) if found[3] else _next(day, month, today)


def _month(word: str) -> int:
    """The number of a month, 0 for a word that is none."""
    return next((i for i, name in enumerate(_MONTHS, 1) if name.startswith(word)), 0)


def _weekday(text: str, today: date) -> tuple[str, date | None]:
    for number, name in enumerate(_DAYS):
        found = re.search(rf"\b{name[:3]}(?:{'|'.join(name[3:i] for i in range(len(name), 3, -1))})?\b", text)
        if found:
            away = (number - today.weekday()) % 7 or 7
            return _without(text, found), today + timedelta(days=away)
    return text, None
