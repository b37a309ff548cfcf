"""The owner's pack as one page: nothing from outside, no script, every link and label in order, any text safe."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from firstpitch.papers import pack_html
from tests.demo_rounds import NAMES, demo_page, demo_round

each_van = pytest.mark.parametrize("name", NAMES)
_VOID = {"meta", "br", "input", "link", "img", "path", "circle", "rect"}


@dataclass
class Page(HTMLParser):
    """The page as a person's browser sees it: elements, ids, links, headings and text."""

    elements: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    text: str = ""
    open: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        HTMLParser.__init__(self, convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {key: value or "" for key, value in attrs}))
        if tag not in _VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {key: value or "" for key, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] != "style":
            self.text += data

    def having(self, tag: str) -> list[dict[str, str]]:
        return [attrs for name, attrs in self.elements if name == tag]


def read(html: str) -> Page:
    page = Page()
    page.feed(html)
    page.close()
    assert page.open == []
    return page


@each_van
def test_page_asks_for_nothing_outside(name: str) -> None:
    """The page holds its fonts, styles and drawings itself: no address, no script, no link to another file."""
    html = demo_page(name)
    page = read(html)
    assert "http" not in html.replace("http://www.w3.org/2000/svg", "")
    assert not page.having("script")
    assert not page.having("link")
    assert not page.having("img")
    assert "@import" not in html
    assert all(url.startswith("data:font/woff2;base64,") for url in html.split("url(")[1:])
    assert not [a for _, attrs in page.elements for a in attrs if a.startswith("on")]


@each_van
def test_every_link_leads_somewhere(name: str) -> None:
    """Every link leads to a place on the page, no id stands twice, and every mark of the plan leads to its card."""
    page = read(demo_page(name))
    ids = [attrs["id"] for _, attrs in page.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    links = [attrs["href"] for attrs in page.having("a")]
    assert all(link.startswith("#") and link[1:] in ids for link in links)
    kits = {f"#kit-{n}" for n in range(1, len(demo_round(name).sheet.kit) + 1)}
    assert kits <= set(links)


@each_van
def test_headings_are_in_order(name: str) -> None:
    """There is one main heading, and no heading is more than one level below the one before it."""
    levels = [int(tag[1]) for tag, _ in read(demo_page(name)).elements if tag in ("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))


@each_van
def test_everything_has_a_name(name: str) -> None:
    """Drawings, regions, squares and table heads say what they are to a screen reader."""
    page = read(demo_page(name))
    assert page.having("html")[0]["lang"] == "en-GB"
    assert "maximum-scale" not in str(page.having("meta"))
    assert all("aria-labelledby" in a or a.get("aria-hidden") == "true" for a in page.having("svg"))
    assert all("aria-label" in a for _, a in page.elements if a.get("role") == "region")
    assert all(a.get("scope") in ("col", "row") for a in page.having("th"))
    labelled = [a for a in page.having("input") if "aria-label" in a]
    assert len(labelled) + len(page.having("label")) == len(page.having("input"))


@each_van
def test_page_is_of_a_size_for_a_phone(name: str) -> None:
    """The whole pack with fonts and drawings is under 600 kB."""
    assert len(demo_page(name).encode()) < 600_000


def test_user_text_is_never_markup() -> None:
    """Names and notes with markup in them are shown as words."""
    van = demo_round("wren")
    nasty = "<script>alert(1)</script><b onclick=x>&amp;"
    kit = tuple(replace(k, name=nasty, note=nasty) for k in van.sheet.kit)
    named = replace(van.sheet, kit=kit, identity=replace(van.sheet.identity, name=nasty, dealer=nasty))
    page = read(pack_html(named, van.catalogue))
    assert not page.having("script")
    assert not [a for _, attrs in page.elements for a in attrs if a.startswith("on")]
    assert nasty in page.text


def test_pack_without_a_round_has_no_round() -> None:
    """A pack made without a planned round leaves that part out and links to nothing that is not there."""
    van = demo_round("wren")
    page = read(pack_html(van.sheet, van.catalogue))
    assert "#round" not in [a["href"] for a in page.having("a")]


def test_same_input_same_page() -> None:
    """The same van gives the same page, letter for letter."""
    van = demo_round("wren")
    assert pack_html(van.sheet, van.catalogue) == pack_html(van.sheet, van.catalogue)
