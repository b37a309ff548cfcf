"""Mail to people: plain words and one link."""

from __future__ import annotations

import logging
from smtplib import SMTPException

from django.core.mail import send_mail

from firstpitch.desk.models import Invitation, Person

_log = logging.getLogger(__name__)
_RESET = """{name},

somebody, we hope you, asked for a new password for {username} on the desk of {branch}.
Set it here within an hour:

{link}

The link serves once. If it was not you, do nothing: your password stays as it is.
"""
_INVITED = """{by} invites you to the desk of {branch} as {role}.
Make your account here within a week:

{link}

The link serves once. If you do not know what this is, do nothing.
"""


def mail_reset(person: Person, link: str) -> bool:
    """Send a link for a new password."""
    branch = person.branch.name if person.branch else "your dealership"
    words = _RESET.format(name=person.shown_name, username=person.username, branch=branch, link=link)
    return _send("A new password for the desk", words, person.email)


def mail_invitation(invitation: Invitation, link: str) -> bool:
    """Send an invitation."""
    words = _INVITED.format(
        by=invitation.by.shown_name,
        branch=invitation.branch.name,
        role=invitation.get_role_display().lower(),
        link=link,
    )
    return _send(f"The desk of {invitation.branch.name}", words, invitation.email)


def _send(subject: str, words: str, to: str) -> bool:
    """Whether the mail went off; when it did not, the log says why and the page says it did not."""
    try:
        return bool(send_mail(subject, words, None, [to]))
    except (OSError, SMTPException):
        _log.exception("a mail could not be sent")
        return False
