"""Dates as people say them: a month with a year, and a day where there is one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from firstpitch.film.numerals import DIGITS, ONES, TENS, Number, digits_at, words_at

MONTHS: Final = {
    name: number
    for number, names in enumerate(
        ("january jan", "february feb", "march", "april", "may", "june", "july", "august aug", "september sept", "october oct",
         "november nov", "december dec"), start=1,
    )
    for name in names.split()
}  # fmt: skip
ORDINALS: Final = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
    "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17,
    "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30,
}  # fmt: skip
SHORT_YEARS = range(24, 60)  # “may twenty seven” is a year: what a handover tells of lies in these


def date_at(texts: Sequence[str], at: int) -> Number | None:
    """A month with a year: “January twenty thirty-six”, “May twenty-seven”, “the thirty-first of January 2036”, “11/27”.

    >>> date_at("may twenty seven thirty millibar".split(), 0).date, date_at(["11/27"], 0).date
    ((2027, 5, 0), (2027, 11, 0))
    """
    figures = re.fullmatch(r"([0-9]{1,2})/(20[0-9]{2}|[2-5][0-9])", texts[at])
    if figures and 1 <= int(figures[1]) <= 12:
        year = int(figures[2]) % 100 + 2000
        return Number(at, at + 1, float(year), step=0.0, date=(year, int(figures[1]), 0))
    if texts[at] in ("oh", "o", "zero", "nought") and at + 2 < len(texts) and ONES.get(texts[at + 1]):
        year, after = _year(texts, at + 2, True)
        if year:
            return Number(at, after, float(year), step=0.0, date=(year, ONES[texts[at + 1]], 0))
    day, i = _day(texts, at)
    if i >= len(texts) or texts[i] not in MONTHS:
        day, i = 0, at
        if texts[at] not in MONTHS:
            return None
    month, i = MONTHS[texts[i]], i + 1
    if not day:
        late, j = _day(texts, i) if i < len(texts) else (0, i)
        if late and j < len(texts) and _year(texts, j, False)[0]:
            day, i = late, j
    year, after = _year(texts, i, True)
    if not year:
        return None
    return Number(at, after, float(year), step=0.0, date=(year, month, day))


def _day(texts: Sequence[str], at: int) -> tuple[int, int]:
    i = at + 1 if texts[at] == "the" else at
    if i >= len(texts):
        return 0, at
    text, day, after = texts[i], 0, i + 1
    digits = re.fullmatch(r"([0-9]{1,2})(?:st|nd|rd|th)?", text)
    if digits:
        day = int(digits[1])
    elif text in ORDINALS:
        day = ORDINALS[text]
    elif text in ("twenty", "thirty") and i + 1 < len(texts) and ORDINALS.get(texts[i + 1], 99) < 10:
        day, after = TENS[text] + ORDINALS[texts[i + 1]], i + 2
    if after < len(texts) and texts[after] == "of":
        after += 1
    return (day, after) if 1 <= day <= 31 else (0, at)


def _year(texts: Sequence[str], at: int, short: bool) -> tuple[int, int]:
    """A year: “twenty thirty-six”, “2036”, “two thousand and thirty”; with ``short`` also “thirty six”, “'36”."""
    i = at + 1 if at < len(texts) and texts[at] in ("of", "in") else at
    if i >= len(texts):
        return 0, at
    number = digits_at(texts, i) if DIGITS.fullmatch(texts[i]) else words_at(texts, i)
    if number is not None and not number.value % 1 and 2000 <= number.value <= 2099:
        return int(number.value), number.after
    said = _two_digits(texts, i) if short else 0
    if said in SHORT_YEARS:
        return 2000 + said, i + (2 if texts[i] in TENS and texts[i + 1 : i + 2] and texts[i + 1] in ONES else 1)
    return 0, at


def _two_digits(texts: Sequence[str], i: int) -> int:
    if texts[i] in TENS:
        one = ONES.get(texts[i + 1], 0) if i + 1 < len(texts) else 0
        return TENS[texts[i]] + one
    return int(texts[i]) if re.fullmatch(r"[0-9]{2}", texts[i]) else 0
