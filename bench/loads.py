"""Invented stow problems of a stated size, for measuring and for checks against other solvers."""

from __future__ import annotations

import random
from datetime import date
from typing import TYPE_CHECKING

from firstpitch.outfit import Car, Driver, Journey, Load, LoadItem, Outfit, Towbar
from firstpitch.outfit.forms import SIZE_CLASSES
from firstpitch.outfit.types import Reach
from firstpitch.sheet.types import (
    Body,
    BuildSheet,
    Door,
    Identity,
    Insulation,
    Locker,
    Masses,
    RunningGear,
    Tyre,
    VanPlan,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

# Fourteen places as a family van has them: x, y, floor height, size, limit, whether it is reached from inside.
LOCKERS = (
    (1.70, 0.0, 0.47, (0.44, 1.70, 0.62), 50.0, False),
    (2.15, 0.0, 0.58, (0.36, 0.86, 0.52), 12.0, True),
    (2.90, 0.82, 0.58, (1.40, 0.58, 0.38), 45.0, True),
    (3.30, -0.82, 0.58, (1.00, 0.58, 0.38), 35.0, True),
    (2.95, 0.96, 1.90, (1.70, 0.34, 0.36), 14.0, True),
    (2.95, -0.96, 1.90, (1.70, 0.34, 0.36), 14.0, True),
    (4.60, -0.96, 1.90, (1.40, 0.34, 0.36), 12.0, True),
    (4.20, -0.84, 0.58, (0.50, 0.50, 0.62), 15.0, True),
    (4.80, -0.84, 0.58, (0.50, 0.50, 0.40), 15.0, True),
    (4.08, 0.78, 0.58, (0.40, 0.60, 0.36), 20.0, True),
    (4.80, 0.96, 1.90, (1.40, 0.34, 0.36), 12.0, True),
    (5.20, -0.80, 0.45, (0.70, 0.50, 0.50), 30.0, False),
    (6.18, -0.84, 0.62, (0.60, 0.50, 1.60), 25.0, True),
    (7.35, -0.76, 0.58, (1.50, 0.66, 0.34), 35.0, True),
)
# Sorts of things a family takes along: long, wide, high [m] and kg, each least and most.
THINGS = (
    ((0.20, 0.15, 0.10), (0.30, 0.22, 0.18), (0.3, 1.6)),
    ((0.30, 0.22, 0.15), (0.42, 0.32, 0.26), (1.0, 4.0)),
    ((0.42, 0.32, 0.22), (0.56, 0.40, 0.32), (2.5, 8.0)),
    ((0.85, 0.15, 0.10), (1.15, 0.28, 0.24), (2.5, 9.0)),
)


REACHES: tuple[Reach, ...] = ("any", "inside", "outside")


def van(lockers: Sequence[tuple[float, float, float, tuple[float, float, float], float, bool]] = LOCKERS) -> BuildSheet:
    """A family van with these lockers."""
    tyre = Tyre("185/70 R14", 104, "T", "2426", 450e3, 450e3, 120.0, "alloy", 2)
    return BuildSheet(
        Identity("Bench van", None, None, None, None, None),
        Masses(1350.0, 1600.0, 120.0, 1600.0, 1375.0, 78.0),
        Body(1.45, 6.80, 2.30, 2.64, None, None, None, 6, Insulation()),
        RunningGear((4.85,), None, 2.10, tyre),
        VanPlan(
            Door("nearside", 5.6, 0.6, 0.5),
            ((2.0, 0.0), (6.0, 0.0)),
            tuple(
                Locker(f"locker-{n}", f"Locker {n}", x, y, z, size, limit, inside)
                for n, (x, y, z, size, limit, inside) in enumerate(lockers, 1)
            ),
            (),
        ),
        (),
    )


def listed(items: int, seed: int) -> tuple[LoadItem, ...]:
    """Different things as a load sheet mostly lists them: to half a kilogram, by size class."""
    chance = random.Random(seed)
    names = ("small", "medium", "large", "long", "flat")
    things = []
    for n in range(items):
        name = chance.choices(names, [0.4, 0.35, 0.1, 0.1, 0.05])[0]
        least, most = {"small": (1, 4), "medium": (2, 10), "large": (6, 18), "long": (4, 16), "flat": (6, 14)}[name]
        reach = chance.choices(REACHES, [0.6, 0.3, 0.1])[0]
        things.append(
            LoadItem(f"thing-{n}", f"Thing {n}", chance.randint(least, most) / 2, SIZE_CLASSES[name], reach=reach)
        )
    return tuple(things)


def measured(items: int, seed: int) -> tuple[LoadItem, ...]:
    """Different things weighed to 100 g and measured to a centimetre: the harder case, hardly any two are alike."""
    chance = random.Random(seed)
    things = []
    for n in range(items):
        small, large, mass = chance.choices(THINGS, [0.35, 0.35, 0.2, 0.1])[0]
        long, wide, high = (round(chance.uniform(a, b), 2) for a, b in zip(small, large, strict=True))
        reach = chance.choices(REACHES, [0.6, 0.3, 0.1])[0]
        things.append(
            LoadItem(f"thing-{n}", f"Thing {n}", round(chance.uniform(*mass), 1), (long, wide, high), reach=reach)
        )
    return tuple(things)


def outfit(things: tuple[LoadItem, ...], lockers: int = 14) -> Outfit:
    """These things in a van of so many lockers behind a car that is up to it."""
    car = Car(
        "Bench car",
        kerb_mass=1900.0,
        aboard=250.0,
        gross_vehicle_mass=2600.0,
        gross_train_mass=4600.0,
        towing_limit=2000.0,
        noseweight_limit=110.0,
        towbar=Towbar(110.0, 12_000.0),
        wheelbase=2.8,
        overhang=1.1,
    )
    driver, journey = Driver("B", "GB", date(2004, 6, 18)), Journey(date(2027, 5, 29), "GB")
    return Outfit(van(LOCKERS[:lockers]), {}, car, driver, journey, Load("bench", things))
