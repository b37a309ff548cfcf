"""What the van weighs, on the ball and on each axle: from plate and sheet, kit, water, load and readings."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from firstpitch.figures import Figure, get
from firstpitch.outfit.lockers import lockers_for
from firstpitch.outfit.statics import Springs, nose_share
from firstpitch.outfit.types import Readings
from firstpitch.outfit.verdict import Span, exactly, shown
from firstpitch.sheet.types import Quantity

if TYPE_CHECKING:
    from firstpitch.catalogue.types import Kind
    from firstpitch.outfit.types import LoadItem, Outfit
    from firstpitch.sheet.types import Kit

Sort = Literal["van", "kit", "water", "load"]
NOTHING = exactly(0.0)
FEW = 2  # things without a place that are worth naming one by one


@dataclass(frozen=True)
class MassLine:
    """One thing that weighs [kg], where it is [m] (``x`` a span when nobody said where), and where the figure comes from."""

    name: str
    sort: Sort
    mass: Span
    x: Span
    y: float
    source: str


@dataclass(frozen=True)
class EmptyVan:
    """The van with its kit and without load or water: mass and weight on the ball [kg], centre of gravity ``x`` [m].

    ``measured`` is whether its noseweight rests on a reading; if not, ``nose`` is an assumption and no verdict rests on it.
    """

    mass: Span
    nose: Span
    x: float
    measured: bool
    source: str
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True)
class Correction:
    """What a reading with the load aboard says about the empty van: the centre of gravity lies ``moved`` m further back than reckoned."""

    moved: float
    nose: float
    mass: float
    sentence: str


@dataclass(frozen=True)
class Laden:
    """The loaded van: ``mass``, ``nose`` on the ball, ``axles`` together [kg]; ``lines`` is everything beyond the empty van.

    ``unknown`` names what keeps a figure from being exact; ``assumed`` what is only assumed.
    """

    empty: EmptyVan
    lines: tuple[MassLine, ...]
    mass: Span
    nose: Span
    unknown: tuple[str, ...]
    assumed: tuple[str, ...]
    correction: Correction | None = None
    measured_axles: tuple[float, ...] = ()

    @property
    def axles(self) -> Span:
        """On all axles together [kg]; where the noseweight is only assumed, up to everything."""
        least_nose = 0.0 if self.assumed else self.nose.low
        return Span(max(0.0, self.mass.low - self.nose.high), self.mass.high - least_nose)

    @property
    def load_mass(self) -> Span:
        """Everything beyond the empty van [kg]."""
        return sum((line.mass for line in self.lines), NOTHING)

    @property
    def side_moment(self) -> float:
        """Load times its distance from the centre line, towards the nearside [kg·m]; unknown masses by their middle."""
        return sum(line.mass.middle * line.y for line in self.lines if line.mass.bounded)


def springs_of(outfit: Outfit) -> tuple[Springs, ...]:
    """The ways in which the axles may share the load: one when the sheet says or there is one axle, else both."""
    gear = outfit.van.gear
    if len(gear.axles) == 1 or gear.equalised:
        return ("equalised",)
    return ("independent",) if gear.equalised is False else ("equalised", "independent")


def moment_share(x: Span, axles: tuple[float, ...], springs: tuple[Springs, ...]) -> Span:
    """The share of a mass somewhere in ``x`` that may land on the ball, over all ways of sharing."""
    ends = [nose_share(at, axles, way) for at in (x.low, x.high) for way in springs]
    return Span(min(ends), max(ends))


def on_ball(line: MassLine, axles: tuple[float, ...], springs: tuple[Springs, ...]) -> Span:
    """What one line puts on the ball [kg]."""
    share = moment_share(line.x, axles, springs)
    ends = [
        0.0 if mass == 0 or part == 0 else mass * part
        for mass in (line.mass.low, line.mass.high)
        for part in (share.low, share.high)
    ]
    return Span(min(ends), max(ends))


def laden(outfit: Outfit) -> Laden:
    """The loaded van. Readings with the load aboard, where there are any, put the reckoned empty van right."""
    reckoned = empty_van(outfit)
    lines, unknown = _lines(outfit)
    empty, correction = _corrected(outfit, reckoned, lines)
    whole = _sum(outfit, empty, lines)
    readings = outfit.load.readings
    mass = exactly(readings.mass) if readings.mass is not None else whole.mass
    nose = exactly(readings.noseweight) if readings.noseweight is not None else whole.nose
    if readings.mass is None and len(readings.axles) == len(outfit.van.gear.axles) and nose.exact:
        mass = exactly(sum(readings.axles)) + nose
    assumed = () if empty.measured or readings.noseweight is not None else ("the empty van's noseweight",)
    left_open = tuple(unknown) if not (mass.exact and nose.exact) else ()
    return replace(
        whole,
        mass=mass,
        nose=nose,
        unknown=left_open,
        assumed=assumed,
        correction=correction,
        measured_axles=readings.axles,
    )


def without_load(outfit: Outfit, empty: EmptyVan) -> Laden:
    """The van as it is with its water and without the load, around a known empty van."""
    bare = replace(outfit, load=replace(outfit.load, items=(), readings=Readings()), stow=None)
    lines, unknown = _lines(bare)
    whole = _sum(bare, empty, lines)
    return replace(whole, unknown=tuple(unknown), assumed=() if empty.measured else ("the empty van's noseweight",))


def empty_van(outfit: Outfit) -> EmptyVan:
    """The van with its kit, from the sheet alone: weighed if the sheet has readings, otherwise plate plus extra kit."""
    van = outfit.van
    masses, axles, springs = van.masses, van.gear.axles, springs_of(outfit)
    extras = tuple(line for kit in van.kit for line in _kit_line(kit, outfit.kinds.get(kit.kind)))
    if masses.measured_mass is not None:
        mass, source = exactly(masses.measured_mass), "build sheet: masses.measured_mass"
        extras = ()
    else:
        mass = sum((line.mass for line in extras), exactly(masses.miro))
        source = "build sheet: masses.miro" + (" and kit not counted in it" if extras else "")
    if masses.measured_noseweight is not None:
        nose = exactly(masses.measured_noseweight)
        at = _where(nose, mass, axles)
        return EmptyVan(mass, nose, at, True, f"{source}; build sheet: masses.measured_noseweight")
    low, likely, high = (get(f"towing.empty_nose_{end}") for end in ("low", "likely", "high"))
    plain = masses.miro if masses.measured_mass is None else masses.measured_mass
    nose = sum((on_ball(line, axles, springs) for line in extras), Span(low.si * plain, high.si * plain))
    at = _where(exactly(likely.si * plain), exactly(plain), axles)
    return EmptyVan(mass, nose, at, False, f"{source}; noseweight assumed", (low, likely, high))


def _where(nose: Span, mass: Span, axles: tuple[float, ...]) -> float:
    weight = mass.middle if mass.bounded else mass.low
    return sum(axles) / len(axles) * (1 - nose.middle / weight)


def _kit_line(kit: Kit, kind: Kind | None) -> list[MassLine]:
    """Kit beyond the mass in running order: only kinds that ask for both figures can be."""
    if kind is None or not {"mass", "in_miro"} <= kind.facts.keys() or kit.facts.get("in_miro") is True:
        return []
    found = kit.facts.get("mass")
    most = found.si if isinstance(found, Quantity) else math.inf
    least = most if kit.facts.get("in_miro") is False and math.isfinite(most) else 0.0
    return [
        MassLine(kit.name, "kit", Span(least, most), exactly(kit.x), kit.y, f"build sheet: kit.{kit.id}.facts.mass")
    ]


def _lines(outfit: Outfit) -> tuple[list[MassLine], list[str]]:
    lines: list[MassLine] = []
    unknown: list[str] = []
    loose_ones: list[str] = []
    if outfit.van.masses.measured_mass is None:
        for kit in outfit.van.kit:
            for line in _kit_line(kit, outfit.kinds.get(kit.kind)):
                if not line.mass.exact:
                    unknown.append(f"how much {kit.name} adds to the mass in running order")
    for kit in outfit.van.kit:
        line_of = _water_line(kit, outfit.kinds.get(kit.kind), outfit.load.water.get(kit.id))
        if line_of is not None:
            lines.append(line_of)
            if not line_of.mass.exact:
                unknown.append(f"how much water is in {kit.name}")
    for item in outfit.load.items:
        placed, loose = _item_lines(item, outfit)
        lines.extend(placed)
        if loose is not None:
            lines.append(loose)
            loose_ones.append(f"where {item.name} is stowed")
    return lines, [*unknown, *(loose_ones if len(loose_ones) <= FEW else ["where the load is stowed"])]


def _water_line(kit: Kit, kind: Kind | None, aboard: float | None) -> MassLine | None:
    holds = [use.fact for use in kind.water if use.role == "holds"] if kind else []
    if not holds:
        return None
    density = get("water.density").si
    volume = kit.facts.get(holds[0])
    most = volume.si * density if isinstance(volume, Quantity) else math.inf
    mass = Span(0.0, most) if aboard is None else exactly(aboard * density)
    source = "load sheet: water" if aboard is not None else f"build sheet: kit.{kit.id}.facts.{holds[0]}"
    return MassLine(f"Water in {kit.name}", "water", mass, exactly(kit.x), kit.y, source)


def _item_lines(item: LoadItem, outfit: Outfit) -> tuple[list[MassLine], MassLine | None]:
    lockers = outfit.van.plan.lockers
    source = f"load sheet: items.{item.id}"
    placed, left = [], item.number
    for locker in lockers:
        number = outfit.stow.number(item.id, locker.id) if outfit.stow else 0
        if number:
            placed.append(MassLine(item.name, "load", exactly(number * item.mass), exactly(locker.x), locker.y, source))
            left -= number
    if left <= 0:
        return placed, None
    body = outfit.van.body
    where = [locker.x for locker in lockers_for(item, lockers)] or [body.front, body.rear]
    return placed, MassLine(item.name, "load", exactly(left * item.mass), Span(min(where), max(where)), 0.0, source)


def _sum(outfit: Outfit, empty: EmptyVan, lines: list[MassLine]) -> Laden:
    axles, springs = outfit.van.gear.axles, springs_of(outfit)
    mass = sum((line.mass for line in lines), empty.mass)
    nose = sum((on_ball(line, axles, springs) for line in lines), empty.nose)
    return Laden(empty, tuple(lines), mass, nose, (), ())


def _corrected(outfit: Outfit, reckoned: EmptyVan, lines: list[MassLine]) -> tuple[EmptyVan, Correction | None]:
    """The empty van that the readings imply; only when everything aboard is known and placed."""
    readings = outfit.load.readings
    whole = _sum(outfit, EmptyVan(NOTHING, NOTHING, 0.0, True, ""), lines)
    if readings.noseweight is None or not (whole.mass.exact and whole.nose.exact):
        return reckoned, None
    known = readings.mass is not None or reckoned.mass.exact
    if not known:
        return reckoned, None
    mass = readings.mass - whole.mass.low if readings.mass is not None else reckoned.mass.low
    nose = readings.noseweight - whole.nose.low
    if mass <= 0:
        return reckoned, None
    at = _where(exactly(nose), exactly(mass), outfit.van.gear.axles)
    fixed = EmptyVan(exactly(mass), exactly(nose), at, True, "load sheet: readings")
    moved, more = at - reckoned.x, nose - (reckoned.nose.middle if reckoned.measured else _likely(reckoned))
    heavier = mass - (reckoned.mass.middle if reckoned.mass.bounded else reckoned.mass.low)
    way = "back" if moved > 0 else "forward"
    before = "measured before" if reckoned.measured else "assumed"
    sentence = (
        f"The reading puts the empty van's centre of gravity {abs(moved):.2f} m further {way} than {before}, "
        f"which is {shown(abs(more), 'kg')} {'more' if more > 0 else 'less'} on the ball."
    )
    return fixed, Correction(moved, more, heavier, sentence)


def _likely(empty: EmptyVan) -> float:
    return empty.figures[1].si * empty.mass.low
