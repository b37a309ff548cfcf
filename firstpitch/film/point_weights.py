"""The weights by which a point is found, fitted on the labelled films. See docs/film.md for how well they do on films left out."""

from __future__ import annotations

from firstpitch.film.evidence import Weights

# A point in one window by itself; the names are those of ``evidence.FEATURES``.
ALONE_WEIGHTS = Weights(
    -3.948,
    {
        "kit": 2.337,
        "way_cover": 1.799,
        "against_all": 0.020,
        "against_kin": 1.400,
        "mass": 0.080,
        "step_near": 2.223,
        "kit_share": 0.263,
        "told": 0.151,
        "told_kin": -0.047,
        "pure_mean": -1.604,
        "pure_share": 0.370,
        "words_share": -0.081,
        "both_share": 0.036,
        "share_in_kind": 0.205,
        "share_in_group": -0.138,
        "share_with_kit": 0.025,
    },
)
# A point together with the rest of the film: the names of ``context.CONTEXT``, then of ``evidence.FEATURES``, then products of two.
CONTEXT_WEIGHTS = Weights(
    -0.551,
    {
        "alone": 0.107,
        "share": 0.185,
        "odds_lead": 0.034,
        "against_cautions": -0.160,
        "kit_caution": 0.183,
        "any_caution": -0.138,
        "step_by": 0.039,
        "step_rate": 0.772,
        "kit_rate": 0.954,
        "before": 0.140,
        "after": 0.155,
        "again": 0.114,
        "must": 0.434,
        "first": 0.449,
        "points": -0.793,
        "words": 0.552,
        "kit_lead": 0.021,
        "step_lead": -0.145,
        "kit": 0.165,
        "way_cover": 1.303,
        "against_all": -0.491,
        "against_kin": 1.794,
        "mass": 0.088,
        "step_near": -0.864,
        "kit_share": -0.218,
        "told": 0.057,
        "told_kin": 0.053,
        "pure_mean": -0.790,
        "pure_share": 0.304,
        "words_share": -0.061,
        "both_share": 0.073,
        "share_in_kind": -0.118,
        "share_in_group": -0.165,
        "share_with_kit": -0.018,
        "step_near*share_in_group": 0.514,
        "kit_share*kit_share": -0.339,
        "share*before": 0.336,
        "words_share*share_in_kind": -0.313,
        "must*kit_share": 0.243,
        "step_rate*step_lead": 0.207,
    },
)
# The middle and the spread of each input that stands in a product, over the labelled films.
MIDDLE = {
    "step_near": (0.31, 0.33),
    "share_in_group": (-0.76, 1.75),
    "kit_share": (1.64, 0.85),
    "share": (-2.61, 2.20),
    "before": (-2.03, 2.85),
    "words_share": (-3.41, 2.96),
    "share_in_kind": (-1.20, 2.06),
    "must": (0.66, 0.47),
    "step_rate": (0.43, 0.35),
    "step_lead": (0.46, 2.35),
}
