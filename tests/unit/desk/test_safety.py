"""Headers, calm pages for trouble, the check before going live."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client, RequestFactory
from django.urls import path
from pytest_django.fixtures import Settings

from firstpitch.desk import limits, trouble
from firstpitch.desk.models import Person, Tally

PAGES = ("/sign-in/", "/forgot/", "/nothing-here/", "/join/wrong/")


def policy(text: str) -> dict[str, list[str]]:
    """A content security policy by its directives (W3C Content Security Policy Level 3, section 2.2)."""
    return {part.split()[0]: part.split()[1:] for part in text.split(";") if part.strip()}


@pytest.mark.parametrize("address", PAGES)
def test_headers_on_every_page(branch: object, address: str) -> None:
    """Every page, good or bad, has the policy without inline script or style, and the other headers."""
    del branch
    answer = Client().get(address)
    said = policy(answer["Content-Security-Policy"])
    assert said == {
        "default-src": ["'self'"],
        "img-src": ["'self'", "data:", "blob:"],
        "media-src": ["'self'", "blob:"],
        "object-src": ["'none'"],
        "base-uri": ["'self'"],
        "form-action": ["'self'"],
        "frame-ancestors": ["'none'"],
    }
    assert "unsafe" not in answer["Content-Security-Policy"]
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["X-Frame-Options"] == "DENY"
    assert answer["Referrer-Policy"] == "same-origin"
    assert answer["Cross-Origin-Opener-Policy"] == "same-origin"
    assert answer["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "geolocation=()" in answer["Permissions-Policy"]
    assert "no-store" in answer["Cache-Control"]
    assert not [name for name in ("Server", "X-Powered-By") if answer.has_header(name)]


def test_headers_on_pages_of_people(own: Client) -> None:
    """Pages behind the sign-in have them too."""
    answer = own.get("/me/")
    assert "Content-Security-Policy" in answer
    assert "no-store" in answer["Cache-Control"]


def test_no_template_has_inline_script_or_style() -> None:
    """No template holds an inline script, a style or an event attribute: the policy would stop them."""
    inline = re.compile(
        r"<style|\sstyle=|\son[a-z]+=|javascript:|<script(?![^>]*\ssrc=)(?![^>]*type=\"application/json\")", re.I
    )
    folder = Path(trouble.__file__).parent / "templates"
    found = [
        f"{file.name}: {hit[0]}" for file in folder.rglob("*.html") if (hit := inline.search(file.read_text("utf-8")))
    ]
    assert not found


def test_cookies(specialist: Person) -> None:
    """The session's cookie cannot be read by scripts and is not sent from other sites."""
    from tests.unit.desk.conftest import PASSWORD

    client = Client()
    client.post("/sign-in/", {"username": specialist.username, "password": PASSWORD})
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"


@pytest.mark.parametrize("address", ["/sign-in/", "/sign-out/", "/forgot/", "/me/name/", "/people/invite/"])
def test_forms_need_their_token(specialist: Person, address: str) -> None:
    """A form that does not come from one of our pages is refused with words that say what to do."""
    client = Client(enforce_csrf_checks=True)
    client.force_login(specialist)
    answer = client.post(address, {"username": "ada", "password": "x"})
    assert answer.status_code == 403
    assert "Send it again" in answer.content.decode()


def test_no_view_is_let_off_the_token() -> None:
    """No view is exempt from the token for forms."""
    from tests.unit.desk.every_url import every_url

    assert not [url.name for url in every_url() if getattr(url.pattern.callback, "csrf_exempt", False)]


def breaks(_: object) -> None:
    """A view with a bug."""
    raise RuntimeError("the secret is 12345")


urlpatterns = [path("breaks/", breaks)]
handler500 = "firstpitch.desk.trouble.server_error"


@pytest.mark.urls(__name__)
def test_a_bug_is_a_calm_page() -> None:
    """A bug shows a calm page, without traceback, path or what was in memory, and needs no database."""
    answer = Client(raise_request_exception=False).get("/breaks/")
    page = answer.content.decode()
    assert answer.status_code == 500
    assert "Something broke at our end" in page
    assert not [word for word in ("Traceback", "RuntimeError", "12345", ".py", "firstpitch/desk") if word in page]


@pytest.mark.parametrize("status", sorted(trouble.TROUBLES))
def test_each_trouble_has_its_page(status: int) -> None:
    """Each sort of trouble is a page with a heading and what to do, and the same as JSON for scripts."""
    request = RequestFactory()
    answer = trouble.trouble(request.get("/"), status)
    assert answer.status_code == status
    assert trouble.TROUBLES[status].heading in answer.content.decode()
    script = trouble.trouble(request.get("/", HTTP_ACCEPT="application/json"), status)
    assert script["Content-Type"] == "application/json"


def test_trouble_without_templates(settings: Settings) -> None:
    """Even when the page cannot be drawn, a sentence comes."""
    settings.STORAGES = {**settings.STORAGES, "staticfiles": {"BACKEND": "nowhere.Storage"}}
    settings.TEMPLATES = []
    answer = trouble.trouble(RequestFactory().get("/"), 500)
    assert "Something broke" in answer.content.decode()


def test_wrong_method_is_a_calm_page(own: Client) -> None:
    """Opening an address that only takes a form says so."""
    answer = own.get("/me/name/")
    assert answer.status_code == 405
    assert "use the button" in answer.content.decode()
    assert answer["Allow"] == "POST"


def test_unknown_host_is_refused(db: None) -> None:  # noqa: ARG001
    """A request for a name the desk was not given is refused and says where to add it."""
    answer = Client(HTTP_HOST="elsewhere.example").get("/sign-in/")
    assert answer.status_code == 400
    assert "FIRSTPITCH_HOSTS" in answer.content.decode()


def test_counts_are_shared_and_swept(branch: object) -> None:
    """Counts stand in the database, without network addresses in clear, and those older than a day are swept out."""
    del branch
    Tally.objects.create(what="reset", who="old", begins=1, count=9)
    Client(REMOTE_ADDR="192.0.2.55").post("/forgot/", {"email": "x@example.org"})
    rows = {row.what: row for row in Tally.objects.all()}
    assert set(rows) == {"reset", "reset-name"}
    assert rows["reset"].count == 1
    assert "192.0.2.55" not in str(Tally.objects.values())


@pytest.mark.parametrize(
    ("proxies", "said", "address"),
    [
        (0, "198.51.100.9", "10.0.0.1"),
        (1, "198.51.100.9", "198.51.100.9"),
        (1, "203.0.113.1, 198.51.100.9", "198.51.100.9"),
        (2, "203.0.113.1, 198.51.100.9, 10.0.0.2", "198.51.100.9"),
        (2, "198.51.100.9", "10.0.0.1"),
        (1, "", "10.0.0.1"),
    ],
)
def test_network_address(settings: Settings, proxies: int, said: str, address: str) -> None:
    """The address counted is the one our own proxies saw; what a browser puts in front of it is not believed."""
    settings.PROXIES = proxies
    request = RequestFactory().get("/", REMOTE_ADDR="10.0.0.1", HTTP_X_FORWARDED_FOR=said)
    assert limits.address_of(request) == address


def run(data: Path, *arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run the desk's command with a data folder of its own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("FIRSTPITCH_", "DJANGO_"))}
    return subprocess.run(
        [sys.executable, "-m", "firstpitch.desk", *arguments],
        env={**kept, "FIRSTPITCH_DATA": str(data), **more},
        capture_output=True,
        text=True,
        check=False,
    )


def test_check_before_going_live_is_clean(tmp_path: Path) -> None:
    """Django's own check before going live finds nothing, with https and a secret of one's own."""
    live = {"FIRSTPITCH_HTTPS": "1", "FIRSTPITCH_SECRET": "a-secret-" * 8, "FIRSTPITCH_HOSTS": "desk.example.org"}
    done = run(tmp_path, "check", "--deploy", "--fail-level", "DEBUG", **live)
    assert done.returncode == 0, done.stderr
    assert "no issues" in done.stdout


def test_made_secret_is_long_and_private(tmp_path: Path) -> None:
    """Without a secret of one's own one is made, long enough, and readable by its user alone."""
    assert run(tmp_path, "check").returncode == 0
    kept = tmp_path / "secret-key"
    assert len(kept.read_text()) >= 64
    assert kept.stat().st_mode & 0o077 == 0
