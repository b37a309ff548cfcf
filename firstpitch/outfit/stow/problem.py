"""The stow as numbers: things, lockers, what is allowed, limits, and what a good stow is worth."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from firstpitch.outfit.coupling import NoseBand, nose_band
from firstpitch.outfit.lockers import usable_volume, why_not
from firstpitch.outfit.masses import laden, springs_of, without_load
from firstpitch.outfit.statics import nose_share
from firstpitch.outfit.types import LoadItem, Outfit, Placed, Stow
from firstpitch.outfit.verdict import Span, exactly

if TYPE_CHECKING:
    from firstpitch.sheet.types import Locker

Floats = NDArray[np.float64]
Counts = NDArray[np.int64]


@dataclass(frozen=True)
class Worth:
    """What counts how much, in points; one point is one kg·m² of yaw inertia. Our choice, common practice without a source.

    ``band``: each kg of noseweight outside the preferred band. ``height``: each kg a metre higher. ``side``: each kg·m out of
    level, left to right. ``move``: each piece moved from today's stow. ``home``: each kg left at home, ``needed`` times as
    much for a thing that is needed.
    """

    band: int = 1000
    height: int = 1
    side: int = 1
    move: int = 3
    home: int = 100_000
    needed: int = 10


@dataclass(frozen=True)
class AxleRow:
    """One axle's limit as a row of the program: ``base`` [kg] plus ``share`` of each locker's load must not pass ``limit``."""

    name: str
    base: float
    share: Floats
    limit: float


@dataclass(frozen=True)
class NoseRow:
    """The noseweight as a row: ``base`` [kg] plus ``share`` of each locker's load."""

    base: Span
    share: Floats


@dataclass(frozen=True)
class StowProblem:
    """n items, k lockers. ``allowed`` and ``today`` are n × k; masses [kg], volumes [m³], places [m].

    ``home`` is the price of leaving a kg of an item at home, ``cost`` a locker's badness for each kg [points]: distance from
    the wanted centre of gravity squared plus height, rounded to 0.01, since no locker's place is known better. ``assumed``
    names what is only assumed, ``no_limit`` the lockers that are not used because their limit is unknown.
    """

    outfit: Outfit
    items: tuple[LoadItem, ...]
    lockers: tuple[Locker, ...]
    allowed: NDArray[np.bool_]
    mass: Floats
    number: Counts
    volume: Floats
    home: Floats
    limit: Floats
    room: Floats
    x: Floats
    y: Floats
    z: Floats
    cost: Floats
    base_mass: float
    noses: tuple[NoseRow, ...]
    axles: tuple[AxleRow, ...]
    band: NoseBand
    today: Counts | None
    worth: Worth
    assumed: tuple[str, ...]
    unknown: tuple[str, ...]
    no_limit: tuple[str, ...]
    base_x: float

    @property
    def floor(self) -> float:
        """The least noseweight by law [kg], or nothing: it must never lift the car."""
        return self.band.least or 0.0

    @property
    def load_mass(self) -> float:
        """Of everything that is to go along [kg]."""
        return float(self.mass @ self.number)

    def left_price(self, counts: Counts) -> float:
        """What leaving the rest at home costs [points]."""
        return float((self.home * self.mass) @ (self.number - counts.sum(axis=1)))

    def counts(self, stow: Stow) -> Counts:
        """A stow as an n × k table of numbers; what names no known item or locker is left out."""
        return _counts(self.items, self.lockers, stow)

    def stow(self, counts: Counts) -> Stow:
        """A table of numbers as a stow."""
        return Stow(
            tuple(
                Placed(item.id, locker.id, int(counts[i, j]))
                for i, item in enumerate(self.items)
                for j, locker in enumerate(self.lockers)
                if counts[i, j]
            )
        )


def _counts(items: tuple[LoadItem, ...], lockers: tuple[Locker, ...], stow: Stow) -> Counts:
    rows = {item.id: i for i, item in enumerate(items)}
    columns = {locker.id: j for j, locker in enumerate(lockers)}
    table = np.zeros((len(items), len(lockers)), dtype=np.int64)
    for placed in stow.placed:
        if placed.item in rows and placed.locker in columns:
            table[rows[placed.item], columns[placed.locker]] += placed.number
    return table


def stow_problem(outfit: Outfit, *, worth: Worth | None = None) -> StowProblem:
    """The problem of stowing ``outfit.load`` into the van's lockers; ``outfit.stow``, where given, is today's stow.

    Readings with the load aboard and today's stow put the empty van right first.
    """
    worth = worth or Worth()
    items, lockers = outfit.load.items, outfit.van.plan.lockers
    empty = laden(outfit).empty
    if not empty.measured:
        likely = exactly(empty.figures[1].si * empty.mass.low)
        empty = replace(empty, nose=likely)
    whole = without_load(outfit, empty)
    base = whole.mass.high if whole.mass.bounded else whole.mass.low
    x, y, z = (np.array([getattr(locker, axis) for locker in lockers], dtype=float) for axis in "xyz")
    total = base + outfit.load.mass
    band = nose_band(outfit, total)
    axles = outfit.van.gear.axles
    mean = sum(axles) / len(axles)
    wanted = mean * (1 - (band.preferred[0] + band.preferred[1]) / 2 / total)
    return StowProblem(
        outfit=outfit,
        items=items,
        lockers=lockers,
        allowed=_allowed(items, lockers),
        mass=np.array([item.mass for item in items], dtype=float),
        number=np.array([item.number for item in items], dtype=np.int64),
        volume=np.array([item.volume for item in items], dtype=float),
        home=np.array([worth.home * (worth.needed if item.needed else 1) for item in items], dtype=float),
        limit=np.array([0.0 if locker.limit is None else locker.limit for locker in lockers]),
        room=np.array([usable_volume(locker) for locker in lockers]),
        x=x,
        y=y,
        z=z,
        cost=np.round((x - wanted) ** 2 + y**2 + worth.height * z, 2),
        base_mass=base,
        noses=_noses(outfit, x, whole.nose),
        axles=_axles(outfit, x, base, whole.nose.low),
        band=band,
        today=_counts(items, lockers, outfit.stow) if outfit.stow else None,
        worth=worth,
        assumed=whole.assumed,
        unknown=whole.unknown,
        no_limit=tuple(locker.name for locker in lockers if locker.limit is None),
        base_x=empty.x,
    )


def _allowed(items: tuple[LoadItem, ...], lockers: tuple[Locker, ...]) -> NDArray[np.bool_]:
    table = [[not why_not(item, locker) for locker in lockers] for item in items]
    return np.array(table, dtype=bool).reshape(len(items), len(lockers))


def _noses(outfit: Outfit, x: Floats, base: Span) -> tuple[NoseRow, ...]:
    axles = outfit.van.gear.axles
    return tuple(
        NoseRow(base, np.array([nose_share(float(at), axles, springs) for at in x])) for springs in springs_of(outfit)
    )


def _axles(outfit: Outfit, x: Floats, base_mass: float, base_nose: float) -> tuple[AxleRow, ...]:
    """A row for each axle and each way of sharing; none where the axle limit is unknown."""
    axles, limit = outfit.van.gear.axles, outfit.van.masses.axle_limit
    if limit is None:
        return ()
    each = (base_mass - base_nose) / len(axles)
    mean, squares = sum(axles) / len(axles), sum(axle * axle for axle in axles)
    found = []
    for springs in springs_of(outfit):
        for n, axle in enumerate(axles, 1):
            share = x * axle / squares if springs == "independent" and len(axles) > 1 else x / mean / len(axles)
            found.append(AxleRow(f"axle {n}", each, share, limit))
    return tuple(found)
