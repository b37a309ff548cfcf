"""Spoken numbers: words and digits to values, with ranges, fractions, dates and the words they came from."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

ONES: Final = {
    "zero": 0, "nought": 0, "naught": 0, "nil": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9,
}  # fmt: skip
TEENS: Final = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18,
    "nineteen": 19,
}  # fmt: skip
TENS: Final = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}  # fmt: skip
SCALES: Final = {"hundred": 100, "thousand": 1000, "million": 1_000_000}
PARTS: Final = {
    "half": 0.5, "halves": 0.5, "quarter": 0.25, "quarters": 0.25, "third": 1 / 3, "thirds": 1 / 3, "eighth": 0.125, "eighths": 0.125,
    "tenth": 0.1, "tenths": 0.1,
}  # fmt: skip
SIGNS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
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
# Heard for one another; the stress that parts them is often lost in recognition. Common knowledge, no source.
CONFUSED: Final = {
    13: 30, 14: 40, 15: 50, 16: 60, 17: 70, 18: 80, 19: 90, 30: 13, 40: 14, 50: 15, 60: 16, 70: 17, 80: 18, 90: 19,
}  # fmt: skip
BREAK: Final = "|"
_DIGITS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?|[0-9]*\.[0-9]+|[0-9]+")
_TOKEN = re.compile(
    r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?|[0-9]+[:][0-9]{2}|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+(?:st|nd|rd|th)\b|[0-9]+|[½¼¾⅓⅔⅛°%£]|-(?=[0-9])|–"
    r"|[^\W\d_]+(?:['’][^\W\d_]+)*²?"
)


@dataclass(frozen=True)
class Token:
    """A piece of heard speech: lower case, with the number of the heard word it is in, and whether a stop or a comma follows it."""

    text: str
    word: int
    stop: bool = False
    comma: bool = False


@dataclass(frozen=True)
class Number:
    """A number read from tokens [``first``, ``after``). ``most`` is the far end of a range.

    ``step`` is the worth of one in the last digit spoken (“four point two”: 0.1; “twelve hundred”: 100); ``date`` is (year, month,
    day), day 0 when it was not spoken. ``other`` is the value it may have been misheard for.
    """

    first: int
    after: int
    value: float
    most: float | None = None
    step: float = 1.0
    other: float | None = None
    date: tuple[int, int, int] | None = None


def tokens_of(words: Sequence[str]) -> tuple[Token, ...]:
    """The tokens of heard words.

    >>> [t.text for t in tokens_of(["A", "thirteen-kilo", "bottle,", "1.5kW", "10–12"])]
    ['a', 'thirteen', 'kilo', 'bottle', '1.5', 'kw', '10', '–', '12']
    """
    found: list[Token] = []
    for number, word in enumerate(words):
        parts = _TOKEN.findall(word.lower().replace("’", "'"))
        bare = word.rstrip("\"')”’")
        stop, comma = bare.endswith((".", "?", "!", ";")), bare.endswith((",", ":"))
        found += [
            Token(part, number, stop and i == len(parts), comma and i == len(parts))
            for i, part in enumerate(parts, start=1)
        ]
    return tuple(found)


def read_numbers(tokens: Sequence[Token]) -> tuple[Number, ...]:
    """Every number in ``tokens``, in order; ranges and dates are one number each.

    >>> [(n.value, n.most) for n in read_numbers(tokens_of("ten to twelve litres and two thirty volts".split()))]
    [(10.0, 12.0), (230.0, None)]
    >>> [n.value for n in read_numbers(tokens_of("four and a quarter , a quarter turn , point five , a hundred and fifty".split()))]
    [4.25, 0.25, 0.5, 150.0]
    """
    texts: list[str] = []
    for token in tokens:
        # Nothing is read across a comma or a stop: “one, two, three” is not 123.
        texts += [token.text, BREAK] if token.stop or token.comma else [token.text]
    index = {place: i for i, place in enumerate(i for i, text in enumerate(texts) if text != BREAK)}
    found: list[Number] = []
    at = 0
    while at < len(texts):
        number = None if texts[at] == BREAK else _date(texts, at) or _range(texts, at)
        if number is None:
            at += 1
            continue
        at = number.after
        found.append(replace(number, first=index[number.first], after=index[number.after - 1] + 1))
    return tuple(found)


def _range(texts: Sequence[str], at: int) -> Number | None:
    low = _number(texts, at)
    if low is None or low.after + 1 >= len(texts):
        return low
    between = at > 0 and texts[at - 1] == "between" and texts[low.after] == "and"
    if between or texts[low.after] in ("to", "or", "-", "–", "till"):
        high = _number(texts, low.after + 1)
        if high is None:
            return low
        start = low.value
        scale = SCALES.get(texts[high.after - 1], 1)
        if scale > 1 and 0 < start < scale and start * scale < high.value:
            start *= scale  # “two to three hundred” is two hundred to three hundred
        if start < high.value <= start * 10 + 10:
            step = min(low.step, high.step)
            return replace(low, value=start, most=high.value, after=high.after, step=step, other=None)
    return low


def _number(texts: Sequence[str], at: int) -> Number | None:
    """One number without range at ``at``."""
    if texts[at] == "minus" and at + 1 < len(texts):
        inner = _number(texts, at + 1)
        return replace(inner, first=at, value=-inner.value, other=None) if inner else None
    if texts[at] == "-" and at + 1 < len(texts) and (at == 0 or not _DIGITS.fullmatch(texts[at - 1])):
        inner = _digits(texts, at + 1)
        return replace(inner, first=at, value=-inner.value) if inner else None
    whole = _digits(texts, at) or _words(texts, at)
    if whole is None:
        return _part(texts, at)
    return _with_part(texts, whole)


def _digits(texts: Sequence[str], at: int) -> Number | None:
    if at >= len(texts):
        return None
    text = texts[at]
    if "/" in text and text[0].isdigit():
        top, bottom = text.split("/")
        return Number(at, at + 1, int(top) / int(bottom), step=0.0) if int(bottom) else None
    if not _DIGITS.fullmatch(text):
        return None
    plain = text.replace(",", "")
    decimals = len(plain.split(".")[1]) if "." in plain else 0
    value, after, step = float(plain), at + 1, 10.0**-decimals
    while after < len(texts) and texts[after] in SCALES:
        value, step, after = value * SCALES[texts[after]], step * SCALES[texts[after]], after + 1
    if step == 1.0 and value and value % 100 == 0:
        step = 10.0
    other = CONFUSED.get(int(value)) if value in CONFUSED else None
    return Number(at, after, value, step=step, other=other)


def _words(texts: Sequence[str], at: int) -> Number | None:
    """A number in words: hundreds and thousands, “two thirty”, “twelve fifty”, digit by digit, “point five”."""
    spelled = _spelled(texts, at)
    if spelled:
        return _decimals(texts, spelled) or spelled
    value, after, step = _cardinal(texts, at)
    if after == at:
        if texts[at] == "point":
            return _decimals(texts, Number(at, at, 0.0))
        return None
    number = Number(at, after, float(value), step=float(step), other=_misheard(texts[at:after], value))
    return _decimals(texts, number) or number


def _spelled(texts: Sequence[str], at: int) -> Number | None:
    """Digits said one by one: “one oh two oh”, “one one five”; not counting up, and not two digits alone."""
    digits: list[int] = []
    i = at
    while i < len(texts) and (texts[i] in ONES or (texts[i] in ("oh", "o") and digits)):
        digits.append(ONES.get(texts[i], 0))
        i += 1
    counting = all(b - a == 1 for a, b in pairwise(digits))
    if len(digits) < 3 or counting or not digits[0] or (i < len(texts) and texts[i] in (*SCALES, *PARTS)):
        return None
    return Number(at, i, float("".join(map(str, digits))))


def _decimals(texts: Sequence[str], whole: Number) -> Number | None:
    at = whole.after
    if at >= len(texts) or texts[at] != "point":
        return None
    digits = ""
    at += 1
    while at < len(texts):
        digit = (
            "0"
            if texts[at] in ("oh", "o")
            else str(ONES[texts[at]])
            if texts[at] in ONES
            else texts[at]
            if texts[at].isdecimal()
            else ""
        )
        if not digit and texts[at] in TENS and not digits:
            digit = str(TENS[texts[at]] // (10 if at + 1 < len(texts) and texts[at + 1] in ONES else 1))
        elif not digit and texts[at] in TEENS and not digits:
            digit = str(TEENS[texts[at]])
        if not digit:
            break
        digits, at = digits + digit, at + 1
    if not digits:
        return None
    return replace(whole, after=at, value=whole.value + float(f"0.{digits}"), step=10.0 ** -len(digits), other=None)


def _cardinal(texts: Sequence[str], at: int) -> tuple[int, int, int]:
    """Value, the token after it and the worth of its last digit; the token is ``at`` when there is no number."""
    total, group, i, step, ran = 0, None, at, 1, False
    while i < len(texts):
        small, after, unit = _small(texts, i)
        if after > i and group is None:
            group, i, step = small, after, unit
        elif after > i and group is not None and group >= 100 and group % 100 == 0 and small < 100:
            group, i, step = group + small, after, unit
        elif after > i and group is not None and _runs_on(group, small, texts[i]):
            group, i, step, ran = group * (100 if small >= 10 else 10) + small, after, unit, True
        elif texts[i] in SCALES and not ran and (group is not None or _article(texts, at, i)):
            scale = SCALES[texts[i]]
            group = (1 if group is None else group) * scale
            step = scale
            i += 1
            if scale >= 1000:
                total, group = total + group, None
        elif (
            texts[i] in ("a", "an")
            and group is None
            and total == 0
            and i == at
            and i + 1 < len(texts)
            and texts[i + 1] in SCALES
        ) or (texts[i] == "and" and i > at and _joins(texts, i, group, total)):
            i += 1
        else:
            break
    if group is None and total == 0 and (i == at or texts[i - 1] in ("a", "an")):
        return 0, at, 1
    return total + (group or 0), i, step


def _article(texts: Sequence[str], at: int, i: int) -> bool:
    return i == at or (i == at + 1 and texts[at] in ("a", "an"))


def _joins(texts: Sequence[str], i: int, group: int | None, total: int) -> bool:
    """“and” belongs to the number after hundreds or thousands, before a smaller number."""
    if i + 1 >= len(texts) or not ((group is not None and group % 100 == 0 and group) or (group is None and total)):
        return False
    small, after, _ = _small(texts, i + 1)
    return after > i + 1 and 0 < small < 100


def _runs_on(group: int, small: int, text: str) -> bool:
    """“two thirty”, “twelve fifty”: figures read off in two halves."""
    return small >= 10 and 1 <= group <= 99 and not (text in TEENS and group > 20 and group % 10 == 0)


def _small(texts: Sequence[str], i: int) -> tuple[int, int, int]:
    """A number below a hundred."""
    text = texts[i]
    if text in TENS:
        if i + 1 < len(texts) and texts[i + 1] in ONES and ONES[texts[i + 1]]:
            return TENS[text] + ONES[texts[i + 1]], i + 2, 1
        return TENS[text], i + 1, 1
    if text in TEENS:
        return TEENS[text], i + 1, 1
    if text in ONES:
        return ONES[text], i + 1, 1
    return 0, i, 1


def _misheard(texts: Sequence[str], value: int) -> float | None:
    """What the number would be with its -teen heard as -ty or the other way round."""
    last = texts[-1]
    small = TEENS.get(last) or TENS.get(last)
    if small in CONFUSED:
        return float(value - small + CONFUSED[small])
    return None


def _part(texts: Sequence[str], at: int) -> Number | None:
    """A fraction by itself: “half”, “a quarter”, “three quarters”, “¾”. “a third” needs “of” or the like; “the third” is an ordinal."""
    text = texts[at]
    if text in SIGNS:
        return Number(at, at + 1, SIGNS[text], step=0.0)
    if text in ("half", "halves"):
        return Number(at, at + 1, 0.5, step=0.0)
    if (
        text in ("a", "an", "one")
        and at + 1 < len(texts)
        and texts[at + 1] in ("quarter", "half", "third", "eighth", "tenth")
    ):
        return Number(at, at + 2, PARTS[texts[at + 1]], step=0.0)
    if text == "quarter":
        return Number(at, at + 1, 0.25, step=0.0)
    return None


def _with_part(texts: Sequence[str], whole: Number) -> Number:
    """“four and a quarter”, “two and three quarters”, “three quarters”, “4 ½”."""
    at = whole.after
    if at < len(texts) and texts[at] in SIGNS:
        return replace(whole, after=at + 1, value=whole.value + SIGNS[texts[at]], step=0.0, other=None)
    if at < len(texts) and texts[at] in PARTS and texts[at].endswith("s") and 2 <= whole.value <= 9:
        return replace(whole, after=at + 1, value=whole.value * PARTS[texts[at]], step=0.0, other=None)
    if at + 1 < len(texts) and texts[at] == "and":
        if texts[at + 1] in PARTS and texts[at + 1] == "half":
            return replace(whole, after=at + 2, value=whole.value + 0.5, step=0.0, other=None)
        if at + 2 < len(texts) and texts[at + 1] in ("a", "an", "one") and texts[at + 2] in PARTS:
            return _scaled(
                texts, replace(whole, after=at + 3, value=whole.value + PARTS[texts[at + 2]], step=0.0, other=None)
            )
        top = ONES.get(texts[at + 1])
        if top and at + 2 < len(texts) and texts[at + 2] in PARTS and texts[at + 2].endswith("s"):
            return replace(whole, after=at + 3, value=whole.value + top * PARTS[texts[at + 2]], step=0.0, other=None)
    return whole


def _scaled(texts: Sequence[str], number: Number) -> Number:
    """“one and a half thousand”."""
    if number.after < len(texts) and texts[number.after] in SCALES:
        return replace(number, after=number.after + 1, value=number.value * SCALES[texts[number.after]])
    return number


def _date(texts: Sequence[str], at: int) -> Number | None:
    """A month with a year: “January twenty thirty-six”, “the thirty-first of January 2036”, “14th November 2025”."""
    day, i = _day(texts, at)
    if i >= len(texts) or texts[i] not in MONTHS:
        day, i = 0, at
        if texts[at] not in MONTHS:
            return None
    month, i = MONTHS[texts[i]], i + 1
    if not day:
        late, j = _day(texts, i) if i < len(texts) else (0, i)
        if late and j < len(texts) and _year(texts, j)[0]:
            day, i = late, j
    year, after = _year(texts, i)
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


def _year(texts: Sequence[str], at: int) -> tuple[int, int]:
    i = at + 1 if at < len(texts) and texts[at] in ("of", "in") else at
    if i >= len(texts):
        return 0, at
    number = _digits(texts, i) or _words(texts, i)
    if number is None or number.value % 1:
        return 0, at
    if 2000 <= number.value <= 2099:
        return int(number.value), number.after
    return (0, at)
