"""Every page there is, from the list of URLs, so that a new one cannot be forgotten: three sizes, light and dark, keyboard, twice as large.

A URL that answers no page to whoever may open it (a file, data, a form's target) is passed by. Screenshots of all are kept in
tests/artefacts/ as ``page-<name>``. A URL whose argument has no example fails in tests/unit/desk/test_every_url.py with what to add.
"""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.conftest import Look, OpenPage
from tests.browser.running import SIZES, Desk
from tests.unit.desk.every_url import every_url

pytestmark = pytest.mark.slow

# Written beside the running desk: one thing of every sort, and the address of every page for whoever may open it.
ADDRESSES = """
import json
from firstpitch.desk.models import Handover, Person
from tests.unit.desk.every_url import every_url, example_of, examples
handover = Handover.objects.order_by("pk").first()
people = {name: Person.objects.get(username=name) for name in ("maud", "sorrel")}
known = examples(handover.van, handover, people["maud"], people["sorrel"])
print(json.dumps({url.name: [url.access[0], example_of(url, known)[0]] for url in every_url()}))
"""
TABS = 25
ZOOMED = (590, 410)  # 1180x820 shown twice as large


@pytest.fixture(scope="module")
def addresses(desk: Desk) -> dict[str, tuple[str, str]]:
    """For each URL who may open it (members, owners, anyone) and its path with arguments that are there."""
    found: dict[str, tuple[str, str]] = json.loads(desk.python(ADDRESSES).splitlines()[-1])
    return found


@pytest.fixture
def page_of(addresses: dict[str, tuple[str, str]], open_page: OpenPage) -> Callable[[str], Page | None]:
    """Opens a URL as its reader does: a manager, an owner or nobody in particular; None where it answers no page."""

    def reach(name: str) -> Page | None:
        who, path = addresses[name]
        page = open_page("manager" if who == "members" else "nobody", offline_app=False)
        answer = page.request.get(path, headers={"Accept": "text/html"}, max_redirects=0)
        if answer.status != 200 or "text/html" not in answer.headers.get("content-type", ""):
            return None
        page.goto(path)
        stands(page)
        return page if page.locator("body *").count() else None

    return reach


def stands(page: Page) -> None:
    """Wait until what scripts draw is there."""
    if page.locator("[data-live]").count():
        page.wait_for_selector("[data-ready]", timeout=90_000)
    page.wait_for_timeout(150)


def is_whole(page: Page) -> bool:
    """Whether this is a page, and not a part that another page fetches."""
    return bool(page.evaluate("document.doctype !== null"))


def faults(page: Page) -> list[str]:
    """What the accessibility checker finds."""
    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:160]}" for each in found]


@pytest.mark.parametrize("name", [url.name for url in every_url()])
def test_page_is_sound(name: str, page_of: Callable[[str], Page | None], look: Look) -> None:
    """In every size nothing is wider than the screen; light and dark, wide and narrow, the checker finds no fault; the keyboard walks
    through it and the focus is always to be seen; twice as large it still fits the width."""
    page = page_of(name)
    if page is None or not is_whole(page):
        return
    assert page.title(), f"{name} has no title"
    for dark in (False, True):
        page.emulate_media(color_scheme="dark" if dark else "light")
        look(page, f"page-{name}{'-dark' if dark else ''}")
        assert faults(page) == [], f"{name}, {'dark' if dark else 'light'}"
    page.emulate_media(color_scheme="light")
    fits_narrow(page, name)
    walks_by_keyboard(page, name)


def fits_narrow(page: Page, name: str) -> None:
    """On a phone the checker finds no fault; shown twice as large nothing runs out of the window (WCAG 2.2, 1.4.4 and 1.4.10)."""
    page.set_viewport_size(dict(zip(("width", "height"), SIZES["phone"], strict=True)))
    assert faults(page) == [], f"{name}, phone"
    page.set_viewport_size(dict(zip(("width", "height"), ZOOMED, strict=True)))
    spill = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert spill <= 0, f"{name} is {spill} px too wide when it is shown twice as large"


FOCUS = """() => {
  const at = document.activeElement;
  if (!at || at === document.body) return null;
  const rings = [at, at.parentElement, at.closest("label, .button")].filter(Boolean).map(each => getComputedStyle(each).outlineStyle);
  return {what: at.outerHTML.slice(0, 120), seen: rings.some(style => style !== "none") || at instanceof SVGElement};
}"""


def walks_by_keyboard(page: Page, name: str) -> None:
    """The Tab key goes from thing to thing; each is on the page and shows that it has the focus; none keeps it."""
    page.set_viewport_size(dict(zip(("width", "height"), SIZES["wide"], strict=True)))
    page.evaluate("document.activeElement?.blur(); scrollTo(0, 0)")
    seen: list[str] = []
    for _ in range(TABS):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if focus is None:
            break
        assert focus["seen"], f"{name}: no focus to be seen on {focus['what']}"
        seen.append(focus["what"])
    if page.evaluate("document.querySelector('a[href], button, input:not([type=hidden])') !== null"):
        assert seen, f"{name}: the Tab key reaches nothing"
    assert all(seen[i] != seen[i + 1] or seen.count(seen[i]) < TABS // 2 for i in range(len(seen) - 1)), (
        f"{name} keeps the focus"
    )
