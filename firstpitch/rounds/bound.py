"""Lower bounds on the least total time of a set of steps: no order whatever can be quicker."""

from __future__ import annotations

from collections.abc import Iterable

from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Orders
from firstpitch.rounds.walk_bound import walk_bound


def lower_bound(model: Model, steps: Iterable[int], orders: Orders) -> int:
    """A proven lower bound on the total [s] of any valid round that takes all of ``steps``; ``orders`` hold in every such round.

    The larger of (a) all the steps' seconds plus the least walking, which is at least the longest walk along steps whose order is
    forced, at least a tree that joins all places, and at least the exact walk through some of them; (b) the longest chain of forced
    orders and waits, with everything that must come before and after it.
    """
    chosen = sorted(set(steps), key=lambda i: orders.before[i].bit_count())
    if not chosen:
        return 0
    mask = sum(1 << i for i in chosen)
    work = sum(model.seconds[i] for i in chosen)
    reach = _forced_walk(model, chosen, orders)
    return max(work + least_walking(model, chosen, orders), _longest_chain(model, chosen, orders, mask, reach))


def least_walking(model: Model, steps: Iterable[int], orders: Orders) -> int:
    """A proven lower bound on the seconds walked in any valid round that takes all of ``steps``."""
    chosen = sorted(set(steps), key=lambda i: orders.before[i].bit_count())
    if not chosen:
        return 0
    longest = max(_forced_walk(model, chosen, orders).values())
    return max(longest, _tree(model, chosen), walk_bound(model, chosen, orders))


def _forced_walk(model: Model, chosen: list[int], orders: Orders) -> dict[int, int]:
    """For each step the longest walk along a chain of forced orders that ends there."""
    reach: dict[int, int] = {}
    for j in chosen:
        to = model.place[j]
        longest = model.walk[model.start_place][to]
        for i, walked in reach.items():
            if orders.precedes(i, j):
                longest = max(longest, walked + model.walk[model.place[i]][to])
        reach[j] = longest
    return reach


def _tree(model: Model, chosen: list[int]) -> int:
    """The length of the shortest tree that joins the start and all places (any walk that visits them is at least that long)."""
    waiting = {model.place[i] for i in chosen} - {model.start_place}
    near = {p: model.walk[model.start_place][p] for p in waiting}
    length = 0
    while near:
        place = min(near, key=lambda p: (near[p], p))
        length += near.pop(place)
        near = {p: min(away, model.walk[place][p]) for p, away in near.items()}
    return length


def _longest_chain(model: Model, chosen: list[int], orders: Orders, mask: int, reach: dict[int, int]) -> int:
    seconds = model.seconds

    def sum_of(bits: int) -> int:
        return sum(seconds[i] for i in chosen if bits >> i & 1)

    lags: dict[int, list[tuple[int, int]]] = {}
    for (i, j), least in orders.lags.items():
        if mask >> i & 1 and mask >> j & 1:
            lags.setdefault(j, []).append((i, least))
    end: dict[int, int] = {}
    for j in chosen:
        soonest = sum_of(orders.before[j] & mask) + seconds[j] + reach[j]
        for i, least in lags.get(j, ()):
            soonest = max(soonest, end[i] + least)
        end[j] = soonest
    total = max(end[j] + sum_of(orders.after[j] & mask) for j in chosen)
    running = max((end[s] + length for s, length in model.wait_ends if mask >> s & 1), default=0)
    return max(total, running)
