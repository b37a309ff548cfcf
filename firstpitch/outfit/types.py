"""What the outfit engines take in: car, driver, journey, load and stow. Frozen, SI inside, unknown is ``None``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from firstpitch.catalogue.types import Kind
    from firstpitch.sheet.types import BuildSheet

Reach = Literal["outside", "inside", "any"]
TowedMass = Literal["mtplm", "actual", "axle"]


@dataclass(frozen=True)
class Towbar:
    """The car's towball and bar: ``noseweight_limit`` is its S value [kg], ``d_value`` [N]."""

    noseweight_limit: float | None = None
    d_value: float | None = None


@dataclass(frozen=True)
class CarAxle:
    """One axle of the car: its load as it will travel, without the caravan [kg], its plated limit [kg], its tyres."""

    load: float | None = None
    limit: float | None = None
    load_index: int | None = None


@dataclass(frozen=True)
class Car:
    """The towing car [kg, m].

    ``kerb_mass`` as the papers give it, ``kerb_includes`` in words what is in it; ``aboard`` people and luggage that it does
    not include; ``laden_mass`` a weighbridge figure as it will travel, which overrides the two. ``overhang`` is the
    distance from rear axle to towball. ``rear_allowance``: how far the handbook lets the rear axle go over when towing [kg].
    """

    name: str
    kerb_mass: float | None = None
    kerb_includes: str | None = None
    aboard: float | None = None
    laden_mass: float | None = None
    gross_vehicle_mass: float | None = None
    gross_train_mass: float | None = None
    towing_limit: float | None = None
    noseweight_limit: float | None = None
    towbar: Towbar = Towbar()
    wheelbase: float | None = None
    overhang: float | None = None
    front: CarAxle = CarAxle()
    rear: CarAxle = CarAxle()
    rear_allowance: float | None = None
    anti_lock: bool | None = None


@dataclass(frozen=True)
class Driver:
    """The driving licence: its class, where it was issued (``GB``, ``EU`` or another), when the car test was passed."""

    licence: str | None = None
    issued_in: str | None = None
    test_passed: date | None = None


@dataclass(frozen=True)
class Journey:
    """When and where; ``country`` is a two-letter code (ISO 3166). The last four are about the coupled outfit.

    ``ball_raise``: how far the coupled ball stands above the height at which the van is level [m]; ``axle_stiffness``: of
    one axle's springs together [N/m]; ``stabiliser`` and ``dampers`` whether the van has them.
    """

    on: date | None = None
    country: str | None = None
    stabiliser: bool | None = None
    dampers: bool | None = None
    ball_raise: float | None = None
    axle_stiffness: float | None = None


@dataclass(frozen=True)
class LoadItem:
    """One sort of thing the owner takes along: ``number`` of them, each of ``mass`` [kg] and ``size`` (long, wide, high) [m].

    ``reach``: from where it must be got at. ``upright``: it may not be tipped. ``needed``: among the last to be left at home.
    ``only_in`` and ``never_in`` are locker ids;
    ``fixed`` is the one locker it must be in.
    """

    id: str
    name: str
    mass: float
    size: tuple[float, float, float]
    number: int = 1
    reach: Reach = "any"
    upright: bool = False
    needed: bool = False
    only_in: tuple[str, ...] = ()
    never_in: tuple[str, ...] = ()
    fixed: str | None = None

    @property
    def volume(self) -> float:
        """Of one of them [m³]."""
        along, across, up = self.size
        return along * across * up


@dataclass(frozen=True)
class Readings:
    """What was measured with this load aboard: mass and noseweight [kg], each axle [kg], parking-brake force at the wheels [N]."""

    mass: float | None = None
    noseweight: float | None = None
    axles: tuple[float, ...] = ()
    brake_force: float | None = None


@dataclass(frozen=True)
class Load:
    """Everything that goes along. ``water``: kit id -> volume in it on the road [m³]; a tank that is not named is unknown."""

    name: str = "no load"
    items: tuple[LoadItem, ...] = ()
    water: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    readings: Readings = Readings()

    @property
    def mass(self) -> float:
        """Of all items together [kg]."""
        return sum(item.mass * item.number for item in self.items)


@dataclass(frozen=True)
class Placed:
    """So many of one item in one locker."""

    item: str
    locker: str
    number: int = 1


@dataclass(frozen=True)
class Stow:
    """Where each item is. What it does not name is not placed."""

    placed: tuple[Placed, ...] = ()

    def number(self, item: str, locker: str) -> int:
        """How many of an item are in a locker."""
        return sum(p.number for p in self.placed if p.item == item and p.locker == locker)


@dataclass(frozen=True)
class Outfit:
    """All that a verdict needs. ``towed_mass``: what is held against the towing limit (the plated mass is the safe side)."""

    van: BuildSheet
    kinds: Mapping[str, Kind]
    car: Car = Car("unknown car")
    driver: Driver = Driver()
    journey: Journey = Journey()
    load: Load = Load()
    stow: Stow | None = None
    towed_mass: TowedMass = "mtplm"
