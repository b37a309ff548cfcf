"""Reactions of a beam: what each mass puts on the ball and on the axles."""

from __future__ import annotations

from itertools import pairwise

import pytest
import sympy
from anastruct import SystemElements
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.physics.continuum_mechanics.beam import Beam

from firstpitch.outfit.statics import lift, support

CASE = [(1200.0, 3.95), (60.0, 3.8), (40.0, 1.2), (30.0, 6.5)]


def _by_sympy(points: list[tuple[float, float]], axle: float) -> tuple[float, float]:
    """Reactions at ball and axle, by sympy's beam solver in exact fractions."""
    nose, wheel = sympy.symbols("nose wheel")
    length = sympy.nsimplify(max(axle, *(x for _, x in points)) + 1)
    beam = Beam(length, 1, 1)
    beam.apply_load(nose, 0, -1)
    beam.apply_load(wheel, sympy.nsimplify(axle), -1)
    for mass, x in points:
        beam.apply_load(-sympy.nsimplify(mass), sympy.nsimplify(x), -1)
    beam.bc_deflection = [(0, 0), (sympy.nsimplify(axle), 0)]
    beam.solve_for_reaction_loads(nose, wheel)
    return float(beam.reaction_loads[nose]), float(beam.reaction_loads[wheel])


def _by_frame(points: list[tuple[float, float]], axles: list[float], stiffness: float | None = None) -> list[float]:
    """Reactions at ball and axles, by a frame solver: rigid members, rigid or sprung supports."""
    frame = SystemElements(EA=1e9, EI=1e9)
    xs = sorted({0.0, *axles, *(x for _, x in points)})
    for left, right in pairwise(xs):
        frame.add_element([[left, 0], [right, 0]])
    where = {x: frame.find_node_id([x, 0]) for x in xs}
    frame.add_support_hinged(where[0.0])
    for axle in axles:
        if stiffness is None:
            frame.add_support_roll(where[axle])
        else:
            frame.add_support_spring(where[axle], translation=2, k=stiffness)
    at: dict[float, float] = {}
    for mass, x in points:
        at[x] = at.get(x, 0.0) + mass
    for x, mass in at.items():
        frame.point_load(where[x], Fy=-mass)
    frame.solve()
    return [-float(frame.get_node_results_system(where[x])["Fy"]) for x in (0.0, *axles)]


def test_support_worked_case() -> None:
    """The worked case: 1240.714 kg on the axle and 89.286 kg on the ball, by sympy, by the frame solver and by us."""
    found = support([], CASE, (4.2,))
    nose, axle = _by_sympy(CASE, 4.2)
    assert found.nose == pytest.approx(nose, rel=1e-12)
    assert found.axles[0] == pytest.approx(axle, rel=1e-12)
    assert nose == pytest.approx(89.2857142857, abs=1e-9)
    frame = _by_frame(CASE, [4.2])
    assert [found.nose, found.axles[0]] == pytest.approx(frame, rel=1e-6)


places = st.lists(
    st.tuples(st.integers(1, 300).map(float), st.integers(1, 75).map(lambda n: n / 10)), min_size=1, max_size=6
)


@settings(max_examples=25, deadline=None)
@given(points=places, axle=st.integers(30, 55).map(lambda n: n / 10))
def test_support_against_sympy(points: list[tuple[float, float]], axle: float) -> None:
    """Any masses on one axle: the same reactions as sympy's beam."""
    found = support([], points, (axle,))
    nose, wheel = _by_sympy(points, axle)
    assert found.nose == pytest.approx(nose, abs=1e-9)
    assert found.axles[0] == pytest.approx(wheel, abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(points=places, axle=st.integers(30, 55).map(lambda n: n / 10))
def test_support_against_frame(points: list[tuple[float, float]], axle: float) -> None:
    """Any masses on one axle: the same reactions as the frame solver."""
    found = support([], points, (axle,))
    frame = _by_frame(points, [axle])
    assert found.nose == pytest.approx(frame[0], abs=1e-3)
    assert found.axles[0] == pytest.approx(frame[1], abs=1e-3)


def test_independent_springs_against_frame() -> None:
    """Load on two axles with springs of their own is shared as by a stiff beam on a hinge and two equal springs."""
    points = [(60.0, 3.8), (40.0, 1.2), (30.0, 6.5)]
    found = support([], points, (4.0, 4.8), "independent")
    # Soft springs under a stiff beam: the beam turns about the ball and hardly bends.
    nose, first, second = _by_frame(points, [4.0, 4.8], stiffness=1e3)
    assert found.nose == pytest.approx(nose, rel=1e-4)
    assert found.axles == pytest.approx((first, second), rel=1e-4)


def test_lift_against_frame() -> None:
    """Raising the ball by 5 cm moves load between the axles as the frame solver's imposed displacement does."""
    z, stiffness = 0.05, 60e3
    # Raising the ball by z equals sinking both springs' feet by z, which is a force k·z downwards at each.
    pushed = [(stiffness * z, 4.0), (stiffness * z, 4.8)]
    nose, first, second = _by_frame(pushed, [4.0, 4.8], stiffness=stiffness)
    found = lift(z, (4.0, 4.8), stiffness)
    assert found.nose == pytest.approx(nose, abs=0.5)
    assert found.axles[0] == pytest.approx(first - stiffness * z, abs=0.5)
    assert found.axles[1] == pytest.approx(second - stiffness * z, abs=0.5)
