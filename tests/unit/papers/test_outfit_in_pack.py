"""The outfit and stow sheet as pages of the owner's pack, as PDF and as a page."""

from __future__ import annotations

import io
from functools import cache
from itertools import pairwise
from typing import Any

import pikepdf
import pypdfium2
import pytest

from firstpitch.papers import PackData, pack_data, pack_document, pack_page
from tests.demo_rounds import TODAY, demo_round
from tests.unit.papers.test_outfit_sheet import demo_data
from tests.unit.papers.test_pack_page import read

NAMES = ("wren", "heron")
each_van = pytest.mark.parametrize("name", NAMES)


@cache
def pack(name: str) -> PackData:
    made = demo_round(name)
    return pack_data(made.sheet, made.catalogue, made.problem, made.plan, made=TODAY, outfit=demo_data(name))


@cache
def document(name: str) -> bytes:
    return pack_document(pack(name))


def bookmarks(items: Any, depth: int = 1) -> list[tuple[int, str]]:
    """Depth and words of every bookmark, in order."""
    return [found for item in items for found in ((depth, str(item.title)), *bookmarks(item.children, depth + 1))]


@each_van
def test_the_pack_has_a_bookmark_for_the_sheet_and_each_part(name: str) -> None:
    """The sheet is one part of the pack, between the start-up list and the round, with its own parts below it."""
    with pikepdf.open(io.BytesIO(document(name))) as pdf, pdf.open_outline() as outline:
        marks = bookmarks(outline.root)
    parts = [words for depth, words in marks if depth == 1]
    at = parts.index("Outfit and stow sheet")
    assert parts[at + 1 :] == ["The round"]
    begun = marks.index((1, "Outfit and stow sheet"))
    below = [words for depth, words in marks[begun + 1 :] if depth == 2]
    assert below[:5] == ["What to do", "Verdicts", "Steadiness", "Where everything is", "Why"]
    assert all(b <= a + 1 for (a, _), (b, _) in pairwise(marks))


@each_van
def test_the_pack_with_the_sheet_keeps_its_standard(name: str) -> None:
    """Tagged, named, in English, with words for every picture: what PDF/UA-1 asks for holds with the sheet in it."""
    with pikepdf.open(io.BytesIO(document(name))) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en-GB"
        with pdf.open_metadata() as metadata:
            assert metadata.get("pdfuaid:part") == "1"
        figures = [e for e in elements(pdf.Root.StructTreeRoot) if e.get("/S") == "/Figure"]
        assert figures
        assert all(str(e.get("/Alt", "")).strip() for e in figures)
        assert any("noseweight" in str(e.get("/Alt")).lower() for e in figures)


def elements(node: Any) -> list[Any]:
    """Every element of the tree of tags."""
    found = []
    below = node.get("/K")
    for child in below if isinstance(below, pikepdf.Array) else [below]:
        if isinstance(child, pikepdf.Dictionary) and "/S" in child:
            found += [child, *elements(child)]
    return found


@each_van
def test_the_sheet_begins_a_page_of_the_pack_and_its_front_fits_it(name: str) -> None:
    """What to do, all verdicts and the comparison stand on one page of the pack, and the list of contents leads to it."""
    with pypdfium2.PdfDocument(document(name)) as pdf:
        texts = [page.get_textpage().get_text_bounded() for page in pdf]
    front = next(text for text in texts if text.startswith("Outfit and stow sheet"))
    assert all(words in front for words in ("What to do", "Verdicts", "Steadiness", "certifies no speed"))
    contents = next(text for text in texts if text.startswith("What is in this pack"))
    assert "Outfit and stow sheet" in contents
    assert all(line.margin in front for line in demo_data(name).verdicts)


@each_van
def test_the_page_holds_the_sheet_in_order(name: str) -> None:
    """On the page the sheet is a part of its own: no id stands twice, every link leads somewhere, no heading level is skipped."""
    page = read(pack_page(pack(name)))
    ids = [attrs["id"] for _, attrs in page.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    assert "outfit-sheet" in ids
    assert {"href": "#outfit-sheet"}.items() <= next(a for a in page.having("a") if "outfit-sheet" in a["href"]).items()
    assert all(a["href"][1:] in ids for a in page.having("a"))
    levels = [int(tag[1]) for tag, _ in page.elements if tag in ("h1", "h2", "h3", "h4", "h5")]
    assert all(b <= a + 1 for a, b in pairwise(levels))
    text = " ".join(page.text.split())
    assert all(" ".join(line.sentence.split()) in text for line in demo_data(name).verdicts)


def test_without_a_car_the_pack_has_no_trace_of_the_sheet() -> None:
    """A pack made without a car says nothing of a sheet it does not hold."""
    made = demo_round("wren")
    plain = pack_data(made.sheet, made.catalogue, made.problem, made.plan, made=TODAY)
    assert "Outfit and stow" not in pack_page(plain)
    with pypdfium2.PdfDocument(pack_document(plain)) as pdf:
        assert not any("Outfit and stow" in page.get_textpage().get_text_bounded() for page in pdf)


def test_same_input_same_bytes() -> None:
    """The same pack with its sheet gives the same files, byte for byte."""
    assert pack_document(pack("wren")) == document("wren")
    assert pack_page(pack("wren")) == pack_page(pack("wren"))
