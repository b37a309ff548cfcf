"""Where a person stands and how long the walk takes, on a body 5 m long and 2.2 m wide with a clearance of 0.6 m."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.rounds import WalkRates
from firstpitch.rounds.walking import (
    Spot,
    distance,
    door_spot,
    lay_ground,
    place_words,
    places_and_walks,
    spot_point,
    stand_at,
    walk_seconds,
)
from tests.unit.rounds.kinds import BODY, PLAN

GROUND = lay_ground(BODY, PLAN)
SLANT = math.hypot(1.5 + 0.6, 1.7)
ROUND = 2 * SLANT + 2 * (6.5 + 0.6 - 1.5) + 2 * 1.7
spots = st.builds(
    lambda x, y, inside: stand_at(GROUND, x, y, inside=inside), st.floats(-2, 9), st.floats(-3, 3), st.booleans()
)


def test_once_round() -> None:
    """Once round the van is two slants to the towball, two sides and the rear, all set off by the clearance."""
    assert GROUND.outline_length == pytest.approx(ROUND)


def test_the_shorter_way_round() -> None:
    """From side to side people go round whichever end is nearer."""
    front_near, front_off = stand_at(GROUND, 1.5, 1.1, inside=False), stand_at(GROUND, 1.5, -1.1, inside=False)
    assert distance(GROUND, front_near, front_off) == pytest.approx(2 * SLANT, abs=2 * GROUND.rates.grid)
    rear_near, rear_off = stand_at(GROUND, 6.4, 1.1, inside=False), stand_at(GROUND, 6.4, -1.1, inside=False)
    assert distance(GROUND, rear_near, rear_off) < 6.0


def test_along_the_aisle() -> None:
    """Inside, people walk the aisle: 3 m from x = 2.5 to x = 5.5, whichever side the thing is on."""
    a, b = stand_at(GROUND, 2.5, 0.8, inside=True), stand_at(GROUND, 5.5, -0.8, inside=True)
    assert distance(GROUND, a, b) == pytest.approx(3.0)
    assert walk_seconds(GROUND, a, b) == 3


def test_through_the_door() -> None:
    """From outside the door to the aisle beside it is the clearance and the half width, and the step up costs 3 s once."""
    outside, inside = door_spot(GROUND), stand_at(GROUND, 4.0, 0.0, inside=True)
    assert distance(GROUND, outside, inside) == pytest.approx(0.6 + 1.1)
    assert walk_seconds(GROUND, outside, inside) == math.ceil(0.6 + 1.1 + 3.0)


def test_pace_and_step_up_count() -> None:
    """At half the pace a walk takes twice as long; without a step up the door costs nothing more."""
    slow = lay_ground(BODY, PLAN, WalkRates(pace=0.5, step_up=0.0))
    assert walk_seconds(slow, door_spot(slow), stand_at(slow, 4.0, 0.0, inside=True)) == math.ceil(1.7 / 0.5)


def test_within_reach_is_one_place() -> None:
    """Things 20 cm apart are worked from one place, and no walk takes time between them."""
    one, other = stand_at(GROUND, 2.75, 1.1, inside=False), stand_at(GROUND, 2.95, 1.1, inside=False)
    assert one == other
    assert walk_seconds(GROUND, one, other) == 0


def test_the_closed_line_meets_itself() -> None:
    """A standing point at the very end of the closed line is the one at its beginning."""
    assert stand_at(GROUND, -0.6, -0.01, inside=False) == Spot(0.0, inside=False)
    assert spot_point(GROUND, Spot(0.0, inside=False)) == (-0.6, 0.0)


@given(spots, spots, spots)
def test_walks_are_a_metric(a: Spot, b: Spot, c: Spot) -> None:
    """Walking is the same both ways, takes no time on the spot, and a detour by a third place is never quicker: the bounds rest on that."""
    there = walk_seconds(GROUND, a, b)
    assert there == walk_seconds(GROUND, b, a)
    assert (there == 0) == (a == b)
    assert there <= walk_seconds(GROUND, a, c) + walk_seconds(GROUND, c, b)


@given(spots)
def test_a_standing_point_lies_on_its_line(spot: Spot) -> None:
    """Outside, a person stands clear of the body; inside, on the aisle."""
    x, y = spot_point(GROUND, spot)
    if spot.inside:
        assert y == 0.0
        assert 2.0 <= x <= 6.0
    else:
        assert abs(y) >= 1.1 or x <= BODY.front or x >= BODY.rear


def test_places_are_numbered_along_their_line() -> None:
    """Places get names in order along the line, outside before inside, and each pair a walk."""
    chosen = [stand_at(GROUND, x, y, inside=i) for x, y, i in ((5.0, 1.1, False), (2.0, 1.1, False), (3.0, 0.0, True))]
    named, walks = places_and_walks(GROUND, [*chosen, chosen[0]])
    assert [named[s].id for s in chosen] == ["out-02", "out-01", "in-01"]
    assert set(walks) == {"out-01", "out-02", "in-01"}
    assert all(walks[a][a] == 0 and set(walks[a]) == set(walks) for a in walks)


@pytest.mark.parametrize(
    ("x", "y", "inside", "words"),
    [
        (-0.6, 0.0, False, "at the towball"),
        (2.0, 1.7, False, "nearside, front"),
        (4.2, -1.7, False, "offside, middle"),
        (7.1, 0.0, False, "rear"),
        (5.8, 0.0, True, "inside, rear"),
    ],
)
def test_places_in_words(x: float, y: float, inside: bool, words: str) -> None:
    """A place is told by the side and the third of the van it is at."""
    assert place_words(GROUND, x, y, inside=inside) == words


def test_an_aisle_has_two_points() -> None:
    """An aisle of one point is refused."""
    with pytest.raises(ValueError, match="two points"):
        lay_ground(BODY, replace(PLAN, aisle=((2.0, 0.0),)))


@pytest.mark.parametrize(
    "rates", [WalkRates(pace=0.0), WalkRates(grid=0.0), WalkRates(step_up=-1.0), WalkRates(clearance=-0.1)]
)
def test_rates_must_be_possible(rates: WalkRates) -> None:
    """No pace, no grid, or a negative cost or clearance is refused."""
    with pytest.raises(ValueError, match="above zero"):
        lay_ground(BODY, PLAN, rates)
