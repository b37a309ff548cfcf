"""The exact sentences for everything that can be wrong inside a sheet (the cases stand in faults.toml)."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Faults = Callable[..., list[str]]
CASES: dict[str, list[dict[str, Any]]] = tomllib.loads((Path(__file__).parent / "faults.toml").read_text("utf-8"))


def cases(group: str) -> pytest.MarkDecorator:
    """A test for each case of a group."""
    rows = [pytest.param(case, id=case["name"]) for case in CASES[group]]
    return pytest.mark.parametrize("case", rows)


def judge(faults: Faults, case: dict[str, Any]) -> None:
    """Make the change and compare every sentence."""
    changes = case.get("changes") or [(case["old"], case["new"])]
    assert faults(*changes) == [f"van.yaml, {sentence}" for sentence in case["says"]]


@cases("quantity")
def test_quantity(faults: Faults, case: dict[str, Any]) -> None:
    """A figure without a unit, with the wrong sort of unit, or that is no plain number is refused, and the sentence says what to write."""
    judge(faults, case)


@cases("ambiguous_measure")
def test_ambiguous_measure(faults: Faults, case: dict[str, Any]) -> None:
    """Gallons, tons and hundredweights differ between Britain and America, so they are refused rather than guessed."""
    judge(faults, case)


@cases("masses")
def test_masses(faults: Faults, case: dict[str, Any]) -> None:
    """A van whose greatest laden mass is below its mass in running order is refused."""
    judge(faults, case)


@cases("count_or_choice")
def test_count_or_choice(faults: Faults, case: dict[str, Any]) -> None:
    """Counts are whole numbers in bounds, choices one of the words given, yes-no nothing else; octal and on/off are not guessed."""
    judge(faults, case)


@cases("chassis_number")
def test_chassis_number(faults: Faults, case: dict[str, Any]) -> None:
    """A chassis number has 17 characters, digits and letters, and never I, O or Q (ISO 3779, from memory)."""
    judge(faults, case)


@cases("date")
def test_date(faults: Faults, case: dict[str, Any]) -> None:
    """A date is written year-month-day, is in the calendar and, for what is past, is not in the future."""
    judge(faults, case)


@cases("tyre")
def test_tyre(faults: Faults, case: dict[str, Any]) -> None:
    """A tyre's date code is a week and a year that has come, and its speed symbol a letter."""
    judge(faults, case)


@cases("missing")
def test_missing(faults: Faults, case: dict[str, Any]) -> None:
    """A sheet without a part that everything needs is refused, and the sentence says what to write."""
    judge(faults, case)


@cases("wrong_shape")
def test_wrong_shape(faults: Faults, case: dict[str, Any]) -> None:
    """A list where one value belongs, or the other way round, is refused with what belongs there."""
    judge(faults, case)


@cases("key")
def test_key(faults: Faults, case: dict[str, Any]) -> None:
    """A key that the format does not have, or one that stands twice, is refused, with the nearest key that exists."""
    judge(faults, case)


@cases("version")
def test_version(faults: Faults, case: dict[str, Any]) -> None:
    """A file of another format number is refused."""
    judge(faults, case)


@cases("axle")
def test_axle(faults: Faults, case: dict[str, Any]) -> None:
    """Each axle lies between the front wall and the rear wall, and they are listed front to rear."""
    judge(faults, case)


@cases("locker")
def test_locker(faults: Faults, case: dict[str, Any]) -> None:
    """A whole locker lies inside the body, has three sides above zero and an id of its own."""
    judge(faults, case)


@cases("aisle_or_door")
def test_aisle_or_door(faults: Faults, case: dict[str, Any]) -> None:
    """The aisle and the door lie inside the body."""
    judge(faults, case)


@cases("furniture")
def test_furniture(faults: Faults, case: dict[str, Any]) -> None:
    """A piece of furniture is a rectangle inside the body."""
    judge(faults, case)


@cases("kit_place")
def test_kit_place(faults: Faults, case: dict[str, Any]) -> None:
    """Kit lies no further than 1.5 m outside the van, A-frame and all."""
    judge(faults, case)


@cases("size_of_body")
def test_size_of_body(faults: Faults, case: dict[str, Any]) -> None:
    """The floor is no larger than length times width, and the headroom less than the height of the roof."""
    judge(faults, case)


@cases("kind_or_id")
def test_kind_or_id(faults: Faults, case: dict[str, Any]) -> None:
    """Each kit is of a kind the catalogue has and has an id of its own; no more of a kind than a van can have."""
    judge(faults, case)


@cases("fact")
def test_fact(faults: Faults, case: dict[str, Any]) -> None:
    """A kit carries only the facts of its kind, each of the right sort and within its bounds."""
    judge(faults, case)


@cases("link")
def test_link(faults: Faults, case: dict[str, Any]) -> None:
    """A link names one kit of a right kind; where several could be meant the sheet must say which."""
    judge(faults, case)
