"""Clamp force and torque against printed examples."""

from __future__ import annotations

import pytest

from firstpitch.outfit.wheels import clamp_force, clamps, torque_for
from firstpitch.sheet.units import parse


def test_torque_for_printed() -> None:
    """M12 of grade 8.8 at 70 % of its proof load, dry: 34 kN of clamp force from 82 N·m."""
    force = 0.7 * 580e6 * 84.3e-6
    assert abs(force - 34_000) < 500
    assert abs(torque_for(force, 0.012, 0.2) - 82) < 0.5


@pytest.mark.parametrize(("friction", "printed"), [(0.15, 45_000), (0.3, 23_000)])
def test_clamp_force_other_friction_printed(friction: float, printed: float) -> None:
    """The same 82 N·m clamps far harder on a greased thread, and far less on a rusty one."""
    assert abs(clamp_force(82, 0.012, friction) - printed) < 1000


def test_clamp_force_m10_printed() -> None:
    """M10 at 50 N·m, dry: 25 kN, which is 431 MPa in its stress area."""
    m10 = next(clamp for clamp in clamps(50) if clamp.thread == "M10" and clamp.grade == "8.8")
    assert abs(m10.dry - 25_000) < 1
    assert abs(m10.dry_share * 580 - 431) < 0.5


def test_grease_passes_proof_load() -> None:
    """130 N·m is within the proof load of M12 fine, grade 10.9, when dry, and past it when greased: the reason for "no grease"."""
    fine = next(clamp for clamp in clamps(130) if clamp.thread == "M12x1.5" and clamp.grade == "10.9")
    coarse = next(clamp for clamp in clamps(130) if clamp.thread == "M12" and clamp.grade == "10.9")
    assert fine.dry_share < 1
    assert coarse.greased_share > 1


@pytest.mark.parametrize(("feet", "printed"), [(65, 88), (85, 115), (96, 130)])
def test_torque_units_printed(feet: float, printed: float) -> None:
    """Handbooks print the same torque in both units."""
    assert abs(parse(f"{feet} lbf·ft", "N·m").si - printed) < 0.5
