"""Is this van legal and steady behind this car, and where does the load go?

``check_outfit`` gives the verdicts, ``plan_stow`` and ``judge_stow`` say where things go, ``compare_steadiness`` compares
loadings. The planner's library loads only when a stow is planned.
"""

from firstpitch.outfit.check import OutfitCheck, check_outfit
from firstpitch.outfit.coupling import NoseBand, NoseLimit
from firstpitch.outfit.departure import DepartureCheck
from firstpitch.outfit.law import SpeedLimit
from firstpitch.outfit.masses import Laden, MassLine
from firstpitch.outfit.scale import Scale, ScaleMark, nose_scale
from firstpitch.outfit.sheets import CarSheet, read_car, read_load, read_stow, stow_text
from firstpitch.outfit.steadiness import SteadinessComparison, compare_steadiness
from firstpitch.outfit.stow import StowJudgement, StowPlan, judge_stow, plan_stow
from firstpitch.outfit.types import (
    Car,
    CarAxle,
    Driver,
    Journey,
    Load,
    LoadItem,
    Outfit,
    Placed,
    Readings,
    Stow,
    Towbar,
)
from firstpitch.outfit.verdict import Span, Verdict, Word

__all__ = [
    "Car",
    "CarAxle",
    "CarSheet",
    "DepartureCheck",
    "Driver",
    "Journey",
    "Laden",
    "Load",
    "LoadItem",
    "MassLine",
    "NoseBand",
    "NoseLimit",
    "Outfit",
    "OutfitCheck",
    "Placed",
    "Readings",
    "Scale",
    "ScaleMark",
    "Span",
    "SpeedLimit",
    "SteadinessComparison",
    "Stow",
    "StowJudgement",
    "StowPlan",
    "Towbar",
    "Verdict",
    "Word",
    "check_outfit",
    "compare_steadiness",
    "judge_stow",
    "nose_scale",
    "plan_stow",
    "read_car",
    "read_load",
    "read_stow",
    "stow_text",
]
