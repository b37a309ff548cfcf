"""The way between two places, and the round in time."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from firstpitch.papers import round_svg, way
from firstpitch.papers.drawing.timeline import WIDTH, draw_timeline, timeline_size
from firstpitch.papers.programme import LANES, clock, lanes, minutes_words, programme, stops
from firstpitch.rounds import Place, Plan, Problem, Step, TimedStep, TimedWait, Wait, WalkRates
from tests.demo_rounds import NAMES, demo_round
from tests.unit.papers.svg_reading import by_class, parse, points, rectangle

each_van = pytest.mark.parametrize("name", NAMES)


@each_van
def test_way_is_as_long_as_the_walk(name: str) -> None:
    """The drawn way between any two places is as long as the distance that the round counts."""
    van = demo_round(name)
    rates = WalkRates()
    for a in van.problem.places:
        for b in van.problem.places:
            drawn = sum(math.dist(p, q) for p, q in pairwise(way(van.sheet, a, b)))
            counted = van.problem.walks[a.id][b.id]
            if a.inside == b.inside:
                # Whole seconds, rounded up; the drawn way is rounded to the centimetre.
                assert -0.02 <= counted - drawn / rates.pace < 1.02
            else:
                # The round counts the way in from the wall at a right angle; drawn is the straight line from door to aisle.
                assert 0 <= counted - drawn / rates.pace - rates.step_up < 2


@each_van
def test_way_begins_and_ends_at_its_places(name: str) -> None:
    """The drawn way starts where the person stands and ends at the next place."""
    van = demo_round(name)
    for a, b in pairwise(van.problem.places):
        route = way(van.sheet, a, b)
        assert route[0] == pytest.approx((a.x, a.y), abs=0.01)
        assert route[-1] == pytest.approx((b.x, b.y), abs=0.01)


@each_van
def test_way_goes_round_the_body(name: str) -> None:
    """Between two places outside, nobody walks through the van."""
    van = demo_round(name)
    body, half = van.sheet.body, van.sheet.body.width / 2
    outside = [p for p in van.problem.places if not p.inside]
    for a in outside:
        for b in outside:
            for x, y in way(van.sheet, a, b):
                assert not (body.front < x < body.rear and abs(y) < half)


def small() -> tuple[Problem, Plan]:
    """Three steps at two places with a wait that runs beside, made by hand."""
    places = (
        Place("a", 0.0, 0.0, inside=False),
        Place("b", 3.0, 1.7, inside=False),
        Place("c", 6.0, 0.0, inside=False),
    )
    walks = {p.id: {q.id: 0 if p is q else 20 for q in places} for p in places}
    steps = (
        Step("s1", "k1", "Hose", "water", "Start filling", "a", 120, "must", 0, starts=("w",)),
        Step("s2", "k2", "Lamp", "12v", "Lamp: look at it", "b", 60, "must", 0, owner_try=20),
        Step("s3", "k2", "Lamp", "12v", "Switch off", "b", 40, "may", 3),
    )
    problem = Problem(
        "Test van", "handover", "from-store", {}, (), places, walks, "a", steps, (Wait("w", "k1", "Filling", 300),), ()
    )
    timed = (TimedStep("s1", 0, 120), TimedStep("s2", 140, 200), TimedStep("s3", 200, 240))
    plan = Plan(timed, (TimedWait("w", 120, 420),), (), 240, 240, 3, 3, 1, 0, proven=True)
    return problem, plan


def test_bars_are_as_long_as_their_time() -> None:
    """Every bar of the picture is as long as its step or wait takes, at the scale of the minutes above it."""
    problem, plan = small()
    root = parse(draw_timeline(problem, plan))
    ticks = [points(e)[0][0] for e in by_class(root, "rule")]
    minute = ticks[1] - ticks[0]
    solid = [rectangle(e) for e in by_class(root, "step")]
    assert [w / minute * 60 for _, _, w, _ in solid] == pytest.approx([120, 40, 40], abs=0.1)
    tries = [rectangle(e) for e in by_class(root, "step-try")]
    assert [w / minute * 60 for _, _, w, _ in tries] == pytest.approx([20], abs=0.1)
    waits = [rectangle(e) for e in by_class(root, "wait")]
    assert [(x - ticks[0]) / minute * 60 for x, *_ in waits] == pytest.approx([120], abs=0.1)
    assert [w / minute * 60 for _, _, w, _ in waits] == pytest.approx([300], abs=0.1)


@each_van
def test_whole_round_is_in_the_picture(name: str) -> None:
    """All steps together take as much of the picture as they take time, however many strips it is cut into."""
    van = demo_round(name)
    root = parse(draw_timeline(van.problem, van.plan))
    ticks = [points(e)[0][0] for e in by_class(root, "rule")]
    second = (ticks[1] - ticks[0]) / 300
    drawn = sum(rectangle(e)[2] for cls in ("step", "step-try") for e in by_class(root, cls)) / second
    assert drawn == pytest.approx(sum(t.end - t.start for t in van.plan.steps), rel=0.002)


@each_van
def test_waits_and_their_words_do_not_overlap(name: str) -> None:
    """No wait's bar or words cover another's, and none leaves the picture."""
    van = demo_round(name)
    root = parse(draw_timeline(van.problem, van.plan))
    boxes = [rectangle(e) for e in by_class(root, "wait")]
    for text in (*by_class(root, "name-start"), *by_class(root, "name-end")):
        size, x, y = (float(text.get(key, "nan")) for key in ("font-size", "x", "y"))
        width = len(text.text or "") * size * 0.47
        left = x if text.get("class") == "fp-name-start" else x - width
        boxes.append((left, y - size * 0.7, width, size * 0.7))
        assert left >= 0
        assert left + width <= WIDTH
    bars = boxes[: len(by_class(root, "wait"))]
    for i, (x, y, w, h) in enumerate(boxes):
        for x2, y2, w2, h2 in bars:
            apart = x + w <= x2 + 0.5 or x2 + w2 <= x + 0.5 or y + h <= y2 or y2 + h2 <= y
            inside_own = x >= x2 and x + w <= x2 + w2 and y >= y2 - 1
            assert apart or inside_own or (i < len(bars) and (x, y) == (x2, y2))


def test_picture_is_cut_into_strips() -> None:
    """A round of two and a half hours is drawn in strips of at most sixty minutes, one below the other."""
    problem, plan = small()
    long = replace(plan, steps=(replace(plan.steps[0], end=9000),), total=9000)
    assert len(by_class(parse(draw_timeline(problem, long)), "band")) == 3 * 3
    assert timeline_size(problem, long)[1] > 2.5 * timeline_size(problem, plan)[1]


def test_round_file_stands_alone() -> None:
    """The picture written to a file brings its own colours and asks for nothing outside itself."""
    svg = round_svg(*small())
    assert "<style>" in svg
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")


@each_van
def test_stops_hold_every_step_in_order(name: str) -> None:
    """The programme's stops hold every step of the plan once, in the plan's order, each stop at one place."""
    van = demo_round(name)
    halts = stops(van.problem, van.plan)
    assert [t.step for h in halts for t in h.timed] == [t.step for t in van.plan.steps]
    assert all({s.place for s in h.steps} == {h.place} for h in halts)
    assert all(a.place != b.place for a, b in pairwise(halts))
    assert [h.number for h in halts] == list(range(1, len(halts) + 1))


def test_programme_names_things_once() -> None:
    """Steps on one thing at one stop are said together, without repeating its name, and say where the owner tries."""
    printed = programme(*small(), {"k1": 4, "k2": 9})
    assert [s.time for s in printed.stops] == ["0:00", "2:20"]
    assert printed.stops[1].things[0].mark == "9"
    assert printed.stops[1].things[0].steps == ("Look at it", "Switch off")
    assert printed.stops[1].things[0].tries
    assert not printed.stops[0].things[0].tries
    assert printed.waits == ("Filling: 2:00 to 7:00",)


@each_van
def test_lanes_are_parts_of_the_van(name: str) -> None:
    """Every place belongs to a part of the van: in front, at a side, behind, or in the front or rear of the inside."""
    van = demo_round(name)
    named = lanes(van.problem)
    body, half = van.sheet.body, van.sheet.body.width / 2
    for place in van.problem.places:
        lane = named[place.id]
        assert lane in LANES
        assert lane.startswith("inside") is place.inside
        if lane == "nearside":
            assert place.y > half
        if lane == "rear":
            assert place.x > body.rear - 0.01
        if lane == "front":
            assert place.x < body.front + 0.01


@pytest.mark.parametrize(
    ("seconds", "words"), [(1, "1 second"), (59, "59 seconds"), (61, "2 minutes"), (3600, "1 hour")]
)
def test_lengths_of_time_are_rounded_up(seconds: int, words: str) -> None:
    """A length of time is said in whole minutes, rounded up, so that nobody plans too short."""
    assert minutes_words(seconds) == words


def test_clock_is_minutes_and_seconds() -> None:
    """Times of day are not known; times are minutes and seconds from the start."""
    assert [clock(s) for s in (0, 59, 600, 5999)] == ["0:00", "0:59", "10:00", "1:39:59"]
