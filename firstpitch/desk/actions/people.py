"""Writes about people: who belongs to a branch, in what role, under what name and password."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from axes.utils import reset as unlock
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.crypto import constant_time_compare, salted_hmac

from firstpitch.desk.actions.history import write_branch
from firstpitch.desk.keys import digest_of, new_secret
from firstpitch.desk.models import Branch, Invitation, Person, Role, Session, Tally

INVITATION_LASTS = timedelta(days=7)
_FIRST_CODE = 10


class RefusedError(ValueError):
    """What was asked cannot be done; the words say why and what to do."""


@dataclass(frozen=True)
class NewPerson:
    """What somebody gives to get an account."""

    username: str
    password: str
    first_name: str
    last_name: str


@dataclass(frozen=True)
class Invited:
    """An invitation and its secret, which is kept nowhere."""

    invitation: Invitation
    secret: str


def first_code() -> str:
    """The code that whoever started the desk gives to make the first branch, so that no passer-by can."""
    return salted_hmac("firstpitch.desk.first", "first branch", algorithm="sha256").hexdigest()[:_FIRST_CODE]


@transaction.atomic
def make_first(*, by: None, code: str, branch_name: str, email: str, new: NewPerson) -> Person:
    """Make the first branch and its manager. RefusedError when there is a branch already, or with a wrong code."""
    if not constant_time_compare(code.strip().lower(), first_code()):
        raise RefusedError("That is not the code. It was printed where the desk was started.")
    taken = RefusedError("This desk has its first branch already. Sign in, or ask its manager for an invitation.")
    try:  # the row lets only one of two through that come at the same moment
        with transaction.atomic():
            Tally.objects.create(what="first-branch", who="", begins=1 << 40)
    except IntegrityError as wrong:
        raise taken from wrong
    if Branch.objects.exists():
        raise taken
    branch = Branch.objects.create(name=branch_name)
    person = _add(new, branch=branch, role=Role.MANAGER, email=email)
    write_branch(by=person, branch=branch, what="branch.made", data={"name": branch_name, "by": by})
    return person


def _add(new: NewPerson, *, branch: Branch, role: Role, email: str) -> Person:
    if Person.objects.filter(username=new.username).exists():
        raise RefusedError(f"Somebody signs in as {new.username} already. Choose another name to sign in with.")
    return Person.objects.create_user(
        new.username,
        email=email,
        password=new.password,
        first_name=new.first_name,
        last_name=new.last_name,
        branch=branch,
        role=role,
    )


def _branch(by: Person) -> Branch:
    if by.branch is None:
        raise RefusedError("You belong to no branch.")
    return by.branch


def _manager(by: Person) -> Branch:
    """The branch of somebody who may change its people."""
    if by.role != Role.MANAGER or not by.is_active:
        raise RefusedError("Only a manager of the branch does that.")
    return _branch(by)


def _sure(by: Person) -> None:
    if not by.second_factor:
        raise RefusedError("Set up your second factor first: whoever lets others in must be surely themselves.")


def _said(person: Person, **more: object) -> dict[str, object]:
    return {"person": person.pk, "name": person.shown_name, **more}


@transaction.atomic
def invite(*, by: Person, email: str, role: Role) -> Invited:
    """Invite somebody to the manager's own branch; the link lasts a week and serves once. RefusedError."""
    branch = _manager(by)
    _sure(by)
    if Person.objects.filter(branch=branch, email__iexact=email, is_active=True).exists():
        raise RefusedError(f"Somebody in your branch has the address {email} already.")
    secret = new_secret()
    made = Invitation.objects.create(
        branch=branch,
        email=email,
        role=role,
        digest=digest_of(secret),
        by=by,
        expires=timezone.now() + INVITATION_LASTS,
    )
    write_branch(by=by, branch=branch, what="person.invited", data={"email": email, "role": role})
    return Invited(made, secret)


@transaction.atomic
def withdraw_invitation(*, by: Person, invitation: Invitation) -> None:
    """Take an invitation back."""
    branch = _manager(by)
    now = timezone.now()
    waiting = Invitation.objects.filter(pk=invitation.pk, branch=branch, used=None, withdrawn=None)
    if waiting.update(withdrawn=now):
        write_branch(by=by, branch=branch, what="person.invitation_withdrawn", data={"email": invitation.email})


def open_invitation(secret: str, now: datetime) -> Invitation | None:
    """The invitation of a secret, while it can be accepted."""
    found = Invitation.objects.select_related("branch", "by").filter(digest=digest_of(secret)).first()
    if found is None or found.used or found.withdrawn or found.expires <= now or not found.by.is_active:
        return None
    return found


@transaction.atomic
def accept_invitation(*, by: None, secret: str, new: NewPerson) -> Person:
    """Make the account an invitation is for, in its branch and role. RefusedError when it was used, taken back or ran out."""
    now = timezone.now()
    invitation = open_invitation(secret, now)
    if invitation is None or not Invitation.objects.filter(pk=invitation.pk, used=None).update(used=now):
        raise RefusedError("This invitation is over. Ask the manager who sent it for a new one.")
    try:
        with transaction.atomic():
            person = _add(new, branch=invitation.branch, role=Role(invitation.role), email=invitation.email)
    except IntegrityError as wrong:
        raise RefusedError("Somebody took that name just now. Choose another name to sign in with.") from wrong
    said = _said(person, role=person.role, invited_by=invitation.by_id, by=by)
    write_branch(by=person, branch=invitation.branch, what="person.joined", data=said)
    return person


def _locked(branch: Branch, person: Person) -> Person:
    """The person's row, with the rows of all managers held still, so that two managers cannot both be the last to go."""
    list(Person.objects.select_for_update().filter(branch=branch, role=Role.MANAGER).values_list("pk", flat=True))
    found = Person.objects.select_for_update().filter(branch=branch, pk=person.pk).first()
    if found is None:
        raise RefusedError("That person is not in your branch.")
    return found


def _keep_a_manager(branch: Branch, person: Person) -> None:
    others = Person.objects.filter(branch=branch, role=Role.MANAGER, is_active=True).exclude(pk=person.pk)
    if person.role == Role.MANAGER and not others.exists():
        raise RefusedError("A branch needs a manager. Make somebody else a manager first.")


@transaction.atomic
def change_role(*, by: Person, person: Person, role: Role) -> None:
    """Give somebody of the branch another role. RefusedError for the last manager."""
    branch = _manager(by)
    locked = _locked(branch, person)
    if locked.role == role:
        return
    if role == Role.MANAGER:
        _sure(by)
    _keep_a_manager(branch, locked)
    before, locked.role = locked.role, role
    locked.save(update_fields=["role"])
    write_branch(by=by, branch=branch, what="person.role_changed", data=_said(locked, before=before, role=role))


@transaction.atomic
def deactivate(*, by: Person, person: Person) -> None:
    """Shut somebody's account and sign them out everywhere; what they did stays. RefusedError for oneself and the last manager."""
    branch = _manager(by)
    locked = _locked(branch, person)
    if locked.pk == by.pk:
        raise RefusedError("You cannot shut your own account. Another manager can.")
    if not locked.is_active:
        return
    _keep_a_manager(branch, locked)
    locked.is_active = False
    locked.save(update_fields=["is_active"])
    ended, _ = Session.objects.filter(person=locked).delete()
    write_branch(by=by, branch=branch, what="person.shut", data=_said(locked, sessions=ended))


@transaction.atomic
def take_back(*, by: Person, person: Person) -> None:
    """Open somebody's shut account again."""
    branch = _manager(by)
    locked = _locked(branch, person)
    if locked.is_active:
        return
    locked.is_active = True
    locked.save(update_fields=["is_active"])
    write_branch(by=by, branch=branch, what="person.opened", data=_said(locked))


@transaction.atomic
def change_name(*, by: Person, first_name: str, last_name: str) -> None:
    """Change one's own name as it stands on records from now on."""
    before = by.shown_name
    by.first_name, by.last_name = first_name, last_name
    by.save(update_fields=["first_name", "last_name"])
    if by.shown_name != before:
        write_branch(by=by, branch=_branch(by), what="person.renamed", data=_said(by, before=before))


@transaction.atomic
def change_email(*, by: Person, email: str) -> None:
    """Change one's own address, to which links for a new password go."""
    if email == by.email:
        return
    by.email = email
    by.save(update_fields=["email"])
    write_branch(by=by, branch=_branch(by), what="person.email_changed", data=_said(by))


@transaction.atomic
def change_password(*, by: Person, password: str, keep: str) -> None:
    """Change one's own password and sign out everywhere but in the session ``keep``."""
    by.set_password(password)
    by.save(update_fields=["password"])
    ended, _ = Session.objects.filter(person=by).exclude(session_key=keep).delete()
    write_branch(by=by, branch=_branch(by), what="person.password_changed", data=_said(by, sessions=ended))


@transaction.atomic
def reset_password(*, by: None, person: Person, password: str) -> None:
    """Set a new password by a mailed link and sign the person out everywhere."""
    person.set_password(password)
    person.save(update_fields=["password"])
    unlock(username=person.username)
    ended, _ = Session.objects.filter(person=person).delete()
    if person.branch is not None:
        said = _said(person, sessions=ended, by=by)
        write_branch(by=person, branch=person.branch, what="person.password_reset", data=said)


def session_mark(session: Session) -> str:
    """What a page calls a session; the key itself stays on the server and in its own browser."""
    return digest_of(session.session_key)[:16]


@transaction.atomic
def end_session(*, by: Person, mark: str) -> bool:
    """Sign oneself out of one session; False when it is over already."""
    found = [session for session in Session.objects.filter(person=by) if session_mark(session) == mark]
    for session in found:
        session.delete()
        write_branch(by=by, branch=_branch(by), what="person.session_ended", data=_said(by, device=session.device))
    return bool(found)


@transaction.atomic
def end_other_sessions(*, by: Person, keep: str) -> int:
    """Sign oneself out everywhere but in the session ``keep``; how many that were."""
    ended, _ = Session.objects.filter(person=by).exclude(session_key=keep).delete()
    if ended:
        write_branch(by=by, branch=_branch(by), what="person.sessions_ended", data=_said(by, sessions=ended))
    return ended
