"""Walking times against a general graph library's shortest paths."""

from __future__ import annotations

import math
from itertools import accumulate

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.sizes import demo_problem, demo_sheet
from firstpitch.catalogue import load
from firstpitch.rounds import WalkRates
from firstpitch.rounds.walking import lay_ground, places_and_walks, stand_at
from firstpitch.sheet.types import Body, Door, Insulation, VanPlan
from tests.outside.walking.ways import Ways, doorway, ways

FINE, COARSE = 0.01, 0.02
MILLIMETRE = 0.001


def check_seconds(seconds: int, metres: float, rates: WalkRates, stepping: bool, slack: float) -> None:
    """``seconds`` are the metres at the pace, and the step up where there is one, rounded up."""
    exact = metres / rates.pace + (rates.step_up if stepping else 0.0)
    off = slack / rates.pace
    assert math.ceil(exact - off) <= seconds <= math.ceil(exact + off), (
        f"{metres:.3f} m, {exact:.3f} s, not {seconds} s"
    )


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_demo_van_walks_are_shortest_paths(name: str) -> None:
    """Between any two standing points of a demo van the round allows the shortest way on foot, and no second more or less."""
    sheet, problem, rates = demo_sheet(name), demo_problem(name), WalkRates()
    laid = ways(sheet.body, sheet.plan, rates, FINE)
    nodes = {}
    for place in problem.places:
        nodes[place.id], away = laid.nearest("aisle" if place.inside else "outside", (place.x, place.y))
        assert away < FINE
    for one in problem.places:
        metres = laid.metres_from(nodes[one.id])
        for other in problem.places:
            seconds = problem.walks[one.id][other.id]
            if one == other:
                assert seconds == 0
            else:
                check_seconds(seconds, metres[nodes[other.id]], rates, one.inside != other.inside, FINE + MILLIMETRE)


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_demo_van_standing_points_are_near(name: str) -> None:
    """Whoever shows a kit stands no further from it than the nearest spot on the line they walk, and half a grid step."""
    sheet, problem, rates = demo_sheet(name), demo_problem(name), WalkRates()
    laid = ways(sheet.body, sheet.plan, rates, FINE)
    places, kits, kinds = {p.id: p for p in problem.places}, sheet.kit_by_id(), load().kinds
    checked = 0
    for step in problem.steps:
        kit = kits.get(step.kit)
        if kit is None or not any(s.at == "self" and step.id == f"{kit.id}.{s.id}" for s in kinds[kit.kind].steps):
            continue
        place = places[step.place]
        assert place.inside == (kinds[kit.kind].stands == "inside")
        _, least = laid.nearest("aisle" if place.inside else "outside", (kit.x, kit.y))
        assert math.dist((kit.x, kit.y), (place.x, place.y)) <= least + rates.grid / 2 + FINE
        checked += 1
    assert checked > 80


@st.composite
def vans(draw: st.DrawFn) -> tuple[Body, VanPlan, WalkRates]:
    """Bodies, doors and aisles of any proportion, and any sort of walker."""
    front, length, width = draw(st.floats(0.8, 2)), draw(st.floats(2.5, 9)), draw(st.floats(1.6, 2.6))
    body = Body(front, length, width, 2.6, None, None, None, 2, Insulation())
    side = draw(st.sampled_from(["nearside", "offside"]))
    door = Door(side, draw(st.floats(front + 0.4, front + length - 0.4)), 0.6, 0.4)
    marks = list(accumulate(draw(st.lists(st.floats(0.1, 0.25), min_size=2, max_size=4))))
    sway = st.floats(-width / 4, width / 4)
    aisle = tuple((front + mark * length, draw(sway)) for mark in marks)
    rates = WalkRates(
        pace=draw(st.floats(0.5, 2)),
        step_up=draw(st.floats(0, 10)),
        clearance=draw(st.floats(0.3, 1.2)),
        grid=draw(st.floats(0.2, 1)),
    )
    return body, VanPlan(door, aisle, (), ()), rates


def clear_cut(laid: Ways, body: Body, plan: VanPlan) -> bool:
    """Whether one spot of the aisle is plainly the nearest to the door."""
    return not laid.rivals("aisle", doorway(body, plan), apart=5 * COARSE, slack=COARSE)


@settings(max_examples=40, deadline=None)
@given(van=vans(), spots=st.lists(st.tuples(st.floats(0, 1), st.floats(-1, 1), st.booleans()), min_size=2, max_size=5))
def test_any_van_walks_are_shortest_paths(
    van: tuple[Body, VanPlan, WalkRates], spots: list[tuple[float, float, bool]]
) -> None:
    """In a van of any shape the seconds from one standing point to another are those of the shortest way on foot."""
    body, plan, rates = van
    laid = ways(body, plan, rates, COARSE)
    assume(clear_cut(laid, body, plan))
    ground = lay_ground(body, plan, rates)
    stands = [
        stand_at(ground, along * body.rear, across * body.width / 2, inside=inside) for along, across, inside in spots
    ]
    named, walks = places_and_walks(ground, stands)
    nodes = {p.id: laid.nearest("aisle" if p.inside else "outside", (p.x, p.y))[0] for p in named.values()}
    for one in named.values():
        metres = laid.metres_from(nodes[one.id])
        for other in named.values():
            if one != other:
                stepping = one.inside != other.inside
                slack = 3 * COARSE + MILLIMETRE if stepping else COARSE + MILLIMETRE
                check_seconds(walks[one.id][other.id], metres[nodes[other.id]], rates, stepping, slack)
