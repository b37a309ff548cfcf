"""The desk's look: colours that cannot drift, shapes, and the scale of a verdict."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.template import Context, Template
from hypothesis import given
from hypothesis import strategies as st

from firstpitch import desk
from firstpitch.desk.colours import FILE, written
from firstpitch.desk.scale import scale_of
from firstpitch.papers.drawing.signs import STATE_WORDS
from firstpitch.papers.look import DARK, LIGHT, SIGNS

STYLES = sorted((Path(desk.__file__).parent / "static").rglob("*.css"))


def test_colours_are_those_of_the_look() -> None:
    """The desk has the colours of papers/look.py and no others: ``python -m firstpitch.desk.colours`` writes them anew."""
    assert FILE.read_text("utf-8") == written()


@pytest.mark.parametrize("path", STYLES, ids=lambda path: path.name)
def test_styles_name_no_colour(path: Path) -> None:
    """No style sheet of the desk names a colour of its own, but for the shade under and behind what floats; each variable it uses
    is one of the look's."""
    if path == FILE:
        return
    text = re.sub(r"/\*.*?\*/", "", path.read_text("utf-8"), flags=re.S)
    assert not re.findall(r"#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|oklch)a?\([^)/]*\)", text)
    known = {*LIGHT, *DARK, *SIGNS}
    assert set(re.findall(r"var\(--fp-([\w-]+)\)", text)) <= known


def test_state_is_shape_and_word() -> None:
    """Each state shows its shape with its word beside it; the shape alone is passed by when the page is read out."""
    for name, words in STATE_WORDS.items():
        html = Template("{% load desk_shapes %}{% state name %}").render(Context({"name": name}))
        assert f"<span>{words}</span>" in html
        assert 'aria-hidden="true"' in html
        assert " id=" not in html


def test_state_escapes_its_words() -> None:
    """Words of people stand beside a shape as text, never as markup."""
    html = Template("{% load desk_shapes %}{% state 'done' words %}").render(Context({"words": "<b>x</b>"}))
    assert "&lt;b&gt;x&lt;/b&gt;" in html


def test_scale_words() -> None:
    """A scale says the figure and its limit in words; a figure nobody knows is not drawn as one."""
    known, unknown, span = scale_of(66, 100, "kg"), scale_of(None, 100, "kg"), scale_of((60, 120), 100, "kg")
    assert known.words == "66 kg; the limit is 100 kg"
    assert unknown.words == "not known; the limit is 100 kg"
    assert unknown.figure is None
    assert span.figure is not None
    assert span.spread is not None
    assert scale_of(2.9, 1.6, "mm", least=True).words == "2.9 mm; it must be at least 1.6 mm"
    assert scale_of(2.9, None, "mm").words == "2.9 mm; no limit is known"


figures = st.floats(0.01, 1e5)


@given(figures, figures)
def test_scale_keeps_order(figure: float, limit: float) -> None:
    """On the scale the figure stands on the side of the limit where it belongs, and both stand on the scale."""
    scale = scale_of(figure, limit, "kg")
    assert scale.figure is not None
    assert scale.limit is not None
    assert 0 <= scale.figure.x <= 100
    assert 0 <= scale.limit.x <= 100
    if abs(figure - limit) > 0.001 * max(figure, limit):
        assert (scale.figure.x < scale.limit.x) == (figure < limit)


def test_scale_on_a_page() -> None:
    """The drawn scale is one picture with one sentence for whoever cannot see it."""
    html = Template("{% load desk_shapes %}{% scale_line scale 'n' %}").render(
        Context({"scale": scale_of(66, 100, "kg")})
    )
    assert html.count('role="img"') == 1
    assert 'aria-label="66 kg; the limit is 100 kg"' in html
