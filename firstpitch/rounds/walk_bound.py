"""A lower bound on the walking of any round: the exact least walk through a few telling steps in their forced orders.

Leaving steps out of a walk never makes it longer (walking times obey the triangle inequality), so the least walk through a part
of the steps, in every order their forced orders allow, bounds the walk of the whole. The part starts empty and grows by the step that
the least walk so far would have to go furthest out of its way for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Orders

MOST_STATES = 10_000
MOST_WORK = 150_000


@dataclass(frozen=True)
class _Walk:
    """A least walk through ``order`` and how many states it took to prove it."""

    seconds: int
    order: tuple[int, ...]
    states: int


def walk_bound(
    model: Model, steps: Sequence[int], orders: Orders, *, start: int | None = None, work: int = MOST_WORK
) -> int:
    """A proven lower bound on the seconds walked past all of ``steps`` from the place ``start`` (where the round begins if None).

    ``work`` is how many states may be looked at.
    """
    begin = model.start_place if start is None else start
    ranked = sorted(steps, key=lambda s: (-(orders.before[s] | orders.after[s]).bit_count(), s))
    part: list[int] = []
    best = _Walk(0, (), 0)
    looked = 0
    while looked <= work:
        telling = _telling(model, orders, begin, best.order, [s for s in ranked if s not in part])
        if not telling:
            return best.seconds
        walk = _least_walk(model, [*part, *telling], orders, begin)
        if walk is None:
            return best.seconds
        part += telling
        best = walk
        looked += walk.states
    return best.seconds


def _telling(model: Model, orders: Orders, begin: int, walk: Sequence[int], left: Sequence[int]) -> list[int]:
    """The steps to look at next: the one this walk would go furthest out of its way for, with what holds it there.

    Steps that cost nothing are put into the walk first, because together they can leave no free place for another.
    """
    order = list(walk)
    worst: tuple[int, int, list[int]] | None = None
    for step in left:
        first, last = _span(orders, order, step)
        detours = [(model.detour(order, at, step, begin), at) for at in range(first, last + 1)]
        if not detours:
            return [step]
        least, at = min(detours)
        if least == 0:
            order.insert(at, step)
        elif worst is None or least > worst[0]:
            holds = [order[i] for i in (first - 1, last) if 0 <= i < len(order) and order[i] not in walk]
            worst = (least, step, holds)
    return [] if worst is None else [worst[1], *worst[2]]


def _span(orders: Orders, order: Sequence[int], step: int) -> tuple[int, int]:
    """The first and last position at which forced orders allow ``step`` to be put into ``order``."""
    first = max((n + 1 for n, s in enumerate(order) if orders.precedes(s, step)), default=0)
    last = min((n for n, s in enumerate(order) if orders.precedes(step, s)), default=len(order))
    return first, last


def _least_walk(model: Model, part: Sequence[int], orders: Orders, begin: int) -> _Walk | None:
    """The least walk from ``begin`` through all of ``part``; None when it takes more than MOST_STATES states."""
    n = len(part)
    needs = [sum(1 << k for k in range(n) if orders.precedes(part[k], part[j])) for j in range(n)]
    place = [model.place[s] for s in part]
    layer: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {(0, -1): (0, ())}
    states = 0
    for _ in range(n):
        following: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {}
        for (done, last), (walked, order) in layer.items():
            at = begin if last < 0 else place[last]
            for j in range(n):
                if done >> j & 1 or needs[j] & ~done:
                    continue
                key = (done | 1 << j, j)
                seconds = walked + model.walk[at][place[j]]
                if key not in following or seconds < following[key][0]:
                    following[key] = (seconds, (*order, j))
        layer = following
        states += len(layer)
        if states > MOST_STATES:
            return None
    seconds, order = min(layer.values())
    return _Walk(seconds, tuple(part[j] for j in order), states)
