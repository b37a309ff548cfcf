"""Writes about handovers."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.owner_links import revoke_link
from firstpitch.desk.models import Handover, Person, Van

LONGEST_WHY = 300


class SignedError(ValueError):
    """The record is signed; nothing about the handover can be changed any more."""


class CalledOffError(SignedError):
    """The handover is called off; nothing about it can be changed before it is taken up again."""


class NoReasonError(ValueError):
    """A handover is not called off without a reason."""


def refuse_called_off(handover: Handover) -> None:
    """CalledOffError where it is."""
    if handover.called_off:
        raise CalledOffError(f"This handover is called off ({handover.why_off}). Take it up again first.")


@transaction.atomic
def add_handover(
    *, by: Person, van: Van, owner_name: str, due: datetime, owner_contact: str = "", specialist: Person | None = None
) -> Handover:
    """Put a handover in the diary."""
    handover = Handover.objects.create(
        van=van, owner_name=owner_name, owner_contact=owner_contact, due=due, specialist=specialist
    )
    write(by=by, van=van, what="handover.added", handover=handover, data={"owner": owner_name, "due": due.isoformat()})
    return handover


@transaction.atomic
def change_handover(
    *, by: Person, handover: Handover, owner_name: str, due: datetime, owner_contact: str, specialist: Person | None
) -> Handover:
    """Change who collects the van, when, and who hands it over. SignedError once the record is signed."""
    locked = Handover.objects.select_for_update(of=("self",)).select_related("van").get(pk=handover.pk)
    if locked.signed:
        raise SignedError("The record of this handover is signed; it cannot be changed.")
    refuse_called_off(locked)
    new = {"owner_name": owner_name, "due": due, "owner_contact": owner_contact, "specialist": specialist}
    changed = [name for name, value in new.items() if getattr(locked, name) != value]
    if not changed:
        return locked
    before = {"owner": locked.owner_name, "due": locked.due.isoformat(), "specialist": locked.specialist_id}
    for name in changed:
        setattr(locked, name, new[name])
    locked.save(update_fields=changed)
    data = {"owner": owner_name, "due": due.isoformat(), "changed": changed, "before": before}
    write(by=by, van=locked.van, what="handover.changed", handover=locked, data=data)
    return locked


@transaction.atomic
def keep_plan(*, by: Person | None, handover: Handover, plan: dict[str, Any], options: dict[str, Any]) -> Handover:
    """Keep a planned round and the options it was planned with."""
    locked = Handover.objects.select_for_update().get(pk=handover.pk)
    if locked.signed:
        raise SignedError("The record of this handover is signed; its round cannot be changed.")
    refuse_called_off(locked)
    locked.plan, locked.options = plan, options
    locked.save(update_fields=["plan", "options"])
    data = {"total_s": plan["total_s"], "bound_s": plan["bound_s"], "steps": len(plan["steps"])}
    write(by=by, van=locked.van, what="round.planned", handover=locked, data=data)
    return locked


@transaction.atomic
def call_off(*, by: Person, handover: Handover, why: str) -> Handover:
    """Say that a handover will not be, and why; the owner's links are taken back with it. What tablets noted stays, and what they
    still send is still taken in. SignedError once the record is signed, NoReasonError without a reason.
    """
    locked = Handover.objects.select_for_update(of=("self",)).select_related("van").get(pk=handover.pk)
    if locked.signed:
        raise SignedError(
            "The record of this handover is signed: the van has been handed over. It cannot be called off."
        )
    if locked.called_off:
        return locked
    why = " ".join(why.split())[:LONGEST_WHY]
    if not why:
        raise NoReasonError("Say why: whoever finds the van still here will want to know.")
    locked.called_off, locked.why_off = timezone.now(), why
    locked.save(update_fields=["called_off", "why_off"])
    links = list(locked.owner_links.filter(revoked=None))
    for link in links:
        revoke_link(by=by, link=link)
    data = {"owner": locked.owner_name, "due": locked.due.isoformat(), "why": why, "links": len(links)}
    write(by=by, van=locked.van, what="handover.called_off", handover=locked, data=data)
    return locked


@transaction.atomic
def take_up_again(*, by: Person, handover: Handover) -> Handover:
    """Let a handover that was called off stand again, as it was; its owner needs a new link."""
    locked = Handover.objects.select_for_update(of=("self",)).select_related("van").get(pk=handover.pk)
    if not locked.called_off:
        return locked
    data = {"owner": locked.owner_name, "due": locked.due.isoformat(), "why_off": locked.why_off}
    locked.called_off, locked.why_off = None, ""
    locked.save(update_fields=["called_off", "why_off"])
    write(by=by, van=locked.van, what="handover.taken_up", handover=locked, data=data)
    return locked
