"""A film of a van's walk-round."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.db.models import Q

from firstpitch.desk.models.van import Van


class Film(models.Model):
    """A film that came in whole. ``pieces``: the upload it still lies in, until it has been looked at; then ``file`` holds it, always
    as an MP4 that plays from its first byte, with ``poster`` and ``facts`` (length, size, tracks).

    ``recording`` is what is said in it, ``found`` what was found (``desk/films.py``), ``chapters`` and ``captions`` (WebVTT) what the owner
    gets. What somebody thought of a finding is told by events alone. ``override`` says who let it be shown against a block, and why.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    van = models.ForeignKey(Van, on_delete=models.PROTECT, related_name="films")
    name = models.CharField(max_length=200)
    speaker = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="films")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added = models.DateTimeField(auto_now_add=True)
    pieces = models.UUIDField(null=True, blank=True)
    file = models.FileField(upload_to="film/%Y/%m/", blank=True)
    poster = models.FileField(upload_to="film/%Y/%m/", blank=True)
    facts = models.JSONField(default=dict, blank=True)
    recording = models.JSONField(null=True, blank=True)
    spoken_by_hand = models.BooleanField(default=False)
    found = models.JSONField(null=True, blank=True)
    chapters = models.JSONField(default=list, blank=True)
    captions = models.TextField(blank=True)
    published = models.DateTimeField(null=True, blank=True)
    override = models.JSONField(null=True, blank=True)
    removed = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-added", "-id")
        constraints = (
            models.UniqueConstraint(
                fields=("van",), condition=Q(published__isnull=False), name="one_published_film_per_van"
            ),
            models.CheckConstraint(
                condition=Q(published__isnull=True) | Q(removed__isnull=True), name="published_film_is_not_removed"
            ),
        )

    def __str__(self) -> str:
        return f"{self.name} ({self.van_id})"
