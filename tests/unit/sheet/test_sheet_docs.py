"""The page for users says what the reader does."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from firstpitch import catalogue
from firstpitch.sheet import read_sheet_text, resolve_links
from firstpitch.sheet.form import Listing, Part, Row, Section
from firstpitch.sheet.layout import BUILD_SHEET

PAGE = (Path(__file__).parents[3] / "docs" / "build-sheet.md").read_text("utf-8")


def test_example_can_be_read() -> None:
    """The example is a good sheet for the shipped catalogue, and nothing that its kit must have is missing from it."""
    text = PAGE.split("```yaml\n")[1].split("```")[0]
    sheet = read_sheet_text(text, catalogue.load().kinds, today=date(2026, 5, 1))
    assert resolve_links(sheet.kit, catalogue.load().kinds).must_gaps == ()
    assert {"masses.axle_limit", "plan.lockers.under-bed.limit"} <= set(sheet.unknown)


def test_every_key_is_on_the_page() -> None:
    """Every key of the format is named on the page."""
    named = set(re.findall(r"[a-z_]+", " ".join(re.findall(r"`([^`\n]+)`", PAGE))))
    assert set(_keys(BUILD_SHEET)) - named == set()


def _keys(part: Part) -> Iterator[str]:
    inner = part.each if isinstance(part, Listing) else part
    if isinstance(inner, Row):
        return
    for each in inner.parts if isinstance(inner, Section) else ():
        yield each.name
        yield from _keys(each)
