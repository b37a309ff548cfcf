"""A first round, quickly: step by step, the nearest useful thing next, long waits started early, nothing undone too soon."""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import dataclass

from firstpitch.rounds.course import Course, begin
from firstpitch.rounds.model import FINISH, Model, Setter, Window
from firstpitch.rounds.orders import Orders, guard_windows


@dataclass(frozen=True)
class _Choice:
    """What stays the same from one choice to the next."""

    orders: Orders
    needs: dict[int, list[Window]]
    hangs: dict[int, int]
    taste: Taste
    rng: random.Random


@dataclass(frozen=True)
class Taste:
    """Weights of the choice of the next step, in seconds: idling, changing topic, and a long wait that hangs on the step."""

    idle: float = 2.0
    topic: float = 4.0
    wait: float = 0.05
    chance: float = 0.0


def build(model: Model, steps: Iterable[int], orders: Orders, taste: Taste, rng: random.Random) -> Course | None:
    """A valid course that takes exactly ``steps``, or None when this way of choosing runs into a dead end."""
    chosen = sorted(set(steps))
    course = begin(model)
    left = dict.fromkeys(chosen)
    choice = _Choice(orders, _open_needs(model, chosen), wait_tails(orders, chosen), taste, rng)
    while left:
        pick = _pick(course, left, choice)
        if pick is None:
            return None
        step, start = pick
        course.take(step, start)
        del left[step]
    return None if any(True for _ in course.missing_at_end()) else course


def wait_tails(orders: Orders, steps: Iterable[int]) -> dict[int, int]:
    """The longest chain of waiting [s] that can only begin once a step is done."""
    chosen = sorted(steps, key=lambda i: orders.before[i].bit_count(), reverse=True)
    tails: dict[int, int] = dict.fromkeys(chosen, 0)
    lags: dict[int, list[tuple[int, int]]] = {}
    for (i, j), lag in orders.lags.items():
        lags.setdefault(i, []).append((j, lag - orders.seconds[j]))
    for i in chosen:
        for j in chosen:
            if orders.precedes(i, j):
                tails[i] = max(tails[i], tails[j])
        for j, lag in lags.get(i, ()):
            tails[i] = max(tails[i], lag + tails.get(j, 0))
    return tails


def _open_needs(model: Model, steps: list[int]) -> dict[int, list[Window]]:
    """Needs by condition, of the chosen steps and of the finish."""
    chosen = set(steps)
    needs: dict[int, list[Window]] = {}
    for window in (*model.windows, *guard_windows(model), *model.finish):
        if window.step in chosen or window.step == FINISH:
            needs.setdefault(window.condition, []).append(window)
    return needs


def _pick(course: Course, left: dict[int, None], choice: _Choice) -> tuple[int, int] | None:
    model, taste, best, found = course.model, choice.taste, 0.0, None
    for step in left:
        if choice.orders.before[step] & ~course.done or _spoils(course, step, left, choice.needs):
            continue
        start = course.earliest(step, last=len(left) == 1)
        if start is None:
            continue
        walk = model.walk[course.place][model.place[step]]
        cost = walk + taste.idle * (start - course.now - walk)
        cost += taste.topic * (model.topic[step] != course.topic) - taste.wait * choice.hangs[step]
        if taste.chance:
            cost += choice.rng.random() * taste.chance
        if found is None or cost < best:
            best, found = cost, (step, start)
    return found


def _spoils(course: Course, step: int, left: dict[int, None], needs: dict[int, list[Window]]) -> bool:
    """Whether doing ``step`` now would leave some later need that nothing left can bring about again."""
    model = course.model
    for setter in model.setters_by_step[step]:
        for window in needs.get(setter.condition, ()):
            if setter.value in window.values or window.step == step:
                continue
            if window.step != FINISH and window.step not in left:
                continue
            if not any(
                _mends(course, step, setter, s, left)
                for s in model.by_condition[setter.condition]
                if s.value in window.values
            ):
                return True
    return False


def _mends(course: Course, step: int, spoiler: Setter, setter: Setter, left: dict[int, None]) -> bool:
    """Whether ``setter`` can still act after ``spoiler`` does."""
    if setter.step == step:
        return setter.lag > spoiler.lag
    return setter.step in left or any(coming is setter for _, coming in course.coming)
