"""Writes about the second factor: codes from a phone (RFC 6238) and codes on paper, kept and checked by django-otp."""

from __future__ import annotations

from django.db import transaction
from django_otp import verify_token
from django_otp.plugins.otp_static.models import StaticDevice, StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice

from firstpitch.desk.actions.history import write_branch
from firstpitch.desk.actions.people import RefusedError
from firstpitch.desk.models import Person, Role, Session

CODES = 10
_FIGURES = 6
_MISREAD = str.maketrans("01", "ol")  # codes on paper are Base32, which has neither figure
_PHONE = "phone"
_PAPER = "paper"


def device_of(person: Person, *, confirmed: bool) -> TOTPDevice | None:
    """The person's phone: the one in use, or the one being set up."""
    found: TOTPDevice | None = TOTPDevice.objects.filter(user=person, confirmed=confirmed).first()
    return found


def codes_left(person: Person) -> int:
    """How many codes on paper are unused."""
    return int(StaticToken.objects.filter(device__user=person).count())


@transaction.atomic
def start(*, by: Person) -> TOTPDevice:
    """Begin to set up a phone; a setting-up that was begun before is dropped, and its key with it."""
    if by.second_factor:
        raise RefusedError("Your second factor is set up already. Turn it off first to change phones.")
    TOTPDevice.objects.filter(user=by).delete()
    made: TOTPDevice = TOTPDevice.objects.create(user=by, name=_PHONE, confirmed=False)
    return made


@transaction.atomic
def confirm(*, by: Person, code: str, keep: str) -> tuple[str, ...] | None:
    """Take the phone into use when its ``code`` is right, and sign out everywhere but in the session ``keep``.

    Gives the new codes for paper; None when the code is wrong.
    """
    device = device_of(by, confirmed=False)
    if device is None:
        raise RefusedError("Begin again: the key on this page is not in use any more.")
    if verify_token(by, device.persistent_id, plain(code)) is None:
        return None
    TOTPDevice.objects.filter(pk=device.pk).update(confirmed=True)
    by.second_factor = True
    by.save(update_fields=["second_factor"])
    Session.objects.filter(person=by).exclude(session_key=keep).delete()
    _write(by, by, "person.second_factor_on")
    return _new_codes(by)


def _write(by: Person, person: Person, what: str) -> None:
    if person.branch is not None:
        said = {"person": person.pk, "name": person.shown_name}
        write_branch(by=by, branch=person.branch, what=what, data=said)


def _new_codes(person: Person) -> tuple[str, ...]:
    StaticDevice.objects.filter(user=person).delete()
    paper = StaticDevice.objects.create(user=person, name=_PAPER)
    codes = tuple(StaticToken.random_token() for _ in range(CODES))
    for code in codes:
        paper.token_set.create(token=code)
    return codes


@transaction.atomic
def new_codes(*, by: Person) -> tuple[str, ...]:
    """New codes for paper; those before stop working."""
    if not by.second_factor:
        raise RefusedError("Set up your second factor first.")
    _write(by, by, "person.second_factor_codes")
    return _new_codes(by)


@transaction.atomic
def turn_off(*, by: Person, person: Person) -> None:
    """Turn off one's own second factor, or that of somebody of the branch who lost phone and paper (a manager does that)."""
    same = by.pk == person.pk
    if not same and (by.role != Role.MANAGER or by.branch_id is None or by.branch_id != person.branch_id):
        raise RefusedError("Only a manager of the same branch turns off somebody else's second factor.")
    if not same and not by.second_factor:
        raise RefusedError("Set up your own second factor first.")
    TOTPDevice.objects.filter(user=person).delete()
    StaticDevice.objects.filter(user=person).delete()
    person.second_factor = False
    person.save(update_fields=["second_factor"])
    _write(by, person, "person.second_factor_off")


@transaction.atomic
def check_code(*, by: Person, code: str) -> bool:
    """Whether ``code`` is right, from the phone or from paper; a right one is used up. Wrong ones make the next wait longer."""
    given = plain(code)
    if len(given) == _FIGURES and given.isdigit():
        device = TOTPDevice.objects.filter(user=by, confirmed=True).first()
    else:
        device, given = StaticDevice.objects.filter(user=by).first(), given.translate(_MISREAD)
    return device is not None and verify_token(by, device.persistent_id, given) is not None


def plain(code: str) -> str:
    """A code without the spaces and capitals that people write.

    >>> plain("ABCD efgh"), plain("123 456")
    ('abcdefgh', '123456')
    """
    return "".join(code.split()).lower()
