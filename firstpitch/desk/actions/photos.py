"""Writes about photos of a van."""

from __future__ import annotations

import io
import uuid
from pathlib import PurePosixPath

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import transaction
from PIL import Image

from firstpitch.desk.actions.history import Sent, write
from firstpitch.desk.models import Handover, Media, Person, Van
from firstpitch.desk.uploads import UploadError, take_picture

_SMALL = 480  # the longer side [pixels]


def small_name(name: str) -> str:
    """Where the small picture of a photo is kept.

    >>> small_name("van/2026/11/abc.png")
    'van/2026/11/abc-small.jpg'
    """
    path = PurePosixPath(name)
    return str(path.with_name(f"{path.stem}-small.jpg"))


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
    """Keep a photo of a van, drawn anew without what the camera noted (such as where it was taken), and a small one for lists.

    ``key`` is the id the device made; a photo that is here already is given back as it is. UploadError when it is no picture.
    """
    key = key or uuid.uuid4()
    known = Media.objects.filter(pk=key).first()
    if known:
        if known.van_id != van.pk:
            raise UploadError("Another photo has this id; take it again.")
        return known
    if handover and Handover.objects.filter(pk=handover.pk, signed__isnull=False).exists():
        raise UploadError(
            "The record of this handover is signed; nothing can be added to it. Add the photo to the van."
        )
    taken = take_picture(io.BytesIO(data))
    media = Media(id=key, van=van, handover=handover, sort=taken.sort, digest=taken.digest, by=by)
    media.file.save(f"{key}.{taken.ending}", ContentFile(taken.content), save=False)
    default_storage.save(small_name(str(media.file.name)), ContentFile(_small(taken.content)))
    media.save()
    said = {"media": str(key), "kit": kit, "snag": snag, "words": " ".join(words.split())[:500]}
    write(by=by, van=van, what="photo.added", data=said, handover=handover, sent=sent)
    return media


def _small(content: bytes) -> bytes:
    with Image.open(io.BytesIO(content)) as picture:
        copy = picture.convert("RGB")
    copy.thumbnail((_SMALL, _SMALL))
    out = io.BytesIO()
    copy.save(out, "JPEG", quality=80)
    return out.getvalue()
