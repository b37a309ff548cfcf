"""Counting, for limits of rate."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction
from django.db.models import F

from firstpitch.desk.models import Person, Tally

_KEPT_S = 24 * 3600


@transaction.atomic
def count(*, by: Person | None, what: str, who: str, seconds: int, now: datetime) -> int:  # noqa: ARG001  (every action says who)
    """Count once more what ``who`` (a digest) did in this stretch of ``seconds``; gives the count. Old counts are swept out."""
    begins = int(now.timestamp()) // seconds * seconds
    tally, made = Tally.objects.get_or_create(what=what, who=who, begins=begins)
    if made:
        Tally.objects.filter(begins__lt=begins - _KEPT_S).delete()
    Tally.objects.filter(pk=tally.pk).update(count=F("count") + 1)
    tally.refresh_from_db(fields=["count"])
    return tally.count
