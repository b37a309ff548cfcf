"""The verbs outfit, stow and steadiness, as a user calls them."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from firstpitch.cli.main import main

DEMO = Path(str(files("firstpitch.demo")))
WREN, ESTATE, HATCHBACK = DEMO / "wren.yaml", DEMO / "cars" / "estate.yaml", DEMO / "cars" / "hatchback.yaml"
WEEKEND, TOO_MUCH = DEMO / "loads" / "wren-weekend.yaml", DEMO / "loads" / "wren-too-much.yaml"
VERBS = ("outfit", "stow", "steadiness")


def call(*words: object) -> Result:
    """The command with these words."""
    return CliRunner().invoke(main, [str(word) for word in words])


def said(result: Result) -> str:
    """What it printed, on one line, so that line breaks do not matter."""
    return " ".join(result.output.split())


def changed(source: Path, tmp_path: Path, old: str, new: str) -> Path:
    """A copy of a sheet with one figure changed."""
    text = source.read_text(encoding="utf-8")
    assert old in text
    copy = tmp_path / source.name
    copy.write_text(text.replace(old, new), encoding="utf-8")
    return copy


def load_of(tmp_path: Path, *items: str) -> Path:
    """A load sheet with these items, one a line."""
    lines = ["firstpitch: 1", "load:", "  name: Test load", "items:", *(f"  - {{ {item} }}" for item in items)]
    lines += ["water:", *(f"  - {{ kit: {kit}, volume: 0 l }}" for kit in ("water-heater", "flush-filler"))]
    file = tmp_path / "load.yaml"
    file.write_text("\n".join([*lines, "  - { kit: cassette-locker, volume: 0 l }", ""]), encoding="utf-8")
    return file


def refused(result: Result, *parts: str) -> None:
    """Bad input: exit code 2, a sentence with these parts, no traceback."""
    assert result.exit_code == 2, result.output
    assert "Traceback" not in result.output
    for part in parts:
        assert part in said(result)


@pytest.mark.parametrize("verb", VERBS)
def test_help_has_an_example(verb: str) -> None:
    """Each verb's help shows how it is called."""
    result = call(verb, "--help")
    assert result.exit_code == 0
    assert f"firstpitch {verb} van.yaml" in result.output


def test_outfit_without_a_stow_cannot_say() -> None:
    """Nothing known is too much, but where the load lies is not told: exit code 0, and the noseweight cannot be said."""
    result = call("outfit", WREN, ESTATE, "--load", WEEKEND)
    assert result.exit_code == 0
    assert "Wren behind Demo estate car: cannot say" in result.output
    assert "it depends on where the load is stowed" in said(result)
    assert "They replace neither the plates" in said(result)


def test_outfit_too_heavy_for_the_car() -> None:
    """A van heavier than the car may tow: exit code 1, and the limit that is passed is named."""
    result = call("outfit", WREN, HATCHBACK, "--brief")
    assert result.exit_code == 1
    assert "does not fit" in result.output
    assert "the car may tow 1,000 kg: 200 kg too much" in said(result)


def test_outfit_for_machines() -> None:
    """The JSON object holds each verdict with word, standing and source, and no infinity."""
    result = call("outfit", WREN, HATCHBACK, "--json")
    assert result.exit_code == 1
    found: dict[str, Any] = json.loads(result.output, parse_constant=pytest.fail)
    assert found["word"] == "does not fit"
    for verdict in found["verdicts"]:
        assert verdict["word"] in ("fits", "tight", "does not fit", "cannot say")
        assert verdict["sentence"]
        assert verdict["source"]


def test_outfit_in_germany_asks_for_a_least_noseweight() -> None:
    """With the country given on the command line its rules and speeds hold."""
    result = call("outfit", WREN, ESTATE, "--country", "de", "--on", "2027-07-17", "--brief")
    assert "German law asks for at least" in said(result)
    assert "DE, " in result.output


def test_outfit_in_a_country_we_do_not_know() -> None:
    """A country whose rules are not held here is never taken to have none."""
    result = call("outfit", WREN, ESTATE, "--country", "FR", "--brief")
    assert "The least noseweight rule of FR is not known here" in said(result)


def test_outfit_car_without_limits_cannot_say(tmp_path: Path) -> None:
    """A car sheet that lacks its limits is read, and each verdict that needs one cannot be given."""
    lines = ESTATE.read_text(encoding="utf-8").splitlines()
    kept = [one for one in lines if not any(key in one for key in ("towing_limit", "train_mass", "noseweight_limit"))]
    car = tmp_path / "car.yaml"
    car.write_text("\n".join(kept), encoding="utf-8")
    result = call("outfit", WREN, car, "--json")
    assert result.exit_code == 0
    words = {verdict["id"]: verdict["word"] for verdict in json.loads(result.output)["verdicts"]}
    assert words["noseweight"] == "cannot say"
    assert [word for key, word in words.items() if "towing" in key] == ["cannot say"]
    assert "fits" in words.values()


def test_outfit_load_heavier_than_payload(tmp_path: Path) -> None:
    """400 kg of bricks in a van of 158 kg payload: exit code 1, with how much is too much."""
    bricks = load_of(tmp_path, "id: bricks, name: Bricks, mass: 20 kg, number: 20, size_class: small")
    result = call("outfit", WREN, ESTATE, "--load", bricks, "--brief")
    assert result.exit_code == 1
    assert "the payload is 158 kg: 242 kg too much" in said(result)


@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        (
            "gross_vehicle_mass: 2250 kg",
            "gross_vehicle_mass: 1250 kg",
            ("1250 kg", "below the kerb mass", "check both"),
        ),
        ("gross_train_mass: 4050 kg", "gross_train_mass: 2050 kg", ("below the gross vehicle mass", "check both")),
        ("kerb_mass: 1690 kg", "kerb_mass: .nan", ("line 6", "car.kerb_mass", "not a number with a unit")),
        ("kerb_mass: 1690 kg", "kerb_mass: inf kg", ("car.kerb_mass", "not a number with a unit")),
        ("kerb_mass: 1690 kg", "kerb_mass: -1690 kg", ("too low", "from 400 kg to 5000 kg")),
        ("kerb_mass: 1690 kg", "kerb_mass: 1690 m", ("not a unit of mass", "kg, g, t or lb")),
        ("kerb_mass: 1690 kg", "kerb_mass: 99999 kg", ("too high", "from 400 kg to 5000 kg")),
        ("country: GB", "country: Britain", ("journey.country", "two capital letters")),
    ],
)
def test_bad_car_sheet_is_refused(tmp_path: Path, old: str, new: str, parts: tuple[str, ...]) -> None:
    """An impossible figure of the car: exit code 2 and one sentence with file, field, what stands there and what is allowed."""
    refused(call("outfit", WREN, changed(ESTATE, tmp_path, old, new)), "estate.yaml, line", *parts)


@pytest.mark.parametrize(
    ("item", "parts"),
    [
        ("id: a, name: A, mass: -2 kg, size_class: small", ("items.a.mass", "too low")),
        ("id: a, name: A, mass: 9000 kg, size_class: small", ("items.a.mass", "too high")),
        ("id: a, name: A, mass: nan kg, size_class: small", ("items.a.mass", "not a number with a unit")),
        ("id: a, name: A, mass: 2 m, size_class: small", ("not a unit of mass",)),
        ("id: a, name: A, mass: 2 kg, size: [4 kg, 1 m, 1 m]", ("not a unit of length",)),
        ("id: a, name: A, mass: 2 kg", ("neither size nor size class is given",)),
        ("id: a, name: A, mass: 2 kg, size_class: small, fixed: gas-loker", ("did you mean “gas-locker”",)),
    ],
)
def test_bad_load_sheet_is_refused(tmp_path: Path, item: str, parts: tuple[str, ...]) -> None:
    """An impossible thing in the load: exit code 2 and one sentence that names it."""
    refused(call("stow", WREN, load_of(tmp_path, item), "--car", ESTATE), "load.yaml, line 5", *parts)


def test_five_thousand_items_are_refused(tmp_path: Path) -> None:
    """A list nobody wrote by hand: exit code 2, how many there are and how many may be."""
    items = [f"id: t{n}, name: T, mass: 1 kg, size_class: small" for n in range(5000)]
    refused(call("stow", WREN, load_of(tmp_path, *items)), "the list has 5,000 entries", "from 0 to 500")


def test_five_thousand_pieces_are_refused(tmp_path: Path) -> None:
    """Few lines of very many pieces are no way around the limit."""
    items = [f"id: t{n}, name: T, mass: 1 kg, number: 500, size_class: small" for n in range(10)]
    refused(call("stow", WREN, load_of(tmp_path, *items)), "5,000 pieces", "at most 2,000", "boxes")


def test_missing_file_is_refused(tmp_path: Path) -> None:
    """A file that is not there: exit code 2."""
    refused(call("outfit", WREN, tmp_path / "nothing.yaml"), "there is no such file")


def test_stow_of_an_item_bigger_than_every_locker(tmp_path: Path) -> None:
    """A canoe stays at home, with the reason: exit code 1."""
    canoe = load_of(tmp_path, "id: canoe, name: Canoe, mass: 20 kg, size: [4.5 m, 0.8 m, 0.4 m]")
    result = call("stow", WREN, canoe, "--car", ESTATE)
    assert result.exit_code == 1
    assert "Leave 20 kg at home: Canoe. Canoe fits no locker: it is too big" in said(result)


def test_stow_plans_saves_draws_and_is_judged(tmp_path: Path) -> None:
    """A planned stow is written, drawn, read back, judged to fit, and makes the outfit's verdict on the noseweight possible."""
    stow, svg = tmp_path / "stow.yaml", tmp_path / "stow.svg"
    planned = call("stow", WREN, WEEKEND, "--car", ESTATE, "--save", stow, "--svg", svg)
    assert planned.exit_code == 0
    assert "Everything has its place" in said(planned)
    assert svg.read_text(encoding="utf-8").startswith("<svg")
    judged = call("stow", WREN, WEEKEND, "--car", ESTATE, "--from", stow, "--judge")
    assert judged.exit_code == 0
    outfit = call("outfit", WREN, ESTATE, "--load", WEEKEND, "--stow", stow, "--json")
    words = {verdict["id"]: verdict["word"] for verdict in json.loads(outfit.output)["verdicts"]}
    assert words["noseweight"] in ("fits", "tight")


def test_stow_says_the_next_move(tmp_path: Path) -> None:
    """Everything heavy in one end: the judgement names moves with what each does to the ball."""
    stow = tmp_path / "stow.yaml"
    rows = ("butane-cylinder, locker: gas-locker", "generator, locker: nearside-settee")
    stow.write_text("firstpitch: 1\nstow:\n" + "".join(f"  - {{ item: {row} }}\n" for row in rows), encoding="utf-8")
    result = call("stow", WREN, TOO_MUCH, "--car", ESTATE, "--from", stow, "--judge")
    assert "1. " in result.output
    assert "on the ball" in said(result)


def test_stow_of_too_much_says_what_to_leave() -> None:
    """More than fits: exit code 1, what to leave at home, for machines too."""
    result = call("stow", WREN, TOO_MUCH, "--car", ESTATE, "--json")
    assert result.exit_code == 1
    found = json.loads(result.output)
    assert found["word"] == "does not fit"
    assert found["left"]


def test_stow_judge_needs_a_stow() -> None:
    """Judging without a stow to judge is bad input."""
    refused(call("stow", WREN, WEEKEND, "--judge"), "--judge needs the stow to judge")


def test_stow_sheet_with_an_unknown_locker_is_refused(tmp_path: Path) -> None:
    """A locker the van does not have: exit code 2 and the nearest one."""
    stow = tmp_path / "stow.yaml"
    stow.write_text("firstpitch: 1\nstow:\n  - { item: bedding, locker: wardrobes }\n", encoding="utf-8")
    result = call("stow", WREN, WEEKEND, "--from", stow)
    refused(result, "the van has no locker “wardrobes” (did you mean “wardrobe”?)")


def test_steadiness_compares_and_certifies_nothing(tmp_path: Path) -> None:
    """The comparison names each loading and says, for each, that no speed is certified."""
    svg = tmp_path / "steady.svg"
    result = call("steadiness", WREN, ESTATE, WEEKEND, "--samples", 200, "--svg", svg)
    assert result.exit_code == 0
    assert "Without load:" in result.output
    assert "As planned:" in result.output
    assert said(result).count("This certifies no speed.") == 3
    assert svg.read_text(encoding="utf-8").startswith("<svg")


def test_steadiness_same_seed_same_answer() -> None:
    """The draws are those of the seed."""
    first, second = (call("steadiness", WREN, ESTATE, WEEKEND, "--samples", 200, "--json") for _ in range(2))
    assert first.exit_code == 0
    assert json.loads(first.output) == json.loads(second.output)
    assert "certifies no speed" in json.loads(first.output)["caution"]


def test_steadiness_needs_samples() -> None:
    """Too few samples are bad input."""
    refused(call("steadiness", WREN, ESTATE, WEEKEND, "--samples", 10), "--samples", "not in the range")
