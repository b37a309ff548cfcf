"""A lower bound from waits: what must come before a wait, the wait itself, and what must come after it, with the least walk of each part.

The steps that begin and await waits are *posts*. Between two posts whose order is forced lie at least the steps that must come
between them and the walk past those, or the wait that joins them. The longest way along the posts bounds the round.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Orders
from firstpitch.rounds.walk_bound import walk_bound

BEGIN, END = -1, -2
REFINED = 8  # so many parts of the longest way get their exact walk
WORK = 40_000  # states per exact walk


def chain_bound(model: Model, steps: Sequence[int], orders: Orders) -> int:
    """A proven lower bound on the total [s] of any valid round that takes all of ``steps``; ``orders`` hold in every such round."""
    chart = _Chart(model, tuple(steps), orders, _posts(model, steps, orders))
    exact: set[tuple[int, int]] = set()
    while True:
        total, way = chart.longest()
        rough = [part for part in way if part not in exact and part not in chart.waits]
        if not rough or len(exact) >= REFINED:
            return total
        for part in rough:
            exact.add(part)
            chart.refine(*part)


def tree(model: Model, start: int, places: Iterable[int]) -> int:
    """The length of the shortest tree that joins ``start`` and all places: any walk from there that visits them is at least that long."""
    waiting = set(places) - {start}
    near = {p: model.walk[start][p] for p in waiting}
    length = 0
    while near:
        place = min(near, key=lambda p: (near[p], p))
        length += near.pop(place)
        near = {p: min(away, model.walk[place][p]) for p, away in near.items()}
    return length


def _posts(model: Model, steps: Sequence[int], orders: Orders) -> tuple[int, ...]:
    """The steps that begin or follow a wait, earliest first."""
    chosen = set(steps)
    posts = {i for i, _ in model.wait_ends if i in chosen}
    for (i, j), least in orders.lags.items():
        if i in chosen and j in chosen and least > model.seconds[j]:
            posts |= {i, j}
    return tuple(sorted(posts, key=lambda i: (orders.before[i].bit_count(), i)))


@dataclass
class _Chart:
    """Posts, and the least seconds from the end of one to the end of another."""

    model: Model
    steps: tuple[int, ...]
    orders: Orders
    posts: tuple[int, ...]
    least: dict[tuple[int, int], int] = field(default_factory=dict)
    waits: set[tuple[int, int]] = field(default_factory=set)

    def __post_init__(self) -> None:
        for n, j in enumerate(self.posts):
            self._rough(BEGIN, j)
            self._rough(j, END)
            for i in self.posts[:n]:
                if self.orders.precedes(i, j):
                    self._rough(i, j)
        for (i, j), least in self.orders.lags.items():
            if least > self.least.get((i, j), least):
                self.least[i, j] = least
                self.waits.add((i, j))
        for i, lasts in self.model.wait_ends:
            if lasts > self.least.get((i, END), lasts):
                self.least[i, END] = lasts
                self.waits.add((i, END))

    def _between(self, i: int, j: int) -> tuple[list[int], int]:
        """The steps that surely lie after ``i`` and before ``j``, ``j`` included, and the place where the walk past them begins."""
        orders = self.orders
        inner = [
            s for s in self.steps if (i == BEGIN or orders.precedes(i, s)) and (j in (END, s) or orders.precedes(s, j))
        ]
        return inner, self.model.start_place if i == BEGIN else self.model.place[i]

    def _rough(self, i: int, j: int) -> None:
        inner, place = self._between(i, j)
        walk = tree(self.model, place, (self.model.place[s] for s in inner))
        self.least[i, j] = sum(self.model.seconds[s] for s in inner) + walk

    def refine(self, i: int, j: int) -> None:
        """Put the exact walk past the steps between ``i`` and ``j``, as far as it can be told, in place of the rough one."""
        inner, place = self._between(i, j)
        walk = walk_bound(self.model, inner, self.orders, start=place, work=WORK)
        self.least[i, j] = max(self.least[i, j], sum(self.model.seconds[s] for s in inner) + walk)

    def longest(self) -> tuple[int, list[tuple[int, int]]]:
        """The longest way from the beginning to the end along the posts, and its parts."""
        reached: dict[int, tuple[int, list[tuple[int, int]]]] = {BEGIN: (0, [])}
        for j in (*self.posts, END):
            ways = [
                (seconds + self.least[i, j], [*way, (i, j)])
                for i, (seconds, way) in reached.items()
                if (i, j) in self.least
            ]
            reached[j] = max(ways, key=lambda w: w[0], default=(0, []))
        return reached[END]
