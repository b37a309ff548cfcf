"""The weights of the evidence, fitted on the tuning half of the labelled films. See docs/film.md for how well they do."""

from __future__ import annotations

from firstpitch.film.evidence import Weights

POINT_WEIGHTS = Weights(
    -3.396,
    {
        "kit": 1.256,
        "kit_log": 0.207,
        "own_like": 0.959,
        "say_like": 0.767,
        "way_like": 0.272,
        "own_cover": 0.401,
        "say_cover": 1.088,
        "way_cover": 1.894,
        "stands_out": 0.505,
        "against_all": 0.69,
        "against_kin": 2.858,
        "length": -1.102,
        "joint": -4.931,
        "second": 0.165,
        "mass": 0.052,
        "step_near": 2.012,
        "kit_named": -0.021,
        "kit_share": -0.465,
        "kit_joint": 1.801,
        "told": 0.29,
        "told_mean": -0.863,
        "told_kin": 0.282,
    },
)
