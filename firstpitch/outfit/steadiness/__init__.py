"""The linear car-trailer model: compares loadings, tells snaking from divergence, certifies no speed."""

from firstpitch.outfit.steadiness.compare import (
    CAUTION,
    Band,
    Compared,
    Loss,
    Steadiness,
    SteadinessComparison,
    compare_steadiness,
)
from firstpitch.outfit.steadiness.estimate import Range, ranges
from firstpitch.outfit.steadiness.model import Rig, critical_speed, eigenvalues, single_axle

__all__ = [
    "CAUTION",
    "Band",
    "Compared",
    "Loss",
    "Range",
    "Rig",
    "Steadiness",
    "SteadinessComparison",
    "compare_steadiness",
    "critical_speed",
    "eigenvalues",
    "ranges",
    "single_axle",
]
