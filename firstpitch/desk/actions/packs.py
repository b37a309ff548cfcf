"""Writes about the packs of vans."""

from __future__ import annotations

import hashlib
import uuid
from typing import Any

from django.core.files.base import ContentFile
from django.db import transaction

from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.jobs import enqueue
from firstpitch.desk.models import Handover, Job, Media, Person, Van

PACK = "pack"
PDF = "application/pdf"


@transaction.atomic
def ask_for_pack(*, by: Person, van: Van, handover: Handover | None = None) -> Job:
    """Ask for the pack of a van, with the round as ``handover`` has it. Asked again while it is being made, it is the same job."""
    locked = Van.objects.select_for_update(of=("self",)).select_related("branch").get(pk=van.pk)
    under_way = Job.objects.filter(van=locked, task=PACK, ended=None).first()
    if under_way:
        return under_way
    arguments = {"van": locked.pk, "handover": handover.pk if handover else None}
    return enqueue(by=by, task=PACK, arguments=arguments, branch=locked.branch, van=locked)


@transaction.atomic
def keep_pack(
    *, by: Person | None, van: Van, version: int, content: bytes, handover: Handover | None = None
) -> dict[str, Any]:
    """Keep a pack that was made from ``version`` of the van's sheet, and say where it is."""
    key = uuid.uuid4()
    media = Media(id=key, van=van, handover=handover, sort=PDF, digest=hashlib.sha256(content).hexdigest(), by=by)
    media.file.save(f"{key}.pdf", ContentFile(content), save=False)
    media.save()
    said = {"media": str(key), "version": version}
    write(by=by, van=van, what="pack.made", data=said, handover=handover)
    return said
