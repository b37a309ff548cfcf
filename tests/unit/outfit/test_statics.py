"""Levers: what holds for every load."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit.statics import car_axle_changes, centre_of_gravity, lift, nose_share, support, yaw_inertia

points = st.lists(st.tuples(st.floats(0, 500), st.floats(0.2, 8.0)), min_size=1, max_size=12)
one_axle = st.floats(2.5, 6.0).map(lambda at: (at,))
two_axles = st.tuples(st.floats(3.0, 5.0), st.floats(0.6, 1.0)).map(lambda pair: (pair[0], pair[0] + pair[1]))
axles = st.one_of(one_axle, two_axles)
ways = st.sampled_from(["equalised", "independent"])


@given(base=points, load=points, at=axles, way=ways)
def test_support_carries_everything(base, load, at, way) -> None:  # type: ignore[no-untyped-def]
    """Noseweight and axle loads together are the whole mass, however the axles share."""
    found = support(base, load, at, way)
    total = sum(m for m, _ in base + load)
    assert found.nose + sum(found.axles) == pytest.approx(total, abs=1e-6)


@given(load=points, at=axles, way=ways)
def test_support_is_the_sum_of_shares(load, at, way) -> None:  # type: ignore[no-untyped-def]
    """Each mass puts its own share on the ball, whatever else is aboard."""
    found = support([], load, at, way)
    assert found.nose == pytest.approx(sum(m * nose_share(x, at, way) for m, x in load), abs=1e-6)


@given(x=st.floats(0.1, 8.0), at=one_axle)
def test_nose_share_sign_by_side_of_axle(x: float, at: tuple[float, ...]) -> None:
    """Ahead of the axle a mass adds to the noseweight, behind it takes from it, on it does neither."""
    share = nose_share(x, at)
    assert np.sign(round(share, 9)) == np.sign(round(at[0] - x, 9))


@given(at=two_axles, moved=st.floats(-0.3, 0.3), stiffness=st.floats(1e4, 2e5))
def test_lift_keeps_the_sum(at: tuple[float, ...], moved: float, stiffness: float) -> None:
    """Raising the ball only moves load about: what leaves the axles stands on the ball."""
    found = lift(moved, at, stiffness)
    assert found.nose + sum(found.axles) == pytest.approx(0.0, abs=1e-6 * stiffness)
    assert found.nose * moved >= 0


def test_lift_of_one_axle_moves_nothing() -> None:
    """With one axle the height of the ball makes no difference to the loads."""
    found = lift(0.1, (4.2,), 6e4)
    assert found.axles == pytest.approx((0.0,), abs=1e-9)
    assert found.nose == pytest.approx(0.0, abs=1e-9)


@given(nose=st.floats(0, 150), wheelbase=st.floats(2.2, 3.2), overhang=st.floats(0.6, 1.5))
def test_car_axle_changes_carry_the_noseweight(nose: float, wheelbase: float, overhang: float) -> None:
    """What the rear axle gains is the noseweight and what the front axle loses."""
    front, rear = car_axle_changes(nose, wheelbase, overhang)
    assert front + rear == pytest.approx(nose, abs=1e-9)
    assert front <= 0 <= rear


@given(load=points, at=one_axle)
def test_centre_of_gravity_from_noseweight(load, at) -> None:  # type: ignore[no-untyped-def]
    """The centre of gravity reckoned from the noseweight is where the masses balance."""
    total = sum(m for m, _ in load)
    if total < 1:
        return
    middle = sum(m * x for m, x in load) / total
    assert centre_of_gravity(support([], load, at).nose, total, at) == pytest.approx(middle, abs=1e-6)


def test_yaw_inertia_of_one_item() -> None:
    """An item at a distance r from the common centre costs its mass times r squared."""
    masses, x = np.array([1e9, 10.0]), np.array([4.0, 6.0])
    assert yaw_inertia(masses, x) == pytest.approx(10.0 * 2.0**2, rel=1e-6)


def test_no_axle_is_a_slip() -> None:
    """A van without an axle behind the ball is a mistake, not a result."""
    with pytest.raises(ValueError, match="axle"):
        support([], [(1.0, 1.0)], ())
    with pytest.raises(ValueError, match="wheelbase"):
        car_axle_changes(80, 0, 1)
    with pytest.raises(ValueError, match="mass"):
        centre_of_gravity(1, 0, (4.2,))
