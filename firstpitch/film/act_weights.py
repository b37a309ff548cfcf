"""The weights of the evidence for acts and cautions, fitted on the labelled films. See docs/film.md for how well they do."""

from __future__ import annotations

from firstpitch.film.evidence import Weights

CAUTION_WEIGHTS = Weights(
    -8.159,
    {
        "kit": 1.499,
        "kit_log": 0.365,
        "own_like": 2.222,
        "say_like": 0.851,
        "way_like": 5.511,
        "own_cover": 1.085,
        "say_cover": 0.498,
        "way_cover": 0.751,
        "stands_out": 0.737,
        "against_all": 1.75,
        "against_kin": 0.515,
        "length": 0.406,
        "joint": 0.143,
        "second": -5.348,
        "mass": 0.062,
        "step_near": -0.092,
        "kit_named": 0.012,
        "kit_share": 0.043,
        "kit_joint": -1.068,
        "told": 0.314,
        "told_mean": -0.885,
        "told_kin": 0.26,
    },
)
ACT_WEIGHTS = Weights(
    -4.786,
    {
        "kit": 1.437,
        "kit_log": 0.565,
        "own_like": 4.401,
        "say_like": 2.235,
        "way_like": -2.928,
        "own_cover": -0.278,
        "say_cover": 2.21,
        "way_cover": 1.665,
        "stands_out": 0.248,
        "against_all": 0.065,
        "against_kin": 0.415,
        "length": -0.43,
        "joint": -1.431,
        "second": -3.007,
        "mass": 0.043,
        "step_near": 0.403,
        "kit_named": -0.305,
        "kit_share": -0.352,
        "kit_joint": -2.428,
        "told": 0.401,
        "told_mean": -0.304,
        "told_kin": 0.235,
    },
)
# How sure it is that a step is done, from the chances of its points and of its act.
SURETY = {
    "constant": 0.716,
    "best": -0.302,
    "mean": 4.608,
    "share": 1.561,
    "many": -0.584,
    "title": -0.012,
    "now": 0.802,
    "hand": -1.141,
    "hand_mean": -1.159,
    "hand_title": 1.698,
    "act": 0.79,
}
