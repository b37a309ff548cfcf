"""The whole story on a new desk, by its pages alone: from the printed address of the first page to a signed record in the owner's hands."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page, expect

from firstpitch.demo import sheets
from tests.browser.conftest import Look, OpenPage, sign_in
from tests.browser.live import CLOCK, go_round
from tests.browser.running import Desk
from tests.browser.tablet import Tablet
from tests.browser.test_sign_in import code_of

PASSWORD = "a-bell-in-the-fog-7"
OWNER = "Ottoline Marsh"
TWO_HOURS_AGO = "if (localStorage.getItem('ahead') === null) localStorage.setItem('ahead', String(-2 * 3600 * 1000));"


def first_manager(page: Page, place: Desk) -> None:
    """Where docs/access.md says a desk begins: the address that the command prints."""
    printed = re.search(r"(http://\S+/first/\?code=\w+)", place.log)
    assert printed
    page.goto(printed[1])
    for label, words in {
        "Name of the branch": "Mill Lane",
        "First name": "Orla",
        "Last name": "Penhale",
        "Your e-mail address": "orla@example.org",
        "Name to sign in with": "orla",
        "Password": PASSWORD,
    }.items():
        page.get_by_label(label).fill(words)
    page.get_by_role("button", name="Open the desk").click()
    expect(page.locator(".notice")).to_contain_text("The branch is there")


def second_factor(page: Page) -> None:
    """What a manager needs before inviting anybody."""
    page.goto("/people/")
    page.get_by_role("link", name="To your second factor").click()
    page.get_by_role("button", name="Set it up").click()
    page.get_by_text("The phone cannot read it").click()
    page.get_by_label("Code", exact=True).fill(code_of(page.locator(".key").inner_text().replace(" ", "")))
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Turn it on").click()
    page.get_by_role("link", name="I have them on paper").click()


def invited_specialist(manager: Page, page: Page) -> None:
    """The manager invites, the specialist joins by the link."""
    manager.goto("/people/")
    manager.get_by_label("E-mail address").fill("hal@example.org")
    manager.get_by_label("Role", exact=True).last.select_option("specialist")
    manager.get_by_role("button", name="Send the invitation").click()
    page.goto(manager.locator(".link").inner_text())
    page.get_by_label("First name").fill("Hal")
    page.get_by_label("Last name").fill("Brandreth")
    page.get_by_label("Name to sign in with").fill("hal")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Make my account").click()
    expect(page.locator(".notice")).to_contain_text("Welcome, Hal")


def van_and_handover(page: Page, sheet: Path) -> str:
    """From Today: a van from its YAML file, and when it is collected; gives the number of the handover."""
    page.goto("/")
    page.get_by_role("link", name="Add a handover").first.click()
    if page.get_by_role("link", name="It is a new van").count():
        page.get_by_role("link", name="It is a new van").click()
    page.get_by_role("link", name="Send a file").click()
    page.get_by_label("The file").set_input_files(sheet)
    page.get_by_role("button", name="Take the van in").click()
    page.get_by_label("Who collects it?").fill(OWNER)
    page.get_by_label("When?").fill("tomorrow 2pm")
    page.get_by_role("button", name="Put it in the diary").click()
    page.get_by_role("link", name=OWNER, exact=True).click()
    found = re.search(r"/handovers/(\d+)/", page.url)
    assert found
    return found[1]


def planned_round(page: Page) -> None:
    """The round planned on its page, and on to the live round."""
    page.get_by_role("link", name="Round", exact=True).click()
    page.get_by_role("button", name="Plan the round").click()
    expect(page.locator(".in-time")).to_be_visible(timeout=60_000)
    page.get_by_role("link", name="Go round").click()
    page.wait_for_selector("#live[data-ready]", timeout=90_000)


def signed(page: Page) -> None:
    """Read, and signed by a typed name."""
    expect(page.get_by_role("heading", level=1)).to_contain_text("Record of")
    page.get_by_label("as typed, is my signature").check()
    page.get_by_label("I showed what is recorded here").check()
    page.get_by_role("button", name="Sign the record").click()
    expect(page.get_by_text("Typed, and confirmed as the signature")).to_be_visible()


@pytest.mark.slow
def test_from_an_empty_desk_to_a_signed_record(
    new_desk: Callable[..., Desk], open_page: OpenPage, look: Look, tmp_path: Path
) -> None:
    """First manager, specialist, van, handover, round, live, signature, PDF: each by its page, nothing made behind them."""
    place = new_desk(empty=True)
    manager, page = open_page(at=place), open_page(at=place)
    first_manager(manager, place)
    second_factor(manager)
    page.add_init_script(TWO_HOURS_AGO + CLOCK)
    invited_specialist(manager, page)
    if "/sign-in" in page.url:
        sign_in(page, place.address, "hal", PASSWORD)
    sheet = tmp_path / "wren.yaml"
    sheet.write_text(sheets()["wren"].read_text("utf-8"), "utf-8")
    number = van_and_handover(page, sheet)
    planned_round(page)
    did = go_round(page)
    assert did > 50
    tablet = Tablet(page)
    tablet.wait_for(lambda: tablet.unsent()["events"] == 0)
    look(page, "story-round-done")
    page.wait_for_timeout(800)  # a press straight after the screen has changed is not taken
    page.locator("#live-done").click()
    page.wait_for_url("**/record/**", timeout=60_000)
    signed(page)
    look(page, "story-record")

    page.goto(f"/handovers/{number}/")
    page.get_by_role("button", name="Make a link").click()
    owner = open_page(at=place, size="phone")
    owner.goto(page.locator(".secret").inner_text())
    href = owner.get_by_role("link", name="The signed record (PDF)").get_attribute("href")
    assert href
    file = owner.request.get(href).body()
    with pypdfium2.PdfDocument(file) as document:
        words = " ".join(" ".join(sheet.get_textpage().get_text_range() for sheet in document).split())
    wanted = (OWNER, "Hal Brandreth", "Mill Lane", "certifies nothing", f"Of {did} steps")
    assert [said for said in wanted if said not in words] == []
    manager.goto(f"/handovers/{number}/")
    expect(manager.locator("main")).to_contain_text("Signed")
