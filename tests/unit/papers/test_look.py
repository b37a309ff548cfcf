"""Colours that can be read, faces that hold what is printed, signs and states told apart by shape."""

from __future__ import annotations

from importlib.resources import files

import pytest

from firstpitch.papers import look
from firstpitch.papers.drawing.signs import SIGN_WORDS, STATE_WORDS, draw_sign, draw_state
from tests.unit.papers.svg_reading import parse, rectangle


def test_unprintable_characters_become_open_squares() -> None:
    """A character that the printed faces lack becomes an open square; letters of Europe stay."""
    assert look.displayable("Łódź, Ægir, Ωμ, Жя: 12 V") == "Łódź, Ægir, Ωμ, Жя: 12 V"
    assert look.displayable("漢😀") == "□□"
    assert look.displayable("x" * 30) == "\u200b".join(["x" * 9] * 3 + ["xxx"])
    assert look.displayable("a‑b\u202fc") == "a-b\u00a0c"


def test_fonts_come_with_their_licences() -> None:
    """Both faces are shipped with the text of the SIL Open Font License they are under."""
    folder = files("firstpitch.papers") / "fonts"
    for name in ("Bitter-licence.txt", "Barlow-licence.txt"):
        assert "SIL OPEN FONT LICENSE" in (folder / name).read_text("utf-8").upper()


def test_page_fonts_are_small() -> None:
    """The four fonts in a page weigh under 80 kB together."""
    assert (
        sum(len(look.font_bytes(f"{name}.woff2")) for name in ("text", "text-bold", "figures", "figures-bold")) < 80_000
    )


def test_every_colour_a_drawing_uses_is_in_every_palette() -> None:
    """Light, dark and print name the same colours."""
    assert set(look.LIGHT) == set(look.DARK) == set(look.PRINT)


def test_signs_differ_by_shape() -> None:
    """Warning, prohibition and must-do are told apart without colour: a triangle, a ring with a bar, a full disc."""
    shapes = {
        sign: [e.tag.split("}")[1] for e in parse(draw_sign(sign)) if not e.tag.endswith(("title", "desc"))]
        for sign in SIGN_WORDS
    }
    assert shapes["warning"][0] == "path"
    assert shapes["prohibition"] == ["circle", "path"]
    assert shapes["must-do"][0] == "circle"
    assert len({str(s) for s in shapes.values()}) == 3


def test_states_differ_by_shape() -> None:
    """No two states are drawn alike."""
    drawn = {state: draw_state(state, left=0.5).split("</title>")[1] for state in STATE_WORDS}
    assert len(set(drawn.values())) == len(STATE_WORDS)


@pytest.mark.parametrize(("left", "width"), [(0.0, 0), (0.25, 5), (1.0, 20), (7.0, 20), (-1.0, 0)])
def test_waiting_bar_empties(left: float, width: float) -> None:
    """The bar of a wait is as full as the share of it still to run, never more than full or less than empty."""
    filled = [e for e in parse(draw_state("waiting", left=left)) if e.get("class") == "fp-state-fill"]
    assert rectangle(filled[0])[2] == pytest.approx(width)


def test_hidden_sign_is_passed_by() -> None:
    """A sign that stands beside its words is hidden from screen readers and has no id that could stand twice."""
    svg = draw_sign("warning", hidden=True)
    assert 'aria-hidden="true"' in svg
    assert "id=" not in svg
