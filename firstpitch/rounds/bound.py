"""Lower bounds on the least total time of a set of steps: no order whatever can be quicker."""

from __future__ import annotations

from collections.abc import Iterable

from firstpitch.rounds.chain_bound import chain_bound, tree
from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Orders
from firstpitch.rounds.walk_bound import walk_bound


def lower_bound(model: Model, steps: Iterable[int], orders: Orders) -> int:
    """A proven lower bound on the total [s] of any valid round that takes all of ``steps``; ``orders`` hold in every such round.

    The larger of (a) all the steps' seconds plus the least walking, which is at least the longest walk along steps whose order is
    forced, at least a tree that joins all places, and at least the exact walk through some of them; (b) the longest chain of forced
    orders and waits, with everything that must come before, between and after them and the walk past it.
    """
    return bounds(model, steps, orders)[0]


def bounds(model: Model, steps: Iterable[int], orders: Orders) -> tuple[int, int]:
    """``lower_bound`` and ``least_walking`` of the same steps."""
    chosen = sorted(set(steps), key=lambda i: orders.before[i].bit_count())
    walking = least_walking(model, chosen, orders)
    work = sum(model.seconds[i] for i in chosen)
    return max(work + walking, chain_bound(model, chosen, orders)), walking


def least_walking(model: Model, steps: Iterable[int], orders: Orders) -> int:
    """A proven lower bound on the seconds walked in any valid round that takes all of ``steps``."""
    chosen = sorted(set(steps), key=lambda i: orders.before[i].bit_count())
    if not chosen:
        return 0
    longest = max(_forced_walk(model, chosen, orders).values())
    joined = tree(model, model.start_place, (model.place[i] for i in chosen))
    return max(longest, joined, walk_bound(model, chosen, orders))


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
