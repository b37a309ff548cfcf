"""Doors that are shut, in the real browser: an owner's link that ran out or was taken back, and pages of another role."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage
from tests.browser.running import Desk

HANDOVER = 1
OWNER = "Beatrix and Amos Lyle"
RUN_OUT = """
from datetime import timedelta
from django.utils import timezone
from firstpitch.desk.models import OwnerLink
OwnerLink.objects.update(expires=timezone.now() - timedelta(seconds=1))
"""


def link_of(page: Page) -> str:
    """A new private link for the owner, made on the handover's page."""
    page.goto(f"/handovers/{HANDOVER}/")
    page.get_by_role("button", name="Make a link").click()
    return page.locator(".secret").inner_text()


def is_shut(page: Page, address: str) -> None:
    """The page says so, whom to ask, and nothing of the owner or the van; so do the pages below it."""
    for path in ("", "pack/", "pack.pdf", "record.pdf"):
        answer = page.goto(f"{address}{path}")
        assert answer is not None
        assert answer.status == 410
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        assert OWNER not in page.content()
    assert Axe().run(page).violations_count == 0


def test_owner_link_taken_back(specialist_page: Page, open_page: OpenPage, look: Look) -> None:
    """A link opens the owner's page until the specialist takes it back; then it opens nothing, also where it was open already."""
    address = link_of(specialist_page)
    owner = open_page(size="phone")
    owner.goto(address)
    expect(owner.locator("main")).to_contain_text(OWNER)
    owner.get_by_label("Your question").fill("May we come an hour earlier?")
    specialist_page.get_by_role("button", name="Take it back").first.click()
    expect(specialist_page.get_by_text("Taken back").first).to_be_visible()
    with owner.expect_response("**/question/") as answer:
        owner.get_by_role("button", name="Send it").click()
    assert answer.value.status == 410
    is_shut(owner, address)
    owner.goto(address)
    look(owner, "owner-link-over")


def test_owner_link_that_ran_out(specialist_page: Page, open_page: OpenPage, desk: Desk) -> None:
    """A link that ran out opens nothing; a new one opens the same page again."""
    address = link_of(specialist_page)
    desk.python(RUN_OUT)
    owner = open_page(size="phone")
    is_shut(owner, address)
    owner.goto(link_of(specialist_page))
    expect(owner.locator("main")).to_contain_text(OWNER)


@pytest.mark.parametrize("role", ["specialist", "technician"])
@pytest.mark.parametrize("path", ["/settings/", "/people/"])
def test_wrong_role(open_page: OpenPage, look: Look, role: str, path: str) -> None:
    """What only a manager may see is named in no menu of the others, and says whom to ask when its address is typed."""
    page = open_page(role)
    assert page.locator(f".top a[href='{path}']").count() == 0
    answer = page.goto(path)
    assert answer is not None
    assert answer.status == 403
    expect(page.locator("main")).to_contain_text("This needs a manager")
    assert Axe().run(page).violations_count == 0
    if role == "technician":
        look(page, f"wrong-role{path}")
