"""A branch of the dealership."""

from __future__ import annotations

from django.db import models


class Branch(models.Model):
    """One yard with its own vans and people; nobody sees another branch's. ``words_per_minute`` and the like are its habits."""

    name = models.CharField(max_length=80, unique=True)
    telephone = models.CharField(max_length=40, blank=True)
    words_per_minute = models.PositiveSmallIntegerField(default=150)
    metres_per_second = models.FloatField(default=1.0)
    choices = models.JSONField(default=dict, blank=True)

    def __str__(self) -> str:
        return self.name
