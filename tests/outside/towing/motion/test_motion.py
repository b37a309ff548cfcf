"""The car-trailer model against roots that another author's program found."""

from __future__ import annotations

import numpy as np
import pytest

from firstpitch.outfit.steadiness.model import (
    DIVERGENCE,
    SNAKING,
    Rig,
    characteristic,
    critical_speed,
    eigenvalues,
    fixed_hitch,
    single_axle,
    swing_at,
)


def set_e(e: float) -> Rig:
    """The published "truck trailer" example; ``e`` is the trailer's centre of gravity behind the hitch."""
    return single_axle(
        m=16975 / 9.81, inertia=3508, a=1.289, b=1.596, h=2.7, cf=8e4, cr=8e4, mt=2000, trailer_inertia=3000, e=e, ct=8e4, length=3.0
    )  # fmt: skip


def set_c(**changes: float) -> Rig:
    """A car and caravan of plausible figures."""
    figures = {
        "m": 1700, "inertia": 2900, "a": 1.25, "b": 1.45, "h": 2.55, "cf": 95e3, "cr": 105e3, "mt": 1500,
        "trailer_inertia": 5415, "e": 3.948, "ct": 90e3, "length": 4.2,
    }  # fmt: skip
    return single_axle(**{**figures, **changes})


ROOTS_E = [
    (2.5, 18, [-6.945745384, -1.124476779 + 3.509361609j, -1.124476779 - 3.509361609j, -0.947971223]),
    (2.5, 30, [-5.318579129, -0.680215878 + 3.624556261j, -0.680215878 - 3.624556261j, 0.593408786]),
    (2.7, 10, [-10.19438521, -5.029840136, -1.433093880 + 3.050287244j, -1.433093880 - 3.050287244j]),
    (2.7, 18, [-6.753970314, -0.546288269 + 3.105189929j, -0.546288269 - 3.105189929j, -2.203682649]),
    (2.7, 30, [-5.037996616, -0.230203848 + 2.973399774j, -0.230203848 - 2.973399774j, -0.531733390]),
    (2.9, 18, [-6.475634180, -3.493499636, -0.027260390 + 2.963934951j, -0.027260390 - 2.963934951j]),
    (2.9, 24, [-5.300889979, -2.792177662, 0.287663347 + 2.823469046j, 0.287663347 - 2.823469046j]),
    (2.9, 30, [-4.550776501, -2.418917418, 0.477750581 + 2.694000982j, 0.477750581 - 2.694000982j]),
]
ROOTS_C = [
    (80, [-6.753427454, -3.837931098, -0.141586507 + 3.032329036j, -0.141586507 - 3.032329036j]),
    (100, [-5.776853149, -3.218506772, 0.147867333 + 2.933070661j, 0.147867333 - 2.933070661j]),
]


def _close(found: np.ndarray, printed: list[complex]) -> bool:
    def order(root: complex) -> tuple[float, float]:
        return (round(complex(root).real, 4), complex(root).imag)

    pairs = zip(sorted(found.tolist(), key=order), sorted(map(complex, printed), key=order), strict=True)
    return all(abs(a - b) < 1e-6 for a, b in pairs)


@pytest.mark.parametrize(("e", "speed", "printed"), ROOTS_E)
def test_eigenvalues_set_e(e: float, speed: float, printed: list[complex]) -> None:
    """All four roots of the published example agree with the third party's to a millionth."""
    assert _close(eigenvalues(set_e(e), speed), printed)


@pytest.mark.parametrize(("kmh", "printed"), ROOTS_C)
def test_eigenvalues_set_c(kmh: float, printed: list[complex]) -> None:
    """All four roots of the caravan set agree with the third party's to a millionth."""
    assert _close(eigenvalues(set_c(), kmh / 3.6), printed)


def test_swing_at_set_c() -> None:
    """The swing at 80 km/h has the printed damping and frequency."""
    swing = swing_at(characteristic(set_c()), 80 / 3.6)
    assert abs(float(swing.damping) - 0.04664) < 5e-6
    assert abs(float(swing.frequency) - 0.4831) < 5e-5
    assert abs(float(swing_at(characteristic(set_c()), 100 / 3.6).damping) + 0.05035) < 5e-6


@pytest.mark.parametrize(
    ("rig", "printed", "loss"),
    [
        (set_e(2.9), 18.400055, SNAKING),
        (set_e(3.1), 14.445942, SNAKING),
        (set_c(), 24.635621, SNAKING),
        (set_e(2.7), 36.962347, DIVERGENCE),
        (set_e(2.5), 23.892382, DIVERGENCE),
    ],
)
def test_critical_speed(rig: Rig, printed: float, loss: int) -> None:
    """The speed at which steadiness is lost, and whether by snaking or by divergence."""
    speed, kind = critical_speed(rig)
    assert abs(float(speed) - printed) < 1e-6
    assert int(kind) == loss


def test_swing_at_critical_speed() -> None:
    """At its critical speed the published example swings at the printed rate, neither growing nor dying."""
    root = eigenvalues(set_e(2.9), 18.400055)
    least = root[np.argmin(np.abs(root.real))]
    assert abs(abs(least.imag) - 2.9548) < 5e-5
    assert abs(least.real) < 1e-6


SWEEPS = [
    ("e", [4.2 * (1 - s / 1500) for s in (0, 30, 60, 90, 105, 150)], [19.9481, 21.1025, 22.5846, 24.6356, 26.0377, 35.2595]),
    ("trailer_inertia", [1500 * k * k for k in (1.5, 1.7, 1.9, 2.1, 2.3)], [37.9056, 29.4256, 24.6356, 21.4469, 19.1235]),
    ("ct", [70e3, 90e3, 110e3], [22.2510, 24.6356, 27.3453]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "values", "printed"), SWEEPS)
def test_critical_speed_sweeps(name: str, values: list[float], printed: list[float]) -> None:
    """More noseweight and stiffer tyres raise the critical speed, more yaw inertia lowers it, by the noted amounts."""
    found = [float(critical_speed(set_c(**{name: value}))[0]) for value in values]
    assert np.allclose(found, printed, atol=5e-5)


def test_critical_speed_other_sweeps() -> None:
    """A shorter overhang and a longer drawbar raise the critical speed, by the noted amounts."""
    for changes, printed in (({"h": 2.35}, 25.6404), ({"h": 2.85}, 23.3806)):
        assert abs(float(critical_speed(set_c(**changes))[0]) - printed) < 5e-5
    for length, printed in ((3.8, 21.3502), (4.6, 28.4228)):
        rig = set_c(length=length, e=length * (1 - 90 / 1500))
        assert abs(float(critical_speed(rig)[0]) - printed) < 5e-5


def test_fixed_hitch_limit() -> None:
    """Behind a hitch held straight the trailer has the printed root, and the whole model comes to it with a very heavy car."""
    speed, printed = 100 / 3.6, -0.9924195716 + 3.4845884844j
    assert abs(fixed_hitch(set_c(), speed)[0] - printed) < 1e-6 * abs(printed)
    heavy = set_c(m=1700e7, inertia=2900e7, cf=95e10, cr=105e10)
    near = eigenvalues(heavy, speed)
    assert min(abs(root - fixed_hitch(set_c(), speed)[0]) for root in near) < 1e-4


def test_car_alone_limit() -> None:
    """With almost no trailer the car's own two roots remain, as printed."""
    light = set_c(mt=1e-6, trailer_inertia=1e-6, ct=1e-3)
    found = eigenvalues(light, 100 / 3.6)
    assert min(abs(root - (-4.40922974 + 3.35058986j)) for root in found) < 1e-4
