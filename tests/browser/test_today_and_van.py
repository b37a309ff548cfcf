"""Today, vans, catalogue and settings with a real browser: what is seen in three sizes, by touch, by keyboard, with no script."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from openpyxl import load_workbook
from playwright.sync_api import Browser, Page, expect

from firstpitch.demo import sheets
from tests.browser.conftest import Look, OpenPage
from tests.browser.running import ARTEFACTS, SIZES, Desk

PLOVER = "/vans/2/"
PAGES = {
    "today": "/",
    "vans": "/vans/",
    "van": PLOVER,
    "van nearside": f"{PLOVER}?view=nearside",
    "van offside": f"{PLOVER}?view=offside",
    "van front": f"{PLOVER}?view=front",
    "van rear": f"{PLOVER}?view=rear",
    "van kit": f"{PLOVER}kit/gas-regulator/",
    "van history": f"{PLOVER}history/",
    "van sheet": f"{PLOVER}sheet/",
    "take a van in": "/vans/new/",
    "send a sheet in": "/vans/new/file/",
    "van like": "/vans/3/similar/",
    "which van": "/handovers/new/",
    "new handover": "/handovers/new/?van=3",
    "catalogue": "/catalogue/",
    "kind": "/catalogue/space_heater/",
    "own text": "/catalogue/tap/own/",
    "settings": "/settings/",
}
ALONE = (
    "button, summary, select, input:not([type=hidden]):not([type=radio]):not([type=checkbox]), "
    ".listed a, .views a, .top a, a.button, .kinds a, .waiting a, .go a"
)
FIRST_VISIT, AGAIN = 150_000, 30_000


def no_barrier(page: Page) -> None:
    """The automated checker finds no barrier on the page, and had something to check."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert len(found.response["passes"]) > 10


@pytest.mark.parametrize("name", list(PAGES))
def test_page_in_three_sizes(manager_page: Page, look: Look, name: str) -> None:
    """Each page, with everything on it opened, fits the three sizes without sliding sideways and holds no barrier, light and dark."""
    manager_page.goto(PAGES[name])
    look(manager_page, name)
    manager_page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    for scheme in ("light", "dark"):
        manager_page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        no_barrier(manager_page)
    look(manager_page, f"{name} dark")


@pytest.mark.parametrize("name", ["today", "van", "van kit", "van like", "settings"])
def test_twice_as_large(open_page: OpenPage, name: str) -> None:
    """At 200 % nothing is cut off and no page slides sideways (a page 1180 wide then has room for 590)."""
    page = open_page("manager")
    page.set_viewport_size({"width": 590, "height": 410})
    page.goto(PAGES[name])
    spill = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert spill <= 0


@pytest.mark.parametrize("size", list(SIZES))
@pytest.mark.parametrize("name", ["today", "vans", "van kit", "van like", "new handover", "settings", "catalogue"])
def test_targets_are_large(open_page: OpenPage, size: str, name: str) -> None:
    """Every button, field and link that stands alone is at least 48 px high; the one main button 56."""
    page = open_page("manager", size=size)
    page.goto(PAGES[name])
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    small = page.evaluate(
        """(alone) => [...document.querySelectorAll(alone)]
        .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < (one.matches('.main') ? 56 : 48) - 0.5)
        .map(one => one.outerHTML.slice(0, 90))""",
        ALONE,
    )
    assert small == []


def test_pick_on_the_drawing(specialist_page: Page) -> None:
    """A finger near a mark picks that kit: its panel comes, mark and line are marked, and the way back leads back."""
    page = specialist_page
    page.goto(PLOVER)
    mark = page.locator(f'.drawing a[href="{PLOVER}kit/jockey-wheel/"] circle')
    box = mark.bounding_box()
    assert box
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] + 8)
    expect(page.locator("#panel h2")).to_contain_text("Jockey wheel")
    assert page.url.endswith("/kit/jockey-wheel/")
    expect(page.locator('.listed a[aria-current="true"]')).to_contain_text("Jockey wheel")
    assert page.locator('.drawing a[aria-current="true"]').count() == 1
    page.go_back()
    expect(page.locator("#panel h2")).to_contain_text("What this van waits for")


def test_panel_comes_into_sight(open_page: OpenPage) -> None:
    """On a phone a kit picked in the long list brings its panel into sight and has the focus for a screen reader."""
    page = open_page("specialist", size="phone")
    page.goto(PLOVER)
    page.locator(".listed a").last.click()
    expect(page.locator("#panel h2")).to_be_in_viewport()
    expect(page.locator("#panel h2")).to_be_focused()


def test_by_keyboard_alone(specialist_page: Page) -> None:
    """By keyboard alone: past the head, to a mark on the drawing, to its panel, with the focus seen all the way."""
    page = specialist_page
    page.goto(PLOVER)
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_in_viewport()
    page.keyboard.press("Enter")
    expect(page.locator("#main")).to_be_focused()
    for _ in range(40):
        page.keyboard.press("Tab")
        seen = page.evaluate(
            "[getComputedStyle(document.activeElement).outlineStyle, document.activeElement.outerHTML]"
        )
        assert seen[0] != "none", seen[1][:200]
        if page.evaluate("document.activeElement.matches('.drawing a')"):
            break
    name = page.evaluate("document.activeElement.getAttribute('aria-label')")
    page.keyboard.press("Enter")
    expect(page.locator("#panel h2")).to_contain_text(name.split(" ", 1)[1].split(",")[0])


def test_without_script(browser: Browser, desk: Desk, open_page: OpenPage) -> None:
    """With scripts switched off the same links open the same kit."""
    open_page("specialist")
    context = browser.new_context(
        base_url=desk.address, java_script_enabled=False, storage_state=desk.signed_in["specialist"]
    )
    page = context.new_page()
    page.goto(PLOVER)
    page.locator(".listed a").nth(4).click()
    expect(page.locator("#panel h2")).to_contain_text("Jockey wheel")
    context.close()


def test_fill_in_a_figure(specialist_page: Page) -> None:
    """A missing figure typed wrongly is told beside its field and stays; typed right it is in the sheet and no more waited for."""
    page = specialist_page
    page.goto(PLOVER)
    field = page.get_by_label("Under the fixed bed, rear part")
    field.fill("a lot")
    page.get_by_role("button", name="Write into the sheet").click()
    field = page.get_by_label("Under the fixed bed, rear part")
    expect(field).to_have_value("a lot")
    expect(page.locator(".ask .fault")).to_contain_text("“a lot” is not a number with a unit")
    field.fill("25")
    page.get_by_role("button", name="Write into the sheet").click()
    expect(page.locator(".notice")).to_contain_text("Written into the build sheet.")
    expect(page.locator("#panel")).not_to_contain_text("Under the fixed bed")
    page.goto(f"{PLOVER}sheet/")
    assert "limit: 25 kg" in page.get_by_label("Version 2").input_value()


def test_snag_story(specialist_page: Page, technician_page: Page) -> None:
    """The specialist raises a snag on a kit, Today says the van does not go; the technician mends it, and Today says so no more."""
    page = specialist_page
    page.goto(f"{PLOVER}kit/shower/")
    page.get_by_text("Something is wrong with it").click()
    page.get_by_label("What is wrong?").fill("The tray is cracked")
    page.get_by_label("Stop: the van does not go").check()
    page.get_by_role("button", name="Keep the snag").click()
    page.goto("/")
    expect(page.get_by_text("1 snag to mend before it goes")).to_be_visible()
    mending = technician_page
    mending.goto(PLOVER)
    mending.get_by_role("button", name="Mended: The tray is cracked").first.click()
    expect(mending.locator(".notice")).to_contain_text("Mended.")
    page.goto("/")
    expect(page.get_by_text("1 snag to mend before it goes")).to_have_count(0)


def test_workbook_story(specialist_page: Page, tmp_path: Path) -> None:
    """Take the template away, fill it in wrongly, see every fault at its cell, put it right, and the van is there with its drawing."""
    page = specialist_page
    page.goto("/vans/1/sheet/")
    with page.expect_download() as waited:
        page.get_by_role("link", name="workbook").click()
    book = load_workbook(io.BytesIO(Path(waited.value.path()).read_bytes()))
    cells = {row[3].value: row[1] for row in book["van"].iter_rows()}
    cells["van.name"].value = "Heron again"
    cells["van.chassis_number"].value = "DEM0HERN626000064"
    cells["masses.mtplm"].value = "heavy"
    wrong, right = tmp_path / "wrong.xlsx", tmp_path / "right.xlsx"
    book.save(wrong)
    cells["masses.mtplm"].value = 1860
    book.save(right)
    page.goto("/vans/new/file/")
    page.get_by_label("The file").set_input_files(wrong)
    page.get_by_role("button", name="Take the van in").click()
    expect(page.get_by_role("alert")).to_contain_text("sheet “van”, cell B10")
    page.screenshot(path=ARTEFACTS / "faults-of-a-workbook.png", full_page=True)
    page.get_by_label("The file").set_input_files(right)
    page.get_by_role("button", name="Take the van in").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Heron again")
    expect(page.locator(".drawing svg").first).to_be_visible()


def test_new_van_and_its_handover(specialist_page: Page) -> None:
    """From Today: a handover for a van that is not there yet; the van is taken in, the day said as one says it, and it is in the diary."""
    page = specialist_page
    page.goto("/")
    page.get_by_role("link", name="Add a handover").click()
    page.get_by_role("link", name="It is a new van").click()
    page.get_by_role("link", name="Send a file").click()
    page.get_by_text("Or paste the sheet").click()
    sheet = sheets()["wren"].read_text("utf-8").replace("name: Wren", "name: Wren the third")
    page.get_by_label("The sheet as text").fill(sheet.replace("226000017", "226000019"))
    page.get_by_role("button", name="Take the van in").click()
    page.get_by_label("Who collects it?").fill("Ottoline Marsh")
    page.get_by_label("When?").fill("tomorrow 2pm")
    page.get_by_role("button", name="Put it in the diary").click()
    expect(page.locator(".notice")).to_contain_text("Ottoline Marsh collects Wren the third on")
    expect(page.locator(".diary")).to_contain_text(["Ottoline Marsh"] if page.locator(".diary").count() == 1 else [])
    expect(page.get_by_text("Ottoline Marsh", exact=True)).to_be_visible()


@pytest.mark.parametrize("name", ["today", "vans", "van", "van kit", "catalogue", "settings"])
def test_bytes(open_page: OpenPage, name: str) -> None:
    """A first visit fetches at most 150 kB, the next one at most 30 kB (as sent over the line)."""
    page = open_page("manager", offline_app=False)
    session = page.context.new_cdp_session(page)
    session.send("Network.enable")
    sent = {"bytes": 0.0}
    session.on("Network.loadingFinished", lambda event: sent.update(bytes=sent["bytes"] + event["encodedDataLength"]))
    session.send("Network.clearBrowserCache")
    page.goto(PAGES[name], wait_until="networkidle")
    first, sent["bytes"] = sent["bytes"], 0.0
    page.goto(PAGES[name], wait_until="networkidle")
    assert first <= FIRST_VISIT, f"first visit {first:.0f} bytes"
    assert sent["bytes"] <= AGAIN, f"next visit {sent['bytes']:.0f} bytes"


def test_prints_on_paper(specialist_page: Page) -> None:
    """On paper there is no head, no button and no form: the drawing, the figures and the words."""
    page = specialist_page
    page.goto(f"{PLOVER}kit/gas-regulator/")
    page.emulate_media(media="print")
    for chrome in (".top", "button", ".views"):
        assert not page.locator(chrome).first.is_visible(), chrome
    expect(page.locator(".drawing svg").first).to_be_visible()
    page.pdf(path=ARTEFACTS / "van-on-paper.pdf", format="A4")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgba(0, 0, 0, 0)"
