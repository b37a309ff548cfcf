"""Writes about photos of a van."""

from __future__ import annotations

import hashlib
import io
import uuid
from typing import TYPE_CHECKING

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import transaction

from firstpitch.desk.actions.history import Sent, write
from firstpitch.desk.models import Event, Handover, Media, Person, Van

if TYPE_CHECKING:
    from PIL.Image import Image

SORT = "image/jpeg"
_TAKEN = ("JPEG", "PNG", "WEBP")
_MOST_PIXELS = 60_000_000
_LARGE, _SMALL = 2000, 480  # the longer side [pixels]


class PhotoError(ValueError):
    """A file that is no photo we can keep; the message says what to do."""


def small_name(name: str) -> str:
    """Where the small picture of a photo is kept.

    >>> small_name("van/2026/11/abc.jpg")
    'van/2026/11/abc-small.jpg'
    """
    return f"{name.removesuffix('.jpg')}-small.jpg"


@transaction.atomic
def add_photo(
    *,
    by: Person | None,
    van: Van,
    data: bytes,
    kit: str = "",
    snag: str = "",
    words: str = "",
    handover: Handover | None = None,
    key: uuid.UUID | None = None,
    sent: Sent | None = None,
) -> Media:
    """Keep a photo of a van. It is written anew, smaller and without what the camera noted (such as where it was taken).

    ``key`` is the id the device made; a photo that is here already is given back as it is. PhotoError when it is no picture.
    """
    key = key or uuid.uuid4()
    known = Media.objects.filter(pk=key).first()
    if known:
        if known.van_id != van.pk:
            raise PhotoError("Another photo has this id; take it again.")
        return known
    picture = _opened(data)
    large, small = _jpeg(picture, _LARGE), _jpeg(picture, _SMALL)
    media = Media(id=key, van=van, handover=handover, sort=SORT, digest=hashlib.sha256(large).hexdigest(), by=by)
    media.file.save(f"{key}.jpg", ContentFile(large), save=False)
    default_storage.save(small_name(str(media.file.name)), ContentFile(small))
    media.save()
    said = {"media": str(key), "kit": kit, "snag": snag, "words": " ".join(words.split())[:500]}
    write(by=by, van=van, what="photo.added", data=said, handover=handover, sent=sent)
    return media


def _opened(data: bytes) -> Image:
    from PIL import Image, ImageOps

    if len(data) > settings.MOST_UPLOAD:
        raise PhotoError(f"The photo is larger than {settings.MOST_UPLOAD // 2**20} MB; take it with fewer pixels.")
    try:
        picture = Image.open(io.BytesIO(data), formats=_TAKEN)
        if picture.width * picture.height > _MOST_PIXELS:
            raise PhotoError("The photo has too many pixels; take it with fewer.")
        turned = ImageOps.exif_transpose(picture)
        return turned.convert("RGB")
    except PhotoError:
        raise
    except Exception:  # the library raises whatever its parts raise on odd files
        raise PhotoError("This is not a photo we can read; take it as JPEG, PNG or WebP.") from None


def _jpeg(picture: Image, longest: int) -> bytes:
    copy = picture.copy()
    copy.thumbnail((longest, longest))
    out = io.BytesIO()
    copy.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()


def photos_of(events: list[Event]) -> dict[str, Event]:
    """The events that tell of photos, by the photo's id."""
    return {str(event.data["media"]): event for event in events if event.what == "photo.added"}
