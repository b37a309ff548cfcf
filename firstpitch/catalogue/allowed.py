"""The words and bounds a kind file may use, in one place."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal, get_args

from firstpitch.catalogue.types import CautionLevel, Level, Stands, StartName
from firstpitch.sheet.types import FactType, Need

LEVELS: Final[tuple[Level, ...]] = get_args(Level)
CAUTION_LEVELS: Final[tuple[CautionLevel, ...]] = get_args(CautionLevel)
SIGNS: Final[tuple[Literal["warning", "prohibition", "must-do"], ...]] = ("warning", "prohibition", "must-do")
STANDS: Final[tuple[Stands, ...]] = get_args(Stands)
STARTS: Final[tuple[StartName, ...]] = get_args(StartName)
GROUPS: Final[tuple[Literal["front", "round", "inside"], ...]] = ("front", "round", "inside")
TOPICS: Final = ("gas", "water", "mains", "12v", "warmth", "cold", "cooking", "towing", "living", "safety", "papers")
NEEDS: Final[tuple[Need, ...]] = get_args(Need)
FACT_TYPES: Final[tuple[FactType, ...]] = get_args(FactType)
SUPPLIES: Final = ("gas", "mains", "12v", "water", "inside", "round")
WITHOUT_SOURCE: Final = ("inside", "round")
ROLES: Final[tuple[Literal["source", "gate"], ...]] = ("source", "gate")
ENERGIES: Final = ("mains", "gas", "12v", "sun")
CONTROLS: Final[tuple[Literal["thermostat", "on-demand", "steady", "source"], ...]] = (
    *("thermostat", "on-demand", "steady", "source"),
)
WATER_ROLES: Final[tuple[Literal["holds", "uses", "wastes", "feeds"], ...]] = ("holds", "uses", "wastes", "feeds")
MODES: Final = ("handover", "film")
PERS: Final[tuple[Literal["kit", "kind"], ...]] = ("kit", "kind")
HOWS: Final[tuple[Literal["look", "work", "measure"], ...]] = ("look", "work", "measure")
FINISHES: Final = ("always", "drained", "kept")
CARDS: Final = ("arriving", "leaving", "towing", "winter")

# How a wait's seconds come about: the terms that must stand there, then those that may.
TERMS: Final[Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]] = MappingProxyType(
    {
        "fixed": (("seconds", "note"), ()),
        "filling": (("volume", "flow"), ("note",)),
        "draining": (("volume", "flow"), ("note",)),
        "heating": (("volume", "power", "from", "to"), ("efficiency", "note")),
    }
)

RESERVED: Final = ("self", "van", "supply", "cold_water")
NAMES: Final = "names are lower-case letters, digits and “_”"
VALUES: Final = "values are lower-case words joined by “-”"
LONGEST_HANDS: Final = 3600
LONGEST_WAIT: Final = 24 * 3600
MOST_WORTH: Final = 10
LAST_ORDER: Final = 999
FURTHEST: Final = 1e9
MOST: Final = 1000
