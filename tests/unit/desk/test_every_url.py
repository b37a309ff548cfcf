"""Every URL there is: who may open it. Generated from the list of URLs, so that a new page cannot be forgotten."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from typing import Any

import pytest
from django.apps import apps
from django.db import transaction
from django.http import HttpResponseBase
from django.test import Client
from django.utils import timezone

from firstpitch.demo import sheets
from firstpitch.desk.actions.handovers import add_handover
from firstpitch.desk.actions.owner_links import make_link, revoke_link
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.models import Branch, Handover, OwnerLink, Person, Role, Session, Tally, Van
from tests.unit.desk.conftest import PASSWORD, TODAY
from tests.unit.desk.every_url import Example, Url, every_url, example_of, examples

METHODS = ("get", "post")
OPEN = {
    "sign-in": "nobody is signed in yet",
    "sign-in-code": "nobody is signed in yet",
    "sign-out": "harmless to anybody",
    "forgot": "for people who cannot sign in",
    "reset": "the link in the mail is the key",
    "join": "the invitation is the key",
    "first": "only while there is no branch, and with the code",
    "worker": "a program for the tablet's browser, the same for all",
    "manifest": "names the installed app, the same for all",
    "tablet": "an empty frame that the tablet fills from its own store",
    "two-answers": "an empty frame that the tablet fills from its own store",
    "health": "asked by whatever watches the desk; tells nothing of anybody",
    "here": "tells a tablet whether it is signed in, and as whom",
}
OPEN_TO_ANYONE_HELP = "is open to anyone: wrap it by @members or @owners, or add its name and the reason to OPEN here"


@pytest.fixture
def known(van: Van, handover: Handover, specialist: Person, manager: Person) -> dict[str, Example]:
    """An example for every argument."""
    return examples(van, handover, specialist, manager)


@pytest.fixture
def words_of_branch(van: Van, handover: Handover, branch: Branch) -> tuple[str, ...]:
    """Words that stand on pages of this branch only."""
    return (branch.name, handover.owner_name, van.chassis_number)


def urls_of(sort: str) -> list[Url]:
    """The URLs with one sort of access."""
    return [url for url in every_url() if url.access and url.access[0] == sort]


def test_every_view_carries_one_mark() -> None:
    """Each view says who may open it, and each URL has a name."""
    for url in every_url():
        assert url.name, f"the URL {url.route!r} has no name"
        assert url.access, f"the view of {url.name!r} is wrapped by none of @members, @owners, @anyone (desk/access.py)"


def test_open_pages_are_listed() -> None:
    """No page is open to anyone that is not on the list of those that must be, with the reason."""
    found = {url.name for url in urls_of("anyone")}
    for name in sorted(found - set(OPEN)):
        pytest.fail(f"The page {name!r} {OPEN_TO_ANYONE_HELP}.")
    assert found == set(OPEN), f"no longer there: {set(OPEN) - found}"


def body(answer: HttpResponseBase) -> str:
    """What an answer holds, as text."""
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content  # type: ignore[attr-defined]
    return content.decode("utf-8", "replace")


def as_stored() -> dict[str, list[tuple[Any, ...]]]:
    """All rows of the desk, but for sessions and counts."""
    models = [model for model in apps.get_app_config("desk").get_models() if model not in (Session, Tally)]
    return {model.__name__: list(model._default_manager.order_by("pk").values_list()) for model in models}


@contextmanager
def undone() -> Iterator[None]:
    """Whatever is written inside is taken back."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def signed_in(person: Person) -> Client:
    """A browser of the person."""
    client = Client(raise_request_exception=False)
    client.force_login(person)
    return client


def wrong(url: Url, method: str, answer: HttpResponseBase, said: str) -> str:
    """One line about a page that did not do as it must."""
    return f"{method.upper()} {url.name} ({url.route}): {answer.status_code}, {said}"


def test_own_branch(known: dict[str, Example], specialist: Person, manager: Person) -> None:
    """Whoever belongs to the branch and has the role opens each of its pages; nothing breaks on an empty form."""
    found = []
    for url in urls_of("members"):
        assert url.access
        path, _ = example_of(url, known)
        person = specialist if Role.SPECIALIST in url.access[1] else manager
        for method in METHODS:
            with undone():
                answer = getattr(signed_in(person), method)(path)
            if answer.status_code >= 500 or answer.status_code in (401, 403):
                found.append(wrong(url, method, answer, "must open for its own people"))
            if answer.status_code == 302 and "/sign-in" in answer["Location"]:
                found.append(wrong(url, method, answer, "asks its own people to sign in"))
            if answer.status_code == 404 and method == "get":
                found.append(wrong(url, method, answer, "is not found by its own people; is the example right?"))
    assert not found, "\n".join(found)


def test_other_branch(known: dict[str, Example], stranger: Person, words_of_branch: tuple[str, ...]) -> None:
    """Somebody of another branch gets "nothing here" for everything of this one, reads none of it and changes none of it."""
    before = as_stored()
    client = signed_in(stranger)
    before = as_stored()
    found = []
    for url in urls_of("members"):
        path, row = example_of(url, known)
        if not row:
            with undone():
                answers = {method: getattr(signed_in(stranger), method)(path) for method in METHODS}
                found += [_told(url, method, answer, words_of_branch) for method, answer in answers.items()]
            continue
        answers = {method: getattr(client, method)(path) for method in METHODS}
        found += [_told(url, method, answer, words_of_branch) for method, answer in answers.items()]
        found += [
            wrong(url, method, answer, "must be 404 for another branch (405 where the method is not for it)")
            for method, answer in answers.items()
            if answer.status_code not in (404, 405)
        ]
        if all(answer.status_code == 405 for answer in answers.values()):
            found.append(f"{url.name}: takes neither GET nor POST, so nothing was tried; try its method here")
    assert not any(found), "\n".join(line for line in found if line)
    assert as_stored() == before


def _told(url: Url, method: str, answer: HttpResponseBase, words: tuple[str, ...]) -> str:
    told = [word for word in words if word in body(answer)]
    return wrong(url, method, answer, f"tells {told}") if told else ""


def test_nobody(known: dict[str, Example], words_of_branch: tuple[str, ...]) -> None:
    """Whoever is not signed in is asked to sign in on every page of a branch, reads none of it and changes none of it."""
    before = as_stored()
    found = []
    for url in urls_of("members"):
        path, _ = example_of(url, known)
        for method in METHODS:
            answer = getattr(Client(raise_request_exception=False), method)(path)
            asked = answer.status_code == 302 and answer["Location"].startswith("/sign-in/?next=")
            if not asked and answer.status_code != 405:
                found.append(wrong(url, method, answer, "must ask to sign in"))
            found.append(_told(url, method, answer, words_of_branch))
            script = getattr(Client(raise_request_exception=False), method)(path, HTTP_ACCEPT="application/json")
            if script.status_code not in (401, 405):
                found.append(wrong(url, method, script, "must tell a script to sign in (401)"))
    assert not any(found), "\n".join(line for line in found if line)
    assert as_stored() == before


def test_wrong_role(known: dict[str, Example], branch: Branch, manager: Person) -> None:
    """Whoever belongs to the branch but has not the role is told whom to ask, and changes nothing."""
    people = {
        str(role): Person.objects.create_user(f"x-{role}", password=PASSWORD, role=role, branch=branch) for role in Role
    }
    clients = {role: signed_in(person) for role, person in people.items()}
    before = as_stored()
    found = []
    for url in urls_of("members"):
        assert url.access
        path, _ = example_of(url, known)
        for role in set(people) - set(url.access[1]):
            for method in METHODS:
                answer = getattr(clients[role], method)(path)
                if answer.status_code != 403:
                    found.append(wrong(url, method, answer, f"must be 403 for a {role}"))
    assert not found, "\n".join(found)
    assert as_stored() == before
    assert manager.role == Role.MANAGER


def test_shut_account_opens_nothing(known: dict[str, Example], specialist: Person) -> None:
    """A session of a shut account opens no page."""
    client = signed_in(specialist)
    Person.objects.filter(pk=specialist.pk).update(is_active=False)
    for url in urls_of("members"):
        path, _ = example_of(url, known)
        assert client.get(path).status_code in (302, 405), url.name


@pytest.fixture
def their_link(stranger: Person) -> str:
    """A good link of an owner at the other branch."""
    van = add_van(by=stranger, sheet=sheets()["heron"].read_text("utf-8"), today=TODAY)
    handover = add_handover(by=stranger, van=van, owner_name="Lowell Astin", due=timezone.now() + timedelta(days=2))
    return make_link(by=stranger, handover=handover).secret


Spoil = Callable[[OwnerLink, Person], object]
SPOILT: dict[str, Spoil] = {
    "ran out": lambda link, _: OwnerLink.objects.filter(pk=link.pk).update(expires=timezone.now()),
    "taken back": lambda link, by: revoke_link(by=by, link=link),
    "wrong": lambda link, _: OwnerLink.objects.filter(pk=link.pk).update(digest="0" * 64),
}


def test_owner_pages_open_by_a_good_link(known: dict[str, Example]) -> None:
    """Each owner's page opens for whoever holds a good link, signed in or not."""
    for url in urls_of("owners"):
        path, _ = example_of(url, known)
        for method in METHODS:
            with undone():
                answer = getattr(Client(raise_request_exception=False), method)(path)
            assert answer.status_code < 400 or answer.status_code in (400, 405), wrong(url, method, answer, "good link")


@pytest.mark.parametrize("how", list(SPOILT))
def test_owner_pages_do_not_open_by_a_bad_link(
    known: dict[str, Example], specialist: Person, words_of_branch: tuple[str, ...], how: str
) -> None:
    """A link that is wrong, ran out or was taken back opens none of the owner's pages, to nobody, and does not say which it was."""
    SPOILT[how](OwnerLink.objects.get(), specialist)
    before = as_stored()
    texts = set()
    for number, url in enumerate(urls_of("owners")):
        path, _ = example_of(url, known)
        for method in METHODS:
            address = f"192.0.2.{number + 1}"
            answer = getattr(Client(REMOTE_ADDR=address, raise_request_exception=False), method)(path)
            assert answer.status_code in (405, 410), wrong(url, method, answer, f"link is {how}")
            assert not _told(url, method, answer, words_of_branch)
            if answer.status_code == 410:
                texts.add(body(answer))
    assert len(texts) <= 1
    assert as_stored() == before


def test_owner_pages_of_another_owner(
    known: dict[str, Example], their_link: str, words_of_branch: tuple[str, ...]
) -> None:
    """With a good link of another owner nothing of this handover can be read or changed."""
    before = as_stored()
    for url in urls_of("owners"):
        path, _ = example_of(url, {**known, "secret": Example(their_link)})
        others = [name for _, name in url.arguments() if name != "secret"]
        for method in METHODS:
            answer = getattr(Client(raise_request_exception=False), method)(path)
            assert not _told(url, method, answer, words_of_branch)
            if others:
                assert answer.status_code in (404, 405), wrong(url, method, answer, f"has somebody else's {others}")
    after = as_stored()
    after["OwnerLink"], before["OwnerLink"] = [], []  # when a link was last used
    assert after == before


def test_open_pages_tell_nothing(known: dict[str, Example], words_of_branch: tuple[str, ...]) -> None:
    """Pages open to anyone, and taking no secret, tell nothing of any branch and write nothing."""
    before = as_stored()
    for url in urls_of("anyone"):
        if url.arguments():
            continue
        path, _ = example_of(url, known)
        for method in METHODS:
            answer = getattr(Client(raise_request_exception=False), method)(path)
            assert answer.status_code < 500, wrong(url, method, answer, "broke")
            assert not _told(url, method, answer, words_of_branch)
    assert as_stored() == before
