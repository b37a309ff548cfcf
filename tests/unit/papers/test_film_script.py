"""The film's script on paper and as a prompter."""

from __future__ import annotations

import io
import re

import pikepdf
import pypdfium2

from firstpitch.film.types import Script, Shot
from firstpitch.papers.film_script import script_html, script_pdf

SHOTS = (
    Shot(1, "hob.light", "hob", "Light <one> ring", "inside, front", "Hob: wide", ("Window open first & always.",), ("lid up",),
         "Lid up first. Then turn and light.", {"gas it takes": "150 g/h", "mass": "not on the sheet: read it off the plate"}, 0, 0, 20),
    Shot(2, "tap.show", "tap", "Taps", "inside, front", "Tap: wide", (), ("lift",), "Lift it.", {}, 3, 23, 9, ("Boiler heating",)),
)  # fmt: skip
SCRIPT = Script("Test van", SHOTS, 32, 140, ("Grill (Oven): no time",))


def test_every_caution_stands_before_its_words_on_the_page() -> None:
    """On the page what must be said first stands before what is said with the act."""
    page = script_html(SCRIPT)
    assert page.index("Window open first &amp; always.") < page.index("Lid up first.")


def test_texts_are_only_text_on_the_page() -> None:
    """Angle brackets in a text do not become markup."""
    assert "<one>" not in script_html(SCRIPT)
    assert "Light &lt;one&gt; ring" in script_html(SCRIPT)


def test_the_page_asks_nothing_of_the_network() -> None:
    """The prompter works on a pitch without a network: it names no address but the vocabulary of SVG."""
    page = script_html(SCRIPT)
    assert not re.search(r"""(?:src|href)\s*=\s*["'](?!#|data:)""", page)
    assert not re.search(r"url\((?!\s*[\"']?data:)", page)


def test_an_unknown_figure_is_marked() -> None:
    """A figure that is not on the sheet stands in the hatched field of all unknown figures."""
    assert '<div class="unknown"><dt>mass</dt>' in script_html(SCRIPT)


def test_the_shot_list_is_an_accessible_pdf_with_all_its_words() -> None:
    """The PDF says it is PDF/UA-1, is tagged, and holds every shot, caution, figure and what was left out."""
    data = script_pdf(SCRIPT)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert "/MarkInfo" in pdf.Root
        with pdf.open_metadata() as meta:
            assert str(meta["pdfuaid:part"]) == "1"
    text = "".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data))
    flat = " ".join(text.split())
    for words in (
        "Light <one> ring",
        "Window open first & always.",
        "150 g/h",
        "read it off the plate",
        "Boiler heating",
        "Grill (Oven): no time",
    ):
        assert words in flat, words
