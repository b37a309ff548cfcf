"""Invitations to the desk."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from firstpitch.desk.models.branch import Branch
from firstpitch.desk.models.person import Role


class Invitation(models.Model):
    """Lets one person make an account in a branch. Only a digest of the secret is kept; used once."""

    branch = models.ForeignKey(Branch, on_delete=models.CASCADE, related_name="invitations")
    email = models.EmailField()
    role = models.CharField(max_length=12, choices=Role.choices)
    digest = models.CharField(max_length=64, unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    made = models.DateTimeField(auto_now_add=True)
    expires = models.DateTimeField()
    used = models.DateTimeField(null=True, blank=True)
    withdrawn = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return self.email
