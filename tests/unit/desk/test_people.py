"""Invitations, roles, shut accounts, new passwords by mail, the first branch."""

from __future__ import annotations

import io
import re
from datetime import timedelta

import pytest
from django.core import mail
from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions import people, second_factor
from firstpitch.desk.actions.people import NewPerson, RefusedError
from firstpitch.desk.models import Branch, BranchEvent, Invitation, Person, Role, Session
from tests.unit.desk.conftest import PASSWORD
from tests.unit.desk.test_sign_in import give, with_phone

NEW = {"first_name": "Wilf", "last_name": "Oram", "username": "wilf", "new_password": "three-odd-words-7"}


@pytest.fixture
def boss(manager: Person) -> Person:
    """The manager with the second factor set up."""
    with_phone(manager)
    return manager


def signed_in(person: Person) -> Client:
    """A browser on which the person signed in with all that is needed."""
    client = Client()
    client.force_login(person)
    session = client.session
    session["second_factor"] = person.second_factor
    session.save()
    return client


def link_in(text: str) -> str:
    """The path of the link in a mail."""
    found = re.search(r"http://testserver(/\S+)", text)
    assert found
    return found[1]


def test_manager_without_second_factor_invites_nobody(manager: Person) -> None:
    """A manager without second factor cannot invite, and the page says what to do."""
    client = signed_in(manager)
    assert "To your second factor" in client.get("/people/").content.decode()
    answer = client.post("/people/invite/", {"email": "wilf@example.org", "role": "technician"})
    assert "Set up your second factor first" in answer.content.decode()
    assert not Invitation.objects.exists()
    assert not mail.outbox


def test_invitation_makes_one_account(boss: Person) -> None:
    """An invited person makes an account in the manager's branch and role, by mail, and the link serves once."""
    page = signed_in(boss).post("/people/invite/", {"email": "wilf@example.org", "role": "technician"})
    assert mail.outbox[0].to == ["wilf@example.org"]
    path = link_in(str(mail.outbox[0].body))
    assert path in page.content.decode()
    client = Client()
    assert "Test Yard" in client.get(path).content.decode()
    assert client.post(path, NEW)["Location"] == "/"
    made = Person.objects.get(username="wilf")
    assert (made.branch, made.role, made.email) == (boss.branch, Role.TECHNICIAN, "wilf@example.org")
    assert client.get("/me/").status_code == 200
    assert Client().get(path).status_code == 410
    assert Client().post(path, {**NEW, "username": "second"}).status_code == 410


def test_invitation_cannot_be_bent(boss: Person, other_branch: Branch) -> None:
    """Neither role nor branch of an invitation can be chosen by the one who accepts it."""
    made = people.invite(by=boss, email="wilf@example.org", role=Role.TECHNICIAN)
    more = {"role": "manager", "branch": str(other_branch.pk), "is_superuser": "1", "is_staff": "1"}
    Client().post(f"/join/{made.secret}/", {**NEW, **more})
    person = Person.objects.get(username="wilf")
    assert (person.branch, person.role, person.is_superuser, person.is_staff) == (
        boss.branch,
        "technician",
        False,
        False,
    )


def test_only_a_digest_of_an_invitation_is_kept(boss: Person) -> None:
    """Whoever reads the database finds no secret that would open an invitation."""
    made = people.invite(by=boss, email="wilf@example.org", role=Role.TECHNICIAN)
    kept = " ".join(str(value) for value in Invitation.objects.values_list().get())
    told = " ".join(str(event.data) for event in BranchEvent.objects.all())
    assert len(made.secret) == 43
    assert made.secret not in kept + told


@pytest.mark.parametrize("how", ["ran out", "taken back", "its manager left"])
def test_invitation_is_over(boss: Person, how: str) -> None:
    """An invitation that ran out, was taken back, or whose manager's account is shut opens nothing."""
    made = people.invite(by=boss, email="wilf@example.org", role=Role.TECHNICIAN)
    if how == "ran out":
        Invitation.objects.update(expires=timezone.now() - timedelta(seconds=1))
    elif how == "taken back":
        people.withdraw_invitation(by=boss, invitation=made.invitation)
    else:
        Person.objects.filter(pk=boss.pk).update(is_active=False)
    assert Client().get(f"/join/{made.secret}/").status_code == 410
    with pytest.raises(RefusedError, match="over"):
        people.accept_invitation(by=None, secret=made.secret, new=NewPerson("wilf", "three-odd-words-7", "W", "O"))


def test_taken_name_leaves_the_invitation_open(boss: Person, specialist: Person) -> None:
    """Somebody who chose a name that is taken can choose another; the invitation is not used up."""
    made = people.invite(by=boss, email="wilf@example.org", role=Role.TECHNICIAN)
    client = Client()
    page = client.post(f"/join/{made.secret}/", {**NEW, "username": specialist.username}).content.decode()
    assert "Choose another name" in page
    assert 'value="Wilf"' in page
    assert client.post(f"/join/{made.secret}/", NEW).status_code == 302


def test_guessed_invitations_are_stopped(branch: Branch) -> None:
    """After twenty wrong invitations within the hour a network waits."""
    del branch
    client = Client()
    assert [client.get(f"/join/wrong{n}/").status_code for n in range(21)] == [410] * 20 + [429]


def test_last_manager_stays(boss: Person, specialist: Person) -> None:
    """A branch always has a manager: the last one cannot become something else, and nobody shuts their own account."""
    with pytest.raises(RefusedError, match="needs a manager"):
        people.change_role(by=boss, person=boss, role=Role.SPECIALIST)
    with pytest.raises(RefusedError, match="own account"):
        people.deactivate(by=boss, person=boss)
    people.change_role(by=boss, person=specialist, role=Role.MANAGER)
    people.change_role(by=boss, person=boss, role=Role.SPECIALIST)
    boss.refresh_from_db()
    assert boss.role == Role.SPECIALIST


def test_shutting_signs_out_everywhere(boss: Person, specialist: Person) -> None:
    """A shut account is signed out at once, cannot sign in, and can be opened again; the history tells who did it."""
    theirs = Client()
    give(theirs, specialist.username, PASSWORD)
    client = signed_in(boss)
    client.post(f"/people/{specialist.pk}/shut/")
    assert not Session.objects.filter(person=specialist).exists()
    assert theirs.get("/me/").status_code == 302
    assert give(theirs, specialist.username, PASSWORD).status_code == 200
    client.post(f"/people/{specialist.pk}/reopen/")
    assert give(theirs, specialist.username, PASSWORD).status_code == 302
    page = client.get("/people/").content.decode()
    assert "shut the account of ada" in page
    assert "opened the account of ada again" in page


def test_manager_helps_who_lost_the_phone(boss: Person, specialist: Person) -> None:
    """A manager turns off the second factor of somebody who lost phone and codes; the password alone then signs in."""
    with_phone(specialist)
    signed_in(boss).post(f"/people/{specialist.pk}/second-factor-off/")
    assert give(Client(), specialist.username, PASSWORD)["Location"] == "/"


@pytest.mark.parametrize("role", [Role.SPECIALIST, Role.TECHNICIAN])
def test_only_managers_change_people(branch: Branch, specialist: Person, role: Role) -> None:
    """The page People and all it does are for managers alone, in the page and in the action."""
    other = Person.objects.create_user("ben", password=PASSWORD, role=role, branch=branch)
    client = signed_in(other)
    for path in ("/people/", f"/people/{specialist.pk}/shut/", "/people/invite/"):
        assert client.post(path).status_code == 403
    with pytest.raises(RefusedError, match="Only a manager"):
        people.deactivate(by=other, person=specialist)
    with pytest.raises(RefusedError, match="Only a manager"):
        people.invite(by=other, email="wilf@example.org", role=Role.MANAGER)
    with pytest.raises(RefusedError, match="Only a manager"):
        second_factor.turn_off(by=other, person=specialist)


def test_managers_change_no_other_branch(stranger: Person, specialist: Person) -> None:
    """A manager of another branch changes nobody here, even past the pages."""
    with_phone(stranger)
    for act in (people.deactivate, people.take_back):
        with pytest.raises(RefusedError, match="not in your branch"):
            act(by=stranger, person=specialist)
    with pytest.raises(RefusedError, match="not in your branch"):
        people.change_role(by=stranger, person=specialist, role=Role.TECHNICIAN)
    with pytest.raises(RefusedError, match="same branch"):
        second_factor.turn_off(by=stranger, person=specialist)


def ask_for_reset(email: str) -> str:
    """Ask for a new password; the path of the mailed link."""
    Client().post("/forgot/", {"email": email})
    return link_in(str(mail.outbox[-1].body))


def test_new_password_by_mail(specialist: Person) -> None:
    """A mailed link sets a new password once, signs out everywhere, opens a locked name, and is in the history."""
    Person.objects.update(email="ada@example.org")
    there = Client()
    give(there, specialist.username, PASSWORD)
    for _ in range(6):
        give(Client(), specialist.username, "wrong-password-1")
    path = ask_for_reset("ADA@example.org")
    client = Client()
    assert client.post(path, {"new_password": "three-odd-words-7"})["Location"] == "/sign-in/"
    assert there.get("/me/").status_code == 302
    assert give(client, specialist.username, "three-odd-words-7").status_code == 302
    assert Client().get(path).status_code == 410
    assert BranchEvent.objects.filter(what="person.password_reset").count() == 1


def test_new_password_does_not_pass_the_second_factor(specialist: Person) -> None:
    """Whoever reads somebody's mail still needs the code."""
    Person.objects.update(email="ada@example.org")
    with_phone(specialist)
    Client().post(ask_for_reset("ada@example.org"), {"new_password": "three-odd-words-7"})
    assert give(Client(), specialist.username, "three-odd-words-7")["Location"] == "/sign-in/code/"


def test_reset_link_runs_out(specialist: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link for a new password is over after an hour."""
    del specialist
    Person.objects.update(email="ada@example.org")
    path = ask_for_reset("ada@example.org")
    from django.contrib.auth.tokens import PasswordResetTokenGenerator as Tokens

    asked = Tokens()._now()
    monkeypatch.setattr(Tokens, "_now", lambda _: asked + timedelta(seconds=3590))
    assert Client().get(path).status_code == 200
    monkeypatch.setattr(Tokens, "_now", lambda _: asked + timedelta(seconds=3602))
    assert Client().get(path).status_code == 410


def test_nobody_learns_who_has_an_account(specialist: Person) -> None:
    """The answer to a known and to an unknown address is the same, word for word, and only the known one gets mail."""
    del specialist
    Person.objects.update(email="ada@example.org")
    answers = [Client().post("/forgot/", {"email": name}) for name in ("ada@example.org", "eve@example.org")]
    tokens = re.compile(r'value="[^"]{60,}"')
    known, unknown = (tokens.sub("", answer.content.decode()) for answer in answers)
    assert known.replace("ada@", "@") == unknown.replace("eve@", "@")
    assert len(mail.outbox) == 1


def test_resets_are_limited(specialist: Person) -> None:
    """One address gets three links an hour at most, and one network asks ten times."""
    del specialist
    Person.objects.update(email="ada@example.org")
    answers = [Client().post("/forgot/", {"email": "ada@example.org"}).status_code for _ in range(11)]
    assert answers == [200] * 10 + [429]
    assert len(mail.outbox) == 3


def first_form(**more: str) -> dict[str, str]:
    """What the first manager gives."""
    given = {**NEW, "email": "wilf@example.org", "branch_name": "New Yard", "code": people.first_code()}
    return {**given, **more}


def test_empty_desk_begins_with_its_first_branch(db: None) -> None:  # noqa: ARG001
    """An empty desk leads to the page that makes the first branch and its manager; afterwards that page refuses."""
    client = Client()
    assert client.get("/sign-in/")["Location"] == "/first/"
    assert client.post("/first/", first_form())["Location"] == "/me/"
    made = Person.objects.get()
    assert (made.role, str(made.branch), made.is_superuser) == (Role.MANAGER, "New Yard", False)
    assert client.get("/me/").status_code == 200
    for answer in (Client().get("/first/"), Client().post("/first/", first_form(username="second", branch_name="Two"))):
        assert answer.status_code == 403
    assert Branch.objects.count() == 1


def test_first_branch_needs_the_code(db: None) -> None:  # noqa: ARG001
    """Without the code that was printed where the desk was started nobody becomes its first manager."""
    page = Client().post("/first/", first_form(code="0123456789")).content.decode()
    assert "not the code" in page
    assert 'value="New Yard"' in page
    assert not Branch.objects.exists()


def test_two_first_managers_at_once(db: None) -> None:  # noqa: ARG001
    """Of two who make the first branch at the same moment one is refused, past the page's own look."""
    new = NewPerson("wilf", "three-odd-words-7", "Wilf", "Oram")
    code = people.first_code()
    people.make_first(by=None, code=code, branch_name="New Yard", email="w@example.org", new=new)
    Branch.objects.update(name="renamed")
    with pytest.raises(RefusedError, match="already"):
        people.make_first(by=None, code=code, branch_name="Two", email="w@example.org", new=new)


def test_own_name_and_address(own: Client, specialist: Person) -> None:
    """A person changes their own name and address; the history keeps the name before."""
    own.post("/me/name/", {"first_name": "Ada", "last_name": "Marsh"})
    own.post("/me/email/", {"email": "ada@example.org", "password": PASSWORD})
    specialist.refresh_from_db()
    assert (specialist.shown_name, specialist.email) == ("Ada Marsh", "ada@example.org")
    assert BranchEvent.objects.get(what="person.renamed").data["before"] == "ada"


def test_second_factor_by_the_pages(own: Client, specialist: Person) -> None:
    """Set up by the pages: key as picture and letters, wrong code refused, right code gives ten codes for paper, once."""
    from tests.unit.desk.test_sign_in import shown

    assert own.get("/me/second-factor/")["Location"] == "/me/"
    own.post("/me/second-factor/start/")
    device = second_factor.device_of(specialist, confirmed=False)
    assert device is not None
    page = own.get("/me/second-factor/").content.decode()
    assert "<svg" in page
    assert "style=" not in page
    wrong = own.post("/me/second-factor/", {"code": "000000", "password": PASSWORD}).content.decode()
    assert "not right" in wrong
    type(device).objects.update(throttling_failure_timestamp=None, throttling_failure_count=0)
    codes = own.post("/me/second-factor/", {"code": shown(device), "password": PASSWORD})
    assert len(re.findall(r"<li>[a-z2-7]{4} [a-z2-7]{4}</li>", codes.content.decode())) == 10
    assert "no-store" in codes["Cache-Control"]
    assert own.get("/me/").status_code == 200
    again = own.post("/me/second-factor/codes/", {"password": PASSWORD}).content.decode()
    assert "do not work any more" in again
    assert own.post("/me/second-factor/off/", {"password": PASSWORD})["Location"] == "/me/"
    specialist.refresh_from_db()
    assert not specialist.second_factor


def test_history_of_people_is_in_words(boss: Person, specialist: Person) -> None:
    """Whatever happens to people is told in words on the page People, none by its bare key."""
    from firstpitch.desk.pages.people.words import in_words

    people.change_role(by=boss, person=specialist, role=Role.TECHNICIAN)
    made = people.invite(by=boss, email="wilf@example.org", role=Role.SPECIALIST)
    people.withdraw_invitation(by=boss, invitation=made.invitation)
    said = [in_words(event) for event in BranchEvent.objects.order_by("at")]
    assert said == [
        "set up their second factor",
        "changed ada from handover specialist to workshop technician",
        "invited wilf@example.org as handover specialist",
        "took the invitation of wilf@example.org back",
    ]


def test_every_event_about_people_has_words() -> None:
    """Each event an action about people can write has its words."""
    from pathlib import Path

    from firstpitch.desk.pages.people.words import _WORDS

    folder = Path(people.__file__).parent
    written = set(re.findall(r'"(person\.[a-z_]+)"', "".join(file.read_text() for file in folder.glob("*.py"))))
    assert written == set(_WORDS)


def test_last_manager_is_helped_on_the_server(boss: Person) -> None:
    """Whoever runs the server turns off the second factor of a manager who lost everything; a wrong name says so."""
    from django.core.management import CommandError, call_command

    call_command("second_factor_off", boss.username, stdout=io.StringIO())
    boss.refresh_from_db()
    assert not boss.second_factor
    with pytest.raises(CommandError, match="Nobody signs in as nemo"):
        call_command("second_factor_off", "nemo")
