"""The closed form of the critical speed against a search on the eigenvalues of the whole system."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.linalg import eig
from scipy.optimize import brentq

from firstpitch.outfit.steadiness.model import DIVERGENCE, Rig, critical_speed, matrices, single_axle

SLOW, FAST = 3.0, 90.0


def _growth(rig: Rig, speed: float) -> complex:
    """The fastest growing of the roots that matter, from the generalised eigenproblem of all six."""
    mass, damping, stiffness = matrices(rig)
    none, one = np.zeros((3, 3)), np.eye(3)
    left = np.block([[none, one], [-stiffness, -damping / speed]])
    right = np.block([[one, none], [none, mass]])
    found = eig(left, right, right=False)
    # Place and heading of the whole outfit give two roots of nothing: leave out the two smallest.
    moving = sorted(found, key=abs)[2:]
    return complex(max(moving, key=lambda root: root.real))


def _drawn(seed: int) -> Rig:
    chance = np.random.default_rng(seed)

    def pick(low: float, high: float) -> float:
        return float(chance.uniform(low, high))

    mass, trailer, b, length = pick(1200, 2400), pick(800, 2200), pick(1.2, 1.7), pick(3.6, 5.6)
    a = pick(1.1, 1.5)
    return single_axle(
        m=mass, inertia=mass * a * b * pick(0.8, 1.2), a=a, b=b, h=b + pick(0.8, 1.4),
        cf=pick(6e4, 13e4), cr=pick(8e4, 15e4), mt=trailer, trailer_inertia=trailer * pick(1.3, 2.3) ** 2,
        e=length * (1 - pick(0.0, 0.09)), ct=pick(6e4, 13e4), length=length,
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(40))
def test_critical_speed_against_search(seed: int) -> None:
    """Where growth first passes zero by bisection is where the closed form says, and it is lost in the same way."""
    rig = _drawn(seed)
    speed, loss = (float(part) for part in critical_speed(rig))
    # A coarse walk finds the first bracket, so that a later crossing is never taken for the first.
    steps = np.linspace(SLOW, FAST, 180)
    signs = [_growth(rig, v).real > 1e-7 for v in steps]
    if not any(signs):
        assert speed > FAST - 0.5
        return
    first = signs.index(True)
    assert first > 0, "unsteady at walking pace"
    found = brentq(lambda v: _growth(rig, v).real, steps[first - 1], steps[first], xtol=1e-12, rtol=1e-12)
    root = _growth(rig, found * 1.0005)
    if loss == DIVERGENCE:
        # Near a divergent loss the growing root is among the smallest, so only the swing is told apart for certain.
        assert abs(root.imag) < 1e-6
        return
    assert found == pytest.approx(speed, rel=1e-6)
    assert abs(root.imag) > 0.1
