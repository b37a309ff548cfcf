"""A good stow quickly: put things down one by one, then share out anew what lies in two or three lockers, again and again.

Two lockers' things can be shared out in so few ways that all are tried. It proves nothing; it gives the exact program a start.
"Home" is a last column without limits and at a high price.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from firstpitch.outfit.stow.problem import Counts, Floats, StowProblem

HARD = 1e8
"""Points for each kg over a limit of noseweight, axle or mass: neither comfort nor taking a thing along is worth it."""
MOST_OF_TWO, MOST_OF_THREE = 10, 6  # pieces shared out at a time: 1024 and 729 ways
THREES = 60  # sets of three lockers tried in a round
MOST_SHAKEN = 20  # pieces
SPREAD = 0.3
ROUNDS = 6
POLISHES = 4
REFINES = 2
EASIER = 20.0
BETTER = 1e-7

Places = NDArray[np.int64]
Marks = NDArray[np.bool_]


@dataclass
class _Field:
    """The problem piece by piece; the last column of everything is home."""

    problem: StowProblem
    item: Places
    mass: Floats
    bulk: Floats
    allowed: Marks
    limit: Floats
    room: Floats
    price: Floats
    side: Floats
    stay: Floats
    band: float

    @classmethod
    def of(cls, problem: StowProblem) -> _Field:
        item = np.repeat(np.arange(len(problem.items)), problem.number)
        home = np.ones((len(item), 1), dtype=bool)
        stay = _stay(problem, item)
        stay[:, -1] = problem.mass[item] * (problem.home[item] - problem.worth.home)
        return cls(
            problem,
            item,
            problem.mass[item],
            problem.volume[item],
            np.hstack([problem.allowed[item], home]),
            np.append(problem.limit, np.inf),
            np.append(problem.room, np.inf),
            np.append(problem.cost, problem.worth.home),
            np.append(problem.y, 0.0),
            stay,
            float(problem.worth.band),
        )

    def tail(self, loads: Floats) -> Floats:
        """What noseweight, axles and level cost for locker loads along the last axis (home is the last of them)."""
        problem, aboard = self.problem, loads[..., :-1]
        low, high = problem.band.preferred
        cost = problem.worth.side * np.abs(loads @ self.side)
        ruling = np.inf if problem.band.ruling is None else problem.band.ruling
        for row in problem.noses:
            landed = aboard @ row.share
            least, most = row.base.low + landed, row.base.high + landed
            cost = cost + self.band * (np.maximum(0, low - least) + np.maximum(0, most - high))
            cost = cost + HARD * (np.maximum(0, problem.floor - least) + np.maximum(0, most - ruling))
        for axle in problem.axles:
            cost = cost + HARD * np.maximum(0, axle.base + aboard @ axle.share - axle.limit)
        spare = problem.outfit.van.masses.mtplm - problem.base_mass
        return np.asarray(cost + HARD * np.maximum(0, aboard.sum(axis=-1) - spare))


def _stay(problem: StowProblem, item: Places) -> Floats:
    """What it is worth for a piece to lie where it lies today: the price of a move, for as many as lie there."""
    today = problem.today
    table = np.zeros((len(item), len(problem.lockers) + 1))
    if today is None:
        return table
    for i in range(len(problem.items)):
        mine = np.flatnonzero(item == i)
        where = np.repeat(np.arange(len(problem.lockers)), today[i])[: len(mine)]
        table[mine[: len(where)], where] = -problem.worth.move
    return table


def search(problem: StowProblem, *, seed: int = 0, rounds: int = ROUNDS) -> Counts:
    """A good stow as an n × k table; what it could not place is left out. The same seed gives the same answer."""
    field = _Field.of(problem)
    if not len(field.mass):
        return np.zeros((len(problem.items), len(problem.lockers)), dtype=np.int64)
    # At its full price the edge of the band is a wall that pieces hardly cross one by one.
    easy = replace(field, band=field.band / EASIER)
    chance = np.random.default_rng(seed)
    best = _twos(field, _first(field), chance)
    least = _cost(field, best)
    for n in range(rounds):
        trial = _shaken(field, best, chance) if n % 2 else best
        trial = _threes(easy, _twos(easy, trial, chance), chance)
        trial = _twos(field, trial, chance)
        cost = _cost(field, trial)
        if cost <= least:
            best, least = trial, cost
    return _table(field, best)


def polish(problem: StowProblem, counts: Counts, *, seed: int = 0) -> Counts:
    """The stow, or a better one nearby: no two lockers' things can then be shared out better."""
    field = _Field.of(problem)
    if not len(field.mass):
        return counts
    chance = np.random.default_rng(seed)
    best = _places(field, counts)
    least = _cost(field, best)
    for _ in range(POLISHES):
        trial = _twos(field, best, chance)
        cost = _cost(field, trial)
        if cost >= least - BETTER:
            break
        best, least = trial, cost
    return _table(field, best)


def refine(problem: StowProblem, counts: Counts, *, enough: float, seed: int = 0, rounds: int = REFINES) -> Counts:
    """The stow, or a better one not far away; no more is sought once it has ``enough`` points or fewer."""
    field = _Field.of(problem)
    if not len(field.mass):
        return counts
    easy = replace(field, band=field.band / EASIER)
    chance = np.random.default_rng(seed)
    best = _twos(field, _places(field, counts), chance)
    least = _cost(field, best)
    for _ in range(rounds):
        if least <= enough:
            break
        trial = _twos(field, _threes(easy, _twos(easy, best, chance), chance), chance)
        cost = _cost(field, trial)
        if cost < least:
            best, least = trial, cost
    return _table(field, best)


def _places(field: _Field, counts: Counts) -> Places:
    """Where each piece lies; pieces that lie where they lie today come first, so that none seems to have moved."""
    places = np.full(len(field.mass), len(field.limit) - 1)
    for i, row in enumerate(counts):
        mine = list(np.flatnonzero(field.item == i))
        for locker in np.repeat(np.arange(len(row)), row):
            at = min(mine, key=lambda p: (field.stay[p, locker], p))
            mine.remove(at)
            places[at] = locker
    return places


def _table(field: _Field, places: Places) -> Counts:
    table = np.zeros((len(field.problem.items), len(field.limit)), dtype=np.int64)
    np.add.at(table, (field.item, places), 1)
    return table[:, :-1]


def _totals(field: _Field, places: Places) -> tuple[Floats, Floats]:
    size = len(field.limit)
    return (
        np.bincount(places, field.mass, size).astype(float),
        np.bincount(places, field.bulk, size).astype(float),
    )


def _cost(field: _Field, places: Places) -> float:
    loads, _ = _totals(field, places)
    return float(field.price @ loads + field.tail(loads) + field.stay[np.arange(len(places)), places].sum())


def _first(field: _Field) -> Places:
    """Things with least choice first, then the bulkiest; each into the cheapest place that has room."""
    places = np.full(len(field.mass), len(field.limit) - 1)
    order = sorted(range(len(places)), key=lambda p: (field.allowed[p].sum(), -field.bulk[p], -field.mass[p], p))
    _put(field, places, np.array(order, dtype=np.int64), np.ones(len(field.price)))
    return places


def _put(field: _Field, places: Places, pieces: Places, taste: Floats) -> None:
    """Put pieces, which are at home, one after another into the cheapest place that has room; ``taste`` bends the prices."""
    loads, filled = _totals(field, places)
    for p in pieces:
        open_ones = field.allowed[p] & (loads + field.mass[p] <= field.limit) & (filled + field.bulk[p] <= field.room)
        price = field.mass[p] * field.price * taste + field.stay[p]
        places[p] = int(np.argmin(np.where(open_ones, price, np.inf)))
        loads[places[p]] += field.mass[p]
        filled[places[p]] += field.bulk[p]


def _shaken(field: _Field, places: Places, chance: np.random.Generator) -> Places:
    """Some pieces taken out and put back in another order, at prices a little off, to leave a local best."""
    trial = places.copy()
    number = min(len(places), int(chance.integers(2, MOST_SHAKEN + 1)))
    out = chance.choice(len(places), size=number, replace=False)
    trial[out] = len(field.limit) - 1
    _put(field, trial, out, chance.uniform(1 - SPREAD, 1 + SPREAD, len(field.price)))
    return trial


def _twos(field: _Field, places: Places, chance: np.random.Generator) -> Places:
    """Share out every two lockers' things, in a random order."""
    pairs = np.array([(a, b) for a in range(len(field.limit)) for b in range(a)])
    for pair in chance.permutation(pairs):
        places = _shared(field, places, pair, MOST_OF_TWO, chance)
    return places


def _threes(field: _Field, places: Places, chance: np.random.Generator) -> Places:
    """Share out some sets of three lockers' things."""
    size, three = len(field.limit), 3
    for _ in range(THREES if size >= three else 0):
        places = _shared(field, places, chance.choice(size, three, replace=False), MOST_OF_THREE, chance)
    return places


@cache
def _ways(lockers: int, pieces: int) -> tuple[Places, tuple[Floats, ...]]:
    """Every way to share so many pieces out over so many lockers, and for each locker which pieces it then has (0 or 1)."""
    grid = np.indices((lockers,) * pieces).reshape(pieces, -1).T
    return grid, tuple((grid == place).astype(float) for place in range(lockers))


def _shared(field: _Field, places: Places, lockers: Places, most: int, chance: np.random.Generator) -> Places:
    """The best way to share out the things in these lockers (at most ``most`` of them); the same places when there is none better."""
    pieces = np.flatnonzero(np.isin(places, lockers))
    if len(pieces) > most:
        pieces = np.sort(chance.choice(pieces, most, replace=False))
    if not len(pieces):
        return places
    loads, filled = _totals(field, places)
    grid, has = _ways(len(lockers), len(pieces))
    cost, fine, held = np.zeros(len(grid)), np.ones(len(grid), dtype=bool), []
    for locker, mine in zip(lockers, has, strict=True):
        here = pieces[places[pieces] == locker]
        figures = np.stack(
            [field.mass[pieces], field.bulk[pieces], ~field.allowed[pieces, locker], field.stay[pieces, locker]], axis=1
        )
        mass, bulk, wrong, stay = (mine @ figures).T
        mass, bulk = mass + loads[locker] - field.mass[here].sum(), bulk + filled[locker] - field.bulk[here].sum()
        fine &= (mass <= field.limit[locker] + BETTER) & (bulk <= field.room[locker] + BETTER) & (wrong == 0)
        cost += field.price[locker] * mass + stay
        held.append(mass)
    rows = np.flatnonzero(fine)
    if not len(rows):
        return places
    trial = np.repeat(loads[None, :], len(rows), axis=0)
    trial[:, lockers] = np.stack(held, axis=1)[rows]
    total = cost[rows] + field.tail(trial)
    best = int(np.argmin(total))
    now = field.price[lockers] @ loads[lockers] + field.stay[pieces, places[pieces]].sum() + float(field.tail(loads))
    if total[best] >= now - BETTER:
        return places
    found = places.copy()
    found[pieces] = lockers[grid[rows[best]]]
    return found
