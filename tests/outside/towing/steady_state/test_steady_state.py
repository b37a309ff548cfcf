"""The car's part of the model against a textbook example, in the limit of no trailer."""

from __future__ import annotations

import numpy as np

from firstpitch.outfit.steadiness.model import eigenvalues, single_axle


def test_characteristic_speed() -> None:
    """An understeering car has its characteristic speed where the product of its two roots is twice that at very high speed."""
    weight, front, wheelbase, gravity = 20_105.0, 0.535, 2.8, 9.81
    mass, b = weight / gravity, front * wheelbase
    a = wheelbase - b

    def product(speed: float) -> float:
        rig = single_axle(
            m=mass, inertia=mass * a * b, a=a, b=b, h=b + 1, cf=2 * 38_920.0, cr=2 * 38_250.0,
            mt=1e-7, trailer_inertia=1e-7, e=4.0, ct=1e-4, length=4.2,
        )  # fmt: skip
        roots = eigenvalues(rig, speed)
        # The trailer's own two roots are those that do not belong to the car: take the pair nearest the car's closed form.
        trace = -((2 * 38_920 + 2 * 38_250) / mass + (a * a * 2 * 38_920 + b * b * 2 * 38_250) / (mass * a * b)) / speed
        best = min(
            ((roots[i], roots[j]) for i in range(4) for j in range(i)), key=lambda pair: abs(pair[0] + pair[1] - trace)
        )
        return float(np.real(best[0] * best[1]))

    speed = 41.5
    # det = (cf·cr·L²/V² + m(b·cr − a·cf))/(m·I): both terms are equal at the characteristic speed.
    floor = (b * 2 * 38_250 - a * 2 * 38_920) / (mass * a * b)
    found = speed * np.sqrt((product(speed) - floor) / floor)
    assert abs(found - 41.5) < 0.1
