"""A kind of kit, as the loader hands it to the engines. See docs/catalogue.md for the file format and its rules."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from firstpitch.sheet.types import FactSpec, LinkSpec

Level = Literal["must", "should", "may"]
CautionLevel = Literal["stop", "care", "note"]
Stands = Literal["outside", "inside"]
StartName = Literal["from-store", "on-hook-up"]


@dataclass(frozen=True)
class Ref:
    """A condition reference ``owner.name`` with the values it allows; ``owner`` is ``self``, a link or ``van``.

    ``optional`` (written ``owner?.name``): in a guard this line alone drops out where nothing fills the link.
    """

    owner: str
    name: str
    values: tuple[str, ...]
    optional: bool = False


@dataclass(frozen=True)
class SupplyRef:
    """``supply gas``: whatever must hold on this van for that supply to be there."""

    supply: str


Needed = Ref | SupplyRef


@dataclass(frozen=True)
class Condition:
    """A state of this kit: the values it can take and the one it starts with under each start state."""

    name: str
    what: str
    values: tuple[str, ...]
    start: Mapping[str, str]


@dataclass(frozen=True)
class Duration:
    """How long a wait takes: ``by`` names the rule (``fixed``, ``filling``, ``draining``, ``heating``); ``terms`` its inputs."""

    by: str
    terms: Mapping[str, str | float]
    note: str = ""


@dataclass(frozen=True)
class WaitSpec:
    """A process that runs by itself once a step has started it."""

    id: str
    title: str
    duration: Duration
    sustains: tuple[Needed, ...]
    sets: tuple[Ref, ...]


@dataclass(frozen=True)
class StepSpec:
    """One thing done or shown on the round. ``at`` is ``self``, ``door`` or a link; times in seconds."""

    id: str
    title: str
    at: str
    level: Level
    worth: int
    say: str
    points: tuple[str, ...]
    hands: float
    owner_try: float
    modes: tuple[str, ...]
    per: Literal["kit", "kind"]
    requires: tuple[Needed, ...]
    sets: tuple[Ref, ...]
    starts: tuple[str, ...]
    awaits: tuple[str, ...]


@dataclass(frozen=True)
class GuardSpec:
    """A combination of conditions that must never occur, and the harm it would do."""

    id: str
    never: tuple[Ref, ...]
    harm: str
    source: str


@dataclass(frozen=True)
class SupplySpec:
    """This kit is a source of, or a gate on, a supply such as gas, mains, 12v or water."""

    name: str
    role: Literal["source", "gate"]
    rank: int
    when: tuple[Ref, ...]


@dataclass(frozen=True)
class Caution:
    """A warning: ``steps`` are those it must be spoken before; ``sign`` picks the safety-sign shape; ``ways`` are others to say it."""

    level: CautionLevel
    text: str
    steps: tuple[str, ...]
    sign: Literal["warning", "prohibition", "must-do"]
    source: str
    ways: tuple[str, ...] = ()


@dataclass(frozen=True)
class Inspection:
    """One inspection point; ``reading`` is the unit of a measured value, empty for a look or a try."""

    id: str
    point: str
    how: Literal["look", "work", "measure"]
    reading: str
    severity: CautionLevel


@dataclass(frozen=True)
class Energy:
    """What the kit draws: ``supply``, the fact with its power or rate, and how it is switched."""

    supply: str
    fact: str
    control: Literal["thermostat", "on-demand", "steady", "source"]
    note: str


@dataclass(frozen=True)
class WaterUse:
    """What the kit holds or uses: the fact with the volume or flow."""

    role: Literal["holds", "uses", "wastes", "feeds"]
    fact: str
    note: str


@dataclass(frozen=True)
class StartUpItem:
    """Something the owner needs before the first trip."""

    item: str
    number: int
    why: str


@dataclass(frozen=True)
class CardLine:
    """A line on the arriving, leaving, towing or winter card; low ``order`` comes first (bands in docs/catalogue.md)."""

    order: int
    text: str
    step: str


@dataclass(frozen=True)
class OwnerCard:
    """The kit's own card in the pack."""

    what: str
    use: tuple[str, ...]
    trouble: tuple[tuple[str, str], ...]
    figures: tuple[str, ...]
    arriving: tuple[CardLine, ...]
    leaving: tuple[CardLine, ...]
    towing: tuple[CardLine, ...]
    winter: tuple[CardLine, ...]


@dataclass(frozen=True)
class FilmWords:
    """``names`` by which speakers call the kit; per step, words a film of it should contain and other ways to say each point.

    ``doing`` is, per step, what people say while their hands do it.
    """

    names: tuple[str, ...]
    words: Mapping[str, tuple[str, ...]]
    ways: Mapping[str, tuple[tuple[str, ...], ...]] = field(default_factory=dict)
    doing: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class Kind:
    """One catalogue entry. ``file`` is where it was read, for messages."""

    key: str
    title: str
    about: str
    group: Literal["front", "round", "inside"]
    stands: Stands
    topic: str
    max: int | None
    facts: Mapping[str, FactSpec]
    links: Mapping[str, LinkSpec]
    conditions: Mapping[str, Condition]
    supplies: tuple[SupplySpec, ...]
    steps: tuple[StepSpec, ...]
    waits: Mapping[str, WaitSpec]
    guards: tuple[GuardSpec, ...]
    finish: Mapping[str, tuple[Ref, ...]]
    cautions: tuple[Caution, ...]
    inspection: tuple[Inspection, ...]
    energy: tuple[Energy, ...]
    water: tuple[WaterUse, ...]
    start_up: tuple[StartUpItem, ...]
    card: OwnerCard
    film: FilmWords
    file: str


@dataclass(frozen=True)
class Catalogue:
    """All kinds by key; ``van`` is the kind every van has without listing it."""

    kinds: Mapping[str, Kind]
