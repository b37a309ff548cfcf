"""Signing in, codes, locking, signing out."""

from __future__ import annotations

import time
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.hashers import identify_hasher
from django.test import Client
from django.utils import timezone
from django_otp.oath import totp
from django_otp.plugins.otp_static.models import StaticDevice, StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice
from pytest_django.fixtures import Settings

from firstpitch.desk.actions import second_factor
from firstpitch.desk.actions.people import end_other_sessions, session_mark
from firstpitch.desk.models import BranchEvent, Person, Session
from tests.unit.desk.conftest import PASSWORD


def give(client: Client, name: str, password: str, **more: str) -> Any:
    """Send the sign-in form."""
    return client.post("/sign-in/", {"username": name, "password": password, "screen": "touch 1180x820", **more})


def with_phone(person: Person) -> TOTPDevice:
    """Set a person's second factor up; gives the phone."""
    device = second_factor.start(by=person)
    assert second_factor.confirm(by=person, code=shown(device), keep="") is not None
    person.refresh_from_db()
    device.refresh_from_db()
    return device


def shown(device: TOTPDevice, steps: int = 0) -> str:
    """The code the phone shows now, or ``steps`` half minutes from now."""
    return f"{totp(device.bin_key, drift=steps):06d}"


def test_name_and_password_sign_in(specialist: Person) -> None:
    """Name (capitals or not) and password open today, and the list of sessions tells the sort of screen."""
    client = Client()
    answer = give(client, " ADA ", PASSWORD)
    assert answer.status_code == 302
    assert answer["Location"] == "/"
    assert [row.device for row in Session.objects.filter(person=specialist)] == ["a touch screen, 1180 × 820"]


def test_passwords_are_kept_as_argon2(specialist: Person) -> None:
    """A kept password is an Argon2 hash (RFC 9106), of the id variant."""
    assert identify_hasher(specialist.password).algorithm == "argon2"
    assert "argon2id" in specialist.password


def test_signed_in_people_go_on(own: Client) -> None:
    """Whoever is signed in already is not asked again."""
    assert own.get("/sign-in/?next=/me/")["Location"] == "/me/"


@pytest.mark.parametrize("elsewhere", ["https://elsewhere.example/", "//elsewhere.example/", "javascript:alert(1)"])
def test_sign_in_leads_nowhere_else(specialist: Person, elsewhere: str) -> None:
    """After signing in nobody is sent to another site."""
    assert give(Client(), specialist.username, PASSWORD, next=elsewhere)["Location"] == "/"


def test_sign_in_leads_back(specialist: Person) -> None:
    """After signing in one is where one wanted to be."""
    assert give(Client(), specialist.username, PASSWORD, next="/me/")["Location"] == "/me/"


def test_wrong_password_keeps_the_name(specialist: Person) -> None:
    """After a wrong password the name still stands in the form and the password does not."""
    page = give(Client(), specialist.username, "wrong-password-1").content.decode()
    assert 'value="ada"' in page
    assert "do not belong together" in page
    assert "wrong-password-1" not in page


def test_sixth_wrong_password_locks_name_from_that_place(specialist: Person, manager: Person) -> None:
    """After six wrong passwords a name is locked from that network for a quarter of an hour, said in a sentence; others are not."""
    client = Client()
    for _ in range(6):
        answer = give(client, specialist.username, "wrong-password-1")
    assert answer.status_code == 429
    assert "locked for a quarter of an hour" in answer.content.decode()
    assert answer["Retry-After"] == "900"
    assert give(client, specialist.username, PASSWORD).status_code == 429
    assert give(client, manager.username, PASSWORD).status_code == 302
    elsewhere = Client(REMOTE_ADDR="192.0.2.7")
    assert give(elsewhere, specialist.username, PASSWORD).status_code == 302


def test_lock_opens_again(specialist: Person, settings: Settings) -> None:
    """A locked name opens by itself once the time is over."""
    settings.AXES_COOLOFF_TIME = timedelta(seconds=0.3)
    client = Client()
    for _ in range(6):
        give(client, specialist.username, "wrong-password-1")
    time.sleep(0.4)
    assert give(client, specialist.username, PASSWORD).status_code == 302


def test_many_tries_from_one_network_wait(specialist: Person) -> None:  # noqa: ARG001
    """After sixty tries in five minutes from one network the page says how long to wait, whatever the names; others go on."""
    client = Client()
    answers = [client.post("/sign-in/", {"username": "", "password": ""}) for _ in range(61)]
    assert [answer.status_code for answer in answers] == [200] * 60 + [429]
    assert 0 < int(answers[-1]["Retry-After"]) <= 300
    assert "Wait" in answers[-1].content.decode()
    assert Client(REMOTE_ADDR="192.0.2.7").post("/sign-in/", {}).status_code == 200


def test_shut_account_does_not_sign_in(specialist: Person) -> None:
    """A shut account does not sign in, and is answered like a wrong password."""
    specialist.is_active = False
    specialist.save()
    assert "do not belong together" in give(Client(), specialist.username, PASSWORD).content.decode()


def test_second_factor_is_asked_for(specialist: Person) -> None:
    """With a second factor the password alone opens nothing; the phone's code then does."""
    device = with_phone(specialist)
    client = Client()
    assert give(client, specialist.username, PASSWORD, next="/me/")["Location"] == "/sign-in/code/"
    assert client.get("/")["Location"].startswith("/sign-in/")
    assert client.post("/sign-in/code/", {"code": "000000"}).status_code == 200
    TOTPDevice.objects.update(throttling_failure_timestamp=None, throttling_failure_count=0)
    right = client.post("/sign-in/code/", {"code": shown(device, 1)})
    assert right["Location"] == "/me/"
    assert client.get("/me/").status_code == 200


def test_code_serves_once(specialist: Person) -> None:
    """A code that was used does not serve again (RFC 6238 section 5.2)."""
    device = with_phone(specialist)
    code = shown(device, 1)
    assert second_factor.check_code(by=specialist, code=code)
    assert not second_factor.check_code(by=specialist, code=code)


def test_paper_code_serves_once(specialist: Person) -> None:
    """Each of the ten codes on paper serves once, with or without the gap and in capitals or not."""
    with_phone(specialist)
    codes = second_factor.new_codes(by=specialist)
    assert len(set(codes)) == 10
    first = f"{codes[0][:4]} {codes[0][4:]}".upper()
    assert second_factor.check_code(by=specialist, code=first)
    assert not second_factor.check_code(by=specialist, code=codes[0])
    assert second_factor.codes_left(specialist) == 9


def test_misread_paper_code_serves(specialist: Person) -> None:
    """Codes on paper hold no nought and no one (RFC 4648 section 6), so these are read as the letters they look like."""
    with_phone(specialist)
    StaticToken.objects.all().delete()
    StaticDevice.objects.get().token_set.create(token="olol2222")
    assert second_factor.check_code(by=specialist, code="0l 01 2222")


def test_new_paper_codes_replace_the_old(specialist: Person) -> None:
    """When new codes are made, those before stop working."""
    with_phone(specialist)
    old = second_factor.new_codes(by=specialist)
    second_factor.new_codes(by=specialist)
    assert not second_factor.check_code(by=specialist, code=old[0])


def test_wrong_codes_make_a_wait(specialist: Person) -> None:
    """Right after a wrong code even the right one is refused for a moment, so that codes cannot be guessed in a row."""
    device = with_phone(specialist)
    assert not second_factor.check_code(by=specialist, code="000000")
    assert not second_factor.check_code(by=specialist, code=shown(device, 1))


def test_ten_codes_in_ten_minutes(specialist: Person) -> None:
    """The eleventh try with a code in ten minutes is answered by a wait."""
    with_phone(specialist)
    client = Client()
    give(client, specialist.username, PASSWORD)
    answers = [client.post("/sign-in/code/", {"code": "000000"}).status_code for _ in range(11)]
    assert answers == [200] * 10 + [429]


def test_half_a_sign_in_ends(specialist: Person) -> None:
    """Between password and code there are ten minutes, and a password changed meanwhile ends it."""
    with_phone(specialist)
    client = Client()
    give(client, specialist.username, PASSWORD)
    specialist.set_password("another-long-password-3")
    specialist.save()
    assert client.get("/sign-in/code/")["Location"] == "/sign-in/"
    give(client, specialist.username, "another-long-password-3")
    session = client.session
    session["half"] = {**session["half"], "at": session["half"]["at"] - 601}
    session.save()
    assert client.get("/sign-in/code/")["Location"] == "/sign-in/"


def test_old_session_does_not_pass_a_new_second_factor(specialist: Person, own: Client) -> None:
    """A session from before the second factor was set up ends with that; and where one were left, it would not do."""
    assert own.get("/me/").status_code == 200
    Person.objects.update(second_factor=True)
    assert own.get("/me/")["Location"].startswith("/sign-in/")
    Person.objects.update(second_factor=False)
    assert own.get("/me/").status_code == 200
    with_phone(specialist)
    assert not Session.objects.filter(person=specialist).exists()


def test_sign_out_ends_the_session(specialist: Person) -> None:
    """Signing out removes the session from the server, not only from the browser."""
    client = Client()
    give(client, specialist.username, PASSWORD)
    client.post("/sign-out/")
    assert not Session.objects.filter(person=specialist).exists()


def test_one_session_is_signed_out(specialist: Person) -> None:
    """From the list of sessions another browser is signed out; this one stays."""
    here, there = Client(), Client()
    give(here, specialist.username, PASSWORD)
    give(there, specialist.username, PASSWORD)
    row = Session.objects.get(session_key=there.session.session_key)
    assert here.post(f"/me/sessions/{session_mark(row)}/end/").status_code == 302
    assert there.get("/me/").status_code == 302
    assert here.get("/me/").status_code == 200
    assert row.session_key not in here.get("/me/").content.decode()


def test_nobody_ends_a_strangers_session(specialist: Person, far: Client) -> None:
    """Somebody else's session cannot be ended, even by one who knows what the page calls it."""
    client = Client()
    give(client, specialist.username, PASSWORD)
    row = Session.objects.get(person=specialist)
    far.post(f"/me/sessions/{session_mark(row)}/end/")
    assert client.get("/me/").status_code == 200


def test_everywhere_else(specialist: Person) -> None:
    """Signing out everywhere else leaves exactly this session."""
    clients = [Client() for _ in range(3)]
    for client in clients:
        give(client, specialist.username, PASSWORD)
    assert end_other_sessions(by=specialist, keep=str(clients[0].session.session_key)) == 2
    assert [client.get("/me/").status_code for client in clients] == [200, 302, 302]


def test_last_use_is_kept(specialist: Person) -> None:
    """Ten minutes after the last time a use is kept, and the two weeks begin again."""
    client = Client()
    give(client, specialist.username, PASSWORD)
    session = client.session
    session["seen"] -= 700
    session.save()
    Session.objects.update(last_used=timezone.now() - timedelta(days=2), expire_date=timezone.now() + timedelta(days=1))
    client.get("/me/")
    row = Session.objects.get(person=specialist)
    assert timezone.now() - row.last_used < timedelta(minutes=1)
    assert row.expire_date - timezone.now() > timedelta(days=13)


def test_password_change_signs_out_elsewhere(specialist: Person) -> None:
    """A changed password signs out all other browsers, keeps this one, and is in the branch's history."""
    here, there = Client(), Client()
    give(here, specialist.username, PASSWORD)
    give(there, specialist.username, PASSWORD)
    form = {"password": PASSWORD, "new_password": "three-odd-words-7"}
    assert here.post("/me/password/", form).status_code == 302
    assert here.get("/me/").status_code == 200
    assert there.get("/me/").status_code == 302
    assert BranchEvent.objects.filter(what="person.password_changed", by=specialist).count() == 1


@pytest.mark.parametrize("given", ["short-1", "password12", "1234567890123"])
def test_weak_passwords_are_refused(own: Client, specialist: Person, given: str) -> None:
    """A new password that is short or that many people use is refused, beside its field."""
    page = own.post("/me/password/", {"password": PASSWORD, "new_password": given}).content.decode()
    assert "id_new_password_error" in page
    specialist.refresh_from_db()
    assert specialist.check_password(PASSWORD)


def test_own_password_is_asked_for_what_matters(own: Client, specialist: Person) -> None:
    """Address, password and second factor change only with the password in use."""
    assert (
        "That is not your password"
        in own.post("/me/email/", {"email": "a@example.org", "password": "x"}).content.decode()
    )
    assert (
        "That is not your password"
        in own.post("/me/password/", {"password": "x", "new_password": "y" * 12}).content.decode()
    )
    with_phone(specialist)
    assert specialist.second_factor
