"""The round: from a van to a safe, timed order of steps, and the independent check of any order. See docs/rounds.md."""

from firstpitch.rounds.arrange import Patience
from firstpitch.rounds.as_json import read_sequence, round_object
from firstpitch.rounds.build import RoundOptions, build_problem
from firstpitch.rounds.plan import plan_round
from firstpitch.rounds.quick import quick_round
from firstpitch.rounds.replay import replay
from firstpitch.rounds.types import (
    Broken,
    Clash,
    Effect,
    Guard,
    LeftOut,
    Literally,
    Missing,
    Mode,
    Place,
    Plan,
    Problem,
    Step,
    TimedStep,
    TimedWait,
    Wait,
)
from firstpitch.rounds.walking import WalkRates
from firstpitch.rounds.why import why
from firstpitch.rounds.wishes import with_wishes

__all__ = [
    "Broken",
    "Clash",
    "Effect",
    "Guard",
    "LeftOut",
    "Literally",
    "Missing",
    "Mode",
    "Patience",
    "Place",
    "Plan",
    "Problem",
    "RoundOptions",
    "Step",
    "TimedStep",
    "TimedWait",
    "Wait",
    "WalkRates",
    "build_problem",
    "plan_round",
    "quick_round",
    "read_sequence",
    "replay",
    "round_object",
    "why",
    "with_wishes",
]
