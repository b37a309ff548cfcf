"""What happened to people, in words."""

from __future__ import annotations

from firstpitch.desk.models import BranchEvent, Role

_WORDS = {
    "person.invited": "invited {email} as {role}",
    "person.invitation_withdrawn": "took the invitation of {email} back",
    "person.joined": "{name} joined as {role}",
    "person.role_changed": "changed {name} from {before} to {role}",
    "person.shut": "shut the account of {name}",
    "person.opened": "opened the account of {name} again",
    "person.renamed": "changed their name from {before} to {name}",
    "person.email_changed": "changed their e-mail address",
    "person.password_changed": "changed their password",
    "person.password_reset": "set a new password by a mailed link",
    "person.session_ended": "signed themselves out of {device}",
    "person.sessions_ended": "signed themselves out everywhere else",
    "person.second_factor_on": "set up their second factor",
    "person.second_factor_off": "turned the second factor of {name} off",
    "person.second_factor_codes": "made new codes for paper",
}
_LOWER = {str(role): role.label.lower() for role in Role}


def in_words(event: BranchEvent) -> str:
    """One event as the rest of a sentence that begins with who did it."""
    words = _WORDS.get(event.what)
    if words is None:
        return event.what
    data = {key: _LOWER.get(value, value) if isinstance(value, str) else value for key, value in event.data.items()}
    return words.format(**{key: data.get(key, "") for key in ("name", "email", "role", "before", "device")})
