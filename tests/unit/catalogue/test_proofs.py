"""Each rule of docs/catalogue.md, broken in one place of a small sound catalogue, gives one exact sentence."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

Tell = Callable[[Mapping[str, str]], list[str]]
Broken = Mapping[str, str]

_BROKEN: Mapping[str, list[Broken]] = tomllib.loads(Path(__file__).with_name("broken.toml").read_text("utf-8"))


def _each(rule: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("broken", _BROKEN[rule], ids=lambda broken: broken["says"].partition(":")[0])


def _first(tiny: dict[str, str], told: Tell, broken: Broken) -> str:
    assert tiny[broken["kind"]].count(broken["old"]) >= 1
    tiny[broken["kind"]] = tiny[broken["kind"]].replace(broken["old"], broken["new"], 1)
    return told(tiny)[0]


def test_the_small_catalogue_is_sound(tiny: dict[str, str], told: Tell) -> None:
    """A catalogue that keeps every rule gives no sentence at all."""
    assert told(tiny) == []


@_each("keys")
def test_a_wrong_key_or_value_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A key or value that may not stand in a kind file is told with its place, what was found and what is allowed."""
    assert _first(tiny, told, broken) == broken["says"]


@_each("names")
def test_a_name_that_names_nothing_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A line, link, place, wait, supply or text that names nothing, or is named by nothing, is told with what there is."""
    assert _first(tiny, told, broken) == broken["says"]


@_each("figures")
def test_a_wrong_figure_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A unit, duration, energy, water or card figure that is no fact or of the wrong sort, or a fact no one uses, is told."""
    assert _first(tiny, told, broken) == broken["says"]


@_each("sense")
def test_a_contradiction_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A guard that holds at a start, and a step, wait or finish that contradicts itself or a guard, is told."""
    assert _first(tiny, told, broken) == broken["says"]


@_each("reach")
def test_what_can_never_happen_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A step, wait or finish that can never come about, from either start and in either mode, is told with what is missing."""
    assert _first(tiny, told, broken) == broken["says"]


@_each("cards")
def test_a_card_line_in_the_wrong_place_is_told(tiny: dict[str, str], told: Tell, broken: Broken) -> None:
    """A card line whose step needs what comes later or what was undone, or does what a guard forbids, is told."""
    assert _first(tiny, told, broken) == broken["says"]


def test_what_hangs_on_a_missing_step_is_not_told_too(tiny: dict[str, str], told: Tell) -> None:
    """When a flue cover can never come off, only the step that needs it off is told, not the hot tap that waits for it."""
    tiny["flue"] = tiny["flue"].replace('sets = ["self.cover = off"]', "")
    (sentence,) = told(tiny)
    assert sentence.startswith("kinds/heater.toml, steps.light: ")


def test_every_step_of_listed_kit_needs_the_round(tiny: dict[str, str], told: Tell) -> None:
    """Where the van's own welcome can never be, no step of any kit can; the van's own steps do not wait for it."""
    begun = """
[conditions.round]
what = "walk-round"
values = ["not-begun", "begun"]
start = { from-store = "not-begun", on-hook-up = "not-begun" }
[[supplies]]
name = "round"
role = "gate"
when = ["self.round = begun"]
[[steps]]
"""
    tiny["van"] = tiny["van"].replace("\n[[steps]]\n", begun) + "\n"
    sound = tiny["van"].replace('say = "Welcome."', 'say = "Welcome."\nsets = ["self.round = begun"]')
    assert told({**tiny, "van": sound}) == []
    never = "this step can never happen from the start “from-store” in mode handover, because "
    assert f"kinds/door.toml, steps.unlock: {never}the round of the van can never be under way before it." in told(tiny)
    assert not any(sentence.startswith("kinds/van.toml, steps") for sentence in told(tiny))


def test_a_card_supposes_nothing_about_how_the_van_is_found(tiny: dict[str, str], told: Tell) -> None:
    """A line whose step needs what no line of the card touches is fine: the owner may have found it so."""
    line = 'leaving = [{ order = 9, text = "Light it.", step = "light" }]\n[film]'
    tiny["heater"] = tiny["heater"].replace("[film]", line)
    assert told(tiny) == []


def test_a_card_line_may_undo_what_a_line_above_needed(tiny: dict[str, str], told: Tell) -> None:
    """A line may undo what a line above it needed; only the lines below it are held to the new state."""
    shut = 'step = "open" }, { order = 900, text = "Shut it.", step = "shut" }]'
    tiny["valve"] = tiny["valve"].replace('step = "open" }]', shut)
    assert told(tiny) == []


def test_a_link_stands_for_any_of_its_kinds(tiny: dict[str, str], told: Tell) -> None:
    """Where a link may be filled by two kinds, it is enough that one of them can come right."""
    stuck = tiny["flue"].replace('kind = "flue"', 'kind = "old_flue"').replace('sets = ["self.cover = off"]', "")
    tiny["old_flue"] = stuck.replace('on-hook-up = "off"', 'on-hook-up = "on"').replace(
        "[{ order = 410", "[{ order = 412"
    )
    tiny["heater"] = tiny["heater"].replace('kinds = ["flue"]', 'kinds = ["old_flue", "flue"]')
    assert told(tiny) == []


def test_an_optional_line_of_a_guard_counts_as_dropped(tiny: dict[str, str], told: Tell) -> None:
    """A step that brings about all of a guard but its optional line is told: on a van without that kit it does the harm."""
    never = 'never = ["self.flame = lit", "flue.cover = on"]'
    tiny["heater"] = tiny["heater"].replace(never, 'never = ["self.flame = lit", "mate?.valve = shut"]')
    assert told(tiny)[0] == (
        "kinds/heater.toml, steps.light: at its end it leaves just what the guard “covered_flue” forbids."
    )


def test_the_catalogue_needs_the_kind_van(tiny: dict[str, str], told: Tell) -> None:
    """Every van is of the kind “van” without listing it, so a catalogue without that kind is refused."""
    del tiny["van"]
    assert told(tiny) == ["van.toml, kind: the catalogue has no kind “van”, which every van has without listing it."]
