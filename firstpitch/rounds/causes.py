"""What each need of a valid round rests on, and the orders that keep it so.

From one valid sequence: who supports each need, which orders and gaps between steps keep every support and keep every spoiler away.
Any sequence that keeps them is valid too, so the search may move steps freely within them without simulating states.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from firstpitch.rounds.model import FINISH, Model, Setter, Window
from firstpitch.rounds.orders import guard_windows


@dataclass(frozen=True)
class Support:
    """``window`` rests on ``setter`` (None: on the start)."""

    window: Window
    setter: Setter | None


@dataclass(frozen=True)
class Frame:
    """``gaps[i, j]``: end[j] - end[i] must be at least that; ``supports`` says why."""

    gaps: Mapping[tuple[int, int], int]
    supports: tuple[Support, ...]


def frame_of(model: Model, ends: Mapping[int, int]) -> Frame:
    """The frame of a valid round given as the end of each of its steps. ValueError when the round is not valid."""
    gaps: dict[tuple[int, int], int] = {}
    supports: list[Support] = []
    total = max(ends.values(), default=0)

    def hold(i: int, j: int, least: int) -> None:
        if i != j:
            gaps[i, j] = max(least, gaps.get((i, j), least))

    for wait in model.awaits:
        if wait.step in ends:
            hold(wait.starter, wait.step, wait.lag + model.seconds[wait.step])
    for window in _windows(model, ends):
        base = total if window.step == FINISH else ends[window.step]
        setters = [s for s in model.by_condition[window.condition] if s.step in ends]
        supporter = _supporter(model, window, setters, ends, base)
        supports.append(Support(window, supporter))
        if supporter is not None and window.step != FINISH:
            hold(supporter.step, window.step, supporter.lag - window.a)
        for rival in setters:
            if rival.value in window.values or rival is supporter:
                continue
            at = ends[rival.step] + rival.lag
            if supporter is not None and at < ends[supporter.step] + supporter.lag:
                hold(rival.step, supporter.step, rival.lag - supporter.lag + 1)
            elif window.step != FINISH:
                over = window.b if window.b > window.a else window.a + 1
                if at < base + over:
                    raise ValueError("the round is not valid")
                hold(window.step, rival.step, over - rival.lag)
    for i, j, least in _apart(model, ends):
        hold(i, j, least)
    return Frame(gaps, tuple(supports))


def _windows(model: Model, ends: Mapping[int, int]) -> Iterable[Window]:
    chosen = [w for w in (*model.windows, *guard_windows(model), *_wide_guards(model, ends)) if w.step in ends]
    return [*dict.fromkeys(chosen), *model.finish]


def _wide_guards(model: Model, ends: Mapping[int, int]) -> list[Window]:
    """For guards of three and more: at each instant one side comes true, some other side that is false and stays so in any order kept."""
    values: list[set[str]] = [{v} for v in model.start]
    for setter in model.setters:
        values[setter.condition].add(setter.value)
    found: list[Window] = []
    for guard in model.guards:
        if len(guard.never) == 2:  # noqa: PLR2004  (two-sided guards are needs already)
            continue
        for mine, wrong in guard.never:
            for setter in model.by_condition[mine]:
                if setter.step in ends and setter.value in wrong:
                    at = ends[setter.step] + setter.lag
                    safe = [(c, b) for c, b in guard.never if c != mine and value_at(model, ends, c, at) not in b]
                    if not safe:
                        raise ValueError("the round is not valid")
                    other, bad = safe[0]
                    found.append(Window(setter.step, setter.lag, setter.lag, other, frozenset(values[other] - bad)))
    return found


def value_at(model: Model, ends: Mapping[int, int], condition: int, at: int) -> str:
    """The value of a condition at an instant of a round, after everything that acts then."""
    last = max(
        (
            (ends[s.step] + s.lag, s.value)
            for s in model.by_condition[condition]
            if s.step in ends and ends[s.step] + s.lag <= at
        ),
        default=None,
        key=lambda change: change[0],
    )
    return model.start[condition] if last is None else last[1]


def _supporter(
    model: Model, window: Window, setters: Sequence[Setter], ends: Mapping[int, int], base: int
) -> Setter | None:
    """The last setter to act by the beginning of the window; the earliest of the run of right values it closes."""
    opens = base + window.a
    acting = sorted((s for s in setters if ends[s.step] + s.lag <= opens), key=lambda s: ends[s.step] + s.lag)
    supporter: Setter | None = None
    right = model.start[window.condition] in window.values
    for setter in acting:
        if setter.value not in window.values:
            right, supporter = False, None
        elif not right:
            right, supporter = True, setter
    if not right:
        raise ValueError("the round is not valid")
    return supporter


def _apart(model: Model, ends: Mapping[int, int]) -> Iterator[tuple[int, int, int]]:
    """No condition is changed twice at one instant: keep the changes of each in the order they have."""
    for setters in model.by_condition:
        acting = sorted((s for s in setters if s.step in ends), key=lambda s: ends[s.step] + s.lag)
        for one, other in combinations(acting, 2):
            if one.lag or other.lag:
                yield one.step, other.step, one.lag - other.lag + 1
