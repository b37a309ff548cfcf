"""The outfit: time to a proven stow against another solver, steadiness of 10,000 samples against one by one, the whole verdict."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date
from importlib.resources import files
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np

from bench.highs import by_highs
from bench.loads import listed, measured, outfit
from firstpitch.catalogue import load as load_catalogue
from firstpitch.outfit import Outfit, check_outfit, compare_steadiness, plan_stow, read_car, read_load
from firstpitch.outfit.steadiness.estimate import draw, estimate
from firstpitch.outfit.steadiness.model import Rig, characteristic, critical_speed, swing_at
from firstpitch.outfit.stow import StowProblem, stow_problem
from firstpitch.outfit.stow.plan import TOLERANCE
from firstpitch.sheet import read_sheet

TITLE = "The outfit: stow, steadiness, verdict"
NOTES = (
    "Stow: 60 invented things (bench/loads.py) for 14 lockers, five loads as a sheet lists them (half kilograms, size classes) and "
    "five weighed to 100 g and measured to a centimetre. Each is planned until nothing can be better by more than "
    f"{TOLERANCE:g} points, at most {{limit}} s; the middle and the worst of the five are given, and how many were proven. By the clock it "
    "grows with whatever else the machine does; CPU s is our own work on one core, and the bar is for that. "
    "HiGHS gets the same problem with the same "
    "tolerance and time, on one thread, and the ratio is of the sums of CPU seconds; what it does not prove counts as the time it took. "
    "Steadiness: critical speed, and damping at 80 km/h, of the same 10,000 rigs at once and one after another (the latter timed "
    "on 500 of them); the whole answer, for one loading, adds the drawing of the samples, damping at eleven speeds and the sentences. "
    "Verdict: "
    "check_outfit on a demo van with its load, sheets already read."
).replace("{limit}", "20")
ITEMS, SEEDS, LIMIT = 60, range(1, 6), 20.0
SAMPLES, ONE_BY_ONE = 10_000, 500
DEMO = Path(str(files("firstpitch.demo")))

Row = dict[str, Any]


def rows() -> list[Row]:
    """Stows of two sorts, steadiness, and the verdict."""
    plan_stow(outfit(listed(3, 1)))  # the solver's library loads once
    return [_stows("listed", listed), _stows("weighed and measured", measured), *_steadiness(), _verdict()]


def _clocked(work: Callable[[], Any]) -> tuple[Any, float, float]:
    """What it gives, and the seconds by the clock and of CPU."""
    begun, worked = time.perf_counter(), time.process_time()
    found = work()
    return found, time.perf_counter() - begun, time.process_time() - worked


def _stows(name: str, make: Callable[[int, int], Any]) -> Row:
    problems = [outfit(make(ITEMS, seed)) for seed in SEEDS]
    ours = [_clocked(lambda one=one: plan_stow(one, seconds=LIMIT)) for one in problems]  # type: ignore[misc]
    theirs = [_clocked(lambda one=one: _other(stow_problem(one))) for one in problems]  # type: ignore[misc]
    for (plan, _, _), (other, _, _) in zip(ours, theirs, strict=True):
        if plan.left or plan.points < other.bound - 0.5 or plan.bound > other.points + 0.5:
            raise RuntimeError("planner and HiGHS contradict each other")
    cpu, other_cpu = [one[2] for one in ours], [one[2] for one in theirs]
    proven, other_proven = sum(one[0].proven for one in ours), sum(one[0].proven for one in theirs)
    return {
        "what": f"stow, {ITEMS} things × 14 lockers, {name}",
        "by the clock": f"{median(one[1] for one in ours):.2f} s, worst {max(one[1] for one in ours):.2f} s",
        "CPU": f"{median(cpu):.2f} s, worst {max(cpu):.2f} s",
        "bar": "0.5 s",
        "proven": f"{proven} of {len(ours)}",
        "compared with": f"HiGHS {median(other_cpu):.2f} s, worst {max(other_cpu):.2f} s CPU, {other_proven} proven",
        "other / ours": f"{sum(other_cpu) / sum(cpu):.1f}",
    }


def _other(problem: StowProblem) -> Any:
    return by_highs(problem, seconds=LIMIT, gap=TOLERANCE, threads=1)


def _steadiness() -> list[Row]:
    made = outfit(listed(ITEMS, 1))
    made = Outfit(made.van, made.kinds, made.car, made.driver, made.journey, made.load, plan_stow(made).stow)
    answers = [_clocked(lambda: compare_steadiness({"as planned": made}, samples=SAMPLES)) for _ in range(3)]
    rig = estimate(made, draw(SAMPLES, 0)).rig
    at_once = [_clocked(lambda: _core(rig)) for _ in range(3)]
    each = [
        Rig(**{name: float(np.broadcast_to(value, SAMPLES)[n]) for name, value in vars(rig).items()})
        for n in range(ONE_BY_ONE)
    ]
    _, _, slow = _clocked(lambda: [_core(one) for one in each])
    fast = min(one[2] for one in at_once)
    return [
        {
            "what": f"steadiness, {SAMPLES:,} samples, whole answer",
            "by the clock": f"{min(one[1] for one in answers):.2f} s",
            "CPU": f"{min(one[2] for one in answers):.2f} s",
            "bar": "1 s",
        },
        {
            "what": f"steadiness, {SAMPLES:,} samples, the model alone",
            "by the clock": f"{min(one[1] for one in at_once):.3f} s",
            "CPU": f"{fast:.3f} s",
            "bar": "30 times quicker than one by one",
            "compared with": f"one by one {slow / ONE_BY_ONE * SAMPLES:.1f} s",
            "other / ours": f"{slow / ONE_BY_ONE * SAMPLES / fast:.0f}",
        },
    ]


def _core(rig: Rig) -> None:
    critical_speed(rig)
    swing_at(characteristic(rig), 80 / 3.6)


def _verdict() -> Row:
    today, catalogue = date(2027, 5, 1), load_catalogue()
    van = read_sheet(DEMO / "wren.yaml", catalogue.kinds, today=today)
    car = read_car(DEMO / "cars" / "estate.yaml", today=today)
    load = read_load(DEMO / "loads" / "wren-weekend.yaml", van, catalogue.kinds, today=today)
    made = Outfit(van, catalogue.kinds, car.car, car.driver, car.journey, load)
    made = Outfit(van, catalogue.kinds, car.car, car.driver, car.journey, load, plan_stow(made).stow)
    check_outfit(made)
    times = [_clocked(lambda: check_outfit(made)) for _ in range(50)]
    return {
        "what": "outfit, every verdict",
        "by the clock": f"{1000 * median(one[1] for one in times):.1f} ms, worst {1000 * max(one[1] for one in times):.1f} ms",
        "CPU": f"{1000 * median(one[2] for one in times):.1f} ms",
        "bar": "20 ms",
    }
