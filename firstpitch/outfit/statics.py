"""Levers: what each mass puts on the towball and on the axles. Masses and weights in kg, x rearwards from the towball [m]."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Springs = Literal["equalised", "independent"]
Points = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class Support:
    """How a level van's weight is borne: on the ball [kg] and on each axle, front to rear [kg]."""

    nose: float
    axles: tuple[float, ...]


def nose_share(x: float, axles: Sequence[float], springs: Springs = "equalised") -> float:
    """The share of a mass at ``x`` that lands on the towball: positive ahead of the axles, negative behind them.

    One axle at L, or several that share their load equally (L their mean): 1 − x/L. Two on springs of their own, of one
    stiffness: 1 − x·ΣL/ΣL². Raises ValueError without an axle behind the ball.

    >>> nose_share(1.2, (4.2,)), nose_share(4.2, (4.2,))
    (0.7142857142857143, 0.0)
    """
    if not axles or min(axles) <= 0:
        raise ValueError("a van needs at least one axle behind the towball")
    if springs == "independent" and len(axles) > 1:
        return 1 - x * sum(axles) / sum(axle * axle for axle in axles)
    return 1 - x * len(axles) / sum(axles)


def support(base: Points, load: Points, axles: Sequence[float], springs: Springs = "equalised") -> Support:
    """How masses ``(mass, x)`` are borne. Moments about the ball: S = Σm(L − x)/L, A = Σm·x/L, S + A = Σm.

    ``base`` is what the van weighs when its axles stand equally loaded and level; ``load`` comes on top. On springs of their
    own the axles take the load in proportion to their distance from the ball: ΔAᵢ = ΔM·Lᵢ/ΣL².

    Computed and confirmed with a beam solver (no printed figure): 1240.71 kg on the axle, 89.29 kg on the ball.

    >>> found = support([(1200, 3.95)], [(60, 3.8), (40, 1.2), (30, 6.5)], (4.2,))
    >>> round(found.nose, 7), round(found.axles[0], 7)
    (89.2857143, 1240.7142857)
    """
    nose_share(0.0, axles, springs)
    number, mean = len(axles), sum(axles) / len(axles)
    base_each = sum(m * x for m, x in base) / mean / number
    moment = sum(m * x for m, x in load)
    if springs == "independent":
        squares = sum(axle * axle for axle in axles)
        each = tuple(base_each + moment * axle / squares for axle in axles)
    else:
        each = (base_each + moment / mean / number,) * number
    total = sum(m for m, _ in base) + sum(m for m, _ in load)
    return Support(total - sum(each), each)


@dataclass(frozen=True)
class Lift:
    """What raising the coupling does: pitch [rad], change of each axle's load and of the load on the ball [N]."""

    pitch: float
    axles: tuple[float, ...]
    nose: float


def lift(raised: float, axles: Sequence[float], stiffness: float) -> Lift:
    """The effect of a ball that stands ``raised`` [m] above the height at which the axles were equally loaded.

    Axles on springs of their own, each of ``stiffness`` [N/m]: θ = z·ΣL/ΣL², ΔAᵢ = −k(z − θ·Lᵢ), ΔS = k·z·(n − (ΣL)²/ΣL²).
    Raising the ball relieves the front axle, loads the rear one, and adds to the noseweight.

    Computed here (no printed figure), confirmed with a frame solver.

    >>> found = lift(0.05, (4.0, 4.8), 60e3)
    >>> round(found.pitch, 8), [round(a, 2) for a in found.axles], round(found.nose, 2)
    (0.01127049, [-295.08, 245.9], 49.18)
    """
    total, squares = sum(axles), sum(axle * axle for axle in axles)
    pitch = raised * total / squares
    return Lift(
        pitch,
        tuple(-stiffness * (raised - pitch * axle) for axle in axles),
        stiffness * raised * (len(axles) - total * total / squares),
    )


def car_axle_changes(noseweight: float, wheelbase: float, overhang: float) -> tuple[float, float]:
    """What a noseweight [kg] adds to the car's front (negative: takes off) and rear axle: −S·o/w and S(w + o)/w.

    >>> [round(change, 3) for change in car_axle_changes(90, 2.7, 1.1)]
    [-36.667, 126.667]
    """
    if wheelbase <= 0:
        raise ValueError("the wheelbase must be above zero")
    return -noseweight * overhang / wheelbase, noseweight * (wheelbase + overhang) / wheelbase


def centre_of_gravity(noseweight: float, mass: float, axles: Sequence[float]) -> float:
    """x of the centre of gravity [m] from a reading on the ball with the axles equally loaded: L·(1 − S/M).

    >>> round(centre_of_gravity(89.2857143, 1330, (4.2,)), 6)
    3.918045
    """
    if mass <= 0:
        raise ValueError("the mass must be above zero")
    return sum(axles) / len(axles) * (1 - noseweight / mass)


def yaw_inertia(
    masses: NDArray[np.float64], x: NDArray[np.float64], y: NDArray[np.float64] | None = None, own: float = 0.0
) -> float:
    """Yaw inertia about the common centre of gravity [kg·m²]: own + Σm((x − x̄)² + (y − ȳ)²).

    ``own`` sums the parts' inertias about their own middles; without ``y`` all is taken to lie on the centre line.

    >>> yaw_inertia(np.array([1.0, 1.0]), np.array([0.0, 2.0]))
    2.0
    """
    total = float(masses.sum())
    if total <= 0:
        return own
    across = np.zeros_like(x) if y is None else y
    middle, side = float(masses @ x) / total, float(masses @ across) / total
    return own + float(masses @ ((x - middle) ** 2 + (across - side) ** 2))
