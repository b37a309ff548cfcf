"""The course of a round as it is built step by step: state, clock, place and what runs in the background.

The search uses this to try steps. It keeps every rule of docs/rounds.md but those of the whole round's end.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from firstpitch.rounds.model import Model, Setter, Window

Change = tuple[int, Setter]


def _time(change: Change) -> int:
    return change[0]


@dataclass
class Course:
    """A round under way: ``now`` [s], the ``state`` then, the index of the ``place``, the steps ``done`` as a bit set.

    ``coming`` are changes that waits will make, in time order; ``held`` needs of running waits (until, window);
    ``running`` the ends of waits with the step that started them.
    """

    model: Model
    state: list[str]
    now: int = 0
    place: int = 0
    topic: int = -1
    done: int = 0
    order: list[int] = field(default_factory=list)
    ends: dict[int, int] = field(default_factory=dict)
    coming: list[Change] = field(default_factory=list)
    held: list[tuple[int, Window]] = field(default_factory=list)
    running: list[tuple[int, int]] = field(default_factory=list)

    def earliest(self, step: int, *, last: bool = False) -> int | None:
        """The earliest second at which ``step`` can start now without breaking a rule, or None.

        ``last``: the round ends with this step, so everything that runs must be over when it ends.
        """
        model = self.model
        base = self.now + model.walk[self.place][model.place[step]]
        for wait in model.awaits_of[step]:
            if wait.starter not in self.ends or wait.starter == step:
                return None
            base = max(base, self.ends[wait.starter] + wait.lag)
        if last:
            if any(starter == step for starter, _ in model.wait_ends):
                return None
            base = max([base, *(t - model.seconds[step] for t, _ in self.running)])
        return next((t for t in self._moments(step, base) if self._fits(step, t)), None)

    def _moments(self, step: int, base: int) -> list[int]:
        """The seconds from ``base`` on at which what stands in the way of ``step`` may have gone."""
        seconds, lags = self.model.seconds[step], {0, *(s.lag for s in self.model.setters_by_step[step])}
        moments = {base}
        for time, _ in self.coming:
            moments.add(time)
            moments.update(time - seconds - lag + late for lag in lags for late in (0, 1))
        for until, _ in self.held:
            moments.update(until - seconds - lag for lag in lags)
        return sorted(t for t in moments if t >= base)

    def _fits(self, step: int, start: int) -> bool:
        """Whether no rule is broken when ``step`` begins at ``start``, as far as what is under way tells."""
        model, end = self.model, start + self.model.seconds[step]
        own = [(end + s.lag, s) for s in model.setters_by_step[step]]
        taken = {(time, setter.condition) for time, setter in self.coming}
        if any((time, setter.condition) in taken for time, setter in own):
            return False
        for until, window in self.held:
            for time, setter in own:
                if time < until and setter.condition == window.condition and setter.value not in window.values:
                    return False
        changes = sorted([*self.coming, *own], key=_time)
        return all(self._holds(w, end, changes) for w in model.by_step[step]) and self._guarded(end, changes)

    def _holds(self, window: Window, end: int, changes: list[Change]) -> bool:
        opens, over = end + window.a, end + window.b
        value = self.state[window.condition]
        for time, setter in changes:
            if setter.condition == window.condition:
                if time <= opens:
                    value = setter.value
                elif time < over and setter.value not in window.values:
                    return False
        return value in window.values

    def _guarded(self, end: int, changes: list[Change]) -> bool:
        """Whether no guard is broken up to the end of the step; what comes later is for the next step to see."""
        near = [(time, setter) for time, setter in changes if time <= end]
        touched = {setter.condition for _, setter in near}
        guards = [g for g in self.model.guards if any(c in touched for c, _ in g.never)]
        if not guards:
            return True
        state = dict(enumerate(self.state))
        for number, (time, setter) in enumerate(near):
            state[setter.condition] = setter.value
            last = number + 1 == len(near) or near[number + 1][0] > time
            if last and any(all(state[c] in bad for c, bad in g.never) for g in guards):
                return False
        return True

    def take(self, step: int, start: int) -> None:
        """Do ``step`` from ``start``; the caller has asked ``earliest``."""
        model, end = self.model, start + self.model.seconds[step]
        changes = sorted([*self.coming, *((end + s.lag, s) for s in model.setters_by_step[step])], key=_time)
        for time, setter in changes:
            if time <= end:
                self.state[setter.condition] = setter.value
        self.coming = [(t, s) for t, s in changes if t > end]
        self.held = [(u, w) for u, w in self.held if u > end]
        self.held += [(end + w.b, w) for w in model.by_step[step] if w.a >= 0]
        self.running = [(t, i) for t, i in self.running if t > end]
        self.running += [(end + seconds, step) for starter, seconds in model.wait_ends if starter == step]
        self.now, self.place, self.topic = end, model.place[step], model.topic[step]
        self.done |= 1 << step
        self.order.append(step)
        self.ends[step] = end

    def missing_at_end(self) -> Iterator[Window]:
        """Finish conditions that do not hold once everything that is coming has come."""
        state = list(self.state)
        for _, setter in self.coming:
            state[setter.condition] = setter.value
        for window in self.model.finish:
            if state[window.condition] not in window.values:
                yield window


def begin(model: Model) -> Course:
    """The course at second 0."""
    return Course(model, list(model.start), place=model.start_place)
