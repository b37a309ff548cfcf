"""The outfit and stow sheet: same input same bytes, every verdict there, limits drawn where they are, any text safe."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from importlib.resources import as_file, files
from itertools import pairwise

import pypdfium2
import pytest

from firstpitch.outfit import Outfit, Scale, ScaleMark, Span, Stow, Towbar, nose_scale, plan_stow, read_car, read_load
from firstpitch.outfit.coupling import nose_band
from firstpitch.papers import OutfitData, outfit_data, outfit_document, outfit_page
from firstpitch.papers.drawing.scales import draw_nose_scale, spoken
from firstpitch.sheet import BuildSheet
from tests.demo_rounds import TODAY, demo_round
from tests.unit.papers.svg_reading import by_class, parse, points
from tests.unit.papers.test_pack_page import read

PARTS = ("the car", "the towbar", "the caravan's hitch", "the caravan")
PAIRS = {
    "wren": ("hatchback", "wren-weekend"),
    "plover": ("estate", "plover-family"),
    "heron": ("tow-car", "heron-summer"),
}
each_pair = pytest.mark.parametrize("name", PAIRS)


@cache
def demo_outfit(name: str) -> Outfit:
    van = demo_round(name)
    car, load = PAIRS[name]
    with as_file(files("firstpitch.demo")) as folder:
        found = read_car(str(folder / "cars" / f"{car}.yaml"), today=TODAY)
        aboard = read_load(str(folder / "loads" / f"{load}.yaml"), van.sheet, van.catalogue.kinds, today=TODAY)
    return Outfit(van.sheet, van.catalogue.kinds, found.car, found.driver, found.journey, aboard)


@cache
def demo_data(name: str) -> OutfitData:
    return outfit_data(demo_outfit(name), made=TODAY)


def renamed(sheet: BuildSheet, text: str) -> BuildSheet:
    return replace(sheet, identity=replace(sheet.identity, name=text))


def test_same_input_same_bytes() -> None:
    """The same outfit gives the same files, byte for byte."""
    again = outfit_data(demo_outfit("wren"), made=TODAY)
    assert outfit_document(again) == outfit_document(demo_data("wren"))
    assert outfit_page(again) == outfit_page(demo_data("wren"))


@each_pair
def test_every_verdict_stands_on_the_page(name: str) -> None:
    """Each verdict is there with its word, figure, limit, margin, reason and source, and those that bind come first."""
    data = demo_data(name)
    text = " ".join(read(outfit_page(data)).text.split())
    assert len(data.verdicts) > 20
    for line in data.verdicts:
        for words in (line.word, line.title, line.figure, line.limit, line.margin, line.sentence, line.source):
            assert " ".join(words.split()) in text
    bound = [not line.standing for line in data.verdicts]
    assert bound == sorted(bound, reverse=True)


@each_pair
def test_the_page_says_it_certifies_no_speed(name: str) -> None:
    """The comparison of loadings says on the sheet that it compares and certifies no speed."""
    page = outfit_page(demo_data(name))
    assert "compares loadings and certifies no speed" in page
    assert "It certifies no speed" in page


@each_pair
def test_the_first_page_is_the_sheet(name: str) -> None:
    """What to do, all verdicts and the comparison stand on the first page; lists and reasons begin on the second."""
    with pypdfium2.PdfDocument(outfit_document(demo_data(name))) as pdf:
        first, second = (pdf[i].get_textpage().get_text_bounded() for i in (0, 1))
        assert len(pdf) == 3
    data = demo_data(name)
    assert all(heading in first for heading in ("What to do", "Verdicts", "Steadiness"))
    assert all(line.margin in first for line in data.verdicts)
    assert second.startswith("Where everything is")


@each_pair
def test_limits_stand_at_their_place_on_the_scale(name: str) -> None:
    """Each limit's tick stands as far along the scale as its figure is of the whole, between 0 and the scale's end."""
    scale = demo_data(name).scale
    root = parse(draw_nose_scale(scale))
    (start, _), (end, _) = points(by_class(root, "scale")[0])
    ticks = {points(e)[0][0] for cls in ("body", "state-heavy") for e in by_class(root, cls)}
    limits = {m.low for m in scale.marks if m.role in ("limit", "ruling", "least")}
    assert sorted(ticks) == pytest.approx(sorted(start + (end - start) * low / scale.top for low in limits), abs=0.01)


def test_names_of_crossing_limits_end() -> None:
    """Any set of limits, even with the longest names at the scale's end, is drawn with every name in it."""
    marks = tuple(ScaleMark("limit", v, v, "a very long name of a part " * 4) for v in (50.0, 99.0, 100.0, 100.5))
    drawn = draw_nose_scale(Scale(110.0, marks, ("the towbar",)), width=500.0)
    assert drawn.count("a very long name of a part") >= 16
    assert "Not known, so nobody can say above: the towbar" in drawn


def test_an_unknown_limit_is_named() -> None:
    """Where the towbar's noseweight limit is not known, scale and list of what to do both say so."""
    data = demo_data("heron")
    assert data.scale.unknown == ("the towbar",)
    assert any("noseweight limit of the towbar" in line for line in data.to_do)
    assert data.word == "cannot say"


def test_a_stow_is_judged_with_its_moves() -> None:
    """With a stow given the sheet judges that stow, says what to move, and compares it with what the moves make of it."""
    outfit = demo_outfit("plover")
    plan = plan_stow(outfit)
    front = outfit.van.plan.lockers[0].id
    worse = Stow(tuple(replace(p, locker=front) if i % 3 == 0 else p for i, p in enumerate(plan.stow.placed)))
    data = outfit_data(replace(outfit, stow=worse), made=TODAY)
    assert data.moves
    assert [one.name for one in data.steadiness.loadings] == ["Without load", "As it is now", "After these moves"]


@pytest.mark.parametrize("text", ["<script>alert(1)</script><b onclick=x>&amp;", '#eval("1") $x$ *b* <l> @r // \\ [#]'])
def test_any_text_is_printed_as_words(text: str) -> None:
    """Names with markup or the typesetter's own signs in them are shown as words."""
    outfit = demo_outfit("wren")
    items = tuple(replace(item, name=text) for item in outfit.load.items)
    named = replace(
        outfit,
        van=renamed(outfit.van, text),
        car=replace(outfit.car, name=text),
        load=replace(outfit.load, name=text, items=items),
    )
    data = outfit_data(named)
    page = read(outfit_page(data))
    assert not page.having("script")
    assert not [a for _, attrs in page.elements for a in attrs if a.startswith("on")]
    assert text in page.text
    assert outfit_document(data).startswith(b"%PDF")


@each_pair
def test_page_links_and_headings_are_in_order(name: str) -> None:
    """Every link leads to a place on the page, no id stands twice, and no heading level is skipped."""
    page = read(outfit_page(demo_data(name)))
    ids = [attrs["id"] for _, attrs in page.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    assert all(a["href"][1:] in ids for a in page.having("a"))
    levels = [int(tag[1]) for tag, _ in page.elements if tag in ("h1", "h2", "h3")]
    assert levels[0] == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))


BARE = Scale(
    100.0, (ScaleMark("guideline", 60.0, 84.0, "guideline"), ScaleMark("preferred", 60.0, 84.0, "best")), PARTS
)


@pytest.mark.parametrize("width", [560.0, 780.0, 900.0])
def test_a_scale_without_any_limit_says_that_none_is_known(width: float) -> None:
    """No limit and no noseweight known: no tick and no pointer is drawn, every missing limit is named, and nobody is told it fits."""
    drawn = draw_nose_scale(BARE, width=width)
    root = parse(drawn)
    assert not by_class(root, "state-heavy")
    assert not by_class(root, "body")
    assert not by_class(root, "arrow")
    assert "what it is now is not known" in drawn
    written = "".join(root.itertext())
    assert all(written.count(part) >= 2 for part in PARTS)  # drawn and spoken
    assert "The noseweight is not known" in spoken(BARE)
    (start, _), (end, _) = points(by_class(root, "scale")[0])
    guideline_ends = start + (end - start) * 0.84
    assert all(x > guideline_ends for e in by_class(root, "wait-hatch") for x, _ in points(e))


@pytest.mark.parametrize("known", [("the car",), ("the car", "the towbar"), ("the caravan",)])
def test_a_scale_with_few_limits_marks_the_least_as_ruling(known: tuple[str, ...]) -> None:
    """Of one or two known limits the least is the heavy tick, and the others are named as not known."""
    limits = {"the car": 75.0, "the towbar": 100.0, "the caravan": 90.0}
    outfit = demo_outfit("heron")
    car = replace(
        outfit.car,
        noseweight_limit=limits["the car"] if "the car" in known else None,
        towbar=Towbar(limits["the towbar"] if "the towbar" in known else None, None),
    )
    masses = replace(outfit.van.masses, noseweight_limit=limits["the caravan"] if "the caravan" in known else None)
    van = replace(outfit.van, masses=masses, kit=())
    scale = nose_scale(nose_band(replace(outfit, car=car, van=van), 1500.0), Span(60.0, 60.0))
    root = parse(draw_nose_scale(scale))
    (start, _), (end, _) = points(by_class(root, "scale")[0])
    heavy = [points(e)[0][0] for e in by_class(root, "state-heavy")]
    least = min(limits[part] for part in known)
    assert heavy == pytest.approx([start + (end - start) * least / scale.top], abs=0.01)
    assert set(scale.unknown) == {"the car", "the towbar", "the caravan's hitch", "the caravan"} - set(known)


def test_what_is_unknown_and_does_not_bind_holds_nothing_up() -> None:
    """A parking brake nobody measured is said to be unknown, but not that nobody can say whether all is well."""
    data = demo_data("wren")
    assert data.to_do[-1] == "Not known, though nothing above hangs on it: the parking-brake force."


def test_a_guideline_shows_its_band() -> None:
    """The line of the noseweight guideline shows both ends of its band where the others show their limit."""
    line = next(one for one in demo_data("wren").verdicts if one.id == "noseweight-guideline")
    low, high = next((m.low, m.high) for m in demo_data("wren").scale.marks if m.role == "guideline")
    assert line.limit == f"{low:.0f} kg to {high:.0f} kg"
    assert line.standing == "guideline"
