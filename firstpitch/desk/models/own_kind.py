"""A branch's own texts for kinds."""

from __future__ import annotations

from django.db import models

from firstpitch.desk.models.branch import Branch


class OwnKind(models.Model):
    """A kind file of one branch: adds a kind, or replaces the one of that key. ``key`` is a catalogue key."""

    branch = models.ForeignKey(Branch, on_delete=models.CASCADE, related_name="own_kinds")
    key = models.CharField(max_length=60)
    text = models.TextField()
    changed = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("branch", "key"), name="one_own_kind_per_key"),)

    def __str__(self) -> str:
        return self.key
