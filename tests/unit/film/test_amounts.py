"""Numbers with their units are heard as any speaker could say them or a recogniser write them. Every line here is invented for the test."""

from __future__ import annotations

import pytest

from firstpitch.film.amounts import spoken_figures
from firstpitch.film.numerals import tokens_of


def amounts(text: str) -> list[tuple[float, float | None, str]]:
    """The amounts with a unit in a line: value, far end of a range, first unit."""
    found = spoken_figures(tokens_of(text.split()))
    return [(s.number.value, s.number.most, s.units[0]) for s in found if s.units and not s.weak]


def bare(text: str) -> list[float]:
    """The numbers of a line that have no unit and could yet be figures."""
    return [s.number.value for s in spoken_figures(tokens_of(text.split())) if not s.units and not s.weak]


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        # words, regions
        ("it'll stand a hundred and four kilo", 104, "kg"),
        ("that's hundred and four kilo", 104, "kg"),
        ("one hundred four kilogrammes", 104, "kg"),
        ("two-thirty volts down that cable", 230, "V"),
        ("two three oh volts, mind", 230, "V"),
        ("two forty volts in my day", 240, "V"),
        ("thirty milliamp is what it says", 30, "mA"),
        ("one point two bar and no more", 1.2, "bar"),
        ("nought point two of a litre", 0.2, "l"),
        ("oh point nine bar", 0.9, "bar"),
        ("zero point five litres", 0.5, "l"),
        ("point eight of a bar", 0.8, "bar"),
        ("half a turn", 0.5, ""),
        ("about half a bar", 0.5, "bar"),
        ("give it a turn and a half", 1.5, ""),
        ("half a litre each go", 0.5, "l"),
        ("half of a litre", 0.5, "l"),
        ("half an hour", 0.5, "h"),
        ("wait a good half hour", 0.5, "h"),
        ("a quarter of an hour", 0.25, "h"),
        ("three quarters of an hour", 0.75, "h"),
        ("an hour and a half", 1.5, "h"),
        ("a metre and a half", 1.5, "m"),
        ("a kilo and a half of powder", 1.5, "kg"),
        ("two metres and a half", 2.5, "m"),
        ("two and a half metres", 2.5, "m"),
        ("two metre forty across", 2.4, "m"),
        ("seven foot six wide", 7.5, "ft"),
        ("six foot four of headroom", 6 + 4 / 12, "ft"),
        ("twenty one feet long", 21, "ft"),
        ("getting on for forty litres", 40, "l"),
        ("one and a quarter ton", 1.25, "t"),
        ("thirteen fifty kilos", 1350, "kg"),
        ("thirteen hundred and fifty kilos", 1350, "kg"),
        ("one thousand three hundred fifty kilo", 1350, "kg"),
        ("nineteen oh five kilos", 1905, "kg"),
        ("one three five oh kilos", 1350, "kg"),
        ("double seven oh kilos", 770, "kg"),
        ("minus eighteen degrees", -18, "degC"),
        ("anything below nought and it stops", 0, "degC"),
        ("it works right down to minus forty", -40, "degC"),
        ("forty-two pound in the tyres", 42, "lb"),
        ("thirty-eight P.S.I. all round", 38, "psi"),
        ("three and a bit bar", 3, "bar"),
        ("eleven-ish litres", 11, "l"),
        ("sixty watts or so", 60, "W"),
        # as recognisers write them
        ("a 12 kg bottle", 12, "kg"),
        ("it's 230v in there", 230, "V"),
        ("about 230 v", 230, "V"),
        ("holds 4.25 l", 4.25, "l"),
        ("holds 4.25l.", 4.25, "l"),
        ("1,300 kg all up", 1300, "kg"),
        ("1 300 kg all up", 1300, "kg"),
        ("1300kg", 1300, "kg"),
        ("13 kilo", 13, "kg"),
        ("13-kilo bottle", 13, "kg"),
        ("1 2 5 0 kilos", 1250, "kg"),
        ("12 50 kilos", 1250, "kg"),
        ("2 30 volts", 230, "V"),
        ("4 point 2 5 litres", 4.25, "l"),
        ("0,9 bar", 0.9, "bar"),
        ("1 1/2 litres", 1.5, "l"),
        ("1½ litres", 1.5, "l"),
        ("2 hundred litres", 200, "l"),
        ("1.2 kW", 1.2, "kW"),
        ("110Ah of battery", 110, "Ah"),
        ("9 l/min at the tap", 9, "l/min"),
        ("70°C", 70, "degC"),
        ("2.5 mm² cable", 2.5, "mm2"),
        ("37 mil bars", 37, "mbar"),
        ("thirty mil amps", 30, "mA"),
        ("eighty five K G's", 85, "kg"),
        ("wait two minutes", 2, "min"),
        ("hold it for two seconds", 2, "s"),
        # misheard units
        ("forty leaders", 40, "l"),
        ("forty letters of water", 40, "l"),
        ("seven kill owes", 7, "kg"),
        ("thirty mill e bars", 30, "mbar"),
        ("thirty millie bar", 30, "mbar"),
        ("thirty mill e amps", 30, "mA"),
        ("a hundred amp powers", 100, "Ah"),
        ("a hundred amp ours", 100, "Ah"),
        ("nine hundred what's on the mains", 900, "W"),
        ("two killer watts", 2, "kW"),
        ("ninety new ton metres", 90, "N m"),
        ("ninety newtons metres", 90, "N m"),
    ],
)
def test_an_amount(text: str, value: float, unit: str) -> None:
    """One amount is heard in the line, with this value and unit."""
    assert [(v, u) for v, _, u in amounts(text)] == [(pytest.approx(value), unit)]


@pytest.mark.parametrize(
    ("text", "value", "most"),
    [
        ("five or six minutes", 5, 6),
        ("ten to fifteen litres", 10, 15),
        ("between two and three bar", 2, 3),
        ("10-15 litres", 10, 15),
        ("forty odd litres", 40, 49),
        ("six litres and a bit", 6, 7),
        ("wait two to three minutes", 2, 3),
        ("six and a bit litres", 6, 7),
    ],
)
def test_a_range(text: str, value: float, most: float) -> None:
    """“five or six”, “forty odd” and “six and a bit” leave room above."""
    assert [(v, pytest.approx(m)) for v, m, _ in amounts(text)] == [(value, most)]


@pytest.mark.parametrize(
    "text",
    [
        "the thirteen-pin plug",
        "the 13 pin",
        "everything on the twelve-volt side",
        "the 12v stuff",
        "the two-thirty volt side of things",
        "the 230 volt sockets",
        "first thing, second thing, third thing",
        "the second of the two",
        "it's half past two already",
        "at ten o'clock",
        "at 10:30 they shut",
        "at quarter to five",
        "four times a year if not more times",
        "three ways to do this",
        "two things to tell you",
        "I've been at this thirty years",
        "forty years in the trade",
        "I did that two minutes ago",
        "my lad's ten years old",
        "give me two seconds",
        "just one second",
        "hang on half a minute",
        "I'll be five minutes",
        "that's twenty quid in the shop",
        "they're £40",
        "fifty pence",
        "a hundred percent",
        "24/7",
        "one by one",
        "a four by four",
        "double o seven",
        "the one by the door",
        "never move it one inch",
    ],
)
def test_no_amount(text: str) -> None:
    """Names, ordinals, clock times, ages, prices, counts and small talk hold no amount."""
    assert amounts(text) == []
    assert [value for value in bare(text) if value >= 30] == []


@pytest.mark.parametrize(
    ("text", "unit"), [("seven kilo this is", "kg"), ("eighty kilo on the nose", "kg"), ("six bar is a lot", "bar")]
)
def test_a_unit_ends_where_it_ends(text: str, unit: str) -> None:
    """Everyday words after a unit are never run together with it into another."""
    assert [u for _, _, u in amounts(text)] == [unit]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("six kilos of propane, and the other's a seven", [6, 7]),
        ("a metre ninety-five by one thirty", [1.95, 1.3]),
        ("ninety-five centimetres by sixty", [95, 60]),
        ("1.95 by 1.4", [1.95, 1.4]),
        ("one eighty-five long and one thirty wide", [1.85, 1.3]),
        ("ten litres, eight hundred watts, sixty degrees", [10, 800, 60]),
        ("it does 500, 1000 and 1800 watts", [500, 1000, 1800]),
        ("in january twenty seven thirty millibar", [2027, 30]),
    ],
)
def test_several_amounts(text: str, values: list[float]) -> None:
    """Each of several amounts is heard, and a bare number takes the unit of the one before."""
    found = spoken_figures(tokens_of(text.split()))
    assert [s.number.value for s in found if s.units or s.handed] == pytest.approx(values)


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("may twenty-seven", (2027, 5, 0)),
        ("march thirty three", (2033, 3, 0)),
        ("the end of September thirty-five", (2035, 9, 0)),
        ("June '31", (2031, 6, 0)),
        ("October 2036", (2036, 10, 0)),
        ("the 4th of August 2028", (2028, 8, 4)),
        ("it says 11/2027 on it", (2027, 11, 0)),
        ("it says 11/27 on it", (2027, 11, 0)),
        ("stamped oh three twenty-six", (2026, 3, 0)),
        ("June of thirty three", (2033, 6, 0)),
    ],
)
def test_a_month_with_a_year(text: str, date: tuple[int, int, int]) -> None:
    """A month with a year is a date, also when the year is short."""
    assert [s.number.date for s in spoken_figures(tokens_of(text.split())) if s.units == ("date",)] == [date]


@pytest.mark.parametrize(
    "text", ["it may ten or so", "march past", "you may twenty times over", "in may we shut", "june the third"]
)
def test_no_date(text: str) -> None:
    """A month alone, or a verb that sounds like one, is no date."""
    assert [s for s in spoken_figures(tokens_of(text.split())) if s.units == ("date",)] == []
