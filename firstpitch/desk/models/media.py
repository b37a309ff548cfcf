"""Photos and other files."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from firstpitch.desk.models.handover import Handover
from firstpitch.desk.models.van import Van


class Media(models.Model):
    """A file that belongs to a van. ``id`` is made by the device that took it."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    van = models.ForeignKey(Van, on_delete=models.PROTECT, related_name="media")
    handover = models.ForeignKey(Handover, on_delete=models.PROTECT, null=True, blank=True, related_name="media")
    file = models.FileField(upload_to="van/%Y/%m/")
    sort = models.CharField(max_length=60)
    digest = models.CharField(max_length=64)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return str(self.id)
