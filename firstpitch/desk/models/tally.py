"""Counts for limits of rate, kept in the database so that several web processes share them."""

from __future__ import annotations

from django.db import models


class Tally(models.Model):
    """How often somebody did one thing in one stretch of time. ``who`` is a digest; ``begins`` is in seconds of the epoch."""

    what = models.CharField(max_length=40)
    who = models.CharField(max_length=64)
    begins = models.BigIntegerField()
    count = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("what", "who", "begins"), name="one_tally_per_stretch"),)
        indexes = (models.Index(fields=("begins",)),)

    def __str__(self) -> str:
        return f"{self.what}: {self.count}"
