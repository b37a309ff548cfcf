"""The desk's look: colours that cannot drift, and shapes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.template import Context, Template

from firstpitch import desk
from firstpitch.desk.colours import FILE, written
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
