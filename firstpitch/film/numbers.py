"""Spoken numbers in running talk: values with ranges, fractions and dates, and the words they came from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from firstpitch.film.dates import date_at
from firstpitch.film.numerals import DIGITS, ONES, PARTS, SCALES, Number, Token, digits_at, words_at

SIGNS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
BREAK: Final = "|"


def read_numbers(tokens: Sequence[Token]) -> tuple[Number, ...]:
    """Every number in ``tokens``, in order; ranges and dates are one number each.

    >>> from firstpitch.film.numerals import tokens_of
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
        number = None if texts[at] == BREAK else date_at(texts, at) or _range(texts, at)
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
    if texts[at] == "-" and at + 1 < len(texts) and (at == 0 or not DIGITS.fullmatch(texts[at - 1])):
        inner = digits_at(texts, at + 1)
        return replace(inner, first=at, value=-inner.value) if inner else None
    whole = digits_at(texts, at) or words_at(texts, at)
    if whole is None:
        return _part(texts, at)
    return _roughly(texts, _with_part(texts, whole))


def _roughly(texts: Sequence[str], number: Number) -> Number:
    """“forty odd”, “six and a bit”, “eleven-ish”, “thirty plus”: as much or somewhat more."""
    at = number.after
    if texts[at : at + 1] == ["odd"]:
        room = 9.0 if number.value % 100 and not number.value % 10 else 0.1 * number.value
        return replace(number, after=at + 1, most=number.value + room, other=None)
    if texts[at : at + 3] == ["and", "a", "bit"]:
        return replace(number, after=at + 3, most=number.value + 1.0, other=None)
    return replace(number, after=at + 1) if texts[at : at + 1] in (["ish"], ["plus"]) else number


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
    if at < len(texts) and "/" in texts[at] and not whole.value % 1:
        part = digits_at(texts, at)
        return replace(whole, after=at + 1, value=whole.value + part.value, step=0.0, other=None) if part else whole
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
