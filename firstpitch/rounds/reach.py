"""Which steps can ever be done, whatever the order: a quick test that forgets that conditions can be unset again."""

from __future__ import annotations

from collections.abc import Iterable

from firstpitch.rounds.model import Model, Window


def reachable(model: Model, steps: Iterable[int]) -> frozenset[int]:
    """The steps among ``steps`` that can be done if nothing, once brought about, is ever undone. No valid round has any other."""
    values = [{v} for v in model.start]
    done: set[int] = set()
    waiting = [i for i in sorted(set(steps)) if i not in model.barred]
    while True:
        able = [i for i in waiting if _able(model, i, values, done)]
        if not able:
            return frozenset(done)
        for i in able:
            done.add(i)
            for setter in model.setters_by_step[i]:
                values[setter.condition].add(setter.value)
        waiting = [i for i in waiting if i not in done]


def _able(model: Model, step: int, values: list[set[str]], done: set[int]) -> bool:
    if any(not _can_hold(model, window, values) for window in model.by_step[step]):
        return False
    return all(w.starter in done for w in model.awaits_of[step])


def _can_hold(model: Model, window: Window, values: list[set[str]]) -> bool:
    """Whether some value brought about so far fulfils the need; the needs of a wait may rest on what its own step sets."""
    if values[window.condition] & window.values:
        return True
    return window.a >= 0 and any(
        s.lag <= window.a and s.condition == window.condition and s.value in window.values
        for s in model.setters_by_step[window.step]
    )


def hopeless(model: Model, step: int, done: frozenset[int]) -> tuple[Window, ...]:
    """The needs of ``step`` that no step in ``done`` and no start value can ever fulfil."""
    values = [{v} for v in model.start]
    for i in done:
        for setter in model.setters_by_step[i]:
            values[setter.condition].add(setter.value)
    return tuple(w for w in model.by_step[step] if not _can_hold(model, w, values))
