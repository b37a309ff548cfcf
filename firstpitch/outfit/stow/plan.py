"""Planning a stow: the best place for everything, how sure that is, and what to do when not everything goes in."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firstpitch.outfit.stow.evaluate import StowFigures, evaluate, kilos, score
from firstpitch.outfit.stow.explain import WayOut, ways_out
from firstpitch.outfit.stow.left import what_to_leave
from firstpitch.outfit.stow.moves import blocks, word_of
from firstpitch.outfit.stow.problem import Counts, StowProblem, Worth, stow_problem
from firstpitch.outfit.stow.program import Solved, solve
from firstpitch.outfit.stow.prove import prove
from firstpitch.outfit.stow.search import polish, search
from firstpitch.outfit.types import Load, Outfit, Stow
from firstpitch.outfit.verdict import Word, shown, shown_span

SECONDS = 10.0
TOLERANCE = 5.0
"""Points below which two stows count as equally good. Five are 5 kg·m² of yaw inertia, a five-hundredth of a caravan's: in the
steadiness model they move the critical speed by less than 0.1 km/h, and no locker's middle is known that well."""

FULL = 0.97  # share of a limit at which it is worth naming
VISIBLE = 0.05  # kg

CAUTION = (
    "This reckons with the middle of each locker and with the masses the sheets give. Weigh the nose before you drive; "
    "the plates, the handbooks and the law rule."
)


@dataclass(frozen=True)
class Carried:
    """A change from today's stow: so many pieces of an item from one locker (id, empty: from outside) to another."""

    item: str
    name: str
    number: int
    origin: str
    to: str


@dataclass(frozen=True)
class StowPlan:
    """A planned stow. ``points`` of it and the proven ``bound`` below which no stow can be; ``proven`` when they are one tolerance apart.

    ``left`` stays at home; ``holds_up`` names the limits that by themselves keep the rest out; ``ways`` are cheapest first.
    """

    word: Word
    stow: Stow
    figures: StowFigures
    points: float
    bound: float
    proven: bool
    seconds: float
    left: tuple[tuple[str, int], ...]
    carried: tuple[Carried, ...]
    near: tuple[str, ...]
    holds_up: tuple[str, ...]
    ways: tuple[WayOut, ...]
    unknown: tuple[str, ...]
    sentence: str
    aboard: Load
    caution: str = CAUTION


def plan_stow(
    outfit: Outfit, *, worth: Worth | None = None, seconds: float = SECONDS, tolerance: float = TOLERANCE, seed: int = 0
) -> StowPlan:
    """The best stow of ``outfit.load``; ``outfit.stow`` where given is today's, from which as little as possible is moved.

    In this order: everything goes along; the noseweight in the preferred band; then together low, near the wanted centre of
    gravity, level from side to side, few moves. ``seconds`` bounds the search for a proof, ``tolerance`` [points] is what
    counts as equally good. The same arguments give the same answer unless ``seconds`` run out.
    """
    problem = stow_problem(outfit, worth=worth)
    start = search(problem, seed=seed, rounds=0)
    if evaluate(problem, start).breaches or (start.sum(axis=1) != problem.number).any():
        start = search(problem, seed=seed)
    housed = _only(problem, np.asarray(problem.allowed.any(axis=1)))
    solved = prove(housed, start, seconds=seconds, tolerance=tolerance, seed=seed)
    if solved.counts is not None and housed.load_mass == problem.load_mass:
        return _plan(problem, solved, (), (), tolerance)
    ways: tuple[WayOut, ...] = ()
    holds_up: tuple[str, ...] = ()
    if solved.counts is None:
        ways, holds_up = ways_out(housed, seconds=seconds / 4)
        solved = solve(problem, leave=True, hint=start, seconds=seconds, tolerance=tolerance, seed=seed)
        counts = solved.counts if solved.counts is not None else start
        solved = replace(solved, counts=counts, bound=solved.bound - problem.left_price(counts))
    return _plan(problem, solved, ways, holds_up, tolerance)


def _only(problem: StowProblem, keep: NDArray[np.bool_]) -> StowProblem:
    """The problem without the pieces that fit nowhere."""
    return replace(problem, number=np.where(keep, problem.number, 0))


def _plan(
    problem: StowProblem, solved: Solved, ways: tuple[WayOut, ...], holds_up: tuple[str, ...], tolerance: float
) -> StowPlan:
    found = solved.counts if solved.counts is not None else np.zeros_like(problem.allowed, dtype=np.int64)
    polished = polish(problem, found)
    counts = polished if score(problem, polished).better_than(score(problem, found)) else found
    figures = evaluate(problem, counts)
    stow = problem.stow(counts)
    word = word_of(problem, figures)
    out = what_to_leave(problem, figures)
    return StowPlan(
        word=word,
        stow=stow,
        figures=figures,
        points=figures.points,
        bound=solved.bound,
        proven=solved.answer == "best" or (not figures.not_placed and figures.points - solved.bound <= tolerance),
        seconds=solved.seconds,
        left=figures.not_placed,
        carried=_carried(problem, counts),
        near=_near(problem, figures),
        holds_up=holds_up,
        ways=(*out, *ways),
        unknown=blocks(problem),
        sentence=_sentence(problem, figures, word, out),
        aboard=_aboard(problem, figures),
    )


def _aboard(problem: StowProblem, figures: StowFigures) -> Load:
    """The load without what stays at home."""
    left = dict(figures.not_placed)
    items = (replace(item, number=item.number - left.get(item.id, 0)) for item in problem.items)
    return replace(problem.outfit.load, items=tuple(item for item in items if item.number > 0))


def _carried(problem: StowProblem, counts: Counts) -> tuple[Carried, ...]:
    """The moves from today's stow, heaviest first."""
    if problem.today is None:
        return ()
    found: list[tuple[float, Carried]] = []
    for i, item in enumerate(problem.items):
        change = counts[i] - problem.today[i]
        gone = [(problem.lockers[j].id, int(-n)) for j, n in enumerate(change) if n < 0]
        come = [(problem.lockers[j].id, int(n)) for j, n in enumerate(change) if n > 0]
        for origin, to, number in _paired(gone, come):
            found.append((item.mass * number, Carried(item.id, item.name, number, origin, to)))
    return tuple(carried for _, carried in sorted(found, key=lambda pair: -pair[0]))


def _paired(gone: list[tuple[str, int]], come: list[tuple[str, int]]) -> list[tuple[str, str, int]]:
    pairs: list[tuple[str, str, int]] = []
    gone, come = [*gone], [*come]
    while gone or come:
        (origin, most), (to, wanted) = (
            (gone[0] if gone else ("", come[0][1])),
            (come[0] if come else ("home", gone[0][1])),
        )
        number = min(most, wanted)
        pairs.append((origin, to, number))
        gone = [(origin, most - number), *gone[1:]] if gone else []
        come = [(to, wanted - number), *come[1:]] if come else []
        gone, come = [g for g in gone if g[1]], [c for c in come if c[1]]
    return pairs


def _near(problem: StowProblem, figures: StowFigures) -> tuple[str, ...]:
    """The limits that the stow all but reaches."""
    found = [
        f"{locker.name} holds {kilos(locker.mass)} of {kilos(locker.limit)}"
        for locker in figures.lockers
        if locker.limit and locker.mass >= FULL * locker.limit
    ]
    found += [f"{locker.name} is full" for locker in figures.lockers if locker.filled >= FULL]
    ruling = problem.band.ruling
    if ruling is not None and figures.nose.high >= FULL * ruling:
        found.append(f"the noseweight is at {shown_span(figures.nose, 'kg')} of {shown(ruling, 'kg')}")
    low, high = problem.band.preferred
    if figures.out_of_band > VISIBLE:
        band = f"{shown(low, 'kg')} to {shown(high, 'kg')}"
        found.append(f"the lockers allow no noseweight within the preferred {band}")
    return tuple(found)


def _sentence(problem: StowProblem, figures: StowFigures, word: Word, out: tuple[WayOut, ...]) -> str:
    nose = shown_span(figures.nose, "kg")
    if figures.not_placed:
        what = " ".join(way.sentence for way in out if way.sort == "leave" or way is out[0])
        return f"Not everything can go along in the caravan. {what} Then the noseweight is {nose}."
    if figures.breaches:
        return " ".join(breach.sentence for breach in figures.breaches)
    start = f"Everything has its place; the noseweight is {nose}."
    if word == "cannot say":
        return f"{start} Whether that fits nobody can say until {' and '.join(blocks(problem)[:3])} is known."
    return start
