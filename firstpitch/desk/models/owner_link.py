"""The owner's private link."""

from __future__ import annotations

from django.db import models

from firstpitch.desk.models.handover import Handover


class OwnerLink(models.Model):
    """Opens one handover's pages to whoever holds it, until it expires or is revoked. Only a digest of the secret is kept."""

    handover = models.ForeignKey(Handover, on_delete=models.CASCADE, related_name="owner_links")
    digest = models.CharField(max_length=64, unique=True)
    made = models.DateTimeField(auto_now_add=True)
    expires = models.DateTimeField()
    revoked = models.DateTimeField(null=True, blank=True)
    last_used = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"owner link of {self.handover_id}"
