"""Writes about owners' private links."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.history import write
from firstpitch.desk.keys import digest_of, new_secret
from firstpitch.desk.models import Handover, OwnerLink, Person

USUAL = timedelta(days=90)
LONGEST = timedelta(days=400)


class LinkError(ValueError):
    """What was asked of a link cannot be done; the words say why."""


@dataclass(frozen=True)
class MadeLink:
    """A new link and its secret, which is not kept anywhere and cannot be shown again."""

    link: OwnerLink
    secret: str


def _within(now: datetime, expires: datetime) -> datetime:
    if expires <= now:
        raise LinkError("The link must last until some time from now on.")
    if expires > now + LONGEST:
        raise LinkError(f"A link lasts at most {LONGEST.days} days. Extend it when that time is near.")
    return expires


@transaction.atomic
def make_link(*, by: Person, handover: Handover, expires: datetime | None = None) -> MadeLink:
    """Make a link that opens this handover's pages to its owner; for 90 days unless ``expires`` says otherwise. LinkError."""
    now = timezone.now()
    secret = new_secret()
    until = _within(now, expires or now + USUAL)
    link = OwnerLink.objects.create(handover=handover, digest=digest_of(secret), expires=until)
    said = {"link": link.pk, "expires": until.isoformat()}
    write(by=by, van=handover.van, handover=handover, what="owner_link.made", data=said)
    return MadeLink(link, secret)


@transaction.atomic
def extend_link(*, by: Person, link: OwnerLink, expires: datetime) -> OwnerLink:
    """Let a link last until ``expires``. LinkError for a link that was taken back."""
    locked = OwnerLink.objects.select_for_update(of=("self",)).select_related("handover__van").get(pk=link.pk)
    if locked.revoked:
        raise LinkError("This link was taken back and stays shut. Make a new one.")
    locked.expires = _within(timezone.now(), expires)
    locked.save(update_fields=["expires"])
    said = {"link": locked.pk, "expires": locked.expires.isoformat()}
    write(by=by, van=locked.handover.van, handover=locked.handover, what="owner_link.extended", data=said)
    return locked


@transaction.atomic
def revoke_link(*, by: Person, link: OwnerLink) -> OwnerLink:
    """Take a link back for good. Done once; a second time changes nothing."""
    locked = OwnerLink.objects.select_for_update(of=("self",)).select_related("handover__van").get(pk=link.pk)
    if locked.revoked:
        return locked
    locked.revoked = timezone.now()
    locked.save(update_fields=["revoked"])
    write(by=by, van=locked.handover.van, handover=locked.handover, what="owner_link.revoked", data={"link": locked.pk})
    return locked


@transaction.atomic
def use_link(*, by: None, link: OwnerLink) -> None:  # noqa: ARG001  (every action says who; here it is the owner, who has no account)
    """Keep that a link was used just now. This one is no event: it would drown the history."""
    OwnerLink.objects.filter(pk=link.pk).update(last_used=timezone.now())
