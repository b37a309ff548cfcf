"""What does not go into the van: what is wanted rides in the car if that has room, and a gas cylinder never does."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from firstpitch.outfit import Load, LoadItem, Outfit, Stow, StowPlan, plan_stow
from firstpitch.outfit.stow import next_move, stow_problem
from firstpitch.outfit.types import Placed
from tests.unit.outfit.vans import CAR, outfit, van

WIDE = (1.9, 1.2, 0.9)
"""Larger than every locker."""


def too_big(*things: LoadItem, **changes: Any) -> Outfit:
    """An outfit that is to carry these, and nothing else."""
    return outfit(load=Load("too big", things), stow=None, **changes)


def thing(name: str, mass: float, **more: Any) -> LoadItem:
    """A thing that fits no locker."""
    return LoadItem(name.lower(), name, mass, WIDE, **more)


def ways(plan: StowPlan) -> list[str]:
    """The advice, in order."""
    assert plan.word == "does not fit"
    return [way.sentence for way in plan.ways]


def test_what_is_needed_goes_into_the_car_first() -> None:
    """Of two things that find no locker the needed one is carried in the car before anything is left at home."""
    plan = plan_stow(too_big(thing("Boat", 20.0), thing("Medicine", 12.0, needed=True)))
    first, second, third = ways(plan)
    assert first.startswith("Carry 12 kg in the car, since you want it with you: Medicine.")
    assert second.startswith("Then leave 20 kg at home: Boat.")
    assert third.startswith("Or carry that 20 kg in the car")
    assert "Medicine" in plan.sentence
    assert "Boat" in plan.sentence


def test_what_must_be_reached_goes_into_the_car() -> None:
    """A thing that must be got at from outside is wanted on the way: into the car with it."""
    plan = plan_stow(too_big(thing("Ramp", 9.0, reach="outside")))
    assert ways(plan)[0].startswith("Carry 9.0 kg in the car")
    assert not any("at home" in one for one in ways(plan))


@pytest.mark.parametrize("place", [{"only_in": ("front",)}, {"fixed": "front"}])
def test_what_has_a_place_of_its_own_never_rides_in_the_car(place: dict[str, Any]) -> None:
    """A gas cylinder that belongs in one locker is left at home, though it is needed and the car has room."""
    plan = plan_stow(too_big(thing("Cylinder", 12.0, needed=True, reach="outside", **place)))
    assert ways(plan)[0].startswith("Leave 12 kg at home: Cylinder.")
    assert not any("the car" in one for one in ways(plan))


def test_a_car_whose_room_is_not_known_is_not_taken_to_have_any() -> None:
    """Where the car's gross vehicle mass is not known the advice is to leave it, and says what would have to be known."""
    plan = plan_stow(too_big(thing("Medicine", 12.0, needed=True), car=replace(CAR, gross_vehicle_mass=None)))
    leave, ask = ways(plan)
    assert leave.startswith("Leave 12 kg at home: Medicine.")
    assert ask == ("Whether the car could carry that 12 kg nobody can say until the car's gross vehicle mass is known.")


def test_a_full_car_takes_nothing() -> None:
    """A car already at its greatest mass is offered nothing: the noseweight counts as load of the car."""
    full = replace(CAR, aboard=500.0, front=replace(CAR.front, load=None), rear=replace(CAR.rear, load=None))
    plan = plan_stow(too_big(thing("Medicine", 12.0, needed=True), car=full))
    assert ways(plan) == [plan.ways[0].sentence]
    assert plan.ways[0].sentence.startswith("Leave 12 kg at home")


def test_the_rear_axle_can_be_what_fills_the_car() -> None:
    """200 kg within the gross mass, but 20 kg left on the rear axle with the noseweight on it: no more than those ride."""
    # The empty van puts 72 kg on the ball: 72·(2.7 + 1.1)/2.7 = 101.3 kg on the rear axle.
    car = replace(CAR, rear=replace(CAR.rear, load=1078.0))
    plan = plan_stow(too_big(thing("Books", 15.0, needed=True, number=2), car=car))
    assert ways(plan)[0].startswith(
        "Carry 15 kg in the car, since you want it with you: Books. The car has 21 kg to spare."
    )
    assert ways(plan)[1].startswith("Then leave 15 kg at home: Books.")


def test_the_train_mass_can_be_what_fills_the_car() -> None:
    """Car 2000 kg and empty van 1200 kg with 3210 kg allowed together: 10 kg more may ride, not 12."""
    plan = plan_stow(too_big(thing("Medicine", 12.0, needed=True), car=replace(CAR, gross_train_mass=3210.0)))
    assert ways(plan)[0].startswith("Leave 12 kg at home")


@pytest.mark.parametrize(
    ("change", "starts"),
    [
        ({}, "Carry Ramp (38 kg) in the car"),
        (
            {"gross_vehicle_mass": None},
            "Carry Ramp (38 kg) in the car if that has room (what it may take is not known)",
        ),
        ({"gross_train_mass": 3200.0}, "Leave Ramp (38 kg) at home"),
    ],
)
def test_the_next_move_takes_wanted_things_to_the_car(change: dict[str, Any], starts: str) -> None:
    """Where a thing must come out of the van, one that is wanted is carried in the car before it is left at home."""
    ramp = LoadItem("ramp", "Ramp", 38.0, (0.4, 0.4, 0.4), needed=True)
    made = outfit(load=Load("ramp", (ramp,)), stow=Stow((Placed("ramp", "front"),)), car=replace(CAR, **change))
    lockers = (replace(van().plan.lockers[0], limit=30.0),)
    made = replace(made, van=replace(made.van, plan=replace(made.van.plan, lockers=lockers)))
    problem = stow_problem(made)
    assert made.stow is not None
    move = next_move(problem, problem.counts(made.stow))
    assert move is not None
    assert move.to == "home"
    assert move.sentence.startswith(starts)
