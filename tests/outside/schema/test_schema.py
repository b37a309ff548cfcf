"""The JSON Schema against a general validator, and the reader against both."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from firstpitch import catalogue, demo
from firstpitch.sheet import SheetError, build_schema, read_sheet_text

TODAY = date(2026, 11, 25)
PAGE = (Path(__file__).parents[3] / "docs" / "build-sheet.md").read_text("utf-8")
GOOD = PAGE.split("```yaml\n")[1].split("```")[0]
Sheet = dict[str, Any]


@cache
def validator() -> jsonschema.Draft202012Validator:
    """The general validator with our schema, as printed and read back."""
    schema = json.loads(json.dumps(build_schema(catalogue.load().kinds)))
    return jsonschema.Draft202012Validator(schema)


def shape_ok(text: str) -> bool:
    """What the general validator says of a sheet that a general YAML reader has read."""
    plain = json.loads(json.dumps(yaml.safe_load(text), default=lambda day: day.isoformat()))
    return validator().is_valid(plain)


def reader_ok(text: str) -> bool:
    """What our reader says of it."""
    try:
        read_sheet_text(text, catalogue.load().kinds, today=TODAY)
    except SheetError:
        return False
    return True


def test_schema_is_valid() -> None:
    """The printed schema satisfies the 2020-12 metaschema and says that it is of that draft."""
    schema = build_schema(catalogue.load().kinds)
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("name", list(demo.sheets()))
def test_demo_vans_are_good(name: str) -> None:
    """Each demo van is good for the reader and for the validator."""
    text = demo.sheets()[name].read_text("utf-8")
    assert reader_ok(text)
    assert shape_ok(text), next(iter(validator().iter_errors(yaml.safe_load(text)))).message


def variant(*changes: tuple[str, str]) -> str:
    """The example of the user's page with texts replaced, each standing in it exactly once."""
    text = GOOD
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


STRUCTURE = {
    "as it stands": (True, ()),
    "another unit of mass": (True, (("1065 kg", "1.065 t"),)),
    "thousands with a comma": (True, (("1250 kg", "1,250 kg"),)),
    "unknown limit": (True, (("noseweight_limit: 100 kg", "noseweight_limit: unknown"),)),
    "empty limit": (True, (("noseweight_limit: 100 kg", "noseweight_limit:"),)),
    "no insulation": (
        True,
        (("  insulation: {wall: 1.1 W/m2K, roof: 0.9 W/m2K, floor: 0.9 W/m2K, window: 2.8 W/m2K}\n", ""),),
    ),
    "empty section": (
        True,
        (("insulation: {wall: 1.1 W/m2K, roof: 0.9 W/m2K, floor: 0.9 W/m2K, window: 2.8 W/m2K}", "insulation:"),),
    ),
    "twin axles": (True, (("axles: [3.85 m]", "axles: [3.45 m, 4.25 m]"),)),
    "yes for yes-no": (True, (("inside: no\n", "inside: yes\n"),)),
    "true for yes-no": (True, (("inside: no\n", "inside: true\n"),)),
    "date": (True, (("built: 2026-02-17", "built: '2026-02-17'"),)),
    "temperature below nought": (True, (("technology: agm", "technology: agm\n      charge_floor: -10 °C"),)),
    "link left open": (True, (("tap: kitchen-tap", "tap: kitchen-tap\n      flue:"),)),
    "no unit": (False, (("1065 kg", "1065"),)),
    "wrong sort of unit": (False, (("1065 kg", "1065 m"),)),
    "gallons": (False, (("capacity: 10 l", "capacity: 2 gallons"),)),
    "negative mass": (False, (("1065 kg", "-1065 kg"),)),
    "decimal comma": (False, (("1065 kg", "1,06 t"),)),
    "not a number": (False, (("1065 kg", "nan kg"),)),
    "missing mass": (False, (("  miro: 1065 kg\n", ""),)),
    "missing door": (False, (("  door: {side: nearside, at: 4.70 m, width: 0.60 m, step_up: 0.40 m}\n", ""),)),
    "unknown key": (False, (("cold_water: 10 °C", "cold_water: 10 °C\ncolour: red"),)),
    "key in the wrong place": (False, (("  berths: 2\n", "  berths: 2\n  mtplm: 1250 kg\n"),)),
    "another format number": (False, (("firstpitch: 1", "firstpitch: 2"),)),
    "unknown kind": (False, (("kind: heater_flue", "kind: heater_chimney"),)),
    "the van as kit": (False, (("kind: heater_flue", "kind: van"),)),
    "fact of another kind": (False, (("drain_flow: 3 l/min", "technology: agm"),)),
    "fact with a wrong unit": (False, (("mains_power: 850 W", "mains_power: 850 Wh"),)),
    "no such choice": (False, (("technology: agm", "technology: steam"),)),
    "no such link": (False, (("tap: kitchen-tap", "cooker: kitchen-tap"),)),
    "place of one figure": (False, (("at: [4.10 m, -0.90 m]", "at: [4.10 m]"),)),
    "place without units": (False, (("at: [4.10 m, -0.90 m]", "at: [4.10, -0.90]"),)),
    "four axles": (False, (("axles: [3.85 m]", "axles: [3 m, 4 m, 5 m, 5.5 m]"),)),
    "aisle of one point": (False, (("    - [4.70 m, 0 m]\n    - [5.40 m, 0.20 m]\n", ""),)),
    "16 characters": (False, (("FERN2BN2026000117", "FERN2BN202600011"),)),
    "letter O": (False, (("FERN2BN2026000117", "FERN2BO2026000117"),)),
    "half a berth": (False, (("berths: 2", "berths: 2.5"),)),
    "a list for a mass": (False, (("1065 kg", "[1065 kg]"),)),
    "day first": (False, (("built: 2026-02-17", "built: 17/02/2026"),)),
    "id with a capital": (False, (("id: under-bed", "id: Under-bed"),)),
    "reserved id": (False, (("id: battery", "id: self"),)),
    "one heater too many": (False, (("kind: heater_flue", "kind: water_heater"),)),
    "empty name": (False, (("name: Water heater\n", "name: ''\n"),)),
}


@pytest.mark.parametrize(("good", "changes"), STRUCTURE.values(), ids=STRUCTURE.keys())
def test_structure(good: bool, changes: tuple[tuple[str, str], ...]) -> None:
    """Validator and reader agree on which shapes of a sheet are good and which are not."""
    text = variant(*changes)
    assert (shape_ok(text), reader_ok(text)) == (good, good)


BEYOND = {
    "mtplm below miro": (("mtplm: 1250 kg", "mtplm: 1000 kg"),),
    "mass too great": (("mtplm: 1250 kg", "mtplm: 12500 kg"),),
    "axle behind the body": (("axles: [3.85 m]", "axles: [9.85 m]"),),
    "locker through the wall": (("at: [2.60 m, 0.70 m]", "at: [2.60 m, 0.95 m]"),),
    "two kits with one id": (("id: heater-flue", "id: water-heater"),),
    "built in the future": (("built: 2026-02-17", "built: 2027-02-17"),),
    "30 February": (("built: 2026-02-17", "built: '2026-02-30'"),),
    "link to a kit that is not there": (("tap: kitchen-tap", "tap: shower-tap"),),
    "several could be meant": (("    links:\n      tap: kitchen-tap\n", ""),),
}


@pytest.mark.parametrize("changes", BEYOND.values(), ids=BEYOND.keys())
def test_beyond_the_schema(changes: tuple[tuple[str, str], ...]) -> None:
    """What is true or false only across figures passes the validator and is refused by the reader."""
    text = variant(*changes)
    assert (shape_ok(text), reader_ok(text)) == (True, False)


Path_ = tuple[Any, ...]


def paths(node: object, at: Path_ = ()) -> list[Path_]:
    """Every place in a sheet."""
    inner = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [at, *(path for key, each in inner for path in paths(each, (*at, key)))]


PLAIN: Sheet = json.loads(json.dumps(yaml.safe_load(GOOD), default=lambda day: day.isoformat()))
PLACES = [path for path in paths(PLAIN) if path]
PUT: list[Callable[[object], object]] = [
    lambda _: None,
    lambda _: "unknown",
    lambda _: "12 kg",
    lambda _: "2 m",
    lambda _: "-3 l",
    lambda _: "yes",
    lambda _: 2,
    lambda _: 0.5,
    lambda _: [],
    lambda _: {},
    lambda _: "some words",
    lambda old: [old],
    lambda old: {"at": old},
]


@given(st.sampled_from(PLACES), st.one_of(st.none(), st.sampled_from(PUT)), st.booleans())
@settings(max_examples=150, deadline=None)
def test_schema_refuses_nothing_the_reader_takes(
    place: Path_, put: Callable[[object], object] | None, rename: bool
) -> None:
    """Whatever is taken out of a sheet, renamed or replaced: what the reader takes, the validator takes too."""
    sheet = copy.deepcopy(PLAIN)
    within: Any = sheet
    for key in place[:-1]:
        within = within[key]
    old = within.pop(place[-1])
    if put is not None:
        key = f"{place[-1]}s" if rename and isinstance(place[-1], str) else place[-1]
        if isinstance(within, list):
            within.insert(key, put(old))
        else:
            within[key] = put(old)
    text = yaml.safe_dump(sheet, allow_unicode=True)
    assert shape_ok(text) or not reader_ok(text)
