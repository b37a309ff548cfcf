"""The weights of the evidence for cautions, acts and faults, fitted on the labelled films. See docs/film.md for how well they do."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp

from firstpitch.film.evidence import Weights

CAUTION_WEIGHTS = Weights(
    -4.364,
    {
        "kit": 0.148,
        "kit_log": 0.316,
        "own_like": 0.152,
        "say_like": 0.106,
        "way_like": -1.213,
        "own_cover": 0.577,
        "say_cover": 0.439,
        "way_cover": 0.916,
        "stands_out": 0.258,
        "against_all": 2.307,
        "against_kin": 1.077,
        "length": -0.053,
        "joint": 0.647,
        "second": 3.086,
        "mass": 0.113,
        "step_near": -0.567,
        "kit_named": -0.244,
        "kit_share": 0.047,
        "kit_joint": 1.271,
        "told": 0.156,
        "told_mean": -0.195,
        "told_kin": 0.207,
    },
)
# The features are named and explained in ``act_evidence.ACT_FEATURES``.
ACT_WEIGHTS = Weights(
    -0.006,
    {
        "kit_log": 0.198,
        "own_like": 0.286,
        "way_like": -0.308,
        "way_cover": 0.087,
        "second": 1.442,
        "length": -0.331,
        "kit_share": -0.166,
        "told": 0.137,
        "points": 0.473,
        "caution": -0.478,
        "against_opposite": 0.351,
        "against_talk": 0.191,
        "puts_back": -1.098,
        "puts_back_late": 0.922,
    },
)
# How sure it is that a step is shown or explained, from the chances of its points.
SURETY = {
    "constant": 1.291,
    "best": 0.214,
    "mean": 2.837,
    "share": 1.812,
    "many": -1.506,
    "now": 0.201,
}
# How sure a fault is: the share of the readings it is found in, whether its step is only talk, words near by that own up to a slip, and
# whether a guard names the harm.
FAULT_WEIGHTS = {
    "constant": -4.869,
    "readings": 4.45,
    "only_talk": -1.677,
    "owned": 1.087,
    "harm": 0.99,
}


def surety(weights: Mapping[str, float], values: Mapping[str, float]) -> float:
    """How sure something is, 0 to 1: a logistic weighing of named values, the ``constant`` among them."""
    return 1.0 / (1.0 + exp(-sum(weights[name] * value for name, value in values.items())))
