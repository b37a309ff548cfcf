"""Secrets in links: made here, shown once, kept only as a digest."""

from __future__ import annotations

import hashlib
import secrets

_BYTES = 32


def new_secret() -> str:
    """A secret of 32 random bytes, as it stands in a link."""
    return secrets.token_urlsafe(_BYTES)


def digest_of(secret: str) -> str:
    """What is kept of a secret.

    >>> digest_of("abc")[:16]
    'ba7816bf8f01cfea'
    """
    return hashlib.sha256(secret.encode()).hexdigest()
