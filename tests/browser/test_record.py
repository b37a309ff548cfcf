"""A record signed on the glass, and what the owner then reads by the private link."""

from __future__ import annotations

import json
import re
import uuid
from datetime import UTC, datetime, timedelta
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage
from tests.browser.tablet import cut_off

SEND = """async ([path, body]) => {
  const token = document.cookie.match(/csrftoken=([^;]+)/)?.[1] ?? document.querySelector("[name=csrfmiddlewaretoken]").value;
  const headers = {"Content-Type": "application/json", "X-CSRFToken": token};
  const answer = await fetch(path, {method: "POST", body, headers});
  return [answer.status, await answer.text()];
}"""


def show(page: Page, handover: str, steps: int) -> None:
    """Send what a tablet sends when so many steps are done, the owner trying every other one."""
    kit = page.request.get(f"/live/{handover}/kit.json").json()
    began = datetime.now(UTC) - timedelta(hours=1)
    events: list[dict[str, Any]] = []
    for number, step in enumerate(kit["problem"]["steps"][:steps]):
        at = (began + timedelta(seconds=60 * number)).isoformat()
        data = {"step": step["id"], "tried": number % 2 == 0}
        events.append({"id": str(uuid.uuid4()), "number": number, "at": at, "what": "step.done", "data": data})
    body = json.dumps({"device": "tablet-a", "events": events})
    status, said = page.evaluate(SEND, [f"/live/{handover}/events/", body])
    assert status == 200, said
    assert {answer["answer"] for answer in json.loads(said)["answers"]} == {"applied"}


def draw(page: Page) -> None:
    """Draw on the glass with a pointer."""
    glass = page.locator(".glass svg")
    glass.scroll_into_view_if_needed()
    box = glass.bounding_box()
    assert box
    page.mouse.move(box["x"] + 40, box["y"] + 100)
    page.mouse.down()
    for number in range(12):
        page.mouse.move(box["x"] + 60 + 25 * number, box["y"] + (60 if number % 2 else 130), steps=3)
    page.mouse.up()


def sound(page: Page) -> None:
    """No fault that the accessibility checker knows."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def to_record(page: Page, owner: str) -> str:
    """From Today to the record of an owner's handover; gives the handover's number."""
    page.goto("/")
    page.get_by_role("link", name=owner, exact=True).click()
    found = re.search(r"/handovers/(\d+)/", page.url)
    assert found
    return found[1]


def test_signed_on_the_glass_and_read_by_the_owner(specialist_page: Page, open_page: OpenPage, look: Look) -> None:
    """From Today to the handover, a link for the owner, the record signed on the glass, read by the owner, who asks back."""
    page = specialist_page
    number = to_record(page, "Tobias Fenwright")
    show(page, number, 12)
    page.reload()
    sound(page)
    page.get_by_role("button", name="Make a link").click()
    address = page.locator(".secret").inner_text()
    look(page, "handover")
    page.goto(f"/handovers/{number}/record/")
    sound(page)
    draw(page)
    page.get_by_role("button", name="Sign the record").click()
    expect(page.locator("#sign-fault")).to_contain_text("Confirm that you showed")
    assert page.locator("[name=path]").input_value().startswith("M")
    page.get_by_label("I showed what is recorded here").check()
    look(page, "record-unsigned")
    page.get_by_role("button", name="Sign the record").click()
    expect(page.get_by_role("img", name="Signature of Tobias Fenwright")).to_be_visible()
    expect(page.get_by_role("button", name="Sign the record")).to_have_count(0)
    sound(page)
    look(page, "record-signed")

    owner = open_page(size="phone")
    owner.goto(address)
    expect(owner.get_by_role("link", name="The signed record (PDF)")).to_be_visible()
    sound(owner)
    look(owner, "owner")
    owner.get_by_label("Your question").fill("How do I drain it?")
    owner.get_by_role("button", name="Send it").click()
    expect(owner.get_by_text("Not answered yet.")).to_be_visible()
    owner.get_by_role("link", name="Open the pack").click()
    expect(owner.locator("main")).to_be_visible()
    assert owner.evaluate("getComputedStyle(document.body).fontFamily").startswith('"Firstpitch')


def test_signed_by_keyboard_alone(specialist_page: Page) -> None:
    """Whoever cannot draw signs by keys: the typed name, a tick, and the specialist's tick; without a network nothing is lost."""
    page = specialist_page
    number = to_record(page, "The Oduya-Marsh family")
    show(page, number, 3)
    page.goto(f"/handovers/{number}/record/")
    page.get_by_label("Name of whoever signs").focus()
    for _ in range(10):
        page.keyboard.press("Tab")
        label = page.evaluate("document.activeElement.labels?.[0]?.innerText ?? document.activeElement.innerText")
        if "as typed" in label or "I showed" in label:
            page.keyboard.press("Space")
        if "Sign the record" in label:
            break
    cut_off(page)
    page.keyboard.press("Enter")
    expect(page.locator("#sign-fault")).to_contain_text("Wait for the network")
    page.context.set_offline(False)
    page.get_by_role("button", name="Sign the record").press("Enter")
    expect(page.get_by_text("Typed, and confirmed as the signature")).to_be_visible()
