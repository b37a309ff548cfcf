"""The linear car and trailer: single track, constant speed, linear tyres, no steering, no air, no friction in the hitch.

q = (car's sideways place, car's heading, trailer's heading); M q̈ + (C/V) q̇ + K q = 0. Two of the six roots are zero (place
and heading do not matter); the other four say whether a disturbance dies away.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

STEADY, SNAKING, DIVERGENCE = 0, 1, 2


@dataclass(frozen=True)
class Rig:
    """One outfit, or arrays of n of them.

    ``m``, ``inertia`` of the car [kg, kg·m²]; ``a``, ``b`` from its centre of gravity to front and rear axle [m]; ``h`` to the
    towball [m]; ``cf``, ``cr`` cornering stiffness of its axles [N/rad]. ``mt``, ``trailer_inertia`` about its own centre of
    gravity; ``e`` towball to that centre [m]; ``ct``, ``ctl``, ``ctl2``: ΣC, ΣC·l, ΣC·l² over the trailer's axles, l being the
    distance from the towball.
    """

    m: ArrayLike
    inertia: ArrayLike
    a: ArrayLike
    b: ArrayLike
    h: ArrayLike
    cf: ArrayLike
    cr: ArrayLike
    mt: ArrayLike
    trailer_inertia: ArrayLike
    e: ArrayLike
    ct: ArrayLike
    ctl: ArrayLike
    ctl2: ArrayLike


def single_axle(
    *,
    m: ArrayLike,
    inertia: ArrayLike,
    a: ArrayLike,
    b: ArrayLike,
    h: ArrayLike,
    cf: ArrayLike,
    cr: ArrayLike,
    mt: ArrayLike,
    trailer_inertia: ArrayLike,
    e: ArrayLike,
    ct: ArrayLike,
    length: ArrayLike,
) -> Rig:
    """A rig whose trailer has one axle at ``length`` behind the towball [m]."""
    stiff, far = np.asarray(ct, dtype=float), np.asarray(length, dtype=float)
    return Rig(m, inertia, a, b, h, cf, cr, mt, trailer_inertia, e, stiff, stiff * far, stiff * far**2)


def matrices(rig: Rig) -> tuple[Floats, Floats, Floats]:
    """M, C (times speed) and K, each of shape (…, 3, 3)."""
    m, inertia, a, b, h, cf, cr, mt, it, e, ct, ctl, ctl2 = np.broadcast_arrays(
        *(np.asarray(value, dtype=float) for value in vars(rig).values())
    )
    mass = [
        [m + mt, -h * mt, -e * mt],
        [-h * mt, inertia + h**2 * mt, e * h * mt],
        [-e * mt, e * h * mt, it + e**2 * mt],
    ]
    turn = a * cf - b * cr - h * ct
    damping = [[cf + cr + ct, turn, -ctl], [turn, a**2 * cf + b**2 * cr + h**2 * ct, h * ctl], [-ctl, h * ctl, ctl2]]
    none = np.zeros_like(m)
    stiffness = [[none, -(cf + cr), -ct], [none, -a * cf + b * cr, h * ct], [none, none, ctl]]
    return _stack(mass), _stack(damping), _stack(stiffness)


def _stack(rows: list[list[Floats]]) -> Floats:
    return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)


def _determinant(first: Floats, second: Floats, third: Floats) -> Floats:
    """Of the 3 × 3 matrices with these columns."""
    return np.asarray(np.einsum("...i,...i->...", first, np.cross(second, third)))


@dataclass(frozen=True)
class Characteristic:
    """The polynomial p4·s⁴ + p3·u·s³ + (p2 + q2·u²)·s² + (p1·u + q1·u³)·s + (p0 + q0·u²) with u = 1/V, for each rig."""

    p4: Floats
    p3: Floats
    p2: Floats
    q2: Floats
    p1: Floats
    q1: Floats
    p0: Floats
    q0: Floats

    def at(self, speed: ArrayLike) -> Floats:
        """Its five coefficients, highest power first, at a speed [m/s]; shape (…, 5)."""
        u = 1 / np.asarray(speed, dtype=float)
        return np.stack(
            np.broadcast_arrays(
                self.p4, self.p3 * u, self.p2 + self.q2 * u**2, self.p1 * u + self.q1 * u**3, self.p0 + self.q0 * u**2
            ),
            axis=-1,
        )


def characteristic(rig: Rig) -> Characteristic:
    """The characteristic polynomial without its two zero roots: det(M s² + C u s + K)/s², column by column."""
    parts = matrices(rig)
    sums: dict[tuple[int, int], Floats] = {}
    for choice in product(range(3), repeat=3):
        columns = [parts[which][..., :, place] for place, which in enumerate(choice)]
        key = (choice.count(0), choice.count(1))
        value = _determinant(*columns)
        sums[key] = sums[key] + value if key in sums else value
    return Characteristic(
        sums[3, 0], sums[2, 1], sums[2, 0], sums[1, 2], sums[1, 1], sums[0, 3], sums[1, 0], sums[0, 2]
    )


def eigenvalues(rig: Rig, speed: ArrayLike) -> Complexes:
    """The four roots [1/s] at a speed [m/s], shape (…, 4). Raises ValueError for a speed of zero or below.

    Check: a published example ("truck trailer") through another author's program gives −0.5462883 ± 3.1051899i.

    >>> rig = single_axle(m=16975 / 9.81, inertia=3508, a=1.289, b=1.596, h=2.7, cf=8e4, cr=8e4, mt=2000,
    ...                   trailer_inertia=3000, e=2.7, ct=8e4, length=3.0)
    >>> np.round(sorted(eigenvalues(rig, 18.0), key=lambda root: root.imag)[-1], 7)
    np.complex128(-0.5462883+3.1051899j)
    """
    if np.any(np.asarray(speed) <= 0):
        raise ValueError("the speed must be above zero")
    return roots(characteristic(rig).at(speed))


def roots(coefficients: Floats) -> Complexes:
    """Roots of quartics given as (…, 5), highest power first, as eigenvalues of their companion matrices."""
    scaled = coefficients[..., 1:] / coefficients[..., :1]
    companion = np.zeros((*scaled.shape[:-1], 4, 4))
    companion[..., 0, :] = -scaled
    companion[..., 1, 0] = companion[..., 2, 1] = companion[..., 3, 2] = 1.0
    return np.asarray(np.linalg.eigvals(companion), dtype=np.complex128)


def critical_speed(rig: Rig) -> tuple[Floats, NDArray[np.int64]]:
    """The lowest speed [m/s] at which a disturbance no longer dies away, and how it is lost: 1 snaking, 2 divergence, 0 never.

    Exact for the model: with w = 1/V² the condition of Routh and Hurwitz for a swinging loss is a quadratic in w, and that for
    a creeping one (jack-knife) is linear; the largest positive root is met first. Infinite where there is none.

    Computed here and bracketed by another author's program: 24.635621 m/s for a car and caravan of plausible figures.

    >>> rig = single_axle(m=1700, inertia=2900, a=1.25, b=1.45, h=2.55, cf=95e3, cr=105e3, mt=1500, trailer_inertia=5415,
    ...                   e=3.948, ct=9e4, length=4.2)
    >>> speed, loss = critical_speed(rig)
    >>> round(float(speed), 6), int(loss) == SNAKING
    (24.635621, True)
    """
    poly = characteristic(rig)
    swing = poly.p3 * poly.q2 - poly.p4 * poly.q1
    creep = poly.p3 * poly.p2 - poly.p4 * poly.p1
    a = poly.q1 * swing
    b = poly.p1 * swing + poly.q1 * creep - poly.p3**2 * poly.q0
    c = poly.p1 * creep - poly.p3**2 * poly.p0
    snaking = _largest_root(a, b, c)
    with np.errstate(divide="ignore", invalid="ignore"):
        line = np.where(poly.q0 > 0, -poly.p0 / poly.q0, np.inf)
    divergence = np.where(line > 0, line, 0.0)
    first = np.maximum(snaking, divergence)
    with np.errstate(divide="ignore"):
        speed = 1 / np.sqrt(first)
    loss = np.where(first <= 0, STEADY, np.where(divergence >= snaking, DIVERGENCE, SNAKING))
    return np.asarray(speed), np.asarray(loss, dtype=np.int64)


def _largest_root(a: Floats, b: Floats, c: Floats) -> Floats:
    """The largest positive root of a·w² + b·w + c, zero where none; infinite where a ≤ 0: unsteady at every low speed."""
    inside = b**2 - 4 * a * c
    root = np.sqrt(np.maximum(inside, 0.0))
    # The stable form of the larger root: never a difference of two nearly equal figures.
    half = -(b + np.where(b >= 0, root, -root)) / 2
    with np.errstate(divide="ignore", invalid="ignore"):
        one = np.where(a != 0, half / a, 0.0)
        other = np.where(half != 0, c / half, 0.0)
    best = np.where(inside >= 0, np.maximum(one, other), 0.0)
    return np.asarray(np.where(a <= 0, np.inf, np.maximum(best, 0.0)))


@dataclass(frozen=True)
class Swing:
    """The least damped swing at a speed: damping ratio ζ = −Re/|λ| (below zero it grows), frequency [Hz], and whether a
    root without swing grows (divergence). ζ is 1 where nothing swings."""

    damping: Floats
    frequency: Floats
    diverging: NDArray[np.bool_]


def swing_at(poly: Characteristic, speed: float) -> Swing:
    """The least damped swing of every rig at a speed [m/s]."""
    found = roots(poly.at(speed))
    size = np.abs(found)
    swinging = np.abs(found.imag) > 1e-9 * (1 + size)
    ratio = np.where(swinging, -found.real / np.where(size > 0, size, 1.0), np.inf)
    which = np.argmin(ratio, axis=-1)[..., None]
    damping = np.take_along_axis(ratio, which, axis=-1)[..., 0]
    length = np.take_along_axis(size, which, axis=-1)[..., 0]
    any_swing = np.isfinite(damping)
    return Swing(
        np.where(any_swing, damping, 1.0),
        np.where(any_swing, length / (2 * np.pi), 0.0),
        np.asarray(((found.real > 0) & ~swinging).any(axis=-1)),
    )


def fixed_hitch(rig: Rig, speed: ArrayLike) -> Complexes:
    """The two roots of the trailer behind a hitch held straight: (It + mt·e²)φ̈ + (ΣCl²/V)φ̇ + ΣCl·φ = 0; always steady.

    >>> rig = single_axle(m=1, inertia=1, a=1, b=1, h=1, cf=1, cr=1, mt=1500, trailer_inertia=5415, e=3.948, ct=9e4, length=4.2)
    >>> np.round(fixed_hitch(rig, 100 / 3.6)[0], 5)
    np.complex128(-0.99242+3.48459j)
    """
    turning = np.asarray(rig.trailer_inertia) + np.asarray(rig.mt) * np.asarray(rig.e) ** 2
    half = np.asarray(rig.ctl2) / np.asarray(speed) / turning / 2
    inside = np.asarray(half**2 - np.asarray(rig.ctl) / turning, dtype=np.complex128)
    root = np.sqrt(inside)
    return np.stack([-half + root, -half - root], axis=-1)
