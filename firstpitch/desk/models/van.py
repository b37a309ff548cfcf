"""A van: its build sheet as written."""

from __future__ import annotations

from django.db import models

from firstpitch.desk.models.branch import Branch


class Van(models.Model):
    """One physical caravan. ``sheet`` is its build sheet as YAML, the only truth; ``version`` counts its changes.

    ``kinds`` (each between spaces) and ``lacks`` are read off the sheet whenever it changes, so that lists need not read
    sheets: the kinds of its kit, and the figures that results wait for (``Lacks`` in inputs.py).
    """

    # no index of its own: vans_as_looked_for begins with it, and a planner without statistics would take the poorer one
    branch = models.ForeignKey(Branch, on_delete=models.PROTECT, related_name="vans", db_index=False)
    name = models.CharField(max_length=120)
    chassis_number = models.CharField(max_length=17, blank=True)
    stock_number = models.CharField(max_length=30, blank=True)
    sheet = models.TextField()
    kinds = models.TextField(blank=True, default="")
    lacks = models.JSONField(default=dict, blank=True)
    version = models.PositiveIntegerField(default=1)
    added = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-id",)
        indexes = (
            # what vans are looked for by is in the index, so that a search need not read every van of the branch
            models.Index(fields=("branch", "-id", "name", "stock_number", "chassis_number"), name="vans_as_looked_for"),
        )
        constraints = (
            models.UniqueConstraint(
                fields=("branch", "chassis_number"), condition=~models.Q(chassis_number=""), name="one_van_per_chassis"
            ),
        )

    def __str__(self) -> str:
        return self.name
