"""The queue of heavy work, kept in the database."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from firstpitch.desk.models.branch import Branch
from firstpitch.desk.models.van import Van


class Job(models.Model):
    """One piece of work: waiting, running or over. ``task`` names a function in ``desk/tasks.py``.

    ``worker`` is who holds it and ``beat`` when that one last said so; ``after``: not to be taken up earlier; ``stopped``: when
    somebody asked for it to stop; ``fault``: why it came to nothing, in words for a person.
    """

    branch = models.ForeignKey(Branch, on_delete=models.CASCADE, null=True, related_name="jobs")
    van = models.ForeignKey(Van, on_delete=models.PROTECT, null=True, related_name="jobs")
    task = models.CharField(max_length=60)
    arguments = models.JSONField(default=dict, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added = models.DateTimeField(auto_now_add=True)
    begun = models.DateTimeField(null=True, blank=True)
    beat = models.DateTimeField(null=True, blank=True)
    after = models.DateTimeField(null=True, blank=True)
    worker = models.CharField(max_length=40, blank=True)
    stopped = models.DateTimeField(null=True, blank=True)
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
