"""A handover: one owner collecting one van."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from firstpitch.desk.models.van import Van


class Handover(models.Model):
    """Who collects which van when. ``options`` are the round's options, ``plan`` the planned round (``round_object``).

    ``car`` and ``load`` are the texts of a car and a load sheet, empty while there is none; ``stow`` says where each thing of the
    load lies (``desk/stowed.py``). What happened is told by events alone; ``signed`` and ``record`` are set once, together, and
    never changed. ``called_off`` is when somebody said that it will not be, ``why_off`` why; both empty otherwise.
    """

    van = models.ForeignKey(
        Van, on_delete=models.PROTECT, related_name="handovers", db_index=False
    )  # handovers_as_listed
    owner_name = models.CharField(max_length=120)
    owner_contact = models.CharField(max_length=160, blank=True)
    due = models.DateTimeField()
    specialist = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="handovers"
    )
    options = models.JSONField(default=dict, blank=True)
    plan = models.JSONField(null=True, blank=True)
    car = models.TextField(blank=True)
    load = models.TextField(blank=True)
    stow = models.JSONField(default=dict, blank=True)
    called_off = models.DateTimeField(null=True, blank=True)
    why_off = models.CharField(max_length=300, blank=True)
    signed = models.DateTimeField(null=True, blank=True)
    record = models.JSONField(null=True, blank=True)
    record_digest = models.CharField(max_length=64, blank=True)

    class Meta:
        ordering = ("due", "id")
        indexes = (
            models.Index(fields=("due",)),
            # what a list shows of a handover is in the index: its row holds plan and record, and reading past those is slow
            models.Index(
                fields=("van", "due", "signed", "called_off", "owner_name", "specialist", "why_off"),
                name="handovers_as_listed",
            ),
            models.Index(fields=("due",), condition=models.Q(signed__isnull=True), name="unsigned_by_due"),
        )
        constraints = (
            models.CheckConstraint(
                condition=models.Q(signed__isnull=True, record__isnull=True, record_digest="")
                | (models.Q(signed__isnull=False, record__isnull=False) & ~models.Q(record_digest="")),
                name="signed_with_record",
            ),
            models.CheckConstraint(
                condition=models.Q(called_off__isnull=True, why_off="")
                | (models.Q(called_off__isnull=False, signed__isnull=True) & ~models.Q(why_off="")),
                name="called_off_with_reason_and_unsigned",
            ),
        )

    def __str__(self) -> str:
        return f"{self.van}: {self.owner_name}"
