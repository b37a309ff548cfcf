"""The owner's pack as PDF: the same bytes every time, and any text can be printed."""

from __future__ import annotations

import io
from dataclasses import replace

import pikepdf
import pytest

from firstpitch.papers import pack_pdf, round_pdf
from tests.demo_rounds import NAMES, TODAY, demo_pack, demo_round


def pages(document: bytes) -> int:
    with pikepdf.open(io.BytesIO(document)) as pdf:
        return len(pdf.pages)


def test_same_input_same_bytes() -> None:
    """The same van gives the same file, byte for byte."""
    van = demo_round("wren")
    assert pack_pdf(van.sheet, van.catalogue, van.problem, van.plan, made=TODAY) == demo_pack("wren")


@pytest.mark.parametrize("name", NAMES)
def test_the_round_stands_on_one_page(name: str) -> None:
    """The round of every demo van, more than a hundred steps, is a programme of one page."""
    van = demo_round(name)
    assert len(van.plan.steps) > 100
    assert pages(round_pdf(van.sheet, van.catalogue, van.problem, van.plan)) == 1


def test_a_round_too_long_for_a_page_runs_on() -> None:
    """A round of many more steps than a page holds goes on to a second page instead of off the first."""
    van = demo_round("wren")
    said = {s.id: replace(s, title=s.title * 8) for s in van.problem.steps}
    long = replace(van.problem, steps=tuple(said.values()))
    assert pages(round_pdf(van.sheet, van.catalogue, long, van.plan)) > 1


@pytest.mark.parametrize(
    "text",
    [
        '#import "/etc/passwd": * #eval("1") $x^2$ *bold* _em_ `raw` <label> @ref // comment \\ [#]',
        "漢字 😀 \x07 \u202e עברית नमस्ते",
        "Łódź Ça ½ ² Ω µ → ≤ αβγ Жя",
        "x" * 400,
    ],
)
def test_any_text_can_be_printed(text: str) -> None:
    """Names and notes may hold the typesetter's own signs, other scripts or no blanks; they are printed as words."""
    van = demo_round("wren")
    kit = tuple(replace(k, name=text[:80], note=text) for k in van.sheet.kit[:3])
    named = replace(
        van.sheet, kit=(*kit, *van.sheet.kit[3:]), identity=replace(van.sheet.identity, name=text[:60], dealer=text)
    )
    assert pages(pack_pdf(named, van.catalogue)) > 10


def test_a_card_longer_than_a_page_runs_on() -> None:
    """A dealership's kind with very many lines makes a card that goes on to the next page and is not cut off."""
    van = demo_round("wren")
    kinds = dict(van.catalogue.kinds)
    card = kinds["tap"].card
    kinds["tap"] = replace(kinds["tap"], card=replace(card, use=tuple(f"Line {i} of a long list." for i in range(150))))
    more = pages(pack_pdf(van.sheet, replace(van.catalogue, kinds=kinds)))
    assert more >= pages(pack_pdf(van.sheet, van.catalogue)) + 2
