"""Questions from owners."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from firstpitch.desk.models.handover import Handover


class Question(models.Model):
    """An owner's question to the dealership and its answer."""

    handover = models.ForeignKey(Handover, on_delete=models.PROTECT, related_name="questions")
    words = models.TextField(max_length=2000)
    asked = models.DateTimeField(auto_now_add=True)
    answer = models.TextField(max_length=4000, blank=True)
    answered = models.DateTimeField(null=True, blank=True)
    answered_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("asked",)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(answered__isnull=True, answered_by__isnull=True)
                | models.Q(answered__isnull=False, answered_by__isnull=False),
                name="answered_with_by",
            ),
        )

    def __str__(self) -> str:
        return self.words[:40]
