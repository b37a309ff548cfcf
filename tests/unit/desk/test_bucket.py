"""Media in S3-compatible storage: kept there, read from there, taken away there."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from PIL import Image
from pytest_django.fixtures import Settings

from firstpitch.desk.backup import media_folder
from firstpitch.desk.models import Film, Media, Van
from firstpitch.desk.settings import media_storage
from tests.unit.desk.bucket import Bucket, bucket
from tests.unit.desk.film import film_bytes, give, send, work


@pytest.fixture
def held(settings: Settings, monkeypatch: pytest.MonkeyPatch) -> Iterator[Bucket]:
    """A bucket that the desk's media are in, as FIRSTPITCH_S3_BUCKET and FIRSTPITCH_S3_ENDPOINT set it."""
    for name, value in (("ACCESS_KEY_ID", "a"), ("SECRET_ACCESS_KEY", "b"), ("DEFAULT_REGION", "us-east-1")):
        monkeypatch.setenv(f"AWS_{name}", value)
    with bucket() as running:
        settings.STORAGES = {**settings.STORAGES, "default": media_storage("yard", running.address)}
        yield running


def picture() -> bytes:
    """A small photo."""
    file = io.BytesIO()
    Image.new("RGB", (900, 600), "white").save(file, "JPEG")
    return file.getvalue()


def test_photo_is_kept_in_the_bucket(held: Bucket, own: Client, far: Client, van: Van) -> None:
    """A photo and its small picture lie in the bucket, every request signed; the desk hands them out to its branch only."""
    own.post(f"/vans/{van.pk}/photos/", {"photo": SimpleUploadedFile("a.jpg", picture(), "image/jpeg")})
    media = Media.objects.get()
    assert set(held.objects) == {f"yard/{media.file.name}", f"yard/{str(media.file.name)[:-4]}-small.jpg"}
    assert held.unsigned == []
    whole, small = own.get(f"/photos/{media.pk}/"), own.get(f"/photos/{media.pk}/small/")
    assert whole.content == held.objects[f"yard/{media.file.name}"]
    assert 0 < len(small.content) < len(whole.content)
    assert far.get(f"/photos/{media.pk}/").status_code == 404


def test_photo_gone_from_the_bucket(held: Bucket, own: Client, van: Van) -> None:
    """A photo that is no longer in the bucket is said to be gone; nothing breaks."""
    own.post(f"/vans/{van.pk}/photos/", {"photo": SimpleUploadedFile("a.jpg", picture(), "image/jpeg")})
    held.objects.clear()
    assert own.get(f"/photos/{Media.objects.get().pk}/").status_code == 404


def test_large_file_in_parts_and_by_range(held: Bucket) -> None:
    """A file of many megabytes is sent in parts, comes back by range the same as it was, and is gone when deleted."""
    content = bytes(range(256)) * (80 * 1024)
    name = default_storage.save("van/film.bin", ContentFile(content))
    assert held.parts
    with default_storage.open(name) as stream:
        assert stream.read() == content
    assert "GET by range" in held.asked
    assert default_storage.size(name) == len(content)
    default_storage.delete(name)
    assert not default_storage.exists(name)
    assert held.objects == {}


def test_backup_leaves_a_bucket_alone(held: Bucket) -> None:
    """A backup of a desk with its media in a bucket takes no media along: there is no folder of them."""
    assert media_folder() is None
    assert held.asked == []


def test_film_is_kept_in_the_bucket_and_plays_from_it(
    held: Bucket,
    own: Client,
    far: Client,
    van: Van,
    django_capture_on_commit_callbacks: Callable[..., AbstractContextManager[Any]],
) -> None:
    """A film lies in the bucket with its still picture; a player asks for any part of it, and the queue checks it from there."""
    with django_capture_on_commit_callbacks(execute=True):
        send(own, van, film_bytes(6))
        work()
    film = Film.objects.get()
    assert not any("/coming/" in name for name in held.objects)
    assert {f"yard/{film.file.name}", f"yard/{film.poster.name}"} <= set(held.objects)
    address = reverse("film-video", args=[van.pk, film.pk])
    part = own.get(address, headers={"Range": "bytes=100-299"})
    whole = held.objects[f"yard/{film.file.name}"]
    assert (part.status_code, part.headers["Content-Range"]) == (206, f"bytes 100-299/{len(whole)}")
    assert part.content == whole[100:300]
    assert far.get(address).status_code == 404
    give(own, film)
    work()
    film.refresh_from_db()
    assert film.found is not None
    with django_capture_on_commit_callbacks(execute=True):
        own.post(reverse("film-remove", args=[van.pk, film.pk]), {"why": "again"})
    assert not any(str(film.file.name) in name for name in held.objects)
