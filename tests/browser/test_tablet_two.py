"""Two tablets on one handover: they merge; what does not go together is shown to both until a person settles it."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Look, OpenPage
from tests.browser.running import Desk
from tests.browser.tablet import Tablet, cut_off, told_to_desk

HANDOVER = 2


def live(page: Page) -> Tablet:
    """The live round open on a tablet."""
    tablet = Tablet(page)
    page.goto(f"/live/{HANDOVER}/")
    tablet.wait_for_worker()
    tablet.wait_for(lambda: tablet.does("return store.kit(handover);", "store", handover=HANDOVER))
    return tablet


@pytest.fixture
def two(open_page: OpenPage) -> tuple[Tablet, Tablet]:
    """The specialist's tablet and the technician's, both at the same handover."""
    return live(open_page("specialist")), live(open_page("technician"))


def ids(events: list[dict[str, Any]]) -> list[str]:
    """Their ids."""
    return [event["id"] for event in events]


def test_two_tablets_merge(two: tuple[Tablet, Tablet]) -> None:
    """What two tablets noted apart, without a network, both have in the end, in the same order, each event once."""
    one, other = two
    for tablet in two:
        cut_off(tablet.page)
    noted = []
    for number in range(4):
        noted.append(one.append(HANDOVER, "note", words=f"one {number}")["id"])
        noted.append(other.append(HANDOVER, "note", words=f"other {number}")["id"])
    for tablet in two:
        tablet.page.context.set_offline(False)
        tablet.page.evaluate("dispatchEvent(new Event('online'))")
        tablet.wait_until_sent()
    for tablet in two:
        tablet.wait_for(lambda tablet=tablet: set(noted) <= set(ids(tablet.events(HANDOVER))))
    orders = [[key for key in ids(tablet.events(HANDOVER)) if key in noted] for tablet in two]
    assert orders[0] == orders[1] == noted


def test_a_true_conflict_is_shown_and_settled(two: tuple[Tablet, Tablet], desk: Desk, look: Look) -> None:
    """One tablet says done, the other left out: both show it, nothing is dropped, a person keeps one with a reason by keyboard."""
    one, other = two
    step = one.steps(HANDOVER)[0]
    done = one.append(HANDOVER, "step.done", step=step, tried=False)["id"]
    one.wait_until_sent()
    left = other.append(HANDOVER, "step.left", step=step, reason="It rained")["id"]
    other.wait_until_sent()
    for tablet in two:
        tablet.wait_for(lambda tablet=tablet: tablet.unsent()["conflicts"] == 1)
        tablet.wait_for(lambda tablet=tablet: "two answers" in tablet.line())
        assert {done, left} <= set(ids(tablet.events(HANDOVER)))

    page = one.page
    page.locator(".unsent").get_by_role("link", name="settle").press("Enter")
    page.wait_for_url("**/tablet/two-answers/")
    page.get_by_text("It rained").wait_for()
    look(page, "two-answers")
    page.get_by_role("button", name="Settle it").press("Enter")
    page.get_by_text("Choose the answer that is right").wait_for()
    page.get_by_role("radio").first.focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Settle it").press("Enter")
    page.get_by_text("Say in a few words why").wait_for()
    page.keyboard.press("Shift+Tab")
    page.keyboard.type("Maud was there")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.get_by_text("Nothing is in dispute").wait_for()
    one.wait_until_sent()
    for tablet in two:
        tablet.wait_for(lambda tablet=tablet: tablet.unsent()["conflicts"] == 0)
    (settled,) = [event for event in told_to_desk(desk, HANDOVER) if event["what"] == "conflict.settled"]
    assert set(settled["data"]["events"]) == {done, left}
    assert settled["data"]["keeps"] in (done, left)
    assert settled["data"]["reason"] == "Maud was there"
    assert {done, left} <= set(ids(told_to_desk(desk, HANDOVER)))


def test_what_is_being_typed_is_not_redrawn(two: tuple[Tablet, Tablet]) -> None:
    """While somebody types the reason, news from the other tablet does not take the field or its words away."""
    one, other = two
    step = one.steps(HANDOVER)[3]
    one.append(HANDOVER, "step.done", step=step, tried=False)
    one.wait_until_sent()
    other.append(HANDOVER, "step.left", step=step, reason="No gas today")
    other.wait_until_sent()
    one.wait_for(lambda: one.unsent()["conflicts"] == 1)
    page = one.page
    page.goto("/tablet/two-answers/")
    reason = page.get_by_label("Why")
    reason.type("Half a rea")
    other.append(HANDOVER, "note", words="meanwhile")
    other.wait_until_sent()
    one.does("await sync.pull(handover);", "sync", handover=HANDOVER)
    page.wait_for_timeout(500)
    assert reason.input_value() == "Half a rea"
    assert page.evaluate("document.activeElement.tagName") == "TEXTAREA"
    page.keyboard.type("son")
    assert reason.input_value() == "Half a reason"
