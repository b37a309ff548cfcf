"""Where each item of load goes: planning a stow, judging one, and improving it a move at a time."""

from firstpitch.outfit.stow.evaluate import Breach, LockerLoad, StowFigures, evaluate
from firstpitch.outfit.stow.explain import WayOut
from firstpitch.outfit.stow.moves import Move, StowJudgement, improve, judge_stow, next_move
from firstpitch.outfit.stow.plan import Carried, StowPlan, plan_stow
from firstpitch.outfit.stow.problem import StowProblem, Worth, stow_problem

__all__ = [
    "Breach",
    "Carried",
    "LockerLoad",
    "Move",
    "StowFigures",
    "StowJudgement",
    "StowPlan",
    "StowProblem",
    "WayOut",
    "Worth",
    "evaluate",
    "improve",
    "judge_stow",
    "next_move",
    "plan_stow",
    "stow_problem",
]
