"""One plain number at a time: words and digits to a value, and the words they came from."""

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
# Heard for one another; the stress that parts them is often lost in recognition. Common knowledge, no source.
CONFUSED: Final = {
    13: 30, 14: 40, 15: 50, 16: 60, 17: 70, 18: 80, 19: 90, 30: 13, 40: 14, 50: 15, 60: 16, 70: 17, 80: 18, 90: 19,
}  # fmt: skip
NOUGHTS: Final = ("oh", "o", "owe")
ROUND: Final = 0.03
DIGITS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?|[0-9]+,[0-9]{1,2}|[0-9]*\.[0-9]+|[0-9]+")
_TOKEN = re.compile(
    r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?(?![0-9])|[0-9]+,[0-9]{1,2}(?![0-9])|[0-9]+[:][0-9]{2}|[0-9]+/[0-9]+|[0-9]*\.[0-9]+"
    r"|[0-9]+(?:st|nd|rd|th)\b|[0-9]+|[½¼¾⅓⅔⅛°%£$€]|-(?=[0-9])|–|[^\W\d_]+(?:['’][^\W\d_]+)*[²³]?"
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

    ``step`` is the worth of one in the last digit spoken (“four point two”: 0.1; a round hundred less); ``date`` is (year, month,
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


def digits_at(texts: Sequence[str], at: int) -> Number | None:
    """A number in digits: “1,300”, “0,9”, “1 300”, “1 2 5 0”, “4 point 2”, “2 hundred”.

    >>> digits_at(["1", "2", "5", "0"], 0).value, digits_at(["1", "300"], 0).value, digits_at(["4", "point", "25"], 0).value
    (1250.0, 1300.0, 4.25)
    """
    if at >= len(texts):
        return None
    text = texts[at]
    if "/" in text and text[0].isdigit():
        top, bottom = map(int, text.split("/"))
        return Number(at, at + 1, top / bottom, step=0.0) if 0 < top < bottom <= 16 else None
    if not DIGITS.fullmatch(text):
        return None
    split = _split_digits(texts, at)
    if split:
        return split
    plain = text.replace(",", "" if re.search(r",[0-9]{3}", text) else ".")
    decimals = len(plain.split(".")[1]) if "." in plain else 0
    value, after, step = float(plain), at + 1, 10.0**-decimals
    while after < len(texts) and texts[after] in SCALES:
        value, step, after = value * SCALES[texts[after]], step * SCALES[texts[after]], after + 1
    step = step if decimals else _rounded(value, step)
    other = CONFUSED.get(int(value)) if value in CONFUSED else None
    number = Number(at, after, value, step=step, other=other)
    return (_decimals(texts, number) if value % 1 == 0 else None) or number


def _split_digits(texts: Sequence[str], at: int) -> Number | None:
    """Digits written one by one, or thousands with a space: three digits after one or two."""
    i = at
    while i < len(texts) and len(texts[i]) == 1 and texts[i].isdecimal():
        i += 1
    digits = [int(text) for text in texts[at:i]]
    if len(digits) >= 3 and digits[0] and not _counts_up(digits):
        return Number(at, i, float("".join(texts[at:i])))
    more = texts[at + 1] if at + 1 < len(texts) else ""
    if len(texts[at]) <= 2 and texts[at].isdecimal() and texts[at][0] != "0" and len(more) == 3 and more.isdecimal():
        return Number(at, at + 2, float(texts[at] + more), step=_rounded(float(texts[at] + more), 1.0))
    return None


def _counts_up(digits: Sequence[int]) -> bool:
    return all(b - a == 1 for a, b in pairwise(digits)) or list(digits) == [3, 2, 1]


def words_at(texts: Sequence[str], at: int) -> Number | None:
    """A number in words: hundreds and thousands, “two thirty”, “twelve fifty”, digit by digit, “point five”."""
    spelled = _spelled(texts, at)
    if spelled:
        return _decimals(texts, spelled) or spelled
    value, after, step = _cardinal(texts, at)
    if after == at:
        if texts[at] == "point":
            return _decimals(texts, Number(at, at, 0.0))
        if texts[at] in NOUGHTS and at + 1 < len(texts) and texts[at + 1] == "point":
            return _decimals(texts, Number(at, at + 1, 0.0))
        return None
    number = Number(at, after, float(value), step=_rounded(value, step), other=_misheard(texts[at:after], value))
    return _decimals(texts, number) or number


def _rounded(value: float, step: float) -> float:
    """What one in the last digit is worth; round hundreds and thousands are meant to about 3 %, not to half a hundred."""
    return 2 * ROUND * value if step >= 100 or (value and value % 100 == 0) else float(step)


def _spelled(texts: Sequence[str], at: int) -> Number | None:
    """Digits said one by one: “one oh two oh”, “double seven oh”; not counting up, and not two digits alone."""
    digits: list[int] = []
    i = at
    while i < len(texts):
        double = texts[i] == "double" and i + 1 < len(texts)
        text = texts[i + 1] if double else texts[i]
        if not (text in ONES or (text in NOUGHTS and (digits or double))):
            break
        digits += [ONES.get(text, 0)] * (2 if double else 1)
        i += 2 if double else 1
    if i < len(texts) and texts[i] == "point" and len(digits) < 4:
        return None
    if len(digits) < 3 or _counts_up(digits) or not digits[0] or (i < len(texts) and texts[i] in (*SCALES, *PARTS)):
        return None
    return Number(at, i, float("".join(map(str, digits))))


def _decimals(texts: Sequence[str], whole: Number) -> Number | None:
    at = whole.after
    if at >= len(texts) or texts[at] != "point":
        return None
    digits = ""
    at += 1
    while at < len(texts):
        digit = _decimal(texts, at, bool(digits))
        if not digit:
            break
        digits, at = digits + digit, at + 1
    if not digits:
        return None
    return replace(whole, after=at, value=whole.value + float(f"0.{digits}"), step=10.0 ** -len(digits), other=None)


def _decimal(texts: Sequence[str], at: int, later: bool) -> str:
    """The digits that a word after the point stands for; “point twenty five” is .25."""
    text = texts[at]
    if text in NOUGHTS:
        return "0"
    if text in ONES:
        return str(ONES[text])
    if text.isdecimal():
        return text
    if text in TENS and not later:
        return str(TENS[text] // (10 if at + 1 < len(texts) and texts[at + 1] in ONES else 1))
    return str(TEENS[text]) if text in TEENS and not later else ""


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
        elif group is not None and not ran and 10 <= group <= 99 and _nought_and_one(texts, i):
            group, i, step, ran = group * 100 + ONES[texts[i + 1]], i + 2, 1, True
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
            and texts[i + 1 : i + 2]
            and texts[i + 1] in SCALES
        ) or (texts[i] == "and" and i > at and _joins(texts, i, group, total)):
            i += 1
        else:
            break
    if group is None and total == 0 and (i == at or texts[i - 1] in ("a", "an")):
        return 0, at, 1
    return total + (group or 0), i, step


def _nought_and_one(texts: Sequence[str], i: int) -> bool:
    """“nineteen oh five”: a nought between the halves of a figure read off in two."""
    return texts[i] in NOUGHTS and i + 1 < len(texts) and ONES.get(texts[i + 1], 0) > 0


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
