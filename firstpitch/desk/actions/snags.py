"""Writes about snags: what is wrong with a van, and that it has been mended."""

from __future__ import annotations

import uuid

from django.db import transaction

from firstpitch.desk.actions.history import Sent, write
from firstpitch.desk.models import Event, Handover, Person, Van
from firstpitch.desk.snags import RAISED, SEVERITIES, mended_of, snag_of

LONGEST = 1000


class SnagError(ValueError):
    """A snag that cannot be raised or mended like this; the message says why."""


@transaction.atomic
def raise_snag(
    *,
    by: Person | None,
    van: Van,
    words: str,
    severity: str,
    kit: str = "",
    handover: Handover | None = None,
    sent: Sent | None = None,
) -> Event:
    """Note that something is wrong with a van. ``severity`` is ``stop``, ``care`` or ``note``; ``kit`` the id of a kit, or nothing."""
    words = " ".join(words.split())
    if not words:
        raise SnagError("Say what is wrong.")
    if len(words) > LONGEST:
        raise SnagError(f"That is {len(words):,} letters; say it in at most {LONGEST:,}.")
    if severity not in SEVERITIES:
        raise SnagError("Say how grave it is.")
    if handover and Handover.objects.filter(pk=handover.pk, signed__isnull=False).exists():
        raise SnagError("The record of this handover is signed; nothing can be added to it. Raise the snag on the van.")
    data = {"words": words, "severity": severity, "kit": kit}
    return write(by=by, van=van, what=RAISED, data=data, handover=handover, sent=sent)


@transaction.atomic
def mend_snag(*, by: Person, van: Van, snag: uuid.UUID, words: str = "") -> Event:
    """Note that a snag has been mended. SnagError when there is no such snag on this van, or it has been mended already."""
    van = Van.objects.select_for_update().get(pk=van.pk)
    raised = snag_of(van, snag)
    if raised is None:
        raise SnagError("There is no such snag on this van.")
    if mended_of(van, snag):
        raise SnagError("This snag has been mended already.")
    data = {"snag": str(snag), "words": " ".join(words.split())[:LONGEST], "kit": raised.data.get("kit", "")}
    return write(by=by, van=van, what="snag.mended", data=data)
