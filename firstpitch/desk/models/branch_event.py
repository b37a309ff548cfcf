"""The history of a branch itself."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from firstpitch.desk.models.branch import Branch


class BranchEvent(models.Model):
    """Something that happened to a branch and to no one van: its own kinds, its habits, its people. Never changed, never deleted."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    branch = models.ForeignKey(Branch, on_delete=models.PROTECT, related_name="events")
    what = models.CharField(max_length=40)
    data = models.JSONField(default=dict, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ("at",)
        indexes = (models.Index(fields=("branch", "at")),)

    def __str__(self) -> str:
        return f"{self.what} ({self.id})"
