"""A film that is coming in, piece by piece."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from firstpitch.desk.models.film import Film
from firstpitch.desk.models.van import Van


class FilmUpload(models.Model):
    """``offset`` of ``size`` bytes are here, in pieces in the storage. ``modified`` is what the browser says of the file, so that the same
    file chosen again goes on where it stopped. ``film`` and ``chapter``: it replaces that chapter of that film.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    van = models.ForeignKey(Van, on_delete=models.PROTECT, related_name="film_uploads")
    film = models.ForeignKey(Film, on_delete=models.PROTECT, null=True, blank=True, related_name="parts")
    chapter = models.PositiveSmallIntegerField(null=True, blank=True)
    name = models.CharField(max_length=200)
    size = models.PositiveBigIntegerField()
    offset = models.PositiveBigIntegerField(default=0)
    modified = models.BigIntegerField(default=0)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added = models.DateTimeField(auto_now_add=True)
    last = models.DateTimeField(auto_now=True)
    ended = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("id",)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(offset__lte=models.F("size")), name="film_upload_within_its_size"
            ),
        )

    def __str__(self) -> str:
        return f"{self.name}: {self.offset} of {self.size}"
