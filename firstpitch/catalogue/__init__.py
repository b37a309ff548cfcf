"""The catalogue: what any kit of a kind needs inspected, shown, warned of, consumed and explained.

``load()`` gives the shipped kinds, proved sound; ``load(folder)`` lays a dealership's own on top.
"""

from firstpitch.catalogue.loader import load
from firstpitch.catalogue.measures import placeholders
from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import (
    CardLine,
    Catalogue,
    Caution,
    CautionLevel,
    Condition,
    Duration,
    Energy,
    FilmWords,
    GuardSpec,
    Inspection,
    Kind,
    Level,
    Needed,
    OwnerCard,
    Ref,
    Stands,
    StartName,
    StartUpItem,
    StepSpec,
    SupplyRef,
    SupplySpec,
    WaitSpec,
    WaterUse,
)

__all__ = [
    "CardLine",
    "Catalogue",
    "Caution",
    "CautionLevel",
    "Condition",
    "Duration",
    "Energy",
    "FilmWords",
    "GuardSpec",
    "Inspection",
    "Kind",
    "Level",
    "Needed",
    "OwnerCard",
    "Ref",
    "Stands",
    "StartName",
    "StartUpItem",
    "StepSpec",
    "SupplyRef",
    "SupplySpec",
    "WaitSpec",
    "WaterUse",
    "fill",
    "load",
    "placeholders",
]
