"""A film in a real browser: sent over a line that is cut, its findings played, shown to the owner, asked by the owner."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Route, expect

from firstpitch.media.mux import run
from tests.browser.conftest import Look, OpenPage
from tests.browser.running import Desk

VAN = "Wren"


@pytest.fixture(scope="module")
def film_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A film of some nine megabytes: three pieces."""
    path = tmp_path_factory.mktemp("film") / "walk round.mp4"
    noise = ["-f", "lavfi", "-i", "nullsrc=s=640x360:r=10,geq=random(1)*255:128:128", "-t", "8"]
    run(
        [
            *noise,
            "-c:v",
            "libx264",
            "-preset",
            "ultrafast",
            "-b:v",
            "9M",
            "-minrate",
            "9M",
            "-pix_fmt",
            "yuv420p",
            f"file:{path}",
        ],
        path.name,
    )
    assert path.stat().st_size > 8_500_000
    return path


@pytest.fixture
def film_page(desk: Desk, open_page: OpenPage) -> Page:
    """The demo's film on the specialist's tablet."""
    page = open_page("specialist")
    page.goto(f"/vans/{van_of(desk)}/film/")
    page.get_by_role("link", name="walk-round.mp4").click()
    expect(page.locator("details[data-chapters][open]")).to_be_visible()  # the page's script is there
    return page


def van_of(desk: Desk) -> str:
    """The number of the demo's van that has a film."""
    return desk.python(f"from firstpitch.desk.models import Van; print(Van.objects.get(name__startswith='{VAN}').pk)")


def link_of(desk: Desk) -> str:
    """A new link for the owner of that van."""
    return desk.python(
        "from firstpitch.desk.models import Handover, Person\n"
        "from firstpitch.desk.actions.owner_links import make_link\n"
        f"h = Handover.objects.get(van__name__startswith='{VAN}')\n"
        "print(make_link(by=Person.objects.get(username='maud'), handover=h).secret)"
    )


def shown(desk: Desk) -> str:
    """Show the film to the owner; gives a link."""
    desk.python(
        "from firstpitch.desk.models import Film, Person\n"
        "from firstpitch.desk.actions.film import Override, publish\n"
        f"f = Film.objects.filter(van__name__startswith='{VAN}', name='walk-round.mp4').get()\n"
        "publish(by=Person.objects.get(username='maud'), film=f, override=Override('Maud Tarrant', 'The owner comes back for the rest.'))"
    )
    return link_of(desk)


def second(page: Page) -> float:
    """Where the film stands."""
    at: float = page.evaluate("document.getElementById('film').currentTime")
    return at


def test_a_cut_line_loses_nothing(desk: Desk, open_page: OpenPage, film_file: Path) -> None:
    """The line is cut after the first piece: the page says so, goes on when it is back, and every byte arrives; the same after a reload."""
    page = open_page("specialist")
    page.goto(f"/vans/{van_of(desk)}/film/")
    sent: list[int] = []

    def cut_after_first(route: Route) -> None:
        if route.request.method == "PATCH":
            if sent:
                route.abort("internetdisconnected")
                return
            sent.append(1)
        elif route.request.method == "HEAD" and len(sent) == 1:
            route.abort("internetdisconnected")
            return
        route.continue_()

    page.route("**/film/uploads/**", cut_after_first)
    page.locator("input[type=file]").set_input_files(film_file)
    page.get_by_role("button", name="Send it", exact=True).click()
    expect(page.locator("[data-said]")).to_contain_text("The line is cut", timeout=30_000)
    page.reload()
    expect(page.get_by_text("stopped at")).to_be_visible()
    page.unroute("**/film/uploads/**")
    offsets: list[str] = []
    page.on(
        "request", lambda asked: offsets.append(asked.headers["upload-offset"]) if asked.method == "PATCH" else None
    )
    page.locator("input[type=file]").set_input_files(film_file)
    page.get_by_role("button", name="Send it", exact=True).click()
    expect(page.get_by_role("link", name="walk round.mp4")).to_be_visible(timeout=60_000)
    assert offsets[0] == str(4 * 1024 * 1024)
    size = desk.python(
        "from firstpitch.desk.models import FilmUpload\nu = FilmUpload.objects.latest('added'); print(u.offset == u.size, u.size)"
    )
    assert size == f"True {film_file.stat().st_size}"


def test_pause_and_stop(desk: Desk, open_page: OpenPage, film_file: Path) -> None:
    """A film on its way can be paused, and stopped for good; then nothing of it is left on the page."""
    page = open_page("specialist")
    page.goto(f"/vans/{van_of(desk)}/film/")
    page.route("**/film/uploads/*/", lambda route: None if route.request.method == "PATCH" else route.continue_())
    page.locator("input[type=file]").set_input_files(
        {"name": "other.mp4", "mimeType": "video/mp4", "buffer": film_file.read_bytes()}
    )
    page.get_by_role("button", name="Send it", exact=True).click()
    page.get_by_role("button", name="Pause").click()
    expect(page.locator("[data-said]")).to_have_text("Paused")
    expect(page.get_by_role("button", name="Go on")).to_be_visible()
    page.get_by_role("button", name="Do not send it").click()
    expect(page.get_by_text("other.mp4")).to_have_count(0)


def test_what_is_no_film_is_said_on_the_page(desk: Desk, open_page: OpenPage) -> None:
    """An archive that calls itself a film is refused beside the field, and the form stands ready again."""
    page = open_page("specialist")
    page.goto(f"/vans/{van_of(desk)}/film/")
    page.locator("input[type=file]").set_input_files(
        {"name": "film.mp4", "mimeType": "video/mp4", "buffer": b"PK\x03\x04" + bytes(99)}
    )
    page.get_by_role("button", name="Send it", exact=True).click()
    expect(page.locator("[data-fault]")).to_contain_text("zip archive")
    expect(page.get_by_role("button", name="Send it", exact=True)).to_be_visible()


def test_a_finding_plays_at_its_second(film_page: Page) -> None:
    """Tap a finding, and the film plays there, a moment before it; a chapter likewise. The film comes by parts."""
    finding = film_page.locator(".finding [data-at]").first
    at = float(finding.get_attribute("data-at") or 0)
    finding.click()
    film_page.wait_for_function("at => document.getElementById('film').currentTime >= at", arg=at)
    assert second(film_page) - at < 5
    chapter = film_page.locator("[data-chapters] a").nth(2)
    chapter.click()
    film_page.wait_for_function(
        "at => Math.abs(document.getElementById('film').currentTime - at) < 3",
        arg=float(chapter.get_attribute("data-at") or 0),
    )


def test_a_finding_is_decided_beside_the_film(film_page: Page) -> None:
    """That a finding is no fault needs a reason, said in a sheet over the page; what was typed stays; the film plays on."""
    row = film_page.locator(".finding").first
    row.get_by_role("link", name="Is it so?").click()
    sheet = film_page.get_by_role("dialog")
    sheet.get_by_label("It is no fault").check()
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet.locator("[data-fault]")).to_contain_text("Say why")
    sheet.get_by_label("Why").fill("It is written on the van itself.")
    sheet.get_by_role("button", name="Keep it").click()
    expect(sheet).to_be_hidden()
    expect(row).to_contain_text("No fault. It is written on the van itself.")
    film_page.reload()
    expect(film_page.locator(".finding").first).to_contain_text("It is written on the van itself.")


def test_publishing_is_refused_then_overridden(new_desk: object, open_page: OpenPage) -> None:
    """A caution to stop for is missing: the film is not shown; with a name and a reason it is, and both stand on the page."""
    desk: Desk = new_desk()  # type: ignore[operator]
    page = open_page("specialist", at=desk)
    page.goto(f"/vans/{van_of(desk)}/film/")
    page.get_by_role("link", name="walk-round.mp4").click()
    page.get_by_text("Show it all the same").click()
    page.get_by_label("Why the owner is to see it").fill(" ")
    page.get_by_role("button", name="Show it to the owner").click()
    expect(page.locator(".gate .fault")).to_contain_text("say who answers for that and why")
    page.get_by_label("Who answers for it").fill("Maud Tarrant")
    page.get_by_label("Why the owner is to see it").fill("The owner comes back for the rest.")
    page.get_by_role("button", name="Show it to the owner").click()
    expect(page.get_by_text("The owner sees this film now.")).to_be_visible()
    expect(page.locator(".notice", has_text="answers for it")).to_contain_text("The owner comes back for the rest.")
    page.get_by_role("button", name="Take it off the owner's page").click()
    expect(page.get_by_text("Not to be shown yet")).to_be_visible()


def test_the_owner_asks_the_film(desk: Desk, open_page: OpenPage) -> None:
    """The owner asks in words, with a slip of the finger, and the film jumps to the second; the address opens it there again."""
    secret = shown(desk)
    page = open_page(size="phone")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1]))
    page.goto(f"/owner/{secret}/film/")
    expect(page.get_by_label("Ask the film")).to_be_visible()
    assert "index.json" not in asked
    page.get_by_label("Ask the film").fill("where's the moter mover?")
    expect(page.locator("[data-found] a").first).to_be_visible()
    page.get_by_label("Ask the film").press("Enter")
    page.wait_for_function("document.getElementById('film').currentTime >= 37.9")
    assert second(page) < 45
    page.get_by_label("Ask the film").fill("xylophone")
    expect(page.locator("[data-found]")).to_contain_text("Nothing in the film sounds like that")
    page.get_by_label("Ask the film").fill("light the hob")
    page.locator("[data-found] a").first.click()
    page.wait_for_function("document.getElementById('film').currentTime >= 44")
    page.goto("about:blank")
    page.goto(f"/owner/{secret}/film/#t=32")
    page.wait_for_function("Math.abs(document.getElementById('film').currentTime - 32) < 1")
    page.route("**/index.json", lambda route: route.abort())
    page.get_by_label("Ask the film").fill("hitch")
    expect(page.locator("[data-found]")).to_contain_text("cannot be asked just now")


def test_a_link_that_was_taken_back_opens_no_film(desk: Desk, open_page: OpenPage) -> None:
    """Page and film are refused as soon as the link is taken back."""
    secret = shown(desk)
    page = open_page()
    page.goto(f"/owner/{secret}/film/")
    page.wait_for_function("document.getElementById('film').readyState >= 1")
    desk.python(
        "from firstpitch.desk.models import OwnerLink, Person\n"
        "from firstpitch.desk.actions.owner_links import revoke_link\n"
        "revoke_link(by=Person.objects.get(username='maud'), link=OwnerLink.objects.latest('made'))"
    )
    answers = [
        page.request.get(f"/owner/{secret}/film/{name}").status
        for name in ("", "film.mp4", "index.json", "captions.vtt")
    ]
    assert answers == [410, 410, 410, 410]


def test_by_keyboard_alone(film_page: Page) -> None:
    """Everything on the page is reached and worked by the keyboard: play a finding, decide on it, come back to where one was."""
    link = film_page.locator(".finding [data-at]").first
    link.focus()
    film_page.keyboard.press("Enter")
    film_page.wait_for_function("document.getElementById('film').currentTime > 0")
    film_page.keyboard.press("Tab")
    decide = film_page.locator(".finding [data-decide]").first
    expect(decide).to_be_focused()
    film_page.keyboard.press("Enter")
    expect(film_page.get_by_role("dialog")).to_be_visible()
    film_page.keyboard.press("Escape")
    expect(film_page.get_by_role("dialog")).to_be_hidden()
    expect(decide).to_be_focused()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nobody_is_kept_out(desk: Desk, open_page: OpenPage, look: Look, scheme: str) -> None:
    """List, film, script, what to film again and the owner's page: no fault of accessibility, light or dark, on tablet and phone."""
    secret = shown(desk)
    page = open_page("specialist")
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    van = van_of(desk)
    page.goto(f"/vans/{van}/film/")
    film = page.get_by_role("link", name="walk-round.mp4").get_attribute("href")
    places = {
        "list": page.url,
        "film": film,
        "script": f"/vans/{van}/film/script/",
        "again": f"{film}again/",
        "owner": f"/owner/{secret}/film/",
    }
    for name, address in places.items():
        page.goto(str(address))
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        found = Axe().run(page)
        assert found.violations_count == 0, f"{name}: {found.generate_report()}"
        if name not in ("script", "again"):
            look(page, f"film-{name}-{scheme}")


def test_the_prompter_runs_at_the_desk(desk: Desk, open_page: OpenPage) -> None:
    """The prompter of the script works under the desk's policy: it starts, runs, goes on a shot, and comes back to the list."""
    page = open_page("specialist", size="tall")
    page.goto(f"/vans/{van_of(desk)}/film/script/")
    page.get_by_role("button", name="Start the prompter").click()
    expect(page.locator(".shot.now")).to_have_count(1)
    page.keyboard.press("ArrowRight")
    expect(page.locator("#prompter-say")).to_contain_text("Shot 2")
    page.locator("#shot-run").click()
    expect(page.locator(".word-now")).to_have_count(1)
    page.keyboard.press("Escape")
    expect(page.get_by_role("button", name="Start the prompter")).to_be_visible()
