"""The line drawing of the van: to scale, every mark at its place, none covering another, any text safe."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch.papers.drawing import VIEWS, Mark, draw
from firstpitch.papers.drawing.ink import Picture
from firstpitch.papers.drawing.marks import RADIUS, place
from firstpitch.papers.drawing.shell import draw_plan, tyre_size
from firstpitch.papers.drawing.views import frame, share
from firstpitch.papers.numbering import number_kit
from firstpitch.sheet import BuildSheet
from tests.demo_rounds import NAMES, demo_round
from tests.unit.papers.svg_reading import by_class, discs, parse, points, rectangle

each_van = pytest.mark.parametrize("name", NAMES)
each_view = pytest.mark.parametrize("view", VIEWS)


def sheet(name: str = "wren") -> BuildSheet:
    return demo_round(name).sheet


def marks(name: str = "wren") -> tuple[Mark, ...]:
    van = demo_round(name)
    return tuple(n.mark for n in number_kit(van.sheet, van.catalogue))


@each_van
def test_plan_is_to_scale(name: str) -> None:
    """In the plan, the body is as long and as wide as on the sheet, by the one-metre bar drawn on it."""
    root, van = parse(draw(sheet(name))), sheet(name)
    body = next(e for e in by_class(root, "body") if e.tag.endswith("rect"))
    bar = points(by_class(root, "scale")[0])
    metre = bar[2][0] - bar[1][0]
    _, _, width, height = rectangle(body)
    assert width / metre == pytest.approx(van.body.length, abs=0.005)
    assert height / metre == pytest.approx(van.body.width, abs=0.005)


@each_van
def test_sides_have_the_scale_of_the_plan(name: str) -> None:
    """Body length, width and height come out at the plan's scale in the side views, and the wheels stand on the ground."""
    van = sheet(name)
    scale = frame(van, "plan").scale
    side = points(by_class(parse(draw(van, "nearside")), "body")[0])
    front_root = parse(draw(van, "front"))
    front = points(by_class(front_root, "body")[0])
    assert (max(x for x, _ in side) - min(x for x, _ in side)) / scale == pytest.approx(van.body.length, abs=0.05)
    assert (max(x for x, _ in front) - min(x for x, _ in front)) / scale == pytest.approx(van.body.width, abs=0.01)
    ground = points(by_class(front_root, "ground")[0])[0][1]
    assert (ground - min(y for _, y in front)) / scale == pytest.approx(van.body.height, abs=0.01)
    wheel = rectangle(by_class(front_root, "wheel")[0])
    assert wheel[1] + wheel[3] == pytest.approx(ground, abs=0.01)


@each_van
def test_wheels_stand_at_the_axles(name: str) -> None:
    """Seen from the nearside, each wheel's middle is at its axle's distance from the towball, at the tyre's own size."""
    van, view = sheet(name), frame(sheet(name), "nearside")
    root = parse(draw(van, "nearside"))
    towball = float(by_class(root, "ball")[0].get("cx", "nan"))
    wheels = by_class(root, "wheel")
    found = [(float(w.get("cx", "nan")) - towball) / view.scale for w in wheels]
    assert found == pytest.approx(list(van.gear.axles), abs=0.001)
    diameter = tyre_size(van.gear.tyre.size).diameter
    assert [2 * float(w.get("r", "nan")) / view.scale for w in wheels] == pytest.approx(
        [diameter] * len(found), abs=0.001
    )


def test_towball_stands_left_except_from_the_offside() -> None:
    """Plan and nearside have the towball left of the body; from the offside, as you stand there, it is on the right."""
    for view, left in (("plan", True), ("nearside", True), ("offside", False)):
        root = parse(draw(sheet(), view))
        ball = float(by_class(root, "ball")[0].get("cx", "nan"))
        body = by_class(root, "body")[0]
        edge = rectangle(body)[0] if body.tag.endswith("rect") else min(x for x, _ in points(body))
        assert (ball < edge) is left


def test_nearside_is_at_the_bottom_of_the_plan() -> None:
    """A kit on the nearside stands lower in the plan than one on the offside."""
    view = frame(sheet(), "plan")
    assert view.at(2.0, 1.0)[1] > view.at(2.0, -1.0)[1]


@each_van
@each_view
def test_no_mark_covers_another_or_leaves_the_paper(name: str, view: str) -> None:
    """In every view of every demo van no two marks overlap, and all stand on the paper."""
    root = parse(draw(sheet(name), view, marks=marks(name)))  # type: ignore[arg-type]
    width, height = (float(v) for v in root.get("viewBox", "").split()[2:])
    found = discs(root)
    for i, a in enumerate(found):
        assert a.r <= a.x <= width - a.r
        assert a.r <= a.y <= height - a.r
        assert all(math.dist((a.x, a.y), (b.x, b.y)) > a.r + b.r for b in found[i + 1 :])


@each_van
def test_every_kit_is_in_the_plan_once(name: str) -> None:
    """The plan shows the number of every kit on the sheet, each once."""
    found = discs(parse(draw(sheet(name), marks=marks(name))))
    assert sorted(int(d.number) for d in found) == list(range(1, len(sheet(name).kit) + 1))


@each_van
def test_every_mark_leads_to_its_real_place(name: str) -> None:
    """A mark is drawn at its kit's real place, or a line leads from the mark to a dot exactly there."""
    van, view = sheet(name), frame(sheet(name), "plan")
    root = parse(draw(van, marks=marks(name)))
    ends = {tuple(points(leader)) for leader in by_class(root, "leader")}
    for disc, mark in zip(discs(root), marks(name), strict=True):
        real = view.at(mark.x, mark.y)
        if math.dist(real, (disc.x, disc.y)) > 1.0:
            assert any(math.dist(a, real) < 0.02 and math.dist(b, (disc.x, disc.y)) < 0.02 for a, b in ends), mark.name


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(0.05, 0.98), st.floats(-1, 1), st.booleans()), min_size=1, max_size=60))
def test_marks_keep_apart_wherever_kit_stands(spots: list[tuple[float, float, bool]]) -> None:
    """However up to 60 kits are placed, marks never overlap, and those reached from inside stay inside the body."""
    van = sheet("plover")
    view = frame(van, "plan")
    every = [
        Mark(str(i), "", van.body.rear * x, van.body.width / 2 * y, None, inside and van.body.rear * x > van.body.front)
        for i, (x, y, inside) in enumerate(spots, 1)
    ]
    placed = place(view, van, every)
    left, top = view.at(van.body.front, -van.body.width / 2)
    right, bottom = view.at(van.body.rear, van.body.width / 2)
    for i, a in enumerate(placed):
        assert all(math.dist(a.drawn, b.drawn) > 2 * RADIUS for b in placed[i + 1 :])
        if a.mark.inside:
            assert left < a.drawn[0] < right
            assert top < a.drawn[1] < bottom


def test_marks_leave_the_names_of_furniture_readable() -> None:
    """No mark inside the van covers the name of a piece of furniture."""
    van, view = sheet("wren"), frame(sheet("wren"), "plan")
    taken = draw_plan(Picture("k", (0, 0, 1, 1), "t", "d"), view, van)
    inside = [p for p in place(view, van, marks("wren"), taken) if p.mark.inside]
    assert taken
    for spot in inside:
        x, y = spot.drawn
        assert not any(x0 < x < x1 and y0 < y < y1 for x0, y0, x1, y1 in taken)


def test_too_many_marks_is_said() -> None:
    """When the paper cannot hold all marks apart, that is said rather than drawn over each other."""
    crowd = [Mark(str(i), "", 3.0, 0.0, None, inside=True) for i in range(900)]
    with pytest.raises(ValueError, match="too many marks"):
        draw(sheet(), marks=crowd)


def test_only_the_next_place_is_filled() -> None:
    """The mark of the next place is filled, and it is the only one."""
    found = discs(parse(draw(sheet(), marks=marks(), next_mark="7")))
    assert [d.number for d in found if d.cls == "mark-next"] == ["7"]


def test_walk_is_drawn_through_its_points() -> None:
    """The walk is one dashed line through the given points, with an arrowhead whose tip is the last of them."""
    van = sheet()
    route = [(-0.6, 0.0), (1.3, 1.7), (4.6, 1.7)]
    view = frame(van, "plan", walking=True)
    root = parse(draw(van, route=route))
    drawn = [view.at(x, y) for x, y in route]
    line = points(by_class(root, "walk")[0])
    assert [c for p in line for c in p] == pytest.approx([c for p in drawn for c in p], abs=0.01)
    heads = by_class(root, "arrow")
    assert points(heads[-1])[0] == pytest.approx(drawn[-1], abs=0.01)
    assert len(heads) == 2


NASTY = "<script>alert('x')</script> & \"quotes\" ]]> \x07\x00 \ufffe"


def test_text_is_never_markup() -> None:
    """Names with angle brackets, quotes or control characters are drawn as words and cannot become markup."""
    van = replace(sheet(), identity=replace(sheet().identity, name=NASTY))
    for mode in ("page", "alone", "fixed"):
        svg = draw(van, marks=[Mark("1", NASTY, 2, 0, inside=True, target='#"><x>')], mode=mode, linked=True)  # type: ignore[arg-type]
        root = parse(svg)
        assert not [e for e in root.iter() if e.tag.endswith(("script", "}x"))]
        assert any("<script>" in (e.text or "") for e in root.iter())


@settings(deadline=None)
@given(st.text(max_size=40))
def test_any_name_gives_well_formed_svg(name: str) -> None:
    """Whatever the van is called, the drawing can be read as XML."""
    parse(draw(replace(sheet(), identity=replace(sheet().identity, name=name)), "rear"))


@each_view
def test_same_input_same_drawing(view: str) -> None:
    """The same van gives the same drawing, letter for letter."""
    once, again = (draw(sheet("heron"), view, marks=marks("heron")) for _ in range(2))  # type: ignore[arg-type]
    assert once == again


def test_inks_are_written_as_asked() -> None:
    """For a page the drawing holds classes only; for the typesetter colours only; as a file it brings its own colours."""
    page, fixed, alone = (draw(sheet(), marks=marks(), mode=mode) for mode in ("page", "fixed", "alone"))  # type: ignore[arg-type]
    assert 'class="fp-body"' in page
    assert "#" not in page.replace("#kit-", "")
    assert "class=" not in fixed
    assert "var(" not in fixed
    assert "prefers-color-scheme: dark" in alone
    assert all("http" not in svg.replace("http://www.w3.org/2000/svg", "") for svg in (page, fixed, alone))


@each_view
def test_every_drawing_says_what_it_is(view: str) -> None:
    """Each drawing has a title that names the view and the van, and a description that says which way up it is."""
    root = parse(draw(sheet(), view, marks=marks()))  # type: ignore[arg-type]
    title, desc = (next(e for e in root if e.tag.endswith(tag)) for tag in ("title", "desc"))
    assert title.text == f"{view.capitalize()} of Wren"
    assert "by eye" in (desc.text or "")
    assert root.get("aria-labelledby") == title.get("id")
    assert root.get("aria-describedby") == desc.get("id")


def test_views_printed_together_share_a_scale() -> None:
    """The share of the plan's width that each view takes keeps one metre the same length on paper."""
    van = sheet("plover")
    whole = frame(van, "plan").size[0]
    for view in VIEWS:
        assert share(van, view)[0] * whole == pytest.approx(frame(van, view, frame(van, "plan").scale).size[0])


def test_unreadable_tyre_marking_is_drawn_by_eye() -> None:
    """A tyre whose marking does not say width, height and rim is drawn by eye and known to be so."""
    assert not tyre_size(None).known
    assert not tyre_size("large").known
    assert tyre_size("195/70 R14C").known
