"""The queue of heavy work, kept in the database."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from firstpitch.desk.models.branch import Branch


class Job(models.Model):
    """One piece of work: waiting, running or over. ``task`` names a function in ``desk/jobs.py``."""

    branch = models.ForeignKey(Branch, on_delete=models.CASCADE, null=True, related_name="jobs")
    task = models.CharField(max_length=60)
    arguments = models.JSONField(default=dict, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added = models.DateTimeField(auto_now_add=True)
    begun = models.DateTimeField(null=True, blank=True)
    beat = models.DateTimeField(null=True, blank=True)
    ended = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveSmallIntegerField(default=0)
    progress = models.CharField(max_length=200, blank=True)
    result = models.JSONField(null=True, blank=True)
    fault = models.TextField(blank=True)

    class Meta:
        ordering = ("id",)
        indexes = (models.Index(fields=("ended", "begun", "id")),)

    def __str__(self) -> str:
        return f"{self.task} ({self.pk})"
