"""Spoken figures are held against the sheet."""

from __future__ import annotations

import pytest

from firstpitch.film.amounts import spoken_figures
from firstpitch.film.check import check_prepared
from firstpitch.film.numerals import tokens_of
from firstpitch.film.spoken_units import si_of
from firstpitch.film.types import FigureHeard
from firstpitch.media.sentences import remembered
from tests.unit.film.vans import small_van, spoken


def figures(*words: str) -> tuple[FigureHeard, ...]:
    """What is heard in these lines, ten seconds apart."""
    lines = [(10.0 * n, text) for n, text in enumerate(words)]
    return check_prepared(small_van(), spoken(*lines), remembered()).figures


def test_a_right_figure_agrees() -> None:
    """The regulator's pressure said as the sheet has it agrees."""
    found = figures("Here's the gas regulator. The regulator works at thirty millibar.")
    assert [(f.figure, f.state, f.unit) for f in found] == [("gas-regulator=pressure", "agrees", "mbar")]


def test_a_wrong_figure_differs_and_shows_the_sheet() -> None:
    """Another pressure differs, and the finding shows the sheet's."""
    (found,) = figures("Here's the gas regulator. The regulator works at fifty millibar.")
    assert (found.figure, found.state, found.sheet) == ("gas-regulator=pressure", "differs", "30 mbar")


def test_a_figure_that_may_be_misheard_says_so() -> None:
    """Thirteen for thirty is more likely misheard than misspoken: less sure, with a word to listen."""
    (found,) = figures("Here's the gas regulator. The regulator works at thirteen millibar.")
    assert found.state == "differs"
    assert found.sure < 0.5
    assert any("misheard" in why for why in found.why)


def test_a_figure_the_sheet_has_not() -> None:
    """Two hundred and thirty volts stands on no sheet: it is told as such."""
    found = figures("It's two hundred and thirty volts from the post.")
    assert [(f.value, f.unit, f.state) for f in found] == [(230.0, "V", "not on the sheet")]


@pytest.mark.parametrize(
    "decoy",
    [
        "it's five o'clock already",
        "I've told you that three times",
        "there are two ways to do it",
        "all the twelve volt things",
        "the thirteen pin plug",
        "one second",
        "thank you one and all",
        "two minutes ago",
    ],
)
def test_decoys_are_left_out(decoy: str) -> None:
    """Clock times, counts, names with a number in them and small talk are no figures of the van."""
    assert not figures(decoy)


def test_metres_are_said_in_two_parts() -> None:
    """“a metre ninety by one thirty” is 1.90 m by 1.30 m."""
    found = list(spoken_figures(tokens_of(["a", "metre", "ninety", "by", "one", "thirty"])))
    assert [(s.number.value, s.units) for s in found] == [(1.9, ("m",)), (1.3, ("m",))]


def test_a_pound_a_square_inch() -> None:
    """One pound-force per square inch is 6894.757 Pa (NIST SP 811, appendix B; from memory)."""
    assert si_of(1.0, "psi") == pytest.approx(6894.757, rel=1e-6)
