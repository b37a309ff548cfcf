"""Somebody who works at the dealership."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models

from firstpitch.desk.models.branch import Branch


def shown_name(first: str, last: str, username: str) -> str:
    """A name as it stands on records."""
    return f"{first} {last}".strip() or username


class Role(models.TextChoices):
    """What somebody does here."""

    SPECIALIST = "specialist", "Handover specialist"
    TECHNICIAN = "technician", "Workshop technician"
    MANAGER = "manager", "Manager"


class Person(AbstractUser):
    """A member of one branch. Owners have no account; they come by a private link.

    ``second_factor``: a code is asked for after the password.
    """

    branch = models.ForeignKey(Branch, on_delete=models.PROTECT, null=True, related_name="people")
    role = models.CharField(max_length=12, choices=Role.choices, default=Role.SPECIALIST)
    second_factor = models.BooleanField(default=False)

    @property
    def shown_name(self) -> str:
        """The name as it stands on records."""
        return shown_name(self.first_name, self.last_name, self.username)
