"""The append-only history."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from firstpitch.desk.models.handover import Handover
from firstpitch.desk.models.van import Van


class Event(models.Model):
    """Something that happened to a van. ``id`` is made by whoever saw it, so that it can be sent twice and count once.

    ``at`` is the clock of the device, ``received`` ours; ``number`` orders what one device sent. Never changed, never deleted.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    van = models.ForeignKey(Van, on_delete=models.PROTECT, related_name="events")
    handover = models.ForeignKey(Handover, on_delete=models.PROTECT, null=True, blank=True, related_name="events")
    what = models.CharField(max_length=40)
    data = models.JSONField(default=dict, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()
    received = models.DateTimeField(auto_now_add=True)
    device = models.CharField(max_length=36, blank=True)
    number = models.PositiveBigIntegerField(default=0)

    class Meta:
        ordering = ("at", "received", "number")
        indexes = (
            models.Index(fields=("van", "at")),
            models.Index(fields=("handover", "at")),
            models.Index(fields=("van", "what")),
        )

    def __str__(self) -> str:
        return f"{self.what} ({self.id})"
