"""Local search over the order of steps within a frame: move a run of steps elsewhere, keep what is better, sometimes what is not."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from firstpitch.rounds.causes import Frame
from firstpitch.rounds.model import Model

LONGEST_RUN = 12
FRIENDLY = 0.5  # share of moves that go next to a step at the same place or on the same topic


@dataclass(frozen=True)
class Cost:
    """What an order costs: total seconds first, then breaks."""

    total: int
    breaks: int

    @property
    def weight(self) -> float:
        """One number with the same order."""
        return self.total + self.breaks / 1000


class Scale:
    """Weighs orders of steps that keep a frame."""

    def __init__(self, model: Model, frame: Frame) -> None:
        self.model = model
        n = len(model.steps)
        self.before = [0] * n
        self.lags: list[list[tuple[int, int]]] = [[] for _ in range(n)]
        self.loose: list[tuple[int, int, int]] = []
        self.starters = frozenset(s for s, _ in model.wait_ends)
        for (i, j), least in frame.gaps.items():
            if least <= -model.seconds[i]:
                self.loose.append((i, j, least))
                continue
            self.before[j] |= 1 << i
            if least > model.seconds[j]:
                self.lags[j].append((i, least))

    def ends(self, order: Sequence[int]) -> dict[int, int] | None:
        """The earliest end of each step in ``order``, or None where a step would have to end sooner than it can."""
        walk, place, seconds, lags = self.model.walk, self.model.place, self.model.seconds, self.lags
        ends: dict[int, int] = {}
        now, at = 0, self.model.start_place
        for j in order:
            now += walk[at][place[j]] + seconds[j]
            for i, least in lags[j]:
                now = max(now, ends[i] + least)
            ends[j] = now
            at = place[j]
        over = max((ends[s] + seconds for s, seconds in self.model.wait_ends if s in ends), default=0)
        if order and order[-1] in self.starters:
            return None
        if order and over > now:
            ends[order[-1]] = over
        if any(ends[j] - ends[i] < least for i, j, least in self.loose):
            return None
        return ends

    def cost(self, order: Sequence[int]) -> Cost | None:
        """What ``order`` costs, or None where it breaks a loose gap."""
        ends = self.ends(order)
        if ends is None:
            return None
        topic = self.model.topic
        breaks = sum(topic[a] != topic[b] for a, b in pairwise(order))
        return Cost(ends[order[-1]] if order else 0, breaks)

    def may_move(self, order: Sequence[int], start: int, stop: int, to: int) -> bool:
        """Whether the run ``order[start:stop]`` may move to just before ``order[to]`` (to < start or to > stop)."""
        if to < start:
            passed = 0
            for k in order[to:start]:
                passed |= 1 << k
            return not any(self.before[k] & passed for k in order[start:stop])
        run = 0
        for k in order[start:stop]:
            run |= 1 << k
        return not any(self.before[k] & run for k in order[stop:to])


def moved(order: Sequence[int], start: int, stop: int, to: int) -> list[int]:
    """``order`` with the run [start, stop) put just before position ``to``."""
    run = list(order[start:stop])
    if to < start:
        return [*order[:to], *run, *order[to:start], *order[stop:]]
    return [*order[:start], *order[stop:to], *run, *order[to:]]


@dataclass(frozen=True)
class Effort:
    """How long to search: tries, and the range of temperatures [s] of the cooling."""

    tries: int = 40_000
    hot: float = 15.0
    cold: float = 0.0005


def improve(scale: Scale, order: Sequence[int], effort: Effort, rng: random.Random) -> list[int]:
    """The best order found from ``order`` by simulated annealing with so many tries; the same generator gives the same answer."""
    now = list(order)
    cost = scale.cost(now)
    if cost is None or len(now) <= 1:
        return now
    best, best_weight, weight = now, cost.weight, cost.weight
    near = _neighbours(scale.model, now)
    cooling = (effort.cold / effort.hot) ** (1 / max(1, effort.tries))
    heat = effort.hot
    for _ in range(effort.tries):
        heat *= cooling
        start, stop, to = _propose(now, near, rng)
        if start <= to <= stop or not scale.may_move(now, start, stop, to):
            continue
        trial = moved(now, start, stop, to)
        trial_cost = scale.cost(trial)
        if trial_cost is None:
            continue
        worse = trial_cost.weight - weight
        if worse <= 0 or rng.random() < math.exp(-worse / heat):
            now, weight = trial, trial_cost.weight
            if weight < best_weight:
                best, best_weight = now, weight
    return best


def _neighbours(model: Model, order: Sequence[int]) -> Mapping[int, list[int]]:
    """For each step, those at the same place or on the same topic."""
    return {
        i: [j for j in order if j != i and (model.place[i] == model.place[j] or model.topic[i] == model.topic[j])]
        for i in order
    }


def _propose(order: Sequence[int], near: Mapping[int, list[int]], rng: random.Random) -> tuple[int, int, int]:
    start = rng.randrange(len(order))
    stop = min(len(order), start + 1 + int(rng.random() ** 2 * LONGEST_RUN))
    friends = near[order[start]]
    if friends and rng.random() < FRIENDLY:
        return start, stop, order.index(rng.choice(friends)) + rng.randrange(2)
    return start, stop, rng.randrange(len(order) + 1)
