"""Planning a round in a real browser."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage
from tests.browser.running import SIZES, Desk


def plan(page: Page, handover: int) -> None:
    """Open the page of a round and plan it."""
    page.goto(f"/round/{handover}/")
    if page.locator("details.how:not([open])").count():
        page.get_by_text("Plan it differently").click()
    page.get_by_role("button", name="Plan the round").click()
    expect(page.locator("figure.in-time")).to_be_visible()


def found_better(page: Page) -> None:
    """Wait until the search in peace is over."""
    expect(page.locator(".looking [role=status]")).not_to_contain_text("ooked for", timeout=30_000)
    expect(page.locator(".looking [role=status]")).not_to_contain_text("so far", timeout=30_000)


@pytest.fixture
def own_desk(new_desk: Callable[..., Desk]) -> Desk:
    """A desk of this test's own."""
    return new_desk()


def test_first_answer_then_a_better_one(own_desk: Desk, open_page: OpenPage) -> None:
    """The first round is shown at once; the search tells how it goes; the better round is shown when somebody asks for it."""
    page = open_page("specialist", at=own_desk)
    plan(page, 1)
    found_better(page)
    before = page.locator(".title-block").inner_text()
    show = page.get_by_role("link", name="Show it")
    if show.is_visible():
        show.click()
        expect(page.locator(".looking")).to_have_count(0)
        assert page.locator(".title-block").inner_text() != before or "shorter" not in before


def test_a_wish_says_its_price_before_it_is_kept(own_desk: Desk, open_page: OpenPage) -> None:
    """Choosing "first" for a step says at once what it costs; planning it like this puts it there and lists the wish."""
    page = open_page("specialist", at=own_desk)
    plan(page, 3)
    found_better(page)
    page.get_by_role("link", name="How the handbrake holds").or_(page.locator("a[data-step]").nth(40)).first.click()
    sheet = page.get_by_role("dialog")
    title = sheet.get_by_role("heading", level=2).inner_text()
    expect(sheet.get_by_role("button", name="Plan it like this")).to_be_hidden()
    sheet.get_by_label("Last", exact=True).check()
    expect(sheet.locator("[data-price] .big")).to_be_visible(timeout=10_000)
    sheet.get_by_role("button", name="Plan it like this").click()
    expect(page.get_by_role("heading", name="What was wished")).to_be_visible()
    expect(page.locator(".wish").first).to_contain_text(title)
    page.get_by_role("button", name=f"As it comes: {title}").click()
    expect(page.get_by_role("heading", name="What was wished")).to_have_count(0)


def test_leaving_out_a_must_is_explained_on_the_spot(own_desk: Desk, open_page: OpenPage) -> None:
    """A must that is to be left out is explained on the sheet, and cannot be planned like that."""
    page = open_page("specialist", at=own_desk)
    plan(page, 3)
    page.get_by_role("link", name="Test the carbon monoxide alarm").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_label("Leave it out").check()
    expect(sheet.locator("[data-price]")).to_contain_text("is a must", timeout=10_000)
    expect(sheet.get_by_role("button", name="Plan it like this")).to_be_hidden()


def test_impossible_minutes_are_explained_on_the_page(own_desk: Desk, open_page: OpenPage) -> None:
    """Half an hour is too short: the page says what the musts take and keeps what was typed."""
    page = open_page("specialist", at=own_desk)
    page.goto("/round/2/")
    page.get_by_label("How long may it take?").fill("half an hour")
    page.get_by_role("button", name="Plan the round").click()
    expect(page.get_by_text("is no length of time")).to_be_visible()
    page.get_by_label("How long may it take?").fill("30")
    page.get_by_role("button", name="Plan the round").click()
    expect(page.get_by_role("alert")).to_contain_text("The musts alone take")
    expect(page.get_by_label("How long may it take?")).to_have_value("30")


@pytest.mark.parametrize("dark", [False, True])
def test_looks(open_page: OpenPage, look: Look, dark: bool) -> None:
    """The page fits the three sizes, light and dark, and the checker finds no fault on it, on the form and on a step's sheet."""
    page = open_page("specialist")
    page.emulate_media(color_scheme="dark" if dark else "light")
    plan(page, 3)
    found_better(page)
    page.goto("/round/3/")
    page.get_by_text("Plan it differently").click()
    assert not _faults(page)
    look(page, f"round{'-dark' if dark else ''}")
    page.locator("a[data-step]").nth(12).click()
    expect(page.get_by_role("dialog")).to_be_visible()
    assert not _faults(page)


def test_prints_without_the_desk_around_it(open_page: OpenPage) -> None:
    """On paper there are the head, the round in time, the walks and the steps, and no button."""
    page = open_page("specialist")
    plan(page, 3)
    page.emulate_media(media="print")
    assert page.locator("button:visible").count() == 0
    expect(page.locator("figure.in-time")).to_be_visible()
    expect(page.locator("figure.walk").first).to_be_visible()
    assert len(page.pdf(format="A4")) > 10_000


@pytest.mark.parametrize("size", SIZES)
def test_works_without_scripts(open_page: OpenPage, own_desk: Desk, size: str) -> None:
    """Without scripts a step's link leads to a page of its own with the same wishes."""
    page = open_page("specialist", at=own_desk, size=size)
    page.route("**/*.js", lambda route: route.abort())
    plan(page, 1)
    page.locator("a[data-step]").nth(5).click()
    page.get_by_label("First", exact=True).check()
    page.get_by_role("button", name="Plan it like this").click()
    expect(page.get_by_role("heading", name="What was wished")).to_be_visible()


def _faults(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:160]}" for each in found]
