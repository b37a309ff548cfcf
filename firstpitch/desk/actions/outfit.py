"""Writes about the outfit of a handover: its car, its load, and where each thing lies."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction

from firstpitch.desk.actions.handovers import SignedError, refuse_called_off
from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.vans import ChangedMeanwhileError
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.outfits import Stowed, checked, fitted, mark_of, moved_words, read_car, read_load, stowed_of
from firstpitch.outfit import CarSheet, Load, Readings
from firstpitch.sheet import SheetError

_NO_LOAD = "There is no load list yet, so nothing can be stowed."
_CHANGED = "Somebody else changed this meanwhile."


def _locked(handover: Handover) -> Handover:
    locked = Handover.objects.select_for_update(of=("self",)).select_related("van__branch").get(pk=handover.pk)
    if locked.signed:
        raise SignedError("The record of this handover is signed; car, load and stow cannot be changed any more.")
    refuse_called_off(locked)
    return locked


@transaction.atomic
def keep_car(*, by: Person, handover: Handover, car: str, today: date) -> CarSheet:
    """Keep the car sheet. SheetError, and nothing changed, when it has a fault; SignedError once the record is signed."""
    locked = _locked(handover)
    read = read_car(car, today)
    if locked.car == car:
        return read
    locked.car = car
    locked.save(update_fields=["car"])
    data = {"car": read.car.name, "unknown": list(read.unknown)}
    write(by=by, van=locked.van, what="outfit.car", handover=locked, data=data)
    return read


@transaction.atomic
def keep_load(*, by: Person, handover: Handover, load: str, today: date, seen: str | None = None) -> Load:
    """Keep the load list; what of the stow still holds stays. SheetError, SignedError, or ChangedMeanwhileError when load or stow
    are no longer those of ``seen`` (``outfits.mark_of``).
    """
    locked = _locked(handover)
    if seen is not None and seen != mark_of(locked):
        raise ChangedMeanwhileError(f"{_CHANGED} Look at it again; what you typed is still here.")
    opened = open_van(locked.van)
    read = read_load(load, opened, today)
    if locked.load == load:
        return read
    locked.stow = _stow_for(locked, read, opened)
    locked.load = load
    locked.save(update_fields=["load", "stow"])
    data = {"load": read.name, "pieces": sum(item.number for item in read.items), "mass_kg": round(read.mass, 1)}
    write(by=by, van=locked.van, what="outfit.load", handover=locked, data=data)
    return read


def _stow_for(locked: Handover, read: Load, opened: OpenVan) -> dict[str, Any]:
    """The stow for a new load; a new reading belongs to the stow as it is now, an old one to that of its day."""
    stowed = fitted(stowed_of(locked.stow), read, opened)
    before = _readings_of(locked, opened)
    if read.readings == Readings():
        return stowed.stored()
    measured = stowed.stored() if read.readings != before else locked.stow.get("measured", stowed.stored())
    return {**stowed.stored(), "measured": measured}


def _readings_of(locked: Handover, opened: OpenVan) -> Readings | None:
    if not locked.load:
        return None
    try:
        return read_load(locked.load, opened).readings
    except SheetError:  # it no longer fits the van's sheet
        return None


@transaction.atomic
def keep_stow(
    *, by: Person, handover: Handover, stowed: Stowed, seen: str | None = None, best: bool = False
) -> Handover:
    """Keep where each thing lies. StowError when it does not fit the load, SignedError, ChangedMeanwhileError as ``keep_load``.

    ``best``: the planner found it. What is so already, as after an answer that was lost on its way, is no conflict.
    """
    locked = _locked(handover)
    if not locked.load:
        raise ChangedMeanwhileError(_NO_LOAD)
    opened = open_van(locked.van)
    load = read_load(locked.load, opened)
    before = fitted(stowed_of(locked.stow), load, opened)
    if seen is not None and seen != mark_of(locked) and before != fitted(stowed, load, opened):
        raise ChangedMeanwhileError(_CHANGED)
    after = checked(stowed, load, opened)
    if before == after and not _stale(locked.stow, after):
        return locked
    measured = {"measured": locked.stow["measured"]} if "measured" in locked.stow else {}
    locked.stow = {**after.stored(), **measured}
    locked.save(update_fields=["stow"])
    data = {"moved": moved_words(before, after, load, opened), "best": best}
    write(by=by, van=locked.van, what="outfit.stowed", handover=locked, data=data)
    return locked


def _stale(stored: dict[str, Any], now: Stowed) -> bool:
    return {name: stored.get(name) for name in ("placed", "home")} != now.stored()
