"""Putting a backup back: all of it is looked at before anything is touched, and what is put back is all of it or nothing."""

from __future__ import annotations

import sqlite3
import tarfile
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.utils import timezone

from firstpitch.desk import postgres
from firstpitch.desk.access import nobody_yet
from firstpitch.desk.backup import (
    DATABASE,
    FORMAT,
    HERE,
    LIST,
    SQLITE,
    BackupError,
    Manifest,
    digest,
    media_folder,
    read_manifest,
    sort_of_database,
    write_backup,
)

END_SESSIONS = "DELETE FROM desk_session"
_PATIENCE_S = 5.0


def restore(path: Path, *, replace: bool) -> tuple[Manifest, Path | None]:
    """Put the backup at ``path`` in the place of this desk, and say where what was there has been kept (None: there was nothing).

    BackupError, and nothing changed, when the file is damaged, of a newer program, of another sort of database, or when the
    desk is filled and ``replace`` is not set. Everybody has to sign in again: who signed out since must not be signed in.
    """
    settings.DATA.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=settings.DATA, prefix=".restore-") as name:
        folder = Path(name) / "new"
        manifest = unpack(path, folder)
        _must_fit(manifest)
        filled = _filled()
        if filled and not replace:
            raise BackupError(
                f"There is a desk in {settings.DATA} already. To put this backup in its place say --replace; "
                "what is there is kept in a backup first."
            )
        kept = _keep_what_is_there() if filled else None
        with _media_in_place(manifest, folder / "media", Path(name) / "old"):
            _load(manifest, folder / DATABASE[manifest.database])
    call_command("migrate", verbosity=0, interactive=False)
    _clear_media(manifest)
    return manifest, kept


def unpack(path: Path, folder: Path) -> Manifest:
    """Unpack a backup and compare every file with its digest. BackupError when anything is missing, too much or different."""
    folder.mkdir()
    try:
        with tarfile.open(path, "r:gz") as archive:
            archive.extractall(folder, filter="data")
    except FileNotFoundError:
        raise BackupError(f"There is no file {path}.") from None
    except (tarfile.TarError, EOFError, OSError) as wrong:
        raise BackupError(f"{path} is no whole backup ({wrong}). Take an earlier one.") from None
    listed = folder / LIST
    if not listed.is_file():
        raise BackupError(f"{path} has no list of its files ({LIST}); it is cut short, or no backup of the desk.")
    manifest = read_manifest(listed.read_text("utf-8"))
    listed.unlink()
    found = {file.relative_to(folder).as_posix(): file for file in folder.rglob("*") if file.is_file()}
    odd = sorted(set(found) ^ set(manifest.files))
    odd = odd or sorted(name for name, file in found.items() if digest(file) != manifest.files[name])
    if odd:
        raise BackupError(
            f"{path} is damaged: {odd[0]} is not as it was written ({len(odd)} in all). Take an earlier one."
        )
    return manifest


def _must_fit(manifest: Manifest) -> None:
    if manifest.format != FORMAT:
        raise BackupError(
            f"This backup has format {manifest.format}, this program reads {FORMAT}. Use the program that wrote it."
        )
    if manifest.database != sort_of_database():
        raise BackupError(
            f"This backup is of {manifest.database}, this desk has {sort_of_database()}. Set FIRSTPITCH_DATABASE to the same sort."
        )
    known = MigrationLoader(None, ignore_no_migrations=True).disk_migrations
    newer = sorted(f"{app} {name}" for app, name in manifest.migrations if (app, name) not in known)
    if newer:
        raise BackupError(
            f"This backup was made by a newer program ({manifest.program}; it knows {newer[-1]}). Bring this one up to date first."
        )
    if DATABASE[manifest.database] not in manifest.files:
        raise BackupError("This backup holds no database. Take an earlier one.")


def _filled() -> bool:
    return "desk_branch" in connection.introspection.table_names() and not nobody_yet()


def _keep_what_is_there() -> Path:
    kept = Path(settings.DATA) / f"before-restore-{timezone.now():%Y%m%d-%H%M%S}.tar.gz"
    write_backup(kept)
    return kept


@contextmanager
def _media_in_place(manifest: Manifest, staged: Path, old: Path) -> Iterator[None]:
    """Put the media where they belong; when what follows does not work out, put everything back as it was."""
    media, moved = media_folder(), []
    try:
        if media and manifest.media == HERE and staged.is_dir():
            for file in sorted(one for one in staged.rglob("*") if one.is_file()):
                moved.append(file.relative_to(staged))
                _swap(file, media / moved[-1], old / moved[-1])
        yield
    except BaseException:
        for name in moved if media else ():
            assert media
            (media / name).unlink(missing_ok=True)
            if (old / name).exists():
                (old / name).replace(media / name)
        raise


def _swap(new: Path, place: Path, old: Path) -> None:
    if place.exists():
        old.parent.mkdir(parents=True, exist_ok=True)
        place.replace(old)
    place.parent.mkdir(parents=True, exist_ok=True)
    new.replace(place)


def _load(manifest: Manifest, database: Path) -> None:
    connection.close()
    if manifest.database != SQLITE:
        postgres.load(database, END_SESSIONS.replace("desk_", "public.desk_"))
        return
    copy = sqlite3.connect(database)
    try:
        found = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if found != "ok":
            raise BackupError(f"The database in this backup is damaged: {found}. Take an earlier one.")
        if copy.execute("SELECT 1 FROM sqlite_master WHERE name = 'desk_session'").fetchone():
            with copy:
                copy.execute(END_SESSIONS)
        _into_place(copy)
    finally:
        copy.close()


def _into_place(copy: sqlite3.Connection) -> None:
    """Write all pages over the desk's database in one transaction of SQLite: others see the old one or the new one."""
    until = time.monotonic() + _PATIENCE_S

    def tell(status: int, left: int, pages: int) -> None:
        del left, pages
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED) and time.monotonic() > until:
            raise BackupError("Somebody is using the desk's database. Stop the desk and its workers, then try again.")

    place = sqlite3.connect(str(connection.settings_dict["NAME"]), timeout=1.0, uri=True)
    try:
        copy.backup(place, progress=tell)
    except sqlite3.Error as wrong:
        raise BackupError(
            f"The database could not be put in place ({wrong}). Stop the desk and its workers, then try again."
        ) from None
    finally:
        place.close()


def _clear_media(manifest: Manifest) -> None:
    """Take away media that the restored desk knows nothing of; they are in the backup of what was there."""
    media = media_folder()
    if not media or manifest.media != HERE or not media.is_dir():
        return
    for file in sorted(media.rglob("*")):
        if file.is_file() and f"media/{file.relative_to(media).as_posix()}" not in manifest.files:
            file.unlink()
