"""What a day does to the live round: the clock, waits, a late start, things that cannot be used, a full tablet, paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage
from tests.browser.live import AFTER_TAP_MS, at_desk, begin, done, go_live, pick, sent, title
from tests.browser.running import SIZES, Desk

HANDOVER = 3
AAA = 7.0


@pytest.fixture
def own_desk(new_desk: Callable[..., Desk]) -> Desk:
    """A desk of this test's own."""
    return new_desk()


def fact(page: Page, name: str) -> str:
    """A figure of the clock's band."""
    return page.locator(".facts div").filter(has=page.get_by_text(name, exact=True)).locator("dd").inner_text()


def seconds(shown: str) -> int:
    """Minutes and seconds as seconds."""
    minutes, left = shown.split(":")[-2:]
    return int(minutes) * 60 + int(left)


def with_clock(page: Page) -> Page:
    """The round begun with a clock that only the test moves."""
    page.clock.install()
    go_live(page, HANDOVER)
    page.get_by_role("button", name="Begin the round").click()
    expect(page.locator("#live-done")).to_have_text("Done")
    return page


def to_first_wait(page: Page) -> dict[str, Any]:
    """Do step after step until one has started a wait; gives the wait."""
    problem = page.request.get(f"/live/{HANDOVER}/kit.json").json()["problem"]
    starts = {step["id"]: step["starts"] for step in problem["steps"]}
    for _ in range(60):
        page.clock.run_for(60_000)
        step = page.locator("#live").get_attribute("data-step") or ""
        page.locator("#live-done").evaluate("button => button.click()")
        page.wait_for_function("step => document.querySelector('#live').dataset.step !== step", arg=step)
        if starts[step]:
            wait: dict[str, Any] = next(wait for wait in problem["waits"] if wait["id"] == starts[step][0])
            return wait
    raise AssertionError("no step started a wait")


def test_a_wait_runs_with_its_time_left(own_desk: Desk, open_page: OpenPage) -> None:
    """A wait that a step has started stands there by name with the minutes left, counts down, and is gone when it is over."""
    page = with_clock(open_page("specialist", at=own_desk))
    wait = to_first_wait(page)
    row = page.locator(".waits > li").filter(has_text=wait["title"]).first
    before = seconds(row.locator(".figure").inner_text())
    assert wait["seconds"] - 5 <= before <= wait["seconds"]
    page.clock.run_for(30_000)
    assert before - seconds(row.locator(".figure").inner_text()) in (29, 30, 31)
    page.clock.run_for((before + 10) * 1000)
    expect(page.locator(".waits")).not_to_contain_text(wait["title"])


def test_late_and_by_one_tap_in_time_after_all(own_desk: Desk, open_page: OpenPage) -> None:
    """Standing still makes the round late by as much, in words; one tap asks for a rest that is over when it was to be."""
    page = with_clock(open_page("specialist", at=own_desk))
    assert fact(page, "Against the plan") == "as planned"
    was_over = fact(page, "Over at about")
    page.clock.run_for(15 * 60_000)
    assert fact(page, "Against the plan") == "15 min late"
    page.locator("#live-replan").click()
    page.get_by_role("button", name=f"Over by {was_over} after all").click()
    page.get_by_role("button", name="Plan the rest").click()
    sheet = page.get_by_role("dialog")
    expect(sheet).to_contain_text("Left out")
    expect(sheet).to_contain_text("No time")
    page.get_by_role("button", name="Go on like this").click()
    expect(sheet).to_have_count(0)
    page.clock.run_for(6_000)
    assert not fact(page, "Against the plan").endswith("late")


def test_kit_that_cannot_be_used(own_desk: Desk, open_page: OpenPage) -> None:
    """A kit that cannot be used takes its steps out of the rest, told once with the reason; the desk learns which and why."""
    page = begin(open_page("specialist", at=own_desk), HANDOVER)
    kit = next(
        k
        for k in page.request.get(f"/live/{HANDOVER}/kit.json").json()["kits"]
        if "oiler" in k["name"] or "heater" in k["name"]
    )
    page.locator("#live-replan").click()
    page.get_by_label("What cannot be used").select_option(kit["id"])
    page.get_by_label("Why (for the record)").fill("The workshop has it open.")
    page.get_by_role("button", name="Plan the rest").click()
    sheet = page.get_by_role("dialog")
    expect(sheet.get_by_text(f"{kit['name']} cannot be used today.")).to_have_count(1)
    page.get_by_role("button", name="Go on like this").click()
    sent(page)
    changed = next(e["data"] for e in at_desk(own_desk, HANDOVER) if e["what"] == "round.changed")
    assert (changed["without_kit"], changed["why"]) == ([kit["id"]], "The workshop has it open.")
    order = next(e["data"]["order"] for e in at_desk(own_desk, HANDOVER) if e["what"] == "round.replanned")
    assert not [step for step in order if step.startswith(f"{kit['id']}.")]


FULL = """() => {
  globalThis.add = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = () => { throw new DOMException("no room", "QuotaExceededError"); };
}"""
ROOM = "() => { IDBObjectStore.prototype.add = globalThis.add; }"


def test_full_tablet_keeps_what_was_typed(open_page: OpenPage) -> None:
    """Where the tablet has no room, the sheet says what to do and what was typed stays; with room again the same press keeps it."""
    page = begin(open_page("specialist"), 1)
    page.locator("#live-note").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("textbox").fill("A second key is wanted.")
    page.evaluate(FULL)
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet.get_by_role("alert")).to_contain_text("This tablet is full")
    expect(sheet.get_by_role("textbox")).to_have_value("A second key is wanted.")
    before = title(page)
    page.evaluate(ROOM)
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet).to_have_count(0)
    page.evaluate(FULL)
    page.wait_for_timeout(AFTER_TAP_MS)
    page.locator("#live-done").click()
    expect(page.get_by_role("dialog")).to_contain_text("That was not kept")
    page.keyboard.press("Escape")
    assert title(page) == before
    page.evaluate(ROOM)
    done(page)


def test_opens_once_the_desk_answers(own_desk: Desk, open_page: OpenPage) -> None:
    """A round that is not on the tablet yet says so, and opens by itself when the desk answers."""
    page = open_page("specialist", at=own_desk)
    page.context.route("**/kit.json*", lambda route: route.abort())
    page.goto(f"/live/{HANDOVER}/")
    expect(page.get_by_role("alert")).to_contain_text("not on this tablet yet")
    page.context.unroute("**/kit.json*")
    page.wait_for_selector("#live[data-ready]")
    expect(page.locator("#live-done")).to_have_text("Begin the round")


WORST = """() => {
  const piece = (name, words) => Object.assign(document.createElement(name), {textContent: words, href: "/tablet/"});
  const line = document.querySelector("[data-unsent]");
  line.replaceChildren(
    piece("span", "236 notes and 14 photos not sent yet. You have been signed out: kept here until you sign in again."),
    piece("a", "3 notes the desk would not take: look"), piece("a", "and 2 more"));
  line.classList.add("unsent-urgent");
}"""


@pytest.mark.parametrize("size", SIZES)
def test_all_that_can_be_wrong_at_once_has_room(open_page: OpenPage, look: Look, size: str) -> None:
    """Where most is wrong at once the line stays on the screen, covers no button, and the way to it all can be pressed."""
    page = go_live(open_page("specialist", size=size), 1)
    page.wait_for_function("document.querySelector('[data-unsent]').children.length > 0")
    page.evaluate(WORST)
    line = page.locator("[data-unsent]").bounding_box()
    assert line
    width, height = SIZES[size]
    assert line["y"] + line["height"] <= height + 1
    assert line["x"] + line["width"] <= width
    hidden = page.evaluate(
        """[...document.querySelectorAll("#live button, #live .button, #live a")].filter(b => b.checkVisibility({visibilityProperty: true}))
        .filter(b => { const r = b.getBoundingClientRect(); const top = document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2);
        return !(b === top || b.contains(top)); }).map(b => b.innerText)"""
    )
    page.evaluate("document.querySelector('[data-unsent]').scrollTop = 0")
    look(page, f"live-all-wrong-{size}")
    assert hidden == []


CONTRAST = """() => {
  const context = new OffscreenCanvas(1, 1).getContext("2d", {willReadFrequently: true});
  const light = colour => {
    context.fillStyle = colour;
    context.fillRect(0, 0, 1, 1);
    const [r, g, b] = [...context.getImageData(0, 0, 1, 1).data].slice(0, 3).map(v => v / 255)
      .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ground = at => {
    for (let each = at; each; each = each.parentElement) {
      const found = getComputedStyle(each).backgroundColor;
      if (!/[(, /]0[)]$/.test(found)) return found;
    }
    return "white";
  };
  const texts = [...document.querySelectorAll("#live *, dialog[open] *")].filter(each => each.checkVisibility({visibilityProperty: true}))
    .filter(each => !each.closest("svg, [disabled]") && [...each.childNodes].some(node => node.nodeType === 3 && node.data.trim()));
  return texts.map(each => {
    const [a, b] = [light(getComputedStyle(each).color), light(ground(each))].sort((x, y) => y - x);
    return [Math.round((a + 0.05) / (b + 0.05) * 100) / 100, each.textContent.trim().slice(0, 40)];
  }).sort(([a], [b]) => a - b);
}"""


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_can_be_read_in_the_sun(open_page: OpenPage, dark: bool) -> None:
    """Every word of the live round stands out at least 7 : 1 (WCAG 2.2, 1.4.6, the enhanced one), on the screen and on its sheets."""
    page = open_page("specialist")
    page.emulate_media(color_scheme="dark" if dark else "light")
    go_live(page, HANDOVER)
    if page.locator("#live-done").inner_text() != "Done":
        done_first(page)
    pick(page, "Heat the water on mains")
    for key in ("", "live-done", "live-left", "live-snag", "live-replan", "live-steps"):
        if key:
            page.locator(f"#{key}").click()
            expect(page.get_by_role("dialog")).to_be_visible()
        measured = page.evaluate(CONTRAST)
        assert len(measured) > 10
        assert [each for each in measured if each[0] < AAA] == [], key
        page.keyboard.press("Escape")


def done_first(page: Page) -> None:
    """Begin the round."""
    page.locator("#live-done").click()
    page.wait_for_timeout(AFTER_TAP_MS)


def test_what_has_no_room_says_so(open_page: OpenPage) -> None:
    """Where cautions go on below the fold the screen says "more below", the keyboard gets there, and at the end it says so no more."""
    page = go_live(open_page("specialist", size="phone"), HANDOVER)
    if page.locator("#live-done").inner_text() != "Done":
        done_first(page)
    pick(page, "Plug the hook-up lead in")
    read = page.locator("#live-read")
    expect(read).to_have_attribute("data-more", "")
    read.focus()
    page.keyboard.press("End")
    expect(read).not_to_have_attribute("data-more", "")


def test_the_rest_on_paper(open_page: OpenPage) -> None:
    """Printed, the round is a list to tick of all that is still to do, with what to stop for above its step, and nothing of the screen."""
    page = begin(open_page("specialist"), 2)
    first = title(page)
    done(page)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    page.emulate_media(media="print")
    paper = page.locator("#live-paper")
    expect(paper).to_be_visible()
    expect(page.locator("#live")).to_be_hidden()
    left = int(fact_text(page))
    expect(paper.locator("ol > li")).to_have_count(left)
    expect(paper).to_contain_text("Never switch the heater on, mains or gas, until it is full of water.")
    expect(paper.locator("ul.short").last).to_contain_text(first)


def fact_text(page: Page) -> str:
    """How many steps are still to do, read though the screen is not shown."""
    return page.locator(".facts div").last.locator("dd").text_content() or ""
