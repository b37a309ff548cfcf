"""Signing in with a real browser: first branch, second factor, invitation, sessions."""

from __future__ import annotations

import base64
import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from django_otp.oath import totp
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage, sign_in
from tests.browser.running import SIZES, Desk

PASSWORD = "three-odd-words-7"


def code_of(key: str, steps: int = 0) -> str:
    """The code of a key in Base32 (RFC 6238, RFC 4648 section 6), ``steps`` half minutes from now."""
    return f"{totp(base64.b32decode(key + '=' * (-len(key) % 8)), drift=steps):06d}"


def no_barrier(page: Page) -> None:
    """The automated checker finds no barrier on the page."""
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("role", ["specialist", "technician", "manager"])
def test_each_role_signs_in(open_page: OpenPage, role: str) -> None:
    """Each of the three people of the demo signs in with name and password and comes to today."""
    expect(open_page(role).get_by_role("heading", level=1)).to_be_visible()


@pytest.mark.parametrize("address", ["/sign-in/", "/forgot/", "/nothing-here/", "/join/wrong/", "/forgot/MQ/wrong/"])
def test_pages_before_signing_in(nobody_page: Page, look: Look, address: str) -> None:
    """The pages before signing in fit the three sizes without sliding sideways and hold no barrier."""
    nobody_page.goto(address)
    look(nobody_page, f"before{address}")
    no_barrier(nobody_page)


@pytest.mark.parametrize("address", ["/me/", "/people/"])
def test_pages_about_people(manager_page: Page, look: Look, address: str) -> None:
    """One's own page and the people of the branch, opened up, fit the three sizes and hold no barrier, light and dark."""
    manager_page.goto(address)
    manager_page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    look(manager_page, f"people{address}")
    for scheme in ("light", "dark"):
        manager_page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        no_barrier(manager_page)
    look(manager_page, f"people{address}dark")


def test_targets_are_large(manager_page: Page) -> None:
    """Every button and field on the pages about people is at least 48 px high, in all three sizes."""
    for address in ("/me/", "/people/", "/sign-in/"):
        manager_page.goto(address)
        manager_page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        for width, height in SIZES.values():
            manager_page.set_viewport_size({"width": width, "height": height})
            shown = manager_page.locator(
                "button:visible, a.button:visible, input:visible, select:visible, summary:visible"
            )
            heights = shown.evaluate_all(
                "all => all.map(one => [one.outerHTML.slice(0, 80), one.getBoundingClientRect().height])"
            )
            assert not [one for one in heights if one[1] < 47.9], address


def test_by_keyboard_alone(open_page: OpenPage, desk: Desk) -> None:
    """Signing in works by keyboard alone: the name has the focus, Tab leads on, Enter sends."""
    page = open_page()
    page.goto("/sign-in/")
    page.keyboard.type("maud")
    page.keyboard.press("Tab")
    page.keyboard.type(desk.password)
    page.keyboard.press("Enter")
    page.wait_for_url(f"{desk.address}/")


def test_wrong_password_is_said_calmly(nobody_page: Page, look: Look) -> None:
    """After a wrong password the page says so beside the form and keeps the name."""
    nobody_page.goto("/sign-in/")
    nobody_page.get_by_label("Name", exact=True).fill("maud")
    nobody_page.get_by_label("Password", exact=True).fill("wrong-password-1")
    nobody_page.get_by_role("button", name="Sign in").click()
    expect(nobody_page.get_by_role("alert")).to_contain_text("do not belong together")
    expect(nobody_page.get_by_label("Name", exact=True)).to_have_value("maud")
    look(nobody_page, "sign-in-wrong")


def test_second_factor_and_invitation(new_desk: Callable[..., Desk], open_page: OpenPage, look: Look) -> None:
    """A manager sets the second factor up, signs in again with it and with a code on paper, and invites somebody who joins."""
    place = new_desk()
    page = open_page("manager", at=place)
    page.goto("/people/")
    page.get_by_role("link", name="To your second factor").click()
    page.get_by_role("button", name="Set it up").click()
    look(page, "second-factor")
    no_barrier(page)
    page.get_by_text("The phone cannot read it").click()
    key = page.locator(".key").inner_text().replace(" ", "")
    page.get_by_label("Code", exact=True).fill(code_of(key))
    page.get_by_label("Your password").fill(place.password)
    page.get_by_role("button", name="Turn it on").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your codes for paper")
    look(page, "codes-for-paper")
    no_barrier(page)
    paper = page.locator(".codes li").all_inner_texts()
    assert len(paper) == 10
    page.get_by_role("link", name="I have them on paper").click()
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Sign in")

    give(page, place, code_of(key, 1), look)
    expect(page).to_have_url(f"{place.address}/")
    second = open_page(at=place)
    give(second, place, paper[0])
    expect(second).to_have_url(f"{place.address}/")

    page.goto("/people/")
    page.get_by_label("E-mail address").fill("wilf@example.org")
    page.get_by_label("Role", exact=True).last.select_option("technician")
    page.get_by_role("button", name="Send the invitation").click()
    link = page.locator(".link").inner_text()
    look(page, "people-invited")
    no_barrier(page)
    mails = list((place.data / "mail").iterdir())
    assert len(mails) == 1
    assert re.sub(r"=\n", "", mails[0].read_text()).count(link) == 1
    join(open_page(at=place), link, look)
    page.goto("/people/")
    expect(page.locator("main")).to_contain_text("Wilf Oram")

    page.goto("/me/")
    look(page, "me-two-browsers")
    page.get_by_role("button", name="Sign this one out").click()
    second.goto("/")
    expect(second.get_by_role("heading", level=1)).to_have_text("Sign in")


def give(page: Page, place: Desk, code: str, look: Look | None = None) -> None:
    """Sign in as the manager with password and code."""
    page.goto(f"{place.address}/sign-in/")
    page.get_by_label("Name", exact=True).fill("sorrel")
    page.get_by_label("Password", exact=True).fill(place.password)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your code")
    if look:
        look(page, "sign-in-code")
        no_barrier(page)
    page.get_by_label("Code", exact=True).fill(code)
    page.get_by_role("button", name="Sign in").click()


def join(page: Page, link: str, look: Look) -> None:
    """Accept an invitation."""
    page.goto(link)
    look(page, "join")
    no_barrier(page)
    page.get_by_label("First name").fill("Wilf")
    page.get_by_label("Last name").fill("Oram")
    page.get_by_label("Name to sign in with").fill("wilf")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Make my account").click()
    expect(page.locator(".notice")).to_contain_text("Welcome, Wilf")


def test_first_branch(new_desk: Callable[..., Desk], open_page: OpenPage, look: Look) -> None:
    """An empty desk prints where to begin; there the first branch is made, and after that nobody can again."""
    place = new_desk(empty=True)
    found = re.search(r"(http://\S+/first/\?code=\w+)", place.log)
    assert found
    page = open_page(at=place)
    page.goto("/")
    expect(page.get_by_role("heading", level=1)).to_have_text("The first branch")
    page.goto(found[1])
    look(page, "first-branch")
    no_barrier(page)
    page.get_by_label("Name of the branch").fill("New Yard")
    page.get_by_label("First name").fill("Wilf")
    page.get_by_label("Last name").fill("Oram")
    page.get_by_label("Your e-mail address").fill("wilf@example.org")
    page.get_by_label("Name to sign in with").fill("wilf")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Open the desk").click()
    expect(page.locator(".notice")).to_contain_text("The branch is there")
    other = open_page(at=place)
    other.goto(found[1])
    expect(other.get_by_role("heading", level=1)).to_have_text("This desk is set up already")
    sign_in(other, place.address, "wilf", PASSWORD)


def test_locked_name_is_said_calmly(new_desk: Callable[..., Desk], open_page: OpenPage, look: Look) -> None:
    """After six wrong passwords the page says how long to wait; both web processes know it."""
    place = new_desk()
    page = open_page(at=place)
    for _ in range(6):
        page.goto("/sign-in/")
        page.get_by_label("Name", exact=True).fill("maud")
        page.get_by_label("Password", exact=True).fill("wrong-password-1")
        page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("alert")).to_contain_text("locked for a quarter of an hour")
    look(page, "sign-in-locked")
