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
BREAK = 0.001  # weight of one break against a second: breaks count only where the time is the same
FRIENDLY = 0.5  # share of moves that go next to a step at the same place or on the same topic


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
        """The earliest end of each step in ``order``, or None where the order breaks a gap or ends with a wait under way."""
        ends = [0] * len(self.model.steps)
        if self.total(order, ends, 0) is None:
            return None
        return {j: ends[j] for j in order}

    def total(self, order: Sequence[int], ends: list[int], since: int) -> int | None:
        """Fill ``ends`` (by step) from position ``since`` on and give the total, or None as for ``ends``."""
        if not order:
            return 0
        walk, place, seconds, lags = self.model.walk, self.model.place, self.model.seconds, self.lags
        now = ends[order[since - 1]] if since else 0
        at = place[order[since - 1]] if since else self.model.start_place
        for j in order[since:]:
            now += walk[at][place[j]] + seconds[j]
            for i, least in lags[j]:
                now = max(now, ends[i] + least)
            ends[j] = now
            at = place[j]
        if order[-1] in self.starters:
            return None
        taken = set(order)
        for starter, lasts in self.model.wait_ends:
            if starter in taken and ends[starter] + lasts > now:
                now = ends[starter] + lasts
        ends[order[-1]] = now
        if any(ends[j] - ends[i] < least for i, j, least in self.loose):
            return None
        return now

    def breaks(self, order: Sequence[int]) -> int:
        """How often the topic changes."""
        topic = self.model.topic
        return sum(topic[a] != topic[b] for a, b in pairwise(order))

    def more_breaks(self, order: Sequence[int], start: int, stop: int, to: int) -> int:
        """By how many the breaks grow when the run [start, stop) is put just before position ``to``, which lies outside it."""
        topic = self.model.topic

        def cut(left: int, right: int) -> int:
            inside = left >= 0 and right < len(order)
            return int(inside and topic[order[left]] != topic[order[right]])

        before = cut(start - 1, start) + cut(stop - 1, stop) + cut(to - 1, to)
        return cut(start - 1, stop) + cut(to - 1, start) + cut(stop - 1, to) - before

    def reach(self, order: Sequence[int], start: int, stop: int) -> tuple[int, int]:
        """The range of positions to which the run ``order[start:stop]`` may move: from lo to hi."""
        run = needs = 0
        for k in order[start:stop]:
            run |= 1 << k
            needs |= self.before[k]
        lo, hi = start, stop
        while lo and not needs >> order[lo - 1] & 1:
            lo -= 1
        while hi < len(order) and not self.before[order[hi]] & run:
            hi += 1
        return lo, hi


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
    now, ends = list(order), [0] * len(scale.model.steps)
    total = scale.total(now, ends, 0)
    if total is None or len(now) <= 1:
        return now
    breaks = scale.breaks(now)
    weight = total + breaks * BREAK
    best, best_weight = now, weight
    near = _neighbours(scale.model, now)
    cooling = (effort.cold / effort.hot) ** (1 / max(1, effort.tries))
    heat = effort.hot
    for _ in range(effort.tries):
        heat *= cooling
        move = _propose(scale, now, near, rng)
        if move is None:
            continue
        trial, trial_ends = moved(now, *move), ends.copy()
        trial_total = scale.total(trial, trial_ends, min(move[0], move[2]))
        if trial_total is None:
            continue
        trial_breaks = breaks + scale.more_breaks(now, *move)
        trial_weight = trial_total + trial_breaks * BREAK
        worse = trial_weight - weight
        if worse <= 0 or rng.random() < math.exp(-worse / heat):
            now, ends, weight, breaks = trial, trial_ends, trial_weight, trial_breaks
            if weight < best_weight:
                best, best_weight = now, weight
    return best


def _neighbours(model: Model, order: Sequence[int]) -> Mapping[int, frozenset[int]]:
    """For each step, those at the same place or on the same topic."""
    return {
        i: frozenset(
            j for j in order if j != i and (model.place[i] == model.place[j] or model.topic[i] == model.topic[j])
        )
        for i in order
    }


def _propose(
    scale: Scale, order: Sequence[int], near: Mapping[int, frozenset[int]], rng: random.Random
) -> tuple[int, int, int] | None:
    """A run (start, stop) and where to put it, within its reach; often next to a step at the same place or on the same topic."""
    start = int(rng.random() * len(order))
    stop = min(len(order), start + 1 + int(rng.random() ** 2 * LONGEST_RUN))
    lo, hi = scale.reach(order, start, stop)
    if hi - lo == stop - start:
        return None
    to = lo + int(rng.random() * (hi - lo + 1))
    if rng.random() < FRIENDLY:
        friends = near[order[start]]
        wanted = [p for p in (*range(lo, start), *range(stop, hi)) if order[p] in friends]
        if wanted:
            to = wanted[int(rng.random() * len(wanted))]
            to += to > start
    return None if start <= to <= stop else (start, stop, to)
