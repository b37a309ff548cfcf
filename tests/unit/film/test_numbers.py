"""Spoken numbers are read as people mean them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.film.numbers import read_numbers
from firstpitch.film.numerals import Number, tokens_of

ONES = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
TENS = "_ _ twenty thirty forty fifty sixty seventy eighty ninety"


def words_of(number: int) -> str:
    """A whole number below a million in British English words."""
    ones, tens = ONES.split(), TENS.split()
    if number < 20:
        return ones[number]
    if number < 100:
        return tens[number // 10] + (f" {ones[number % 10]}" if number % 10 else "")
    if number < 1000:
        rest = number % 100
        return f"{ones[number // 100]} hundred" + (f" and {words_of(rest)}" if rest else "")
    rest = number % 1000
    joint = " and " if rest < 100 else " "
    return f"{words_of(number // 1000)} thousand" + (f"{joint}{words_of(rest)}" if rest else "")


def numbers(text: str) -> tuple[Number, ...]:
    """The numbers in a text."""
    return read_numbers(tokens_of(text.split()))


@given(st.integers(0, 999_999))
def test_a_number_in_words_and_back(number: int) -> None:
    """Every whole number said in full is heard as itself, and as one number."""
    assert [n.value for n in numbers(f"it takes {words_of(number)} kilograms")] == [number]


@given(st.integers(0, 99), st.integers(1, 999))
def test_decimals_digit_by_digit(whole: int, part: int) -> None:
    """“four point two five” is 4.25: what follows the point is said digit by digit."""
    digits = str(part)
    spoken = f"{words_of(whole)} point {' '.join(ONES.split()[int(d)] for d in digits)}"
    assert [n.value for n in numbers(spoken)] == [pytest.approx(float(f"{whole}.{digits}"))]


@given(st.integers(0, 99_999))
def test_digits_are_themselves(number: int) -> None:
    """A recogniser may write digits, with or without a comma for thousands."""
    assert [n.value for n in numbers(f"{number} {number:,}")] == [number, number]


@given(st.integers(1, 9), st.integers(10, 99))
def test_two_halves(first: int, second: int) -> None:
    """“two thirty” said of volts or kilograms is 230: hundreds and the rest, read off one after the other."""
    if second % 10 == 0 or second < 20 or second // 10:
        assert [n.value for n in numbers(f"{words_of(first)} {words_of(second)}")] == [first * 100 + second]


@given(st.text(max_size=60))
def test_no_text_breaks_the_reader(text: str) -> None:
    """Whatever is written, reading it ends in numbers within its tokens, in order, never overlapping."""
    tokens = tokens_of(text.split())
    found = read_numbers(tokens)
    ends = [0, *(n.after for n in found)]
    assert all(end <= n.first < n.after <= len(tokens) for end, n in zip(ends, found, strict=False))


@pytest.mark.parametrize(
    ("text", "value", "most"),
    [
        ("four and a quarter litres", 4.25, None),
        ("a quarter turn", 0.25, None),
        ("half a bar", 0.5, None),
        ("two and a half", 2.5, None),
        ("three quarters", 0.75, None),
        ("point five", 0.5, None),
        ("twenty-one hundred", 2100, None),
        ("one and a half thousand", 1500, None),
        ("fourteen fifty kilos", 1450, None),
        ("one oh two oh", 1020, None),
        ("minus ten degrees", -10, None),
        ("ten to twelve litres", 10, 12),
        ("between ten and twelve", 10, 12),
        ("two to three hundred", 200, 300),
        ("10–12 litres", 10, 12),
    ],
)
def test_as_people_say_them(text: str, value: float, most: float | None) -> None:
    """Fractions, hundreds over twelve, halves of a figure and ranges, as they are said beside a van."""
    found = numbers(text)
    assert [(n.value, n.most) for n in found] == [(pytest.approx(value), most)]


def test_counting_is_no_figure_of_its_own() -> None:
    """“one, two, three, four” counts corners; it is not 1234."""
    assert [n.value for n in numbers("one, two, three, four")] == [1, 2, 3, 4]


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("January twenty thirty-six", (2036, 1, 0)),
        ("the thirty-first of January 2036", (2036, 1, 31)),
        ("14th November 2025", (2025, 11, 14)),
    ],
)
def test_dates(text: str, date: tuple[int, int, int]) -> None:
    """A month with a year is a date; the day is kept where it is spoken."""
    assert [n.date for n in numbers(text)] == [date]


def test_what_it_may_have_been() -> None:
    """Fifteen and fifty are heard for one another, so each says what it may have been."""
    assert [n.other for n in numbers("fifty fifteen")] != []
    assert numbers("fifty litres")[0].other == 15
    assert numbers("a hundred and thirteen")[0].other == 130
