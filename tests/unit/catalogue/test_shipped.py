"""The catalogue that comes with the program: it is proved, whole, and no slip in any of its files goes unseen."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

import firstpitch.catalogue
from firstpitch.catalogue import Kind, Ref, load
from firstpitch.catalogue.lines import all_lines, held_by
from firstpitch.catalogue.parse import parse_kind
from firstpitch.catalogue.proofs import faults
from firstpitch.sheet.errors import CatalogueError
from firstpitch.sheet.units import parse

_FOLDER = Path(firstpitch.catalogue.__file__).parent / "kinds"
_RAW = {path.stem: tomllib.loads(path.read_text("utf-8")) for path in sorted(_FOLDER.glob("*.toml"))}
_KINDS = load().kinds

# What a touring caravan may carry, front to back and outside to inside.
_FRONT = """hitch jockey_wheel handbrake breakaway_cable road_plug front_locker gas_cylinder gas_regulator cylinder_valve
    gas_isolator gas_test_point"""
_ROUND = """water_inlet mains_water_kit waste_outlet corner_steady heater_flue fridge_vents battery_box leisure_battery
    mains_inlet motor_mover road_wheel spare_wheel toilet_flush_filler cassette_locker external_locker external_gas_point
    external_shower awning_rail awning_light entry_step door window rooflight solar_panel alarm_tracker wheel_lock
    number_plate van"""
_INSIDE = """control_panel battery_selector mains_unit charger water_heater drain_valve frost_valve tap shower washbasin
    space_heater blown_air wet_heating air_conditioner fridge_absorption fridge_compressor gas_manifold hob grill_oven
    hot_plate microwave cassette_toilet bed table blind tv_aerial smoke_alarm co_alarm extinguisher fire_blanket"""


def test_every_kind_of_kit_is_there() -> None:
    """Every kind a touring caravan may carry, and the van itself, has its file."""
    assert set(_KINDS) >= {*_FRONT.split(), *_ROUND.split(), *_INSIDE.split()}


@pytest.mark.parametrize("key", _KINDS)
def test_a_shipped_kind_is_complete(key: str) -> None:
    """Each shipped kind is inspected, explained to the owner with what may go wrong, and named in films of each must step."""
    kind = _KINDS[key]
    assert kind.inspection
    assert kind.card.use
    assert kind.card.trouble
    assert {step.id for step in kind.steps if step.level == "must"} <= set(kind.film.words)
    assert all(step.points for step in kind.steps)


def test_each_quoted_figure_reads_as_a_quantity() -> None:
    """Every figure that stands in a duration with its unit reads as a quantity of the sort the duration reckons with."""
    wanted = {"volume": "l", "flow": "l/min", "power": "W", "from": "degC", "to": "degC"}
    for kind in _KINDS.values():
        for wait in kind.waits.values():
            for term, written in wait.duration.terms.items():
                if str(written)[0].isdigit() and term in wanted:
                    assert parse(written, wanted[term]).si > 0


def _with(key: str, raw: Mapping[str, Any]) -> str | None:
    """The first fault when the file of ``key`` holds ``raw``, or None."""
    try:
        kinds: dict[str, Kind] = {**_KINDS, key: parse_kind(raw, f"kinds/{key}.toml", key)}
        return next(faults(kinds), None)
    except CatalogueError as wrong:
        return str(wrong)


def _spots(node: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every key and list entry below ``node``."""
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        yield (*path, key)
        yield from _spots(value, (*path, key))


def _changed(raw: Mapping[str, Any], path: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    changed = copy.deepcopy(dict(raw))
    node: Any = changed
    for key in path[:-1]:
        node = node[key]
    if value is None:
        del node[path[-1]]
    else:
        node[path[-1]] = value
    return changed


def _at(raw: Any, path: tuple[str | int, ...]) -> Any:
    for key in path:
        raw = raw[key]
    return raw


def _names_something(path: tuple[str | int, ...]) -> bool:
    """Whether the text at ``path`` names a step, wait, fact, kind or word of a closed list."""
    single = {"at", "level", "sign", "how", "severity", "supply", "fact", "control", "role", "group", "stands", "topic"}
    single |= {"need", "type", "by", "per", "step", "kind"}
    lists = {"starts", "awaits", "figures", "modes", "kinds", "requires", "sets", "sustains", "when", "never"}
    last, above = path[-1], path[-2] if len(path) > 1 else ""
    return last in single or above in lists or "finish" in path or (path[0] == "cautions" and above == "steps")


@pytest.mark.parametrize("key", _RAW)
def test_a_misspelt_name_never_goes_unseen(key: str) -> None:
    """A wrong letter in any name a kind file uses is told: of a step, wait, fact, link, kind, condition, value or set word."""
    for path in _spots(_RAW[key]):
        value = _at(_RAW[key], path)
        if isinstance(value, str) and value and _names_something(path):
            assert _with(key, _changed(_RAW[key], path, f"{value}q")), path


@pytest.mark.parametrize("key", _RAW)
def test_a_misspelt_key_never_goes_unseen(key: str) -> None:
    """A wrong letter in any key is told, also in the names a file gives to its own facts, links, conditions and waits."""
    for path in _spots(_RAW[key]):
        if isinstance(path[-1], str):
            changed = _changed(_RAW[key], path, None)
            _at(changed, path[:-1])[f"{path[-1]}q"] = _at(_RAW[key], path)
            assert _with(key, changed), path


@pytest.mark.parametrize("key", _RAW)
def test_anything_taken_away_is_told_or_leaves_a_sound_catalogue(key: str) -> None:
    """With any one thing gone from a file the loader tells one sentence that names a file, or the catalogue is still sound.

    Every fourth thing is tried, whole tables and single lines alike: all of them would take minutes.
    """
    for path in list(_spots(_RAW[key]))[::4]:
        told = _with(key, _changed(_RAW[key], path, None))
        assert told is None or (".toml" in told.partition(": ")[0] and told.endswith(".")), path


@pytest.mark.parametrize("key", _RAW)
def test_a_value_of_the_wrong_sort_is_always_told(key: str) -> None:
    """A number for a text, a text for a list, a list for a table: each is told in one sentence that names this file."""
    for path in _spots(_RAW[key]):
        value = _at(_RAW[key], path)
        wrong = 7 if isinstance(value, str | list | dict | bool) else "seven"
        told = _with(key, _changed(_RAW[key], path, wrong))
        assert told, path
        assert told.startswith(f"kinds/{key}.toml, "), path


def _values_used() -> set[tuple[str, str, str]]:
    """Every value of a condition that a start has or a line of any kind speaks of: kind, condition, value."""
    starts = {
        (k, name, v) for k, kind in _KINDS.items() for name, c in kind.conditions.items() for v in c.start.values()
    }
    lines = [(kind, line) for kind in _KINDS.values() for _, line in all_lines(kind) if isinstance(line, Ref)]
    return starts | {(*held, value) for kind, line in lines for held in held_by(kind, line) for value in line.values}


@pytest.mark.parametrize("key", [key for key, kind in _KINDS.items() if kind.conditions])
def test_a_value_taken_from_a_condition_is_told_where_it_is_used(key: str) -> None:
    """A value that a start has or any line of any kind asks for, sets or guards against cannot go unseen; any other can."""
    used = _values_used()
    for name, condition in _RAW[key]["conditions"].items():
        for place, value in enumerate(condition["values"]):
            told = _with(key, _changed(_RAW[key], ("conditions", name, "values", place), None))
            assert bool(told) == ((key, name, value) in used or len(condition["values"]) == 2), (name, value)
