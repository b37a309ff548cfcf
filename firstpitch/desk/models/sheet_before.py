"""Build sheets as they were."""

from __future__ import annotations

from django.db import models

from firstpitch.desk.models.van import Van


class SheetBefore(models.Model):
    """The text of a van's sheet at a version that has since been replaced. Never changed, never deleted."""

    van = models.ForeignKey(Van, on_delete=models.PROTECT, related_name="sheets_before")
    version = models.PositiveIntegerField()
    text = models.TextField()

    class Meta:
        constraints = (models.UniqueConstraint(fields=("van", "version"), name="one_sheet_per_version"),)

    def __str__(self) -> str:
        return f"{self.van_id} version {self.version}"
