"""A whole handover by keyboard, without a network, the browser closed and opened in between."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser.conftest import Look
from tests.browser.live import CLOCK, go_round, press
from tests.browser.running import Desk
from tests.browser.tablet import Tablet, own_browser, photos_at_desk, sign_in, told_to_desk

HANDOVER = 3
_CLOSE_AT = 12


def open_live(context: BrowserContext) -> Page:
    """The live round from a cold start."""
    page = context.pages[0]
    page.add_init_script(CLOCK)
    page.goto(f"/live/{HANDOVER}/")
    page.wait_for_selector("#live[data-ready]")
    return page


def photo() -> bytes:
    """A picture file as a camera gives it."""
    out = io.BytesIO()
    Image.effect_noise((2400, 1800), 60).save(out, "JPEG")
    return out.getvalue()


@pytest.mark.slow
def test_whole_handover_by_keyboard_without_a_network(browser: Browser, desk: Desk, tmp_path: Path, look: Look) -> None:
    """From the welcome to the goodbye by keyboard alone, cold-started twice without a network; the desk has all of it once, in order."""
    with own_browser(browser, desk, tmp_path) as context:
        page = context.pages[0]
        sign_in(page, desk)
        tablet = Tablet(page)
        page.goto(f"/live/{HANDOVER}/")
        tablet.wait_for_worker()
        tablet.wait_for(lambda: tablet.does("return store.kit(handover);", "store", handover=HANDOVER))
        tablet.wait_for(lambda: tablet.does("return pages.isKept(path);", "pages", path=f"/live/{HANDOVER}/"))
    desk.stop()
    with own_browser(browser, desk, tmp_path, offline=True) as context:
        page = open_live(context)
        did = go_round(page, _CLOSE_AT)
        press(page, "live-note")
        page.keyboard.press("Tab")
        page.keyboard.type("The owner would like a second key")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.locator("dialog[open]").wait_for(state="detached")
        page.locator("#live-photo").set_input_files({"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": photo()})
        Tablet(page).wait_for(lambda: Tablet(page).unsent()["photos"] == 1)
    with own_browser(browser, desk, tmp_path, offline=True) as context:
        page = open_live(context)
        did += go_round(page)
        look(page, "live-whole-round-offline")
        tablet = Tablet(page)
        noted = [event["id"] for event in tablet.events(HANDOVER)]
        assert tablet.unsent()["events"] == len(noted)
        desk.start()
        context.set_offline(False)
        tablet.send_now()
        tablet.wait_until_sent()
        planned = tablet.does(
            "return (await store.kit(handover)).plan.steps.map(s => s.id);", "store", handover=HANDOVER
        )
    seen = told_to_desk(desk, HANDOVER)
    assert [event["id"] for event in seen] == noted
    done = [event["data"]["step"] for event in seen if event["what"] == "step.done"]
    assert len(done) == len(set(done)) == did
    assert set(done) == set(planned)
    assert not [event for event in seen if event["what"] == "guard.overridden"]
    assert len(photos_at_desk(desk, HANDOVER)) == 1
