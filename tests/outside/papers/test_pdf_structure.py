"""The packs carry every mark that PDF/UA-1 asks for, as a general PDF library reads them."""

from __future__ import annotations

import io
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Any

import pikepdf
import pytest

from firstpitch.papers import outfit_document, round_pdf
from tests.demo_rounds import NAMES, demo_pack, demo_round
from tests.unit.papers.test_outfit_sheet import demo_data

each_van = pytest.mark.parametrize("name", NAMES)


@cache
def opened(name: str) -> Any:
    return pikepdf.open(io.BytesIO(demo_pack(name)))


def walk(element: Any) -> Iterator[Any]:
    """Every structure element, in reading order."""
    if isinstance(element, pikepdf.Array):
        for child in element:
            yield from walk(child)
    elif isinstance(element, pikepdf.Dictionary) and "/S" in element:
        yield element
        if "/K" in element:
            yield from walk(element.K)


@cache
def structure(name: str) -> tuple[Any, ...]:
    return tuple(walk(opened(name).Root.StructTreeRoot.K))


def tag(name: str, element: Any) -> str:
    """The standard type of an element, after the file's own role map."""
    own = str(element.S)
    roles = opened(name).Root.StructTreeRoot.get("/RoleMap", {})
    return str(roles.get(own, own)).removeprefix("/")


def children(element: Any) -> list[Any]:
    kids = element.get("/K", [])
    return [
        k
        for k in (kids if isinstance(kids, pikepdf.Array) else [kids])
        if isinstance(k, pikepdf.Dictionary) and "/S" in k
    ]


@each_van
def test_file_says_it_is_tagged_and_universal(name: str) -> None:
    """The file is marked as tagged, says it keeps PDF/UA part 1, and shows its title (ISO 14289-1, 5 and 7.1)."""
    root = opened(name).Root
    assert bool(root.MarkInfo.Marked)
    assert not bool(root.MarkInfo.get("/Suspects", False))
    assert bool(root.ViewerPreferences.DisplayDocTitle)
    with opened(name).open_metadata() as meta:
        assert meta["pdfuaid:part"] == "1"
        assert demo_round(name).sheet.identity.name in str(meta["dc:title"])


@each_van
def test_language_is_said(name: str) -> None:
    """The file's language is British English (ISO 14289-1, 7.2)."""
    assert str(opened(name).Root.Lang) == "en-GB"


@each_van
def test_every_page_reads_in_order_of_structure(name: str) -> None:
    """Each page's tab order follows the structure (ISO 14289-1, 7.18.3), and each has marked content."""
    for page in opened(name).pages:
        assert "/StructParents" in page
        if "/Annots" in page:
            assert str(page.Tabs) == "/S"


@each_van
def test_headings_step_down_by_one(name: str) -> None:
    """Headings begin at level one and no level is skipped on the way down (ISO 14289-1, 7.4)."""
    levels = [int(tag(name, e)[1]) for e in structure(name) if tag(name, e) in ("H1", "H2", "H3", "H4", "H5", "H6")]
    assert levels[0] == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))
    assert levels.count(1) >= 10


@each_van
def test_every_picture_has_words(name: str) -> None:
    """Every figure carries words for those who cannot see it (ISO 14289-1, 7.3)."""
    figures = [e for e in structure(name) if tag(name, e) == "Figure"]
    assert len(figures) > 5
    assert all(str(e.get("/Alt", "")).strip() for e in figures)
    assert any("numbered marks" in str(e.Alt) for e in figures)


@each_van
def test_tables_have_heads_with_a_scope(name: str) -> None:
    """Every table's first row is of heads that say what they head, and every row has as many cells (ISO 14289-1, 7.5)."""
    tables = [e for e in structure(name) if tag(name, e) == "Table"]
    assert len(tables) > 20
    for table in tables:
        rows = [e for e in walk(table.K) if tag(name, e) == "TR"]
        heads = [e for e in walk(rows[0].K) if tag(name, e) == "TH"]
        assert heads
        assert all(_scope(head) == "/Column" for head in heads)
        assert len({len(children(row)) for row in rows}) == 1


def _scope(cell: Any) -> str:
    attributes = cell.get("/A", [])
    held = attributes if isinstance(attributes, pikepdf.Array) else [attributes]
    return next((str(a.Scope) for a in held if isinstance(a, pikepdf.Dictionary) and "/Scope" in a), "")


@each_van
def test_lists_are_lists(name: str) -> None:
    """The numbered lines of each card are tagged as lists of items (ISO 14289-1, 7.6)."""
    lists = [e for e in structure(name) if tag(name, e) == "L"]
    assert len(lists) >= len(demo_round(name).sheet.kit) // 2
    assert all(tag(name, child) in ("LI", "Caption") for e in lists for child in children(e))


@each_van
def test_every_font_is_embedded(name: str) -> None:
    """Every font travels in the file, so that it reads the same everywhere (ISO 14289-1, 7.21)."""
    fonts = [
        o for o in opened(name).objects if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
    ]
    assert fonts
    assert all(any(key in font for key in ("/FontFile", "/FontFile2", "/FontFile3")) for font in fonts)
    assert all("Firstpitch" in str(font.FontName) for font in fonts)


@each_van
def test_all_content_is_tagged_or_artifact(name: str) -> None:
    """Nothing on a page is painted outside tagged or decorative content (ISO 14289-1, 7.1)."""
    for page in opened(name).pages:
        depth, forms = 0, 0
        for operands, operator in pikepdf.parse_content_stream(page):
            match str(operator):
                case "BDC" | "BMC":
                    depth += 1
                case "EMC":
                    depth -= 1
                case "Tj" | "TJ" | "S" | "f" | "B" | "f*" | "b" | "s":
                    assert depth > 0, operands
                case "Do":
                    forms += 1
        assert depth == 0


@each_van
def test_the_round_alone_is_accessible_too(name: str) -> None:
    """The one-page round carries the same marks: tagged, universal, with words for its picture."""
    van = demo_round(name)
    with pikepdf.open(io.BytesIO(round_pdf(van.sheet, van.catalogue, van.problem, van.plan))) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        with pdf.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
        figures = [e for e in walk(pdf.Root.StructTreeRoot.K) if str(e.S) == "/Figure"]
        assert [bool(str(e.Alt)) for e in figures] == [True]


@each_van
def test_the_outfit_sheet_is_accessible_too(name: str) -> None:
    """The outfit and stow sheet carries the same marks: universal, five pictures with words, tables with heads, headings in order."""
    with pikepdf.open(io.BytesIO(outfit_document(demo_data(name)))) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang) == "en-GB"
        with pdf.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
        roles: Any = pdf.Root.StructTreeRoot.get("/RoleMap", {})
        found = [(str(roles.get(str(e.S), e.S)).removeprefix("/"), e) for e in walk(pdf.Root.StructTreeRoot.K)]
        assert [bool(str(e.get("/Alt", "")).strip()) for kind, e in found if kind == "Figure"] == [True] * 5
        tables = [e for kind, e in found if kind == "Table"]
        assert len(tables) == 4
        assert all(any(str(e.S) == "/TH" for e in walk(table.K)) for table in tables)
        levels = [int(kind[1]) for kind, _ in found if kind in ("H1", "H2", "H3", "H4")]
        assert levels[0] == 1
        assert all(b <= a + 1 for a, b in pairwise(levels))
