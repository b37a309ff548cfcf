"""Who is signed in where."""

from __future__ import annotations

from django.conf import settings
from django.contrib.sessions.backends.base import SessionBase
from django.contrib.sessions.base_session import AbstractBaseSession
from django.db import models


class Session(AbstractBaseSession):
    """One browser's session, with the person signed in there, so that a person can see and end their own.

    ``device`` is what the browser said of itself at sign-in; ``last_used`` is right to ten minutes.
    """

    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, null=True, related_name="sessions")
    device = models.CharField(max_length=80, blank=True)
    last_used = models.DateTimeField()

    @classmethod
    def get_session_store_class(cls) -> type[SessionBase]:
        """The store that reads and writes these rows."""
        from firstpitch.desk.sessions import SessionStore

        return SessionStore
