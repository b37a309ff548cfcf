"""Owners' private links."""

from __future__ import annotations

import base64
from datetime import timedelta

import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import HttpRequest, HttpResponse
from django.test import RequestFactory
from django.utils import timezone

from firstpitch.desk.access import owner_links, owners
from firstpitch.desk.actions.owner_links import LinkError, extend_link, make_link, revoke_link
from firstpitch.desk.limits import TooManyError
from firstpitch.desk.models import Event, Handover, OwnerLink, Person


@owners
def page(request: HttpRequest, *, handover: Handover, secret: str) -> HttpResponse:
    """A page of an owner."""
    del request, secret
    return HttpResponse(handover.owner_name)


def ask(secret: str, address: str = "192.0.2.1") -> HttpResponse:
    """Open the page with a secret."""
    request = RequestFactory().get("/", REMOTE_ADDR=address)
    request.user = AnonymousUser()
    answer = page(request, secret)
    assert isinstance(answer, HttpResponse)
    return answer


def test_secret_has_32_bytes_and_is_not_kept(specialist: Person, handover: Handover) -> None:
    """A link's secret is 32 random bytes, differs each time, and neither it nor a part of it stands in database or history."""
    made = [make_link(by=specialist, handover=handover) for _ in range(2)]
    secrets = [one.secret for one in made]
    assert [len(base64.urlsafe_b64decode(secret + "=")) for secret in secrets] == [32, 32]
    assert secrets[0] != secrets[1]
    kept = str(list(OwnerLink.objects.values())) + str(list(Event.objects.values()))
    assert not [secret for secret in secrets if secret in kept or secret[:8] in kept]


def test_link_opens_its_own_handover(specialist: Person, handover: Handover) -> None:
    """A good link opens the page of its handover, and when it was used is kept."""
    made = make_link(by=specialist, handover=handover)
    assert ask(made.secret).content.decode() == handover.owner_name
    made.link.refresh_from_db()
    assert made.link.last_used is not None


def test_link_lasts_90_days(specialist: Person, handover: Handover) -> None:
    """Without a word a link lasts 90 days."""
    left = make_link(by=specialist, handover=handover).link.expires - timezone.now()
    assert timedelta(days=89, hours=23) < left <= timedelta(days=90)


@pytest.mark.parametrize("days", [-1, 0, 401])
def test_link_ends_in_good_time(specialist: Person, handover: Handover, days: int) -> None:
    """A link neither ends in the past nor lasts longer than 400 days."""
    made = make_link(by=specialist, handover=handover)
    with pytest.raises(LinkError):
        make_link(by=specialist, handover=handover, expires=timezone.now() + timedelta(days=days))
    with pytest.raises(LinkError):
        extend_link(
            by=specialist, link=made.link, expires=timezone.now() + timedelta(days=days, seconds=-1 if days < 1 else 1)
        )


def test_extended_link_opens_again(specialist: Person, handover: Handover) -> None:
    """A link that ran out opens again when it is extended; its secret stays."""
    made = make_link(by=specialist, handover=handover, expires=timezone.now() + timedelta(days=1))
    OwnerLink.objects.update(expires=timezone.now() - timedelta(days=1))
    assert ask(made.secret).status_code == 410
    extend_link(by=specialist, link=made.link, expires=timezone.now() + timedelta(days=30))
    assert ask(made.secret).status_code == 200


def test_revoked_link_stays_shut(specialist: Person, handover: Handover) -> None:
    """A link that was taken back opens nothing and cannot be extended; taking it back twice is told once."""
    made = make_link(by=specialist, handover=handover)
    for _ in range(2):
        revoke_link(by=specialist, link=made.link)
    assert ask(made.secret).status_code == 410
    with pytest.raises(LinkError, match="taken back"):
        extend_link(by=specialist, link=made.link, expires=timezone.now() + timedelta(days=30))
    assert Event.objects.filter(what="owner_link.revoked").count() == 1


def test_history_of_links(specialist: Person, handover: Handover) -> None:
    """Making, extending and taking back a link is told in the van's history, with who did it."""
    made = make_link(by=specialist, handover=handover)
    extend_link(by=specialist, link=made.link, expires=timezone.now() + timedelta(days=100))
    revoke_link(by=specialist, link=made.link)
    told = Event.objects.filter(what__startswith="owner_link.", handover=handover, by=specialist)
    assert [event.what for event in told] == ["owner_link.made", "owner_link.extended", "owner_link.revoked"]


def test_links_are_listed_for_the_own_branch_alone(specialist: Person, stranger: Person, handover: Handover) -> None:
    """The links of a handover are listed for its own branch, newest first, and for no other."""
    made = [make_link(by=specialist, handover=handover).link for _ in range(3)]
    assert list(owner_links(specialist, handover)) == made[::-1]
    assert not owner_links(stranger, handover).exists()


def test_guessed_links_are_stopped(specialist: Person, handover: Handover) -> None:
    """After twenty wrong links within the hour a network waits; good links still open, and other networks go on."""
    good = make_link(by=specialist, handover=handover).secret
    assert {ask(f"wrong{number}").status_code for number in range(20)} == {410}
    with pytest.raises(TooManyError) as found:
        ask("wrong")
    assert 0 < found.value.wait_s <= 3600
    assert ask(good).status_code == 200
    assert ask("wrong", "192.0.2.2").status_code == 410
