"""A good stow quickly: put things down one by one, then move, swap and shift pieces as long as that is better.

It proves nothing; it gives the exact program a start. "Home" is a last column without limits and at a high price.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstpitch.outfit.stow.problem import Counts, Floats, StowProblem

HARD = 1e5
"""Points for each kg outside a hard limit of the noseweight or an axle: no comfort is worth it."""
MOST_SHIFTED = 120  # pieces; beyond it the three-way shifts would fill the memory
MOST_SHAKEN = 20  # pieces
SPREAD = 0.3
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
            cost = cost + problem.worth.band * (np.maximum(0, low - least) + np.maximum(0, most - high))
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


def search(problem: StowProblem, *, seed: int = 0, rounds: int = 60) -> Counts:
    """A good stow as an n × k table; what it could not place is left out. The same seed gives the same answer."""
    field = _Field.of(problem)
    chance = np.random.default_rng(seed)
    places = _descend(field, _first(field))
    best, least = places.copy(), _cost(field, places)
    for _ in range(rounds):
        trial = _descend(field, _shaken(field, best, chance))
        cost = _cost(field, trial)
        if cost < least - BETTER:
            best, least = trial, cost
    table = np.zeros((len(problem.items), len(problem.lockers) + 1), dtype=np.int64)
    np.add.at(table, (field.item, best), 1)
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
    loads, filled = np.zeros(len(field.limit)), np.zeros(len(field.limit))
    for p in sorted(range(len(places)), key=lambda p: (field.allowed[p].sum(), -field.bulk[p], -field.mass[p], p)):
        open_ones = field.allowed[p] & (loads + field.mass[p] <= field.limit) & (filled + field.bulk[p] <= field.room)
        price = np.where(open_ones, field.mass[p] * field.price + field.stay[p], np.inf)
        places[p] = int(np.argmin(price))
        loads[places[p]] += field.mass[p]
        filled[places[p]] += field.bulk[p]
    return places


def _shaken(field: _Field, places: Places, chance: np.random.Generator) -> Places:
    """Some pieces taken out and put back in another order, at prices a little off, to leave a local best."""
    trial = places.copy()
    out = chance.choice(len(places), size=min(len(places), int(chance.integers(2, MOST_SHAKEN + 1))), replace=False)
    trial[out] = len(field.limit) - 1
    loads, filled = _totals(field, trial)
    for p in out:
        open_ones = field.allowed[p] & (loads + field.mass[p] <= field.limit) & (filled + field.bulk[p] <= field.room)
        price = field.mass[p] * field.price * chance.uniform(1 - SPREAD, 1 + SPREAD, len(field.price)) + field.stay[p]
        trial[p] = int(np.argmin(np.where(open_ones, price, np.inf)))
        loads[trial[p]] += field.mass[p]
        filled[trial[p]] += field.bulk[p]
    return trial


def _descend(field: _Field, places: Places) -> Places:
    """Take the best move, swap or shift again and again until none is better."""
    while True:
        for step in (_best_move, _best_swap, _best_shift):
            found = step(field, places)
            if found is not None:
                places = found
                break
        else:
            return places


def _change(field: _Field, loads: Floats, deltas: Floats) -> Floats:
    """What changed loads do to the cost, without ``stay``; ``deltas`` has the lockers along its last axis."""
    return np.asarray(deltas @ field.price + field.tail(loads + deltas) - field.tail(loads))


def _best_move(field: _Field, places: Places) -> Places | None:
    loads, filled = _totals(field, places)
    pieces, size = np.arange(len(places)), len(field.limit)
    open_ones = field.allowed & (loads + field.mass[:, None] <= field.limit + BETTER)
    open_ones &= filled + field.bulk[:, None] <= field.room + BETTER
    open_ones[pieces, places] = False
    p, b = np.nonzero(open_ones)
    if not len(p):
        return None
    deltas = np.zeros((len(p), size))
    rows = np.arange(len(p))
    deltas[rows, places[p]] -= field.mass[p]
    deltas[rows, b] += field.mass[p]
    gain = _change(field, loads, deltas) + field.stay[p, b] - field.stay[p, places[p]]
    best = int(np.argmin(gain))
    if gain[best] >= -BETTER:
        return None
    found = places.copy()
    found[p[best]] = b[best]
    return found


def _best_swap(field: _Field, places: Places) -> Places | None:
    loads, filled = _totals(field, places)
    p, q = np.triu_indices(len(places), 1)
    keep = (places[p] != places[q]) & field.allowed[p, places[q]] & field.allowed[q, places[p]]
    p, q = p[keep], q[keep]
    a, b = places[p], places[q]
    heavier, bulkier = field.mass[q] - field.mass[p], field.bulk[q] - field.bulk[p]
    keep = (loads[a] + heavier <= field.limit[a] + BETTER) & (loads[b] - heavier <= field.limit[b] + BETTER)
    keep &= (filled[a] + bulkier <= field.room[a] + BETTER) & (filled[b] - bulkier <= field.room[b] + BETTER)
    p, q, a, b, heavier = p[keep], q[keep], a[keep], b[keep], heavier[keep]
    if not len(p):
        return None
    rows = np.arange(len(p))
    deltas = np.zeros((len(p), len(field.limit)))
    deltas[rows, a] += heavier
    deltas[rows, b] -= heavier
    gain = _change(field, loads, deltas) + field.stay[p, b] + field.stay[q, a] - field.stay[p, a] - field.stay[q, b]
    best = int(np.argmin(gain))
    if gain[best] >= -BETTER:
        return None
    found = places.copy()
    found[p[best]], found[q[best]] = b[best], a[best]
    return found


def _best_shift(field: _Field, places: Places) -> Places | None:
    """Piece p into the place of q, and q somewhere else that has room."""
    if len(places) > MOST_SHIFTED:
        return None
    loads, filled = _totals(field, places)
    size = len(field.limit)
    fits_else = field.allowed & (loads + field.mass[:, None] <= field.limit + BETTER)
    fits_else &= filled + field.bulk[:, None] <= field.room + BETTER
    fits_else[np.arange(len(places)), places] = False
    b = places
    room_mass = loads[b] - field.mass <= field.limit[b] - field.mass[:, None] + BETTER
    room_bulk = filled[b] - field.bulk <= field.room[b] - field.bulk[:, None] + BETTER
    pair = (places[:, None] != places[None, :]) & field.allowed[:, places] & room_mass & room_bulk
    p, q, c = np.nonzero(pair[:, :, None] & fits_else[None, :, :])
    keep = c != places[p]
    p, q, c = p[keep], q[keep], c[keep]
    if not len(p):
        return None
    rows = np.arange(len(p))
    deltas = np.zeros((len(p), size))
    deltas[rows, places[p]] -= field.mass[p]
    deltas[rows, places[q]] += field.mass[p] - field.mass[q]
    deltas[rows, c] += field.mass[q]
    gain = _change(field, loads, deltas)
    gain = gain + field.stay[p, places[q]] - field.stay[p, places[p]] + field.stay[q, c] - field.stay[q, places[q]]
    best = int(np.argmin(gain))
    if gain[best] >= -BETTER:
        return None
    found = places.copy()
    found[p[best]], found[q[best]] = places[q[best]], c[best]
    return found
