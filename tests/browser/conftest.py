"""Real server, real Chromium. What a test may ask for:

desk             a running desk with the demo, fresh for each test module (``Desk`` in running.py)
new_desk         makes another, for one test: ``new_desk(FIRSTPITCH_…="…")``
open_page        a page of anybody: ``open_page("manager", size="phone")``; ``open_page()`` is nobody; more pages = more tablets
specialist_page, technician_page, manager_page, nobody_page     the usual ones, 1180x820
look             ``look(page, "today")`` keeps a screenshot in each of the three sizes in tests/artefacts/

At the end of a test every page must have kept to the content security policy and raised no script error.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.browser.running import ARTEFACTS, MISSING, NAMES, SIZES, Desk, chromium, fill

OpenPage = Callable[..., Page]
Look = Callable[[Page, str], None]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A browser on a busy machine can be late once: each of these tests may be tried a second time, and the summary counts that."""
    for item in items:
        if item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's Chromium."""
    program = chromium()
    if program is None:
        pytest.fail(MISSING, pytrace=False)
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the demo, to copy from."""
    data = tmp_path_factory.mktemp("filled") / "data"
    fill(data)
    return data


@pytest.fixture(scope="module")
def desk(filled: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """A running desk for one module of tests."""
    data = tmp_path_factory.mktemp("desk") / "data"
    shutil.copytree(filled, data)
    running = Desk(data)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def new_desk(filled: Path, tmp_path: Path) -> Iterator[Callable[..., Desk]]:
    """Makes a running desk for one test; keywords are environment variables; ``empty=True`` leaves the demo out."""
    made: list[Desk] = []

    def make(*, empty: bool = False, **more: str) -> Desk:
        data = tmp_path / f"desk{len(made)}"
        if empty:
            data.mkdir()
        else:
            shutil.copytree(filled, data)
        running = Desk(data, more=more)
        made.append(running)
        running.start()
        return running

    yield make
    for running in made:
        running.stop()


def sign_in(page: Page, address: str, name: str, password: str) -> None:
    """Sign in by the form, as a person does."""
    page.goto(f"{address}/sign-in/")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Password", exact=True).fill(password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)


@pytest.fixture
def open_page(browser: Browser, request: pytest.FixtureRequest) -> Iterator[OpenPage]:
    """Opens pages, each in a browser of its own, and looks at the end whether scripts and policy were kept."""
    contexts: list[BrowserContext] = []
    wrong: list[str] = []

    def make(role: str = "nobody", *, size: str = "wide", at: Desk | None = None, offline_app: bool = True) -> Page:
        place: Desk = at or request.getfixturevalue("desk")
        width, height = SIZES[size]
        context = browser.new_context(
            base_url=place.address,
            viewport={"width": width, "height": height},
            locale="en-GB",
            timezone_id="Europe/London",
            has_touch=True,
            service_workers="allow" if offline_app else "block",
            storage_state=place.signed_in.get(role),
        )
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
        if role != "nobody":
            _as(page, place, role)
        return page

    yield make
    for context in contexts:
        context.close()
    assert not wrong, wrong


def _as(page: Page, place: Desk, role: str) -> None:
    """Come to the first page signed in; the cookies of the first time serve as long as they are good."""
    page.goto(f"{place.address}/")
    if "/sign-in" in page.url:
        sign_in(page, place.address, NAMES[role], place.password)
        place.signed_in[role] = page.context.storage_state()


@pytest.fixture
def specialist_page(open_page: OpenPage) -> Page:
    """The specialist's tablet."""
    return open_page("specialist")


@pytest.fixture
def technician_page(open_page: OpenPage) -> Page:
    """The technician's tablet."""
    return open_page("technician")


@pytest.fixture
def manager_page(open_page: OpenPage) -> Page:
    """The manager's tablet."""
    return open_page("manager")


@pytest.fixture
def nobody_page(open_page: OpenPage) -> Page:
    """A tablet nobody has signed in on."""
    return open_page()


@pytest.fixture
def look() -> Look:
    """Keeps a screenshot of the page in the three sizes; the page must not be wider than the screen in any."""

    def keep(page: Page, name: str) -> None:
        ARTEFACTS.mkdir(exist_ok=True)
        before = page.viewport_size
        for size, (width, height) in SIZES.items():
            page.set_viewport_size({"width": width, "height": height})
            page.screenshot(path=ARTEFACTS / f"{re.sub('[^a-z0-9]+', '-', name.lower())}-{size}.png", full_page=True)
            spill = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
            assert spill <= 0, f"{name} is {spill} px wider than the screen at {width}x{height}"
        if before:
            page.set_viewport_size(before)

    return keep
