"""A day without a network: cold starts of the tablet's browser, pages, notes, photos, and coming back."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page

import firstpitch
from tests.browser.conftest import Look, OpenPage
from tests.browser.running import Desk
from tests.browser.tablet import Tablet, cut_off, own_browser, photos_at_desk, sign_in, told_to_desk

HANDOVER = 1
VAN_LINK = "main a[href^='/vans/']"


def take_along(page: Page) -> None:
    """Press the button on Today and wait until all is here."""
    page.goto("/")
    page.get_by_role("button", name="Take along for today").click()
    page.get_by_text("on this tablet now and open without a network").wait_for()


@contextmanager
def no_network(desk: Desk) -> Iterator[None]:
    """Nothing answers, whatever the browser thinks of its network."""
    desk.stop()
    try:
        yield
    finally:
        desk.start()


def no_scripts_broke(page: Page) -> list[str]:
    """Collects what scripts of the page could not do."""
    broken: list[str] = []
    page.on("pageerror", lambda fault: broken.append(str(fault)))
    return broken


def test_a_day_without_a_network(browser: Browser, desk: Desk, tmp_path: Path, look: Look) -> None:
    """Taken along in the morning, cold-started twice without a network, noted and photographed; in the evening the desk has it once."""
    with own_browser(browser, desk, tmp_path) as context:
        page = context.pages[0]
        sign_in(page, desk)
        Tablet(page).wait_for_worker()
        take_along(page)
        look(page, "today-taken-along")

    ids = []
    with no_network(desk), own_browser(browser, desk, tmp_path, offline=True) as context:
        page = context.pages[0]
        broken = no_scripts_broke(page)
        page.goto("/")
        page.get_by_role("heading", name="This tablet").wait_for()
        page.get_by_text("Beatrix and Amos Lyle").first.wait_for()
        look(page, "tablet-offline")
        page.get_by_role("link", name="Go round").click()
        page.wait_for_url("**/live/1/")
        tablet = Tablet(page)
        steps = tablet.steps(HANDOVER)
        ids += [tablet.append(HANDOVER, "step.done", step=step, tried=False)["id"] for step in steps[:5]]
        photo = tablet.take_photo(HANDOVER, 2000, 1500)
        tablet.wait_for(lambda: "6 notes and 1 photo not sent yet. No network" in tablet.line())
        page.wait_for_timeout(500)
        look(page, "live-offline")
        assert not broken

    desk.stop()
    with own_browser(browser, desk, tmp_path, offline=True) as context:
        page = context.pages[0]
        broken = no_scripts_broke(page)
        page.goto("/live/1/")
        tablet = Tablet(page)
        assert [event["id"] for event in tablet.events(HANDOVER)][:5] == ids
        ids += [photo["event"]["id"]]
        ids += [tablet.append(HANDOVER, "note", words="in the afternoon")["id"]]
        tablet.wait_for(lambda: "7 notes and 1 photo not sent yet" in tablet.line())
        assert not broken
        desk.start()
        context.set_offline(False)
        page.evaluate("dispatchEvent(new Event('online'))")
        tablet.wait_until_sent()
    seen = told_to_desk(desk, HANDOVER)
    assert [event["id"] for event in seen] == ids
    assert photos_at_desk(desk, HANDOVER) == [photo["id"]]


def test_van_page_without_a_network(browser: Browser, desk: Desk, tmp_path: Path, look: Look) -> None:
    """A van that was taken along opens from a cold start without a network, with each kit's panel and from every side."""
    with own_browser(browser, desk, tmp_path) as context:
        page = context.pages[0]
        sign_in(page, desk)
        Tablet(page).wait_for_worker()
        take_along(page)
        van = page.locator(VAN_LINK).first.get_attribute("href")
    with no_network(desk), own_browser(browser, desk, tmp_path, offline=True) as context:
        page = context.pages[0]
        broken = no_scripts_broke(page)
        page.goto(f"{desk.address}{van}")
        links = page.locator(".listed a")
        for number in range(links.count()):
            name = links.nth(number).locator(".name").inner_text().split("\n")[0]
            links.nth(number).click()
            page.locator("#picked", has_text=name).wait_for()
        look(page, "van-offline")
        page.goto(f"{desk.address}{van}?view=rear")
        assert "rear" in (page.locator(".drawing").get_attribute("class") or "")
        page.goto(f"{desk.address}/vans/")
        page.get_by_role("heading", name="This tablet").wait_for()
        assert not broken


def test_slow_network_does_not_hold_up_a_carried_page(open_page: OpenPage, desk: Desk) -> None:
    """Where the desk is there but does not answer, a carried page opens as it was kept after a few seconds."""
    page = open_page("specialist")
    tablet = Tablet(page)
    tablet.wait_for_worker()
    take_along(page)
    desk.pause()
    try:
        page.goto("/live/1/", wait_until="commit", timeout=15_000)
        tablet.wait_for(lambda: page.locator(".unsent").count())
    finally:
        desk.go_on()


def test_a_form_keeps_what_was_typed(open_page: OpenPage) -> None:
    """A form sent without a network stays, with what was typed and a sentence that says what to do."""
    page = open_page("specialist")
    page.goto("/vans/1/")
    page.get_by_text("Raise a snag").first.click()
    words = page.get_by_label("What is wrong").first
    words.fill("The blind sticks")
    page.locator("form", has=words).get_by_role("radio").first.check()
    cut_off(page)
    page.get_by_role("button", name="Keep the snag").click()
    page.get_by_text("What you typed stays here").wait_for()
    assert words.input_value() == "The blind sticks"
    assert page.url.endswith("/vans/1/")


def test_signing_out_puts_pages_away_but_not_what_is_owed(open_page: OpenPage, desk: Desk, look: Look) -> None:
    """Signing out asks first where something is owed, then puts all pages away and keeps what is owed; it goes at the next sign-in."""
    page = open_page("specialist", at=desk)
    tablet = Tablet(page)
    tablet.wait_for_worker()
    take_along(page)
    page.context.route("**/live/*/events/", lambda route: route.abort())
    kept = tablet.append(HANDOVER, "note", words="owed at the end of the day")["id"]
    page.get_by_role("button", name="Sign out").click()
    page.get_by_text("That stays on this tablet").wait_for()
    look(page, "tablet-signing-out")
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url("**/sign-in/**")
    desk.signed_in.clear()
    tablet.wait_for(lambda: "1 note not sent yet" in tablet.line())
    assert tablet.does("return (await store.kits()).length;", "store") == 0
    assert page.evaluate("async () => (await caches.keys()).includes('firstpitch-pages')") is False
    cut_off(page)
    page.goto("/live/1/")
    page.get_by_role("heading", name="This tablet").wait_for()
    assert page.get_by_text("Beatrix").count() == 0
    page.context.set_offline(False)
    page.context.unroute("**/live/*/events/")
    sign_in(page, desk)
    tablet.wait_until_sent()
    assert kept in [event["id"] for event in told_to_desk(desk, HANDOVER)]


def test_app_updated_meanwhile(new_desk: Callable[..., Desk], open_page: OpenPage, tmp_path: Path, look: Look) -> None:
    """A newer version is offered in words, waits while something is owed, takes over when somebody says so, and nothing is lost."""
    desk = new_desk()
    page = open_page("specialist", at=desk)
    tablet = Tablet(page)
    tablet.wait_for_worker()
    take_along(page)
    page.goto("/live/1/")
    old = page.evaluate("async () => (await fetch('/worker.js')).text()")
    desk.stop()
    kept = [tablet.append(HANDOVER, "note", words="before the change")["id"]]
    shutil.copytree(Path(firstpitch.__file__).parent, tmp_path / "newer" / "firstpitch")
    words = tmp_path / "newer" / "firstpitch" / "desk" / "static" / "desk" / "tablet" / "words.js"
    words.write_text(
        words.read_text("utf-8").replace("Everything noted on this tablet", "All that was noted here"), "utf-8"
    )
    desk.more["PYTHONPATH"] = str(tmp_path / "newer")
    page.context.route("**/live/*/events/", lambda route: route.abort())
    desk.start()
    assert page.evaluate("async () => (await fetch('/worker.js')).text()") != old
    page.evaluate("navigator.serviceWorker.getRegistration().then(found => found.update())")
    page.get_by_role("link", name="A newer version is ready").click()
    page.get_by_text("A newer version of the desk is ready").wait_for()
    look(page, "tablet-newer-version")
    page.get_by_role("button", name="Change to it now").click()
    page.get_by_text("Wait until everything is with the desk").wait_for()
    assert tablet.unsent()["events"] == 1
    page.context.unroute("**/live/*/events/")
    tablet.send_now()
    tablet.wait_until_sent()
    with page.expect_navigation():
        page.get_by_role("button", name="Change to it now").click()
    tablet.wait_for(lambda: "All that was noted here is with the desk" in tablet.line())
    assert [event["id"] for event in told_to_desk(desk, HANDOVER)] == kept
    cut_off(page)
    page.reload()
    tablet.wait_for(lambda: "All that was noted here is with the desk" in tablet.line())
