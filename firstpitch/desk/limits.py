"""How often the same network, name or person may do what can be misused.

Counted in the database (``Tally``), so that all processes count together.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.conf import settings
from django.http import HttpRequest
from django.utils import timezone
from django.utils.crypto import salted_hmac

from firstpitch.desk.actions.limits import count
from firstpitch.desk.models import Person


@dataclass(frozen=True)
class Limit:
    """So many in so many seconds, and what is said when it is more."""

    most: int
    seconds: int
    words: str


_SIGN_IN = "There were too many tries to sign in from this network."
LIMITS = {
    "sign-in": Limit(60, 300, _SIGN_IN),
    "code": Limit(10, 600, "There were too many tries with a code."),
    "reset": Limit(10, 3600, "Too many new passwords were asked for from this network."),
    "reset-name": Limit(3, 3600, "A new password was asked for three times within the hour."),
    "reset-link": Limit(30, 3600, "Too many links for a new password were tried from this network."),
    "join": Limit(20, 3600, "Too many invitations were tried from this network."),
    "invite": Limit(30, 3600, "That were many invitations for one hour."),
    "first": Limit(10, 3600, "There were too many tries to set the desk up."),
    "owner-link": Limit(20, 3600, "Too many links that do not open anything were tried from this network."),
    "owner-question": Limit(20, 3600, "That were many questions for one hour."),
    "password": Limit(10, 600, "There were too many tries with a wrong password."),
}


class TooManyError(Exception):
    """A limit is used up; ``wait_s`` is how long until the next stretch of time begins."""

    def __init__(self, words: str, wait_s: int) -> None:
        super().__init__(words)
        self.words = words
        self.wait_s = wait_s


def limit(request: HttpRequest, what: str, who: str = "") -> None:
    """Count one more of ``what`` by ``who`` (else by the network address). TooManyError when it is more than the limit."""
    rule = LIMITS[what]
    digest = salted_hmac("firstpitch.desk.limits", who or address_of(request), algorithm="sha256").hexdigest()
    user = getattr(request, "user", None)
    by = user if isinstance(user, Person) else None
    now = timezone.now()
    if count(by=by, what=what, who=digest, seconds=rule.seconds, now=now) > rule.most:
        raise TooManyError(rule.words, rule.seconds - int(now.timestamp()) % rule.seconds)


def address_of(request: HttpRequest) -> str:
    """The network address a request came from, past the proxies of our own that stand before the desk (FIRSTPITCH_PROXIES)."""
    near = str(request.META.get("REMOTE_ADDR", ""))
    if not settings.PROXIES:
        return near
    said = [part.strip() for part in request.META.get("HTTP_X_FORWARDED_FOR", "").split(",") if part.strip()]
    return said[-settings.PROXIES] if len(said) >= settings.PROXIES else near


def minutes(wait_s: int) -> str:
    """A wait in words.

    >>> minutes(20), minutes(61), minutes(900)
    ('a minute', '2 minutes', '15 minutes')
    """
    whole = -(-wait_s // 60)
    return "a minute" if whole <= 1 else f"{whole} minutes"
