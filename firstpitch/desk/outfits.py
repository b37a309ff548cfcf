"""The outfit of a handover: its car, its load and where each thing lies, as the engine takes them."""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Any

from firstpitch.desk.guidelines import guidelines_of
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.models import Handover
from firstpitch.outfit import Car, CarSheet, Driver, Journey, Load, Outfit, Placed, Readings, Stow
from firstpitch.outfit.masses import laden
from firstpitch.outfit.sheets import read_car_text, read_load_text

FILE = "the sheet"
_LONGEST = 5000
_MOST_TOLD = 30


class StowError(ValueError):
    """A stow that names what the load or the van has not got."""


@dataclass(frozen=True)
class Stowed:
    """Where the load lies: so many of an item in a locker, and so many left at home. What neither names is not stowed yet."""

    placed: tuple[Placed, ...] = ()
    home: tuple[tuple[str, int], ...] = ()

    def stored(self) -> dict[str, Any]:
        """As it is kept with the handover and sent to the page."""
        return {"placed": [[p.item, p.locker, p.number] for p in self.placed], "home": [list(one) for one in self.home]}


@dataclass(frozen=True)
class Kept:
    """All that a handover keeps about its outfit. ``full``: with what is left at home; ``outfit``: what really travels.

    ``put_right``: whether the empty van's figures come from a reading taken when things lay elsewhere; ``note`` says what became
    of such a reading. ``mark`` changes with the load and the stow.
    """

    opened: OpenVan
    car: CarSheet | None
    load: Load | None
    stowed: Stowed
    full: Outfit
    outfit: Outfit
    put_right: bool
    note: str
    mark: str


def read_car(text: str, today: date = date.max) -> CarSheet:
    """A car sheet (SheetError)."""
    return _car(text, today)


@lru_cache(maxsize=64)
def _car(text: str, today: date) -> CarSheet:
    return read_car_text(text, today=today, file=FILE)


def read_load(text: str, opened: OpenVan, today: date = date.max) -> Load:
    """A load sheet for a van (SheetError)."""
    return _load(text, opened, today)


@lru_cache(maxsize=64)
def _load(text: str, opened: OpenVan, today: date) -> Load:
    return read_load_text(text, opened.sheet, opened.catalogue.kinds, today=today, file=FILE)


def stowed_of(stored: Any) -> Stowed:
    """A stow from what is kept or was sent; StowError when it is none."""
    try:
        placed = tuple(Placed(str(item), str(locker), _number(n)) for item, locker, n in stored.get("placed", ()))
        home = tuple((str(item), _number(n)) for item, n in stored.get("home", ()))
    except (AttributeError, TypeError, ValueError):
        raise StowError("This is no stow. Load the page again.") from None
    if len(placed) > _LONGEST or len(home) > _LONGEST:
        raise StowError("There are more lines here than a load has things.")
    return Stowed(placed, home)


def _number(found: Any) -> int:
    if isinstance(found, bool) or not isinstance(found, int) or found < 1:
        raise ValueError
    return found


def checked(stowed: Stowed, load: Load, opened: OpenVan) -> Stowed:
    """The stow in order, each place once; StowError when it names things or lockers there are not, or more than there are."""
    items = {item.id: item for item in load.items}
    lockers = {locker.id for locker in opened.sheet.plan.lockers}
    for placed in stowed.placed:
        if placed.item not in items:
            raise StowError("Something here is no longer on the load list. Load the page again.")
        if placed.locker not in lockers:
            raise StowError("The van has no such locker any more. Load the page again.")
    if any(item not in items for item, _ in stowed.home):
        raise StowError("Something here is no longer on the load list. Load the page again.")
    tidy = fitted(stowed, load, opened)
    if _pieces(tidy) != _pieces(stowed):
        raise StowError("More pieces are stowed here than the load has. Load the page again.")
    return tidy


def fitted(stowed: Stowed, load: Load, opened: OpenVan) -> Stowed:
    """What of a stow still holds for a load: things and lockers that are gone drop out, and so does what is too many."""
    left = {item.id: item.number for item in load.items}
    known = [locker.id for locker in opened.sheet.plan.lockers]
    there: dict[tuple[str, str], int] = {}
    for p in stowed.placed:
        number = min(p.number, left.get(p.item, 0)) if p.locker in known else 0
        if number:
            there[p.item, p.locker] = there.get((p.item, p.locker), 0) + number
            left[p.item] -= number
    home: dict[str, int] = {}
    for item, wanted in stowed.home:
        number = min(wanted, left.get(item, 0))
        if number:
            home[item] = home.get(item, 0) + number
            left[item] -= number
    order = [(item.id, locker) for item in load.items for locker in known]
    return Stowed(
        tuple(Placed(item, locker, there[item, locker]) for item, locker in order if (item, locker) in there),
        tuple((item.id, home[item.id]) for item in load.items if item.id in home),
    )


def _pieces(stowed: Stowed) -> int:
    return sum(p.number for p in stowed.placed) + sum(number for _, number in stowed.home)


def without_home(load: Load, home: Iterable[tuple[str, int]]) -> Load:
    """The load without what is left at home."""
    left = dict(home)
    items = (replace(item, number=item.number - left.get(item.id, 0)) for item in load.items)
    return replace(load, items=tuple(item for item in items if item.number > 0))


def mark_of(handover: Handover) -> str:
    """Signs that change with the load and the stow."""
    text = json.dumps([handover.load, handover.stow], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def kept_outfit(handover: Handover) -> Kept:
    """The outfit as it is kept. SheetError when van, car or load can no longer be read, as after a change of the van's sheet."""
    opened = open_van(handover.van)
    car = read_car(handover.car) if handover.car else None
    load = read_load(handover.load, opened) if handover.load else None
    stowed = fitted(stowed_of(handover.stow), load, opened) if load else Stowed()
    measured = handover.stow.get("measured")
    guidelines = guidelines_of(handover.van.branch)
    plain = Outfit(
        van=opened.sheet,
        kinds=opened.catalogue.kinds,
        car=car.car if car else Car("unknown car"),
        driver=car.driver if car else Driver(),
        journey=car.journey if car else Journey(),
        load=load or Load(),
        towed_mass=guidelines.towed_mass,
    )
    was = fitted(stowed_of(measured), load, opened) if load and measured is not None else None
    full, put_right, note = _readings(plain, stowed, was)
    outfit = replace(full, load=without_home(full.load, stowed.home), stow=Stow(stowed.placed))
    return Kept(opened, car, load, stowed, full, outfit, put_right, note, mark_of(handover))


_OLD = "The noseweight was read when things lay elsewhere"


def _readings(plain: Outfit, now: Stowed, was: Stowed | None) -> tuple[Outfit, bool, str]:
    """The outfit with what its readings are worth now: a reading holds for the stow it was taken with. For another stow it still
    tells what the empty van weighs and where, if everything was placed then; if not, it tells nothing.
    """
    read = plain.load.readings
    if was is None or was == now or (read.noseweight is None and not read.axles):
        keep_mass = was is None or was.home == now.home
        readings = read if keep_mass else replace(read, mass=None)
        return replace(plain, load=replace(plain.load, readings=readings)), False, ""
    then = replace(plain, load=without_home(plain.load, was.home), stow=Stow(was.placed))
    found = laden(then)
    if found.correction is None:
        mass = read.mass if was.home == now.home else None
        rest = replace(plain.load, readings=Readings(mass=mass, brake_force=read.brake_force))
        return replace(plain, load=rest), False, f"{_OLD}, and not all was placed then. Read it again."
    empty = found.empty
    masses = replace(plain.van.masses, measured_mass=empty.mass.middle, measured_noseweight=empty.nose.middle)
    load = replace(plain.load, readings=Readings(brake_force=read.brake_force))
    words = f"{_OLD}. It is used to put the empty van right; read it again to be sure."
    return replace(plain, van=replace(plain.van, masses=masses), load=load), True, words


def moved_words(before: Stowed, after: Stowed, load: Load, opened: OpenVan) -> list[str]:
    """What went from where to where, a sentence each."""
    names = {locker.id: locker.name for locker in opened.sheet.plan.lockers}
    found = []
    for item in load.items:
        was, now = _places(before, item.id, item.number), _places(after, item.id, item.number)
        gone, come = was - now, now - was
        if gone:
            number = gone.total()
            what = f"{number} × {item.name}" if item.number > 1 else item.name
            found.append(f"{what} from {_named(gone, names)} to {_named(come, names)}")
    left = len(found) - _MOST_TOLD
    return [*found[:_MOST_TOLD], f"and {left} more things"] if left > 0 else found


def _places(stowed: Stowed, item: str, number: int) -> Counter[str]:
    """How many lie where; what has no place yet under nothing."""
    found = Counter({p.locker: p.number for p in stowed.placed if p.item == item})
    found["home"] = sum(n for one, n in stowed.home if one == item)
    found[""] = number - found.total()
    return found


def _named(places: Counter[str], names: dict[str, str]) -> str:
    words = {"": "“not stowed yet”", "home": "“not in the caravan”"}
    return " and ".join(names.get(place, words.get(place, place)) for place, number in places.items() if number)
