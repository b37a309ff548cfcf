"""Backups: taken, put back on an empty machine and over a filled desk, refused when damaged; nothing is ever half put back."""

from __future__ import annotations

import hashlib
import io
import json
import shutil
import sqlite3
import tarfile
from contextlib import closing
from pathlib import Path

import pytest

from tests.unit.desk.test_safety import run

FILL = """
import io
from datetime import date
from PIL import Image
from django.core.management import call_command
from django.test import Client
from firstpitch.desk.actions.photos import add_photo
from firstpitch.desk.models import Person, Van
from firstpitch.desk.seed import seed
call_command("migrate", verbosity=0)
seed(date(2026, 11, 25))
picture = io.BytesIO()
Image.new("RGB", (40, 30), "teal").save(picture, "PNG")
maud = Person.objects.get(username="maud")
add_photo(by=maud, van=Van.objects.first(), data=picture.getvalue())
Client().force_login(maud)
"""


def rows(data: Path) -> list[str]:
    """The whole database of a desk as statements, but for sessions."""
    with closing(sqlite3.connect(data / "firstpitch.sqlite3")) as database:
        return [line for line in database.iterdump() if "desk_session" not in line and "sqlite_sequence" not in line]


def media(data: Path) -> dict[str, bytes]:
    """The media of a desk."""
    folder = data / "media"
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def whole(data: Path) -> tuple[list[str], dict[str, bytes]]:
    """All that a desk holds."""
    return rows(data), media(data)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A filled desk with a photo, and somebody signed in."""
    data = tmp_path_factory.mktemp("desk")
    done = run(data, "shell", "-c", FILL)
    assert done.returncode == 0, done.stderr
    return data


@pytest.fixture(scope="module")
def kept(desk: Path) -> Path:
    """Its backup."""
    file = desk.parent / "kept" / "monday.tar.gz"
    done = run(desk, "backup", str(file))
    assert done.returncode == 0, done.stderr
    assert f"{len(media(desk))} media files" in done.stdout
    assert len(media(desk)) >= 2  # a photo and its small one; with ffmpeg the demo's film too
    return file


@pytest.fixture
def changed(desk: Path, tmp_path: Path) -> Path:
    """The same desk some days later: a van has another name, a photo has come and one was spoilt."""
    data = tmp_path / "changed"
    shutil.copytree(desk, data)
    with closing(sqlite3.connect(data / "firstpitch.sqlite3")) as database, database:
        database.execute("UPDATE desk_van SET name = 'Another'")
    (data / "media" / "van" / "later.jpg").write_bytes(b"later")
    next((data / "media").rglob("*.png")).write_bytes(b"spoilt")
    return data


def test_it_lists_what_it_holds(kept: Path, desk: Path) -> None:
    """The file names every file in it with its SHA-256, holds no secret key, and only its user may read it."""
    with tarfile.open(kept) as archive:
        held = {one.name: archive.extractfile(one) for one in archive.getmembers()}
        text = {name: stream.read() for name, stream in held.items() if stream}
    listed = json.loads(text.pop("manifest.json"))
    assert {name: hashlib.sha256(content).hexdigest() for name, content in text.items()} == listed["files"]
    assert {f"media/{name}" for name in media(desk)} | {"database.sqlite3"} == set(text)
    assert ["desk", "0001_initial"] in listed["migrations"]
    secret = (desk / "secret-key").read_bytes()
    assert not [name for name, content in text.items() if secret in content]
    assert kept.stat().st_mode & 0o077 == 0


def test_put_back_on_an_empty_machine(desk: Path, kept: Path, tmp_path: Path) -> None:
    """On a new machine every row and every file is there again as it was; nobody is signed in."""
    done = run(tmp_path / "new", "restore", str(kept))
    assert done.returncode == 0, done.stderr
    assert whole(tmp_path / "new") == whole(desk)
    with closing(sqlite3.connect(tmp_path / "new" / "firstpitch.sqlite3")) as database:
        assert database.execute("SELECT count(*) FROM desk_session").fetchone() == (0,)
        assert database.execute("PRAGMA foreign_key_check").fetchall() == []
    with closing(sqlite3.connect(desk / "firstpitch.sqlite3")) as database:
        assert database.execute("SELECT count(*) FROM desk_session").fetchone() == (1,)


def test_over_a_filled_desk(desk: Path, kept: Path, changed: Path) -> None:
    """A filled desk is refused without --replace; with it all is as in the backup, and what was there can be put back in turn."""
    before = whole(changed)
    refused = run(changed, "restore", str(kept))
    assert refused.returncode == 1
    assert "--replace" in refused.stderr
    assert "Traceback" not in refused.stderr
    assert whole(changed) == before
    done = run(changed, "restore", "--replace", str(kept))
    assert done.returncode == 0, done.stderr
    assert whole(changed) == whole(desk)
    [safe] = changed.glob("before-restore-*.tar.gz")
    assert run(changed, "restore", "--replace", str(safe)).returncode == 0
    assert whole(changed) == before


def spoil(kept: Path, to: Path, what: str) -> Path:
    """The backup with one thing wrong."""
    if what == "cut short":
        to.write_bytes(kept.read_bytes()[:-4000])
        return to
    with tarfile.open(kept) as old, tarfile.open(to, "w:gz") as new:
        for one in old.getmembers():
            stream = old.extractfile(one)
            assert stream
            content = stream.read()
            if what == "a photo changed" and one.name.endswith(".png"):
                content = content[:-1] + bytes([content[-1] ^ 1])
            if what == "a photo missing" and one.name.endswith(".png"):
                continue
            if what == "no list" and one.name == "manifest.json":
                continue
            if what == "from a newer program" and one.name == "manifest.json":
                listed = json.loads(content)
                content = json.dumps({**listed, "migrations": [*listed["migrations"], ["desk", "9999_later"]]}).encode()
            if what == "another database" and one.name == "manifest.json":
                content = json.dumps({**json.loads(content), "database": "postgresql"}).encode()
            one.size = len(content)
            new.addfile(one, io.BytesIO(content))
        if what == "a file outside":
            bad = tarfile.TarInfo("../outside")
            new.addfile(bad, io.BytesIO(b""))
    return to


WRONG = {
    "cut short": "no whole backup",
    "a photo changed": "not as it was written",
    "a photo missing": "not as it was written",
    "no list": "no list of its files",
    "from a newer program": "newer program",
    "another database": "FIRSTPITCH_DATABASE",
    "a file outside": "no whole backup",
}


@pytest.mark.parametrize("what", WRONG)
def test_damaged_is_refused(kept: Path, tmp_path: Path, what: str) -> None:
    """A backup that is damaged, of a newer program or of another sort of database is refused in words, before anything is touched."""
    file = spoil(kept, tmp_path / "bad.tar.gz", what)
    done = run(tmp_path / "new", "restore", str(file))
    assert done.returncode == 1
    assert WRONG[what] in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "new" / "firstpitch.sqlite3").exists() or rows(tmp_path / "new") == rows_of_nothing()
    assert not list((tmp_path / "new").glob("media/**/*"))
    assert not list((tmp_path / "new").glob(".restore-*"))


def rows_of_nothing() -> list[str]:
    """What an empty database file dumps to."""
    with closing(sqlite3.connect(":memory:")) as database:
        return list(database.iterdump())


def test_in_use_is_left_as_it_was(kept: Path, changed: Path) -> None:
    """While somebody is writing nothing is put back: rows and media stay as they were."""
    before = whole(changed)
    with closing(sqlite3.connect(changed / "firstpitch.sqlite3", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        done = run(changed, "restore", "--replace", str(kept))
        other.execute("ROLLBACK")
    assert done.returncode == 1
    assert "Stop the desk" in done.stderr
    assert whole(changed) == before


def test_no_file_is_overwritten(desk: Path, kept: Path) -> None:
    """A backup never takes the place of another file."""
    done = run(desk, "backup", str(kept))
    assert done.returncode == 1
    assert "already" in done.stderr


def test_no_desk_no_backup(tmp_path: Path) -> None:
    """Where there is no desk there is no backup, and the words name the folder looked in."""
    done = run(tmp_path / "none", "backup", str(tmp_path / "x.tar.gz"))
    assert done.returncode == 1
    assert "FIRSTPITCH_DATA" in done.stderr
    assert not list(tmp_path.glob("*x.tar.gz*"))
