"""Writes about handovers."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.db import transaction

from firstpitch.desk.actions.history import write
from firstpitch.desk.models import Handover, Person, Van


class SignedError(ValueError):
    """The record is signed; nothing about the handover can be changed any more."""


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
    locked = Handover.objects.select_for_update().select_related("van").get(pk=handover.pk)
    if locked.signed:
        raise SignedError("The record of this handover is signed; it cannot be changed.")
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
    locked.plan, locked.options = plan, options
    locked.save(update_fields=["plan", "options"])
    data = {"total_s": plan["total_s"], "bound_s": plan["bound_s"], "steps": len(plan["steps"])}
    write(by=by, van=locked.van, what="round.planned", handover=locked, data=data)
    return locked
