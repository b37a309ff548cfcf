"""The live round on a real tablet: one story after another with the real desk."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage
from tests.browser.live import AFTER_TAP_MS, at_desk, begin, done, go_live, pick, sent, title, wait_for
from tests.browser.running import SIZES, Desk
from tests.browser.tablet import cut_off


@pytest.fixture
def own_desk(new_desk: Callable[..., Desk]) -> Desk:
    """A desk of this test's own."""
    return new_desk()


def test_a_round_begins_and_goes_on(own_desk: Desk, open_page: OpenPage) -> None:
    """Beginning, done, tried by the owner, and not today with a reason reach the desk in that order, each with the next step begun."""
    page = begin(open_page("specialist", at=own_desk), 1)
    done(page)
    done(page, "Owner tried it")
    page.get_by_role("button", name="Not today").click()
    page.get_by_role("button", name="Leave it out").click()
    expect(page.get_by_role("alert")).to_have_text("Say why in a word or two.")
    page.get_by_role("button", name="It rains").click()
    before = title(page)
    page.get_by_role("button", name="Leave it out").click()
    expect(page.locator("#step")).not_to_have_text(before)
    sent(page)
    events = at_desk(own_desk, 1)
    said = ["step.begun", "step.done", "step.begun", "step.done", "step.begun", "step.left", "step.begun"]
    assert [e["what"] for e in events] == said
    assert [e["data"]["tried"] for e in events if e["what"] == "step.done"] == [False, True]
    assert events[5]["data"]["reason"] == "It rains."


def test_a_second_tap_takes_no_step_along(open_page: OpenPage) -> None:
    """Two quick taps on "Done" are one: the step that has just come is not done by them."""
    page = begin(open_page("specialist"), 2)
    second = page.locator("#live-next strong").inner_text()
    page.locator("#live-done").dblclick()
    page.wait_for_timeout(AFTER_TAP_MS)
    assert title(page) == second


def test_nothing_moves_under_the_finger(open_page: OpenPage) -> None:
    """Through eight steps every button stays exactly where it was."""
    page = go_live(open_page("specialist"), 2)
    places = """[...document.querySelectorAll('#live button, #live .button')].map(b => {
      const r = b.getBoundingClientRect();
      return [b.id, r.x, r.y, r.width, r.height];
    }).filter(([id]) => id)"""
    if page.locator("#live-done").inner_text() != "Done":
        page.locator("#live-done").click()
        page.wait_for_timeout(AFTER_TAP_MS)
    first = page.evaluate(places)
    for _ in range(8):
        done(page)
        assert page.evaluate(places) == first


def test_a_step_that_would_do_harm_is_stopped(own_desk: Desk, open_page: OpenPage) -> None:
    """Heating without water is stopped with the harm in words; going on needs a reason, and both are at the desk before the step."""
    page = begin(open_page("specialist", at=own_desk), 3)
    pick(page, "Heat the water on mains")
    expect(page.locator("#live-hold")).to_contain_text("water in the heater: full")
    expect(page.locator("#live-done")).to_have_class("main stopped")
    page.get_by_role("button", name="Done", exact=True).click()
    sheet = page.get_by_role("dialog")
    expect(sheet.get_by_role("heading")).to_have_text("Stop")
    expect(sheet).to_contain_text("burns out")
    sheet.get_by_text("Go on all the same").click()
    sheet.get_by_role("button", name="Go on, on my word").click()
    expect(sheet.get_by_role("alert")).to_contain_text("reason")
    sheet.get_by_label("Why is it safe here?").fill("Filled by the workshop this morning.")
    sheet.get_by_role("button", name="Go on, on my word").click()
    expect(sheet).to_have_count(0)
    sent(page)
    events = at_desk(own_desk, 3)
    over = [e for e in events if e["what"] == "guard.overridden"]
    assert over
    assert all(e["data"]["reason"] == "Filled by the workshop this morning." for e in over)
    assert any("burns out" in e["data"]["harm"] for e in over)
    last = [e["what"] for e in events].index("step.done")
    assert events[last]["data"]["step"] == "water-heater.heat_mains"
    assert events[last - 1]["what"] == "guard.overridden"


def test_going_on_against_a_warning_without_a_network(own_desk: Desk, open_page: OpenPage) -> None:
    """Without a network a technician goes on with a reason too; it stands under that name in the record once it is sent."""
    page = begin(open_page("technician", at=own_desk), 3)
    pick(page, "Heat the water on mains")
    sent(page)
    cut_off(page)
    page.locator("#live-done").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_text("Go on all the same").click()
    sheet.get_by_label("Why is it safe here?").fill("The heater is full: I filled it at noon.")
    sheet.get_by_role("button", name="Go on, on my word").click()
    expect(sheet).to_have_count(0)
    expect(page.locator("[data-unsent]")).to_contain_text("not sent yet")
    page.context.set_offline(False)
    sent(page)
    page.goto("/handovers/3/record/")
    told = page.locator("section").filter(has=page.get_by_role("heading", name="Gone on against a warning"))
    expect(told).to_contain_text("burns out")
    expect(told).to_contain_text("The heater is full: I filled it at noon.")
    expect(told).to_contain_text("Idris Venn")


def test_the_stop_leads_to_what_comes_first(own_desk: Desk, open_page: OpenPage) -> None:
    """The stop names the step that brings about what is missing, and goes there; what is found so already is noted with a reason."""
    page = begin(open_page("specialist", at=own_desk), 3)
    pick(page, "Light a burner and put it out")
    page.get_by_role("button", name="Done", exact=True).click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name="First: ").first.click()
    expect(sheet).to_have_count(0)
    assert title(page) != "Light a burner and put it out"
    pick(page, "Heat the water on mains")
    page.get_by_role("button", name="Done", exact=True).click()
    page.get_by_role("button", name="It is full already").click()
    page.get_by_role("button", name="I looked").click()
    page.get_by_role("button", name="So it is").click()
    expect(page.locator("#live-hold")).not_to_contain_text("now empty")
    sent(page)
    found = [e["data"] for e in at_desk(own_desk, 3) if e["what"] == "state.set"]
    assert [(f["condition"], f["value"], f["reason"]) for f in found] == [("water-heater.water", "full", "I looked.")]


def test_taking_back_is_an_event(own_desk: Desk, open_page: OpenPage) -> None:
    """A step taken back is to do again; the desk keeps both events."""
    page = begin(open_page("specialist", at=own_desk), 1)
    first = title(page)
    done(page)
    page.get_by_role("button", name="Take back").click()
    page.get_by_role("button", name=f"Take back: Done: {first}").click()
    page.get_by_role("button", name="All steps").click()
    expect(page.get_by_role("button", name=f"Go there: {first}").first).to_be_visible()
    page.keyboard.press("Escape")
    sent(page)
    assert [e["what"] for e in at_desk(own_desk, 1)] == ["step.begun", "step.done", "step.begun", "undone"]


def test_a_snag_with_a_photo(own_desk: Desk, open_page: OpenPage, tmp_path: Path) -> None:
    """A snag raised on the round with a photo stands among the snags of the van, with its photo at the desk."""
    page = begin(open_page("specialist", at=own_desk), 1)
    picture = tmp_path / "blind.jpg"
    Image.new("RGB", (900, 600), "peru").save(picture)
    page.get_by_role("button", name="Snag").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet.get_by_role("alert")).to_have_text("Say what is wrong.")
    sheet.get_by_label("What is wrong?").fill("The blind is torn.")
    sheet.get_by_text("Stop: the van does not go").click()
    sheet.get_by_label("A photo of it").set_input_files(picture)
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet).to_have_count(0)
    sent(page)
    raised = next(e for e in at_desk(own_desk, 1) if e["what"] == "snag.raised")
    assert (raised["data"]["words"], raised["data"]["severity"]) == ("The blind is torn.", "stop")
    photo = next(e for e in at_desk(own_desk, 1) if e["what"] == "photo")
    assert photo["data"]["snag"] == raised["data"]["snag"]
    media = own_desk.python("from firstpitch.desk.models import Media; print(Media.objects.get().pk)")
    assert media == photo["data"]["media"]


def test_planning_the_rest_anew(own_desk: Desk, open_page: OpenPage) -> None:
    """No gas and rain: the desk's answer is there within two seconds of the tap, and the round goes on as it says."""
    page = begin(open_page("specialist", at=own_desk), 3)
    done(page)
    page.locator("#live-replan").click()
    page.get_by_role("button", name="No gas").click()
    page.get_by_role("button", name="Rain: indoors for 20 min").click()
    began = time.monotonic()
    page.get_by_role("button", name="Plan the rest").click()
    go = page.get_by_role("button", name="Go on like this")
    go.wait_for()
    assert time.monotonic() - began < 4.0
    go.click()
    sent(page)
    events = at_desk(own_desk, 3)
    changed = next(e["data"] for e in events if e["what"] == "round.changed")
    assert changed["without_supply"] == ["gas"]
    assert changed["indoors_for"] == 1200
    order = next(e["data"] for e in events if e["what"] == "round.replanned")
    assert order["by"] == "server"
    assert not [step for step in order["order"] if step == "hob.light"]


def test_planning_anew_without_a_network(own_desk: Desk, open_page: OpenPage) -> None:
    """Without a network the tablet plans the rest itself, says so, and what was noted goes to the desk when the network is back."""
    page = begin(open_page("specialist", at=own_desk), 3)
    sent(page)
    cut_off(page)
    done(page)
    done(page)
    page.locator("#live-replan").click()
    page.get_by_role("button", name="No gas").click()
    page.get_by_role("button", name="Plan the rest").click()
    expect(page.get_by_role("dialog")).to_contain_text("No network")
    page.get_by_role("button", name="Go on like this").click()
    done(page)
    expect(page.locator("[data-unsent]")).to_contain_text("not sent yet")
    page.context.set_offline(False)
    sent(page)
    events = at_desk(own_desk, 3)
    assert len([e for e in events if e["what"] == "step.done"]) == 3
    order = next(e["data"] for e in events if e["what"] == "round.replanned")
    assert order["by"] == "tablet"
    assert "hob.light" not in order["order"]


def test_minutes_too_short_are_explained(open_page: OpenPage) -> None:
    """Five minutes for all of it: what the musts take is said, with the minutes that would do."""
    page = begin(open_page("specialist"), 1)
    page.locator("#live-replan").click()
    minus = page.get_by_role("button", name="− 5")
    for _ in range(25):
        minus.click()
    page.get_by_role("button", name="Plan the rest").click()
    sheet = page.get_by_role("dialog")
    expect(sheet).to_contain_text("The musts alone take")
    sheet.get_by_role("button", name="Plan with ").click()
    expect(page.get_by_role("button", name="Go on like this")).to_be_visible()


def test_two_tablets_see_each_other(own_desk: Desk, open_page: OpenPage) -> None:
    """What is done on one tablet is done on the other within seconds, and its step moves on."""
    one = begin(open_page("specialist", at=own_desk), 1)
    other = go_live(open_page("technician", at=own_desk), 1)
    done(one)
    now = title(one)
    wait_for(lambda: title(other) == now)


def test_a_round_from_the_first_to_the_last_step(own_desk: Desk, open_page: OpenPage) -> None:
    """Tapping "Done" on whatever comes, and waiting where the van makes one wait, leads to the end with nothing open."""
    page = open_page("specialist", at=own_desk)
    page.clock.install()
    go_live(page, 3)
    page.get_by_role("button", name="Begin the round").click()
    for _ in range(400):
        page.clock.run_for(30_000)
        words = page.locator("#live-done").inner_text()
        if words != "Done":
            break
        if not page.locator("#live-done.stopped").count():
            page.locator("#live-done").evaluate("button => button.click()")
    expect(page.locator("#step")).to_have_text("The round is done")
    expect(page.locator("#live-hold")).to_be_empty()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("dark", [False, True])
def test_looks_and_targets(open_page: OpenPage, look: Look, size: str, dark: bool) -> None:
    """In each size, light and dark: main targets are at least 56 px high, figures at least 28 px, and the checker finds no fault."""
    page = open_page("specialist", size=size)
    page.emulate_media(color_scheme="dark" if dark else "light")
    go_live(page, 3)
    if page.locator("#live-done").inner_text() != "Done":
        page.locator("#live-done").click()
        page.wait_for_timeout(AFTER_TAP_MS)
    pick(page, "Heat the water on mains")
    low = page.evaluate(
        "[...document.querySelectorAll('#live button, #live .button')].filter(b => b.checkVisibility({visibilityProperty: true}))"
        ".map(b => [b.innerText, b.getBoundingClientRect().height]).filter(([, h]) => h < 47.5)"
    )
    assert not low
    small = page.evaluate(
        "[...document.querySelectorAll('.now-acts button, .time-acts button, .time-acts .button')]"
        ".map(b => b.getBoundingClientRect().height).filter(h => h < 55.5)"
    )
    assert not small
    figures = page.evaluate(
        "[...document.querySelectorAll('.facts .figure, .waits .figure')].map(f => parseFloat(getComputedStyle(f).fontSize))"
    )
    assert figures
    assert min(figures) >= 28
    spill = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert spill <= 0
    assert not _faults(page)
    if not dark:
        look(page, f"live-{size}")
    page.locator("#live-done").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    assert not _faults(page)
    if size == "wide":
        look(page, f"live-stop{'-dark' if dark else ''}")


def _faults(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:120]}" for each in found]


def test_by_keyboard_alone(open_page: OpenPage) -> None:
    """The step can be done, left out and the sheets closed with the keyboard, and the focus is always to be seen."""
    page = go_live(open_page("specialist"), 2)
    if page.locator("#live-done").inner_text() != "Done":
        page.locator("#live-done").press("Enter")
        page.wait_for_timeout(AFTER_TAP_MS)
    page.locator("#live-left").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("dialog")).to_be_visible()
    page.keyboard.press("Tab")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    assert page.evaluate("document.activeElement.id") == "live-left"
