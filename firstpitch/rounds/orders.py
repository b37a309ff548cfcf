"""Which step must come before which: orders that hold in every valid round of a given set of steps.

Each need (a window) has supporters: the start value, or setters that bring a right value about. Where only one supporter is
possible it must act before the window, and every setter of a wrong value must act before the supporter or after the window.
Repeated until nothing new follows, this is sound (it never rules out a valid round) though not complete.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from firstpitch.rounds.model import FINISH, Model, Setter, Window

PAIR = 2


class Contradiction(Exception):
    """No valid round of these steps exists; ``steps`` and ``window`` say what clashed."""

    def __init__(self, steps: Iterable[int], window: Window | None = None) -> None:
        self.steps = frozenset(i for i in steps if i != FINISH)
        self.window = window
        super().__init__(f"steps {sorted(self.steps)} cannot all be done")


@dataclass
class Orders:
    """``before[j]`` and ``after[i]`` are bit sets of steps, closed under transitivity; ``lags[i, j]``: end[j] - end[i] is at least that."""

    seconds: tuple[int, ...]
    before: list[int]
    after: list[int]
    lags: dict[tuple[int, int], int] = field(default_factory=dict)
    grown: bool = False

    def precedes(self, i: int, j: int) -> bool:
        """Whether step i must come before step j."""
        return bool(self.before[j] >> i & 1)

    def add(self, i: int, j: int, least: int) -> None:
        """Hold ``end[j] - end[i] >= least``; Contradiction when it cannot be. Looser than one step's length it orders nothing."""
        if i == j:
            if least > 0:
                raise Contradiction([i])
            return
        if least <= -self.seconds[i]:
            return
        if least > self.seconds[j] and least > self.lags.get((i, j), 0):
            self.lags[i, j] = least
            self.grown = True
        if self.precedes(i, j):
            return
        if self.precedes(j, i):
            raise Contradiction([i, j])
        self.grown = True
        earlier, later = self.before[i] | 1 << i, self.after[j] | 1 << j
        for k in _bits(later):
            self.before[k] |= earlier
        for k in _bits(earlier):
            self.after[k] |= later


def _bits(mask: int) -> Iterator[int]:
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def guard_windows(model: Model) -> tuple[Window, ...]:
    """Two-sided guards as needs: whoever makes one side true needs the other side false at that instant."""
    values: list[set[str]] = [{v} for v in model.start]
    for setter in model.setters:
        values[setter.condition].add(setter.value)
    found: list[Window] = []
    for guard in model.guards:
        if len(guard.never) != PAIR or guard.never[0][0] == guard.never[1][0]:
            continue
        for (mine, wrong), (other, others) in (guard.never, guard.never[::-1]):
            for setter in model.by_condition[mine]:
                if setter.value in wrong:
                    allowed = frozenset(values[other] - others)
                    found.append(Window(setter.step, setter.lag, setter.lag, other, allowed))
    return tuple(found)


@dataclass(frozen=True)
class _Need:
    """A window with the setters that could bring it about and those, surely in the round, that would spoil it."""

    window: Window
    good: tuple[Setter, ...]
    bad: tuple[Setter, ...]


def infer(model: Model, steps: Iterable[int], perhaps: Iterable[int] = ()) -> Orders:
    """Orders that hold in every valid round that has all of ``steps`` and besides them any of ``perhaps`` and no other.

    Contradiction when there is no such round.
    """
    sure = frozenset(steps)
    able = sure.union(perhaps)
    n = len(model.steps)
    orders = Orders(model.seconds, [0] * n, [0] * n)
    for wait in model.awaits:
        if wait.step in sure:
            if wait.starter not in able or wait.starter == wait.step:
                raise Contradiction([wait.step])
            orders.add(wait.starter, wait.step, wait.lag + model.seconds[wait.step])
    windows = [w for w in (*model.windows, *guard_windows(model)) if w.step in sure] + list(model.finish)
    needs = [_need(model, window, sure, able) for window in dict.fromkeys(windows)]
    orders.grown = True
    while orders.grown:
        orders.grown = False
        for need in needs:
            _propagate(model, orders, need)
    return orders


def _need(model: Model, window: Window, sure: frozenset[int], able: frozenset[int]) -> _Need:
    setters = model.by_condition[window.condition]
    return _Need(
        window,
        tuple(s for s in setters if s.step in able and s.value in window.values),
        tuple(s for s in setters if s.step in sure and s.value not in window.values),
    )


def _propagate(model: Model, orders: Orders, need: _Need) -> None:
    window = need.window
    supporters: list[Setter | None] = [s for s in need.good if _can_support(orders, window, s, need.bad)]
    if model.start[window.condition] in window.values and _start_can_support(orders, window, need.bad):
        supporters.append(None)
    if not supporters:
        raise Contradiction([window.step, *(s.step for s in (*need.good, *need.bad))], window)
    if len(supporters) > 1:
        return
    supporter = supporters[0]
    if supporter is not None and window.step != FINISH:
        orders.add(supporter.step, window.step, supporter.lag - window.a)
    for rival in need.bad:
        _place_rival(orders, window, supporter, rival)


def _can_support(orders: Orders, window: Window, setter: Setter, bad: Sequence[Setter]) -> bool:
    if window.step == FINISH:
        return not any(_surely_later(orders, rival, setter) for rival in bad)
    if setter.step == window.step:
        return setter.lag <= window.a
    if orders.precedes(window.step, setter.step) and window.a < orders.seconds[setter.step] + setter.lag:
        return False
    return not any(_surely_later(orders, rival, setter) and _surely_before(orders, rival, window) for rival in bad)


def _start_can_support(orders: Orders, window: Window, bad: Sequence[Setter]) -> bool:
    if window.step == FINISH:
        return not bad
    return not any(_surely_before(orders, rival, window) for rival in bad)


def _surely_later(orders: Orders, one: Setter, other: Setter) -> bool:
    """Whether ``one`` acts after ``other`` in every round."""
    if one.step == other.step:
        return one.lag > other.lag
    return orders.precedes(other.step, one.step) and one.lag + orders.seconds[one.step] > other.lag


def _surely_before(orders: Orders, setter: Setter, window: Window) -> bool:
    """Whether ``setter`` acts before the window is over in every round."""
    if setter.step == window.step:
        return setter.lag < _over(window)
    if setter.lag == 0:
        return orders.precedes(setter.step, window.step)
    return any(
        i == setter.step and least > setter.lag and (k == window.step or orders.precedes(k, window.step))
        for (i, k), least in orders.lags.items()
    )


def _over(window: Window) -> int:
    """The first second after the window, relative to the end of its step."""
    return window.b if window.b > window.a else window.a + 1


def _place_rival(orders: Orders, window: Window, supporter: Setter | None, rival: Setter) -> None:
    before = supporter is not None and not _surely_later(orders, rival, supporter) and rival.step != supporter.step
    after = window.step != FINISH and not _surely_before(orders, rival, window)
    if supporter is not None and rival.step == supporter.step and rival.lag < supporter.lag:
        return
    if not before and not after:
        raise Contradiction([window.step, rival.step, *([supporter.step] if supporter else [])], window)
    if before and not after and supporter is not None:
        orders.add(rival.step, supporter.step, rival.lag - supporter.lag + 1)
    if after and not before and rival.step != window.step:
        orders.add(window.step, rival.step, _over(window) - rival.lag)
