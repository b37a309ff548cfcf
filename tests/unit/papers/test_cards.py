"""What the pack says: numbers, trip cards, kit cards, start-up list and missing figures."""

from __future__ import annotations

import dataclasses
import re
from dataclasses import replace

import pytest

from firstpitch.catalogue.types import Caution, StartUpItem
from firstpitch.papers.data import PackData, pack_data
from firstpitch.papers.kit_cards import UNKNOWN, kit_cards
from firstpitch.papers.numbering import number_kit, number_words
from firstpitch.papers.trip_cards import trip_cards
from firstpitch.papers.words import words
from firstpitch.sheet.types import Quantity
from tests.demo_rounds import NAMES, TODAY, demo_round
from tests.unit.papers.card_order import order_faults

each_van = pytest.mark.parametrize("name", NAMES)


def data(name: str) -> PackData:
    van = demo_round(name)
    return pack_data(van.sheet, van.catalogue, van.problem, van.plan, made=TODAY)


def every_text(value: object) -> list[str]:
    """All texts anywhere in the printed part of the pack."""
    if isinstance(value, str):
        return [value]
    if dataclasses.is_dataclass(value):
        skip = ("sheet", "problem", "plan")
        return [t for f in dataclasses.fields(value) if f.name not in skip for t in every_text(getattr(value, f.name))]
    if isinstance(value, tuple | list):
        return [t for item in value for t in every_text(item)]
    return []


@each_van
def test_no_placeholder_is_left(name: str) -> None:
    """Every placeholder of the catalogue's texts is filled in; no brace reaches the reader."""
    assert not [t for t in every_text(data(name)) if re.search(r"[{}]", t)]


@each_van
def test_numbers_follow_the_walk(name: str) -> None:
    """Numbers run from 1 without a gap: first what is reached from outside, then what is reached from inside."""
    van = demo_round(name)
    numbered = number_kit(van.sheet, van.catalogue)
    assert [n.number for n in numbered] == list(range(1, len(van.sheet.kit) + 1))
    assert [n.inside for n in numbered] == sorted(n.inside for n in numbered)
    assert numbered[0].kit.x < van.sheet.body.front


def test_runs_of_numbers_are_drawn_together() -> None:
    """Three or more numbers in a row are written as a run."""
    assert number_words([8, 1, 2, 3, 9]) == "1–3, 8, 9"


@each_van
def test_trip_cards_can_be_followed_from_the_top(name: str) -> None:
    """Read in order, no line of the arriving, leaving, towing or winter card needs what a later line brings about or an
    earlier one undid, and none brings about what a guard forbids."""
    van = demo_round(name)
    cards = trip_cards(van.sheet, van.catalogue, number_kit(van.sheet, van.catalogue))
    assert [c.title for c in cards] == ["Arriving", "Leaving the pitch", "Towing", "Winter and storage"]
    assert all(len(c.lines) >= 5 for c in cards)
    assert sum(len(line.steps) for c in cards for line in c.lines) > 10
    assert [fault for card in cards for fault in order_faults(card, van)] == []


def test_a_card_turned_round_is_found_out() -> None:
    """The same arriving card read from the bottom breaks the order, so the check above can fail."""
    van = demo_round("wren")
    arriving = trip_cards(van.sheet, van.catalogue, number_kit(van.sheet, van.catalogue))[0]
    assert order_faults(replace(arriving, lines=arriving.lines[::-1]), van)


@each_van
def test_same_line_of_several_kits_stands_once(name: str) -> None:
    """Four corner steadies give one line that names all four by number, not four lines."""
    van = demo_round(name)
    for card in data(name).trips:
        texts = [line.text for line in card.lines]
        assert len(set(texts)) == len(texts)
    steadies = [n.number for n in number_kit(van.sheet, van.catalogue) if n.kit.kind == "corner_steady"]
    lines = [line for card in data(name).trips for line in card.lines if "teady" in line.kit]
    assert any(line.numbers == number_words(steadies) for line in lines)


@each_van
def test_stop_cautions_stand_with_the_line_they_belong_to(name: str) -> None:
    """On a trip card a stop caution of a line's step stands with that line, and once on the card."""
    van = demo_round(name)
    for card in data(name).trips:
        said = [c.text for line in card.lines for c in line.cautions]
        assert len(set(said)) == len(said)
        for line in card.lines:
            for step in line.steps:
                kit, _, step_id = step.rpartition(".")
                kind = van.catalogue.kinds["van" if kit == "van" else van.sheet.kit_by_id()[kit].kind]
                wanted = {c.text for c in kind.cautions if c.level == "stop" and (not c.steps or step_id in c.steps)}
                before = {c.text for earlier in card.lines[: card.lines.index(line) + 1] for c in earlier.cautions}
                assert all(any(fits(text, b) for b in before) for text in wanted)


def fits(text: str, printed: str) -> bool:
    """Whether ``printed`` is ``text`` with its placeholders filled in."""
    pattern = ".*".join(re.escape(" ".join(part.split())) for part in re.split(r"\{[a-z0-9_]+\}", text))
    return re.fullmatch(pattern, printed) is not None


@each_van
def test_every_kit_has_a_card(name: str) -> None:
    """Every kit of the sheet stands on exactly one card, with its cautions, the gravest first."""
    van, printed = demo_round(name), data(name)
    assert sorted(k.number for c in printed.cards for k in c.kits) == list(range(1, len(van.sheet.kit) + 1))
    order = list(words()["levels"].values())
    for card in printed.cards:
        grave = [order.index(c.level) for c in card.cautions]
        assert grave == sorted(grave)


@each_van
def test_cautions_of_a_kind_are_all_on_its_card(name: str) -> None:
    """No caution of the catalogue is lost: each kit's card carries every caution of its kind."""
    van = demo_round(name)
    for one, card in ((n, c) for n in number_kit(van.sheet, van.catalogue) for c in data(name).cards):
        if one.number in [k.number for k in card.kits]:
            assert len(card.cautions) == len(one.kind.cautions)


def test_figures_are_those_of_the_sheet() -> None:
    """A kit's figures stand on its card as the sheet writes them, unit and all."""
    van = demo_round("wren")
    for one in number_kit(van.sheet, van.catalogue):
        card = next(c for c in data("wren").cards if one.number in [k.number for k in c.kits])
        own = next(k for k in card.kits if k.number == one.number)
        for fact, line in zip(one.kind.card.figures, own.figures, strict=True):
            value = one.kit.facts.get(fact)
            assert line.known is (value is not None)
            if isinstance(value, Quantity):
                assert line.value == value.written


def test_unknown_figure_is_said_and_listed() -> None:
    """A figure the sheet lacks is called not on the sheet on the card, and stands in the list to be filled in."""
    van = demo_round("wren")
    heater = next(k for k in van.sheet.kit if k.kind == "water_heater")
    bare = tuple(replace(k, facts={}) if k is heater else k for k in van.sheet.kit)
    printed = pack_data(replace(van.sheet, kit=bare), van.catalogue)
    card = next(c for c in printed.cards if c.title == heater.name)
    assert card.kits[0].figures
    assert all(line.value == UNKNOWN and not line.known for line in card.kits[0].figures)
    needed = {spec.what for spec in van.catalogue.kinds["water_heater"].facts.values() if spec.need == "must"}
    assert needed <= {m.what for m in printed.missing if m.kit == heater.name}
    assert not [t for t in every_text(printed) if re.search(r"[{}]", t)]


def test_unknown_figure_of_the_van_is_said_and_listed() -> None:
    """A plated figure the sheet lacks is never given a value: it is called not on the sheet and listed."""
    van = demo_round("wren")
    unplated = replace(van.sheet, masses=replace(van.sheet.masses, noseweight_limit=None))
    printed = pack_data(unplated, van.catalogue)
    assert [f.value for f in printed.figures if not f.known] == [UNKNOWN]
    assert "Limit of noseweight, as plated" in [m.what for m in printed.missing]


def test_kit_of_one_kind_shares_a_card_only_when_it_reads_the_same() -> None:
    """Kit of one kind whose texts differ by a figure get cards of their own."""
    van = demo_round("wren")
    numbered = number_kit(van.sheet, van.catalogue)
    steady = next(n for n in numbered if n.kit.kind == "corner_steady")
    kind = steady.kind
    told = replace(kind, card=replace(kind.card, what="Needs {winder}."))
    pair = [
        replace(steady, number=1, kind=told, kit=replace(steady.kit, facts={"winder": "a key"})),
        replace(steady, number=2, kind=told, kit=replace(steady.kit, facts={"winder": "a brace"})),
    ]
    assert [c.what for c in kit_cards(pair)] == ["Needs a key.", "Needs a brace."]
    assert len(kit_cards([pair[0], replace(pair[0], number=2)])) == 1


def test_start_up_list_names_each_thing_once() -> None:
    """A thing that several kits ask for stands once, with the largest number and every reason."""
    van = demo_round("wren")
    kinds = dict(van.catalogue.kinds)
    kinds["tap"] = replace(kinds["tap"], start_up=(StartUpItem("torch", 3, "to see the tap"),))
    printed = pack_data(van.sheet, replace(van.catalogue, kinds=kinds))
    torches = [line for line in printed.start_up if line.item.casefold() == "torch"]
    assert len(torches) == 1
    assert torches[0].number == 3
    assert torches[0].why.endswith("; to see the tap")


@each_van
def test_start_up_list_names_nothing_twice_in_other_words(name: str) -> None:
    """No two lines of a demo van's list begin with the same three words, save spare batteries, which are for different things."""
    items = [line.item for line in data(name).start_up]
    heads = [" ".join(item.casefold().replace(",", "").split()[:3]) for item in items]
    heads = [head for head in heads if head != "spare battery for"]
    assert len(heads) == len(set(heads))
    assert sum(item.startswith("Mains polarity tester") for item in items) == 1
    assert sum(item.startswith("Cleaner for drinking-water") for item in items) == 1


def test_unknown_dealer_leaves_a_line_to_write_on() -> None:
    """Without a dealer on the sheet the pack leaves room for a name, and invents none."""
    van = demo_round("wren")
    alone = replace(van.sheet, identity=replace(van.sheet.identity, dealer=None, contact=None))
    assert pack_data(alone, van.catalogue).ask[0].who == ""


def test_usual_cautions_are_in_every_pack() -> None:
    """Every pack carries the usual gas, mains, towing and fire cautions, and says that it certifies nothing."""
    printed = pack_data(demo_round("wren").sheet, demo_round("wren").catalogue)
    assert [part.title for part in printed.safety] == ["Gas", "Mains electricity", "Towing", "Fire"]
    assert all({c.sign for c in part.cautions} <= {"warning", "prohibition", "must-do"} for part in printed.safety)
    assert "certifies nothing" in words()["pack"]["practice"]
    assert "licensed" in words()["pack"]["practice"]


def test_same_input_same_pack() -> None:
    """The same van gives the same pack."""
    assert data("heron") == data("heron")


def test_caution_for_every_step_stands_with_the_first() -> None:
    """A stop caution that names no step belongs to each step of its kit, so it stands above the kit's first line."""
    van = demo_round("wren")
    kinds = dict(van.catalogue.kinds)
    always = Caution("stop", "Never alone.", (), "prohibition", "test")
    kinds["handbrake"] = replace(kinds["handbrake"], cautions=(always,))
    catalogue = replace(van.catalogue, kinds=kinds)
    cards = trip_cards(van.sheet, catalogue, number_kit(van.sheet, catalogue))
    for card in cards:
        lines = [line for line in card.lines if any(s.startswith("handbrake.") for s in line.steps)]
        said = [[c.text for c in line.cautions] for line in lines]
        assert said == [["Never alone."], *[[] for _ in lines[1:]]][: len(lines)]
