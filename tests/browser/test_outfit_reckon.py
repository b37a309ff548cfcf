"""The page's own sums (static/desk/outfit/reckon.js) run in real Chromium and held to the engine's, on hundreds of random stows."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from firstpitch.catalogue import load as catalogue_of
from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.outfits import Kept, Stowed, fitted, without_home
from firstpitch.desk.pages.outfit.numbers import numbers_of
from firstpitch.outfit import Car, Load, Outfit, Placed, Stow, check_outfit
from firstpitch.outfit.sheets import read_car_text, read_load_text
from firstpitch.outfit.stow import evaluate, stow_problem
from firstpitch.sheet import read_sheet_text, resolve_links
from tests.browser.modules import modules_alone

DEMO = (
    ("wren", "estate", "wren-weekend"),
    ("heron", "tow-car", "heron-summer"),
    ("plover", "hatchback", "plover-family"),
)
ASK = """([numbers, stows]) => stows.map((stow) => {
  const found = s.reckon(numbers, s.lying(numbers, stow));
  return { ...found, lockers: [...found.lockers.values()] };
})"""


@pytest.fixture(scope="module")
def sums(browser: Browser) -> Iterator[Page]:
    """A page with the sums and nothing else."""
    with modules_alone(browser) as page:
        page.evaluate("async () => { window.s = await import('/outfit/reckon.js'); }")
        yield page


def demo(van: str, car: str, load: str) -> Outfit:
    """A demo outfit without a stow."""
    here, catalogue = files("firstpitch.demo"), catalogue_of()
    sheet = read_sheet_text((here / f"{van}.yaml").read_text("utf-8"), catalogue.kinds, today=date.max)
    read = read_car_text((here / "cars" / f"{car}.yaml").read_text("utf-8"), today=date.max)
    aboard = read_load_text(
        (here / "loads" / f"{load}.yaml").read_text("utf-8"), sheet, catalogue.kinds, today=date.max
    )
    return Outfit(sheet, catalogue.kinds, read.car, read.driver, read.journey, aboard)


def kept(outfit: Outfit, stowed: Stowed) -> Kept:
    """What a handover would keep."""
    catalogue = catalogue_of()
    opened = OpenVan(outfit.van, catalogue, resolve_links(outfit.van.kit, catalogue.kinds))
    tidy = fitted(stowed, outfit.load, opened)
    there = replace(outfit, load=without_home(outfit.load, tidy.home), stow=Stow(tidy.placed))
    return Kept(opened, None, outfit.load, tidy, outfit, there, False, "", "")


def any_stow(chance: random.Random, outfit: Outfit, *, whole: bool) -> Stowed:
    """Things anywhere: in lockers they may be in or not, some nowhere, some at home; ``whole``: all in lockers."""
    lockers = [locker.id for locker in outfit.van.plan.lockers]
    places = lockers if whole else [*lockers, "", "home"]
    placed, home = [], []
    for item in outfit.load.items:
        for _ in range(item.number):
            place = chance.choice(places)
            if place == "home":
                home.append((item.id, 1))
            elif place:
                placed.append(Placed(item.id, place, 1))
    return Stowed(tuple(placed), tuple(home))


def variants() -> list[Outfit]:
    """The demo outfits, and the same with figures missing or springs that share otherwise."""
    found = [demo(*names) for names in DEMO]
    wren, heron, _ = found
    bare = replace(wren.van.masses, measured_mass=None, measured_noseweight=None)
    return [
        *found,
        replace(wren, van=replace(wren.van, masses=bare)),
        replace(wren, car=Car("unknown car"), load=replace(wren.load, water={})),
        replace(wren, van=replace(wren.van, masses=replace(wren.van.masses, axle_limit=None))),
        replace(heron, van=replace(heron.van, gear=replace(heron.van.gear, equalised=True))),
        replace(wren, load=Load("nothing")),
    ]


def ends(found: dict[str, Any]) -> tuple[float, float]:
    """A span as the page has it; JSON has no infinities."""
    return (-math.inf if found["low"] is None else found["low"], math.inf if found["high"] is None else found["high"])


@pytest.mark.parametrize("number", range(len(variants())))
@pytest.mark.parametrize("whole", [True, False])
def test_the_pages_sums_are_the_engines(sums: Page, number: int, whole: bool) -> None:
    """On random stows mass, noseweight, axle, payload, each locker's load, swing, centre of gravity and the words are the engine's."""
    outfit, chance = variants()[number], random.Random(100 * number + whole)
    cases = [kept(outfit, any_stow(chance, outfit, whole=whole)) for _ in range(25)]
    answers = sums.evaluate(ASK, [numbers_of(cases[0]), [case.stowed.stored() for case in cases]])
    for case, answer in zip(cases, answers, strict=True):
        check, problem = check_outfit(case.outfit), stow_problem(case.outfit)
        figures = evaluate(problem, problem.counts(case.outfit.stow or Stow()))
        _same(ends(answer["mass"]), (check.laden.mass.low, check.laden.mass.high))
        _same(ends(answer["nose"]), (check.laden.nose.low, check.laden.nose.high))
        payload = check.verdict("payload")
        assert answer["words"]["payload"] == payload.word
        assert answer["words"]["nose"] == check.verdict("noseweight").word
        assert answer["inertia"] == pytest.approx(figures.inertia, rel=1e-9)
        assert answer["side"] == pytest.approx(figures.side, abs=1e-6)
        assert answer["centre"] == pytest.approx(figures.centre, rel=1e-9)
        loads = {one["id"]: one for one in answer["lockers"]}
        for locker in figures.lockers:
            assert loads[locker.id]["mass"] == pytest.approx(locker.mass, abs=1e-9)
            assert loads[locker.id]["filled"] == pytest.approx(locker.filled, abs=1e-9)
        one_or_shared = len(outfit.van.gear.axles) == 1 or outfit.van.gear.equalised
        if whole or one_or_shared:
            rows = [v for v in check.verdicts if v.id.startswith("van-axle") and v.number]
            most = max(rows, key=lambda v: v.number.high if v.number else 0.0)
            assert most.number is not None
            _same(ends(answer["axle"]["carries"]), (most.number.low, most.number.high))
            assert answer["words"]["axle"] == most.word


def _same(found: tuple[float, float], wanted: tuple[float, float]) -> None:
    assert found == pytest.approx(wanted, rel=1e-9, abs=1e-6)
