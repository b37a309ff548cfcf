"""What to do with the things that do not go into the van: into the car where they are wanted and it has room, else left at home."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.outfit.limits import car_mass
from firstpitch.outfit.lockers import why_not
from firstpitch.outfit.statics import car_axle_changes
from firstpitch.outfit.stow.evaluate import StowFigures, kilos
from firstpitch.outfit.stow.explain import WayOut
from firstpitch.outfit.verdict import shown

if TYPE_CHECKING:
    from firstpitch.outfit.stow.problem import StowProblem
    from firstpitch.outfit.types import LoadItem

MOST_NAMED = 5
Left = Sequence[tuple["LoadItem", int]]


@dataclass(frozen=True)
class CarRoom:
    """What more the car may carry with this noseweight on it [kg], None when not known; ``unknown`` says what is missing."""

    spare: float | None
    unknown: tuple[str, ...]


def car_room(problem: StowProblem, figures: StowFigures) -> CarRoom:
    """The least of what the car's own limits leave: gross vehicle mass, gross train mass where known, and rear axle where known
    (all of the load on it, which is the safe side)."""
    car = problem.outfit.car
    weight, unknown = car_mass(car)
    if car.gross_vehicle_mass is None:
        unknown = (*unknown, "the car's gross vehicle mass")
    if unknown or car.gross_vehicle_mass is None:
        return CarRoom(None, unknown)
    room = [car.gross_vehicle_mass - weight.high - figures.nose.high]
    if car.gross_train_mass is not None:
        room.append(car.gross_train_mass - weight.high - figures.mass)
    if car.rear.load is not None and car.rear.limit is not None and car.wheelbase and car.overhang is not None:
        _, per_kg = car_axle_changes(1.0, car.wheelbase, car.overhang)
        room.append(car.rear.limit + (car.rear_allowance or 0.0) - car.rear.load - figures.nose.high * per_kg)
    return CarRoom(max(0.0, min(room)), ())


def wanted(item: LoadItem) -> bool:
    """Whether it must be at hand on the journey: needed, or to be reached."""
    return item.needed or item.reach != "any"


def may_ride(item: LoadItem) -> bool:
    """Whether it may lie in the car: a thing that belongs in named lockers, such as a gas cylinder, may not."""
    return not item.only_in and item.fixed is None


def what_to_leave(problem: StowProblem, figures: StowFigures) -> tuple[WayOut, ...]:
    """First what is wanted goes into the car as far as that has room, then the rest stays at home, or goes there too."""
    if not figures.not_placed:
        return ()
    items = {item.id: item for item in problem.items}
    left = [(items[key], number) for key, number in figures.not_placed]
    room = car_room(problem, figures)
    riding = _riding(left, room.spare or 0.0)
    staying = [(item, number - riding.get(item.id, 0)) for item, number in left]
    staying = [(item, number) for item, number in staying if number]
    found: list[WayOut] = []
    if riding:
        found.append(_carry([(items[key], number) for key, number in riding.items()], room.spare or 0.0))
    if staying:
        found.append(_leave(problem, staying, first=not riding))
        spare = (room.spare or 0.0) - sum(items[key].mass * number for key, number in riding.items())
        found += _or_carry(staying, room, spare)
    return tuple(found)


def _riding(left: Left, spare: float) -> dict[str, int]:
    """How many pieces of which wanted things go into the car: the needed first, then the heaviest."""
    found: dict[str, int] = {}
    able = (pair for pair in left if wanted(pair[0]) and may_ride(pair[0]))
    for item, number in sorted(able, key=lambda pair: (not pair[0].needed, -pair[0].mass)):
        pieces = min(number, int(spare // item.mass)) if item.mass > 0 else number
        if pieces:
            found[item.id] = pieces
            spare -= pieces * item.mass
    return found


def _carry(things: Left, spare: float) -> WayOut:
    mass = _mass(things)
    sentence = f"Carry {kilos(mass)} in the car, since you want it with you: {_names(things)}. The car has {shown(spare, 'kg')} to spare."
    return WayOut("carry", mass, sentence)


def _leave(problem: StowProblem, things: Left, *, first: bool) -> WayOut:
    reasons = "".join(_homeless(problem, item) for item, _ in things[:MOST_NAMED])
    start = "Leave" if first else "Then leave"
    return WayOut("leave", _mass(things), f"{start} {kilos(_mass(things))} at home: {_names(things)}.{reasons}")


def _or_carry(things: Left, room: CarRoom, spare: float) -> list[WayOut]:
    """The car for what would stay at home: where it has room, or what must be known before anybody can say."""
    able = [(item, number) for item, number in things if may_ride(item)]
    if not able:
        return []
    mass = _mass(able)
    what = f"that {kilos(mass)}" if len(able) == len(things) else f"{kilos(mass)} of it ({_names(able)})"
    if room.spare is None:
        need = " and ".join(room.unknown)
        return [WayOut("ask", mass, f"Whether the car could carry {what} nobody can say until {need} is known.")]
    if spare < mass:
        return []
    return [WayOut("carry", mass, f"Or carry {what} in the car, which has {shown(spare, 'kg')} to spare.")]


def _mass(things: Left) -> float:
    return sum(item.mass * number for item, number in things)


def _names(things: Left) -> str:
    names = ", ".join(f"{number} × {item.name}" if number > 1 else item.name for item, number in things[:MOST_NAMED])
    return names + (f" and {len(things) - MOST_NAMED} more things" if len(things) > MOST_NAMED else "")


def _homeless(problem: StowProblem, item: LoadItem) -> str:
    """Why an item has no locker at all."""
    reasons = {why_not(item, locker) for locker in problem.lockers}
    if "" in reasons or not problem.lockers:
        return ""
    return f" {item.name} fits no locker: {sorted(reasons)[0] if len(reasons) == 1 else '; '.join(sorted(reasons))}."
