"""Big files: where films lie, how they come in piece by piece, and how any part of one is read without reading all of it.

In the data folder they are plain files; in a bucket they are objects, read by ranges. Nothing here knows a model.
"""

from __future__ import annotations

import contextlib
import errno
import shutil
import tempfile
import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage

from firstpitch.desk.uploads import UploadError

NO_ROOM = 507
SPARE = 200_000_000
_GIGA = 1e9
_AT_ONCE = 1024 * 1024
_FULL = "The disk of the desk is full. What came so far is kept: tell whoever looks after the desk, then go on."


def _bucket() -> Any:
    """The bucket where files are kept in one, else None."""
    return getattr(default_storage, "bucket", None)


def workshop() -> Path:
    """The folder in which films are put together and worked on, beside where they are kept."""
    folder = Path(settings.DATA) / "coming"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@contextlib.contextmanager
def full_in_words() -> Iterator[None]:
    """A full disk is said in words (UploadError, 507)."""
    try:
        yield
    except OSError as wrong:
        if wrong.errno in (errno.ENOSPC, errno.EDQUOT):
            raise UploadError(_FULL, NO_ROOM) from wrong
        raise


def room_for(size: int) -> None:
    """UploadError where the disk has no room for a film of ``size`` bytes twice over: as it comes, and as it is kept."""
    free = shutil.disk_usage(workshop()).free
    if free < 2 * size + SPARE:
        raise UploadError(
            f"There is no room for this film: it needs {gigabytes(2 * size + SPARE)} and {gigabytes(free)} are free. "
            "Remove films nobody needs, or tell whoever looks after the desk.",
            NO_ROOM,
        )


def gigabytes(size: float) -> str:
    """A size in words.

    >>> gigabytes(350_000_000), gigabytes(4_100_000_000)
    ('350 MB', '4.1 GB')
    """
    return f"{size / _GIGA:.1f} GB" if size >= _GIGA else f"{size / 1e6:.0f} MB"


def add_piece(upload: uuid.UUID, offset: int, content: bytes) -> None:
    """Keep a piece of a film that is coming in. UploadError when the disk is full; then nothing of it counts."""
    bucket = _bucket()
    if bucket is not None:
        bucket.put_object(Key=_piece_key(upload, offset), Body=content)
        return
    with full_in_words():
        path = workshop() / f"{upload}.part"
        with path.open("r+b" if path.exists() else "w+b") as file:
            file.seek(offset)
            file.write(content)
            file.truncate()


def _piece_key(upload: uuid.UUID, offset: int) -> str:
    return f"coming/{upload}/{offset:015d}"


def drop_pieces(upload: uuid.UUID) -> None:
    """Let the pieces of an upload go."""
    bucket = _bucket()
    if bucket is None:
        (workshop() / f"{upload}.part").unlink(missing_ok=True)
        return
    keys = [{"Key": one.key} for one in bucket.objects.filter(Prefix=f"coming/{upload}/")]
    for start in range(0, len(keys), 1000):
        bucket.delete_objects(Delete={"Objects": keys[start : start + 1000]})


@contextlib.contextmanager
def put_together(upload: uuid.UUID) -> Iterator[Path]:
    """The whole upload as one file, for reading. FileNotFoundError when it is gone."""
    bucket = _bucket()
    if bucket is None:
        path = workshop() / f"{upload}.part"
        if not path.exists():
            raise FileNotFoundError(path)
        yield path
        return
    with tempfile.NamedTemporaryFile(dir=workshop(), prefix=".film-") as file:
        for one in sorted(bucket.objects.filter(Prefix=f"coming/{upload}/"), key=lambda found: str(found.key)):
            bucket.download_fileobj(one.key, file)
        file.flush()
        yield Path(file.name)


def put(path: Path, name: str) -> str:
    """Move a finished file into the storage under a name nobody else has; gives the name."""
    bucket = _bucket()
    if bucket is not None:
        bucket.upload_file(str(path), name)
        path.unlink()
        return name
    to = Path(default_storage.path(name))
    with full_in_words():
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(path, to)
    return name


def drop(name: str) -> None:
    """Let a file go."""
    bucket = _bucket()
    if bucket is not None:
        bucket.delete_objects(Delete={"Objects": [{"Key": name}]})
    elif name:
        Path(default_storage.path(name)).unlink(missing_ok=True)


@contextlib.contextmanager
def at_hand(name: str) -> Iterator[Path]:
    """A stored file as a file on this machine, for reading. FileNotFoundError when it is gone."""
    bucket = _bucket()
    if bucket is None:
        path = Path(default_storage.path(name))
        if not path.exists():
            raise FileNotFoundError(path)
        yield path
        return
    with tempfile.NamedTemporaryFile(dir=workshop(), prefix=".film-", suffix=Path(name).suffix) as file:
        bucket.download_fileobj(name, file)
        file.flush()
        yield Path(file.name)


def size_of(name: str) -> int:
    """How many bytes a stored file has. FileNotFoundError when it is gone."""
    return default_storage.size(name)


def read(name: str, start: int, count: int) -> bytes:
    """``count`` bytes of a stored file from ``start``, fewer at its end. FileNotFoundError when it is gone."""
    bucket = _bucket()
    if bucket is not None:
        found: bytes = bucket.Object(name).get(Range=f"bytes={start}-{start + count - 1}")["Body"].read()
        return found
    with Path(default_storage.path(name)).open("rb") as file:
        file.seek(start)
        return file.read(count)


def all_of(name: str) -> Iterator[bytes]:
    """A whole stored file, a little at a time."""
    start = 0
    while piece := read(name, start, _AT_ONCE) if start < size_of(name) else b"":
        yield piece
        start += len(piece)
