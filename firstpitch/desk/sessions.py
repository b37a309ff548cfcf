"""The session engine: Django's own, kept in rows that know whose they are (``Session``)."""

from __future__ import annotations

from typing import Any

from django.contrib.sessions.backends.db import SessionStore as DatabaseStore
from django.utils import timezone

from firstpitch.desk.models import Session


class SessionStore(DatabaseStore):
    """Keeps person, device and time of last use beside the session."""

    @classmethod
    def get_model_class(cls) -> type[Session]:
        """The rows."""
        return Session

    def create_model_instance(self, data: dict[str, Any]) -> Session:
        """A row for ``data``."""
        person = data.get("_auth_user_id")
        return Session(
            session_key=self._get_or_create_session_key(),  # type: ignore[attr-defined]
            session_data=self.encode(data),
            expire_date=self.get_expiry_date(),
            person_id=int(person) if person else None,
            device=str(data.get("device", ""))[:80],
            last_used=timezone.now(),
        )
