"""The weights of the evidence, fitted on the tuning half of the labelled films. See docs/film.md for how well they do."""

from __future__ import annotations

from firstpitch.film.evidence import Weights

POINT_WEIGHTS = Weights(
    -2.301,
    {
        "kit": -0.426,
        "kit_log": 0.378,
        "own_like": 0.837,
        "say_like": 0.949,
        "way_like": 3.229,
        "own_cover": 0.583,
        "say_cover": 1.471,
        "way_cover": 1.538,
        "stands_out": 0.336,
        "against_all": 1.796,
        "against_kin": 2.009,
        "length": -0.81,
        "joint": -6.514,
        "second": 1.464,
        "mass": 0.026,
        "step_near": 2.13,
        "kit_named": -0.048,
        "kit_share": -0.598,
        "kit_joint": 1.391,
        "told": 0.328,
        "told_mean": -0.663,
        "told_kin": 0.282,
    },
)
CAUTION_WEIGHTS = Weights(
    -6.964,
    {
        "kit": -0.304,
        "kit_log": 0.482,
        "own_like": 6.347,
        "say_like": 2.145,
        "way_like": 3.725,
        "own_cover": 2.015,
        "say_cover": -0.143,
        "way_cover": 0.917,
        "stands_out": 0.658,
        "against_all": 0.696,
        "against_kin": 0.062,
        "length": 0.538,
        "joint": -1.293,
        "second": -7.02,
        "mass": 0.132,
        "step_near": 0.233,
        "kit_named": 0.04,
        "kit_share": -0.166,
        "kit_joint": -0.678,
        "told": 0.1,
        "told_mean": 0.281,
        "told_kin": 0.24,
    },
)
