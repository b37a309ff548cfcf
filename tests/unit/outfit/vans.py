"""Small named outfits for the tests, with round figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

from firstpitch.catalogue.types import FilmWords, Kind, OwnerCard, WaterUse
from firstpitch.outfit import (
    Car,
    CarAxle,
    Driver,
    Journey,
    Load,
    LoadItem,
    Outfit,
    Placed,
    Stow,
    Towbar,
)
from firstpitch.sheet.types import (
    Body,
    BuildSheet,
    Door,
    FactSpec,
    Identity,
    Insulation,
    Kit,
    Locker,
    Masses,
    Quantity,
    RunningGear,
    Tyre,
    VanPlan,
)

FRONT = Locker("front", "Front locker", 1.7, 0.0, 0.5, (0.5, 1.6, 0.6), 40.0, inside=False)
AXLE_NEAR = Locker("axle-near", "Nearside axle locker", 4.0, 0.8, 0.5, (0.8, 0.6, 0.5), 40.0, inside=True)
AXLE_OFF = Locker("axle-off", "Offside axle locker", 4.4, -0.8, 0.5, (0.8, 0.6, 0.5), 40.0, inside=True)
HIGH = Locker("high", "Overhead locker", 3.0, -0.9, 1.9, (1.4, 0.35, 0.35), 12.0, inside=True)
REAR = Locker("rear", "Rear locker", 6.6, 0.5, 0.5, (0.6, 0.8, 0.5), 30.0, inside=False)
LOCKERS = (FRONT, AXLE_NEAR, AXLE_OFF, HIGH, REAR)
TYRE = Tyre("185/65 R14", 102, "N", "1026", 450e3, 450e3, 100.0, "steel", 2)

_CARD = OwnerCard("", (), (), (), (), (), (), ())


def kind(key: str, facts: Mapping[str, FactSpec], water: tuple[WaterUse, ...] = ()) -> Kind:
    """As much of a kind as the outfit looks at."""
    return Kind(
        key=key, title=key, about="", group="front", stands="outside", topic="towing", max=None, facts=facts, links={},
        conditions={}, supplies=(), steps=(), waits={}, guards=(), finish={}, cautions=(), inspection=(), energy=(),
        water=water, start_up=(), card=_CARD, film=FilmWords((), {}), file="",
    )  # fmt: skip


def mass(name: str, what: str = "") -> FactSpec:
    """A fact that is a mass."""
    return FactSpec(name, what or name, "quantity", "kg")


KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "coupling": kind(
            "coupling", {"s_value": mass("s_value"), "d_value": FactSpec("d_value", "", "quantity", "kN")}
        ),
        "extra": kind("extra", {"mass": mass("mass"), "in_miro": FactSpec("in_miro", "", "yes-no")}),
        "tank": kind("tank", {"volume": FactSpec("volume", "", "quantity", "l")}, (WaterUse("holds", "volume", ""),)),
    }
)


def quantity(si: float, unit: str) -> Quantity:
    """A fact's value."""
    return Quantity(si, unit, f"{si} {unit}")


def kit(key: str, sort: str, x: float, **facts: Any) -> Kit:
    """One thing fitted on the centre line."""
    return Kit(key, sort, key.replace("-", " "), x, 0.0, 0.6, MappingProxyType(facts), {}, "")


COUPLING = kit("coupling", "coupling", 0.1, s_value=quantity(120.0, "kg"), d_value=quantity(12_000.0, "N"))


def van(*fitted: Kit, masses: Masses | None = None, gear: RunningGear | None = None, **changes: Any) -> BuildSheet:
    """A van of 1200 kg empty, weighed with 72 kg on the ball, one axle at 4.2 m, five lockers."""
    sheet = BuildSheet(
        Identity("Test van", None, None, None, None, None),
        masses or Masses(1200.0, 1450.0, 100.0, 1450.0, 1200.0, 72.0),
        Body(1.4, 5.8, 2.3, 2.6, None, None, None, 4, Insulation()),
        gear or RunningGear((4.2,), None, 2.0, TYRE),
        VanPlan(Door("nearside", 5.0, 0.6, 0.5), ((2.0, 0.0), (6.0, 0.0)), LOCKERS, ()),
        (COUPLING, *fitted),
    )
    return replace(sheet, **changes)


CAR = Car(
    "Test car",
    kerb_mass=1800.0,
    kerb_includes="driver",
    aboard=200.0,
    gross_vehicle_mass=2300.0,
    gross_train_mass=4200.0,
    towing_limit=1900.0,
    noseweight_limit=90.0,
    towbar=Towbar(100.0, 11_000.0),
    wheelbase=2.7,
    overhang=1.1,
    front=CarAxle(1050.0, 1250.0, 95),
    rear=CarAxle(950.0, 1200.0, 95),
    anti_lock=True,
)
DRIVER = Driver("B", "GB", date(2004, 6, 18))
JOURNEY = Journey(date(2027, 5, 29), "GB", stabiliser=True, dampers=True)
AWNING = LoadItem("awning", "Awning", 14.0, (1.1, 0.3, 0.3))
FOOD = LoadItem("food", "Food box", 8.0, (0.4, 0.3, 0.25), number=2)
LEAD = LoadItem("lead", "Hook-up lead", 5.0, (0.35, 0.35, 0.12), reach="outside")
GOOD_STOW = Stow((Placed("awning", "front"), Placed("food", "axle-near", 2), Placed("lead", "rear")))
LOAD = Load("weekend", (AWNING, FOOD, LEAD))


def outfit(**changes: Any) -> Outfit:
    """A van, car, load and stow of which every verdict but the brake's can be given."""
    return replace(Outfit(van(), KINDS, CAR, DRIVER, JOURNEY, LOAD, GOOD_STOW), **changes)
