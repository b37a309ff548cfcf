"""The parts of the installed app."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.test import Client
from django.utils import timezone

from firstpitch.desk import icons
from firstpitch.desk.models import Branch, Handover, Person, Van
from firstpitch.desk.shell import PAGES, shell_files

_SAFE = 0.8
_MOST_SHELL = 220_000


def _path(address: str) -> str:
    found = finders.find(address.removeprefix("/static/"))
    assert isinstance(found, str), address
    return found


@pytest.mark.django_db
def test_worker_is_served_for_the_whole_desk() -> None:
    """The worker stands at /worker.js, may serve the whole desk, is asked for anew each time and names what it keeps."""
    answer = Client().get("/worker.js")
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert answer.headers["Service-Worker-Allowed"] == "/"
    assert answer.headers["Cache-Control"] == "no-cache"
    shell = json.loads(re.match(r"self\.shell = (.*);\n", answer.content.decode())[1])  # type: ignore[index]
    assert shell["pages"] == list(PAGES)
    assert shell["files"] == shell_files()


def test_shell_holds_what_its_pages_and_modules_name() -> None:
    """Every style sheet, module and font that a page of the tablet, the live page or one of their modules names is in the shell."""
    files = set(shell_files())
    names = {address.removeprefix("/static/") for address in files}
    for name in sorted(names):
        if name.endswith(".js"):
            text = Path(_path(f"/static/{name}")).read_text("utf-8")
            folder = name.rpartition("/")[0]
            for target in re.findall(
                r"""^(?:import|export)[^;]*?from\s*["']\./([\w-]+\.js)["'];""", text, re.MULTILINE
            ):
                assert f"{folder}/{target}" in names, f"{name} imports {target}"


@pytest.mark.django_db
@pytest.mark.parametrize("page", list(PAGES))
def test_own_pages_hold_nothing_of_anybody(page: str, own: Client, specialist: Person) -> None:
    """The tablet's own pages are the same for everybody, signed in or not, and name only files of the shell."""
    text = own.get(page).content.decode()
    assert text == Client().get(page).content.decode()
    assert specialist.shown_name not in text
    named = set(re.findall(r'(?:href|src)="(/static/[^"]+\.(?:css|js))"', text))
    assert named <= set(shell_files())


def test_shell_is_small() -> None:
    """All that is kept for the shell is under 220 kB as it travels, so that a patchy network can bring it."""
    size = 0
    for address in shell_files():
        content = Path(_path(address)).read_bytes()
        size += len(content) if address.endswith(".woff2") else len(gzip.compress(content))
    assert size < _MOST_SHELL


@pytest.mark.django_db
def test_here_names_who_is_signed_in(own: Client, specialist: Person) -> None:
    """The tablet learns who is signed in and the desk's clock; nobody signed in is nobody, and gets no cookie."""
    said = own.get("/tablet/here/").json()
    assert said["person"] == {"id": specialist.pk, "name": specialist.shown_name}
    assert abs(datetime.fromisoformat(said["server_now"]) - timezone.now()) < timedelta(seconds=30)
    stranger = Client()
    answer = stranger.get("/tablet/here/")
    assert answer.json()["person"] is None
    assert not answer.cookies


@pytest.mark.django_db
def test_manifest_names_icons_that_are_there() -> None:
    """The manifest opens the desk at Today, in the look's colours, with icons that exist and one that may be cut to a circle."""
    given = Client().get("/manifest.webmanifest").json()
    assert given["start_url"] == given["scope"] == "/"
    assert {icon["sizes"] for icon in given["icons"]} >= {"192x192", "512x512"}
    assert [icon["purpose"] for icon in given["icons"]].count("maskable") == 1
    for icon in given["icons"]:
        assert _path(icon["src"])


def test_icon_is_the_vans_drawing() -> None:
    """The kept icon is what the drawing of the demo van gives today, and the maskable one stays inside the safe circle."""
    assert (icons.FOLDER / "icon.svg").read_text("utf-8") == icons.drawn(icons.SHARES["icon"])
    drawn = icons.drawn(icons.SHARES["icon-maskable"])
    left, top = map(float, re.search(r"translate\(([\d.]+) ([\d.]+)\)", drawn).groups())  # type: ignore[union-attr]
    half = ((50 - left) ** 2 + (50 - top) ** 2) ** 0.5
    assert half <= 100 * _SAFE / 2 + 1, "the corners of the drawing reach out of the circle"


@pytest.mark.django_db
def test_kit_is_fetched_again_only_when_it_changed(own: Client, specialist: Person, handover: Handover) -> None:
    """A tablet that holds the kit is told so; a change of van, diary, plan or the branch's habits makes it fetch anew."""
    address = f"/live/{handover.pk}/kit.json"
    marks = [own.get(address).json()["mark"]]
    assert own.get(address, {"have": marks[0]}).json() == {"same": True}
    changes: list[Callable[[], int]] = [
        lambda: Van.objects.filter(pk=handover.van_id).update(name="Wren the Second"),
        lambda: Handover.objects.filter(pk=handover.pk).update(owner_name="Somebody Else"),
        lambda: Handover.objects.filter(pk=handover.pk).update(options={"minutes": 40}),
        lambda: Branch.objects.filter(pk=specialist.branch_id).update(words_per_minute=120),
    ]
    for change in changes:
        change()
        said = own.get(address, {"have": marks[-1]}).json()
        assert said["problem"]["steps"]
        marks.append(said["mark"])
    assert len(set(marks)) == len(marks)
