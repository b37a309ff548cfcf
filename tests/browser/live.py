"""The live round in the hands of a test: what a presenter does on the screen, and what of it is at the desk."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.running import Desk

AFTER_TAP_MS = 800
_MOST_TURNS = 260
_TABS = 40
_ANSWERED = (
    "before => document.querySelector('#live').dataset.step !== before || document.querySelector('dialog[open]')"
)


def go_live(page: Page, handover: int) -> Page:
    """Open the live round of a handover and wait until it stands."""
    page.goto(f"/live/{handover}/")
    page.wait_for_selector("#live[data-ready]", timeout=90_000)
    return page


def begin(page: Page, handover: int) -> Page:
    """Open the live round and begin it."""
    go_live(page, handover)
    page.get_by_role("button", name="Begin the round").click()
    expect(page.locator("#live-done")).to_have_text("Done")
    page.wait_for_timeout(AFTER_TAP_MS)
    return page


def title(page: Page) -> str:
    """The title of the step now."""
    return page.locator("#step").inner_text()


def done(page: Page, name: str = "Done") -> None:
    """Press one of the big buttons and wait for the next step."""
    before = title(page)
    page.get_by_role("button", name=name, exact=True).click()
    page.wait_for_function("before => document.querySelector('#step').innerText !== before", arg=before)
    page.wait_for_timeout(AFTER_TAP_MS)


def pick(page: Page, step: str) -> None:
    """Go to a step by its title."""
    page.get_by_role("button", name="All steps").click()
    page.get_by_role("button", name=f"Go there: {step}").first.click()
    expect(page.locator("#step")).to_have_text(step)
    page.wait_for_timeout(AFTER_TAP_MS)


def at_desk(desk: Desk, handover: int) -> list[dict[str, Any]]:
    """The events of a handover that came from tablets, in the order they were seen."""
    code = (
        "import json; from firstpitch.desk.models import Event; "
        f"rows = Event.objects.filter(handover={handover}).exclude(device='').order_by('device', 'number'); "
        "print(json.dumps([{'what': e.what, 'data': e.data} for e in rows]))"
    )
    found: list[dict[str, Any]] = json.loads(desk.python(code))
    return found


def wait_for(said: Callable[[], bool], seconds: float = 20.0) -> None:
    """Wait until something is so."""
    ends = time.monotonic() + seconds
    while not said():
        assert time.monotonic() < ends, "it never came"
        time.sleep(0.3)


def sent(page: Page) -> None:
    """Wait until the tablet owes nothing."""
    expect(page.locator("[data-unsent]")).to_contain_text("is with the desk", timeout=20_000)


# The clock of the tablet, put on by as much as a step or a wait would take; it stays put on when the page is opened again.
CLOCK = """
  const Right = Date;
  const ahead = () => Number(localStorage.getItem("ahead") ?? 0);
  const running = performance.now.bind(performance);
  const opened = ahead();
  globalThis.later = seconds => localStorage.setItem("ahead", String(ahead() + seconds * 1000));
  performance.now = () => running() + ahead() - opened;
  globalThis.Date = class extends Right {
    constructor(...given) { given.length ? super(...given) : super(Right.now() + ahead()); }
    static now() { return Right.now() + ahead(); }
  };"""


def focus_on(page: Page, key: str) -> None:
    """Go on with the Tab key until the element is reached."""
    for _ in range(_TABS):
        if page.evaluate("document.activeElement?.id") == key:
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"the Tab key never came to {key}")


def press(page: Page, key: str) -> None:
    """Press a button by keyboard."""
    focus_on(page, key)
    page.keyboard.press("Enter")


def step_now(page: Page) -> str:
    """The id of the step on the screen; two in a row may have the same title."""
    return page.locator("#live").get_attribute("data-step") or ""


def go_round(page: Page, steps: int | None = None) -> int:
    """Do step after step, for so many or to the end; where a wait is not over, wait. Gives how many were done."""
    did = 0
    for _ in range(_MOST_TURNS):
        words = page.locator("#live-done").inner_text()
        if words in ("To the record", "All steps") or did == steps:
            return did
        page.evaluate("globalThis.later(40)")
        before = step_now(page)
        press(page, "live-done")
        page.wait_for_function(_ANSWERED, arg=before)
        if step_now(page) == before:
            assert page.locator("dialog[open] h2").inner_text() == "Not yet", page.locator("dialog[open]").inner_text()
            page.keyboard.press("Escape")
            page.evaluate("globalThis.later(600)")
            continue
        did += words == "Done"
    raise AssertionError("the round never came to its end")
