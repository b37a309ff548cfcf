"""No printed text overlaps other text or leaves its page, as PDFium reads the pages."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import pypdfium2
import pytest

from firstpitch.papers import outfit_document, round_pdf
from tests.demo_rounds import NAMES, demo_pack, demo_round
from tests.unit.papers.test_outfit_sheet import demo_data

each_van = pytest.mark.parametrize("name", NAMES)
_EDGE = 20.0  # nothing is printed this near the paper's edge [pt]
_SLACK = 1.0


@dataclass(frozen=True)
class Run:
    """A run of letters on one line and the box round them [pt, from the lower left]."""

    text: str
    left: float
    bottom: float
    right: float
    top: float


@cache
def runs(document: bytes) -> tuple[tuple[float, float, tuple[Run, ...]], ...]:
    """Width, height and runs of text of every page."""
    pages = []
    with pypdfium2.PdfDocument(document) as pdf:
        for page in pdf:
            text = page.get_textpage()
            boxes = [text.get_rect(i) for i in range(text.count_rects())]
            found = tuple(Run(text.get_text_bounded(*box), *box) for box in boxes)
            pages.append((*page.get_size(), found))
    return tuple(pages)


def documents(name: str) -> list[bytes]:
    van = demo_round(name)
    return [
        demo_pack(name),
        round_pdf(van.sheet, van.catalogue, van.problem, van.plan),
        outfit_document(demo_data(name)),
    ]


@each_van
def test_pages_are_a4_with_text(name: str) -> None:
    """Every page is A4 and has something to read on it."""
    for document in documents(name):
        for width, height, found in runs(document):
            assert (round(width), round(height)) == (595, 842)
            assert len(found) > 3


@each_van
def test_nothing_leaves_the_page(name: str) -> None:
    """All text stands at least 7 mm inside the edge of the paper, where any printer reaches."""
    for document in documents(name):
        for width, height, found in runs(document):
            for run in found:
                assert run.left >= _EDGE, run
                assert run.bottom >= _EDGE, run
                assert run.right <= width - _EDGE, run
                assert run.top <= height - _EDGE, run


@each_van
def test_no_text_covers_other_text(name: str) -> None:
    """No run of letters comes into the box of another by more than a point both ways."""
    for document in documents(name):
        for number, (_, _, found) in enumerate(runs(document), 1):
            for i, a in enumerate(found):
                for b in found[i + 1 :]:
                    across = min(a.right, b.right) - max(a.left, b.left)
                    up = min(a.top, b.top) - max(a.bottom, b.bottom)
                    assert across <= _SLACK or up <= _SLACK, (number, a, b)
