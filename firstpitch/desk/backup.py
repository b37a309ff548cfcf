"""A backup: one file with the whole database, the media and a list of both with their digests. docs/running.md says how to use it."""

from __future__ import annotations

import hashlib
import io
import json
import sqlite3
import tarfile
import tempfile
from dataclasses import asdict, dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage
from django.db import connection
from django.db.migrations.recorder import MigrationRecorder
from django.utils import timezone

from firstpitch.desk import postgres

FORMAT = 1
LIST = "manifest.json"
SQLITE, POSTGRES = "sqlite", "postgresql"
DATABASE = {SQLITE: "database.sqlite3", POSTGRES: "database.sql"}
HERE, ELSEWHERE = "in this file", "in a bucket, not in this file"


class BackupError(Exception):
    """A backup that cannot be made or put back, in words that say what to do."""


@dataclass(frozen=True)
class Manifest:
    """What a backup holds. ``files`` is the SHA-256 of each file by its name, ``migrations`` what the database had been brought to."""

    format: int
    made: str
    program: str
    database: str
    migrations: list[list[str]]
    media: str
    files: dict[str, str]

    def text(self) -> str:
        """As it stands in the file."""
        return json.dumps(asdict(self), indent=1, sort_keys=True)


def sort_of_database() -> str:
    """Which sort of database this desk has."""
    return SQLITE if connection.vendor == "sqlite" else POSTGRES


def media_folder() -> Path | None:
    """Where the media lie; None when they are in a bucket."""
    return Path(settings.MEDIA_ROOT) if hasattr(default_storage, "base_location") else None


def digest(path: Path) -> str:
    """The SHA-256 of a file."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def write_backup(path: Path) -> Manifest:
    """Write a backup of this desk to ``path`` while the desk runs. BackupError when that file is there already or nothing can be kept.

    The database is copied first, as it is at one moment. Media never change and are never taken away, so those that were there
    at that moment are there when they are read.
    """
    if path.exists():
        raise BackupError(f"{path} is there already; choose another name, or move it away first.")
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    try:
        part.touch(mode=0o600)
        with tempfile.TemporaryDirectory(dir=path.parent, prefix=".backup-") as folder:
            made = _pack(part, Path(folder))
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return made


def _pack(part: Path, folder: Path) -> Manifest:
    sort = sort_of_database()
    copy = folder / DATABASE[sort]
    migrations = sorted([app, name] for app, name in MigrationRecorder(connection).applied_migrations())
    if not migrations:
        raise BackupError(
            f"There is no desk in {settings.DATA} yet, so there is nothing to keep. Is FIRSTPITCH_DATA right?"
        )
    if sort == SQLITE:
        copy_sqlite(copy)
    else:
        postgres.dump(copy)
    found = {DATABASE[sort]: copy}
    media = media_folder()
    if media and media.is_dir():
        found |= {
            f"media/{file.relative_to(media).as_posix()}": file for file in sorted(media.rglob("*")) if file.is_file()
        }
    files = {name: digest(file) for name, file in found.items()}
    where = HERE if media else ELSEWHERE
    made = Manifest(FORMAT, timezone.now().isoformat(), version("firstpitch"), sort, migrations, where, files)
    with tarfile.open(part, "w:gz", compresslevel=6) as archive:
        for name, file in found.items():
            archive.add(file, name, recursive=False)
        text = made.text().encode()
        about = tarfile.TarInfo(LIST)
        about.size = len(text)
        archive.addfile(about, io.BytesIO(text))
    return made


def copy_sqlite(to: Path) -> None:
    """The SQLite database as it is now, whole, while others write (SQLite's online backup)."""
    source = sqlite3.connect(str(connection.settings_dict["NAME"]), uri=True)
    copy = sqlite3.connect(to)
    try:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")
    finally:
        source.close()
        copy.close()


def read_manifest(text: str) -> Manifest:
    """The list of a backup. BackupError when it is none of ours."""
    try:
        found: dict[str, Any] = json.loads(text)
        return Manifest(**found)
    except (ValueError, TypeError):
        raise BackupError(
            f"The list in this file ({LIST}) cannot be read; it was made by something else, or is damaged."
        ) from None
