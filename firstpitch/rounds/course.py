"""The course of a round as it is built step by step: state, clock, place and what runs in the background.

The search uses this to try steps; the result is always checked again by the independent replay.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from firstpitch.rounds.model import Model, Setter, Window


@dataclass
class Course:
    """A round under way. ``coming`` are changes that waits will make (time, setter); ``held`` needs of
    running waits (until, window); ``running`` the ends of waits with the step that started them."""

    model: Model
    state: list[str]
    now: int = 0
    place: int = 0
    topic: int = -1
    done: int = 0
    order: list[int] = field(default_factory=list)
    ends: dict[int, int] = field(default_factory=dict)
    coming: list[tuple[int, Setter]] = field(default_factory=list)
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
        seconds = model.seconds[step]
        moments = {base}
        for time, _ in self.coming:
            moments.update((time, time - seconds, time - seconds + 1))
        for until, _ in self.held:
            moments.add(until - seconds)
        if last:
            if any(starter == step for starter, _ in model.wait_ends):
                return None
            base = max([base, *(t - seconds for t, _ in self.running)])
            moments.add(base)
        return next((t for t in sorted(moments) if t >= base and self._fits(step, t)), None)

    def _fits(self, step: int, start: int) -> bool:
        model, end = self.model, start + self.model.seconds[step]
        for window in model.by_step[step]:
            if window.a < 0 and not self._holds(window, start, end):
                return False
        sets = model.setters_by_step[step]
        now_set = {s.condition: s.value for s in sets if s.lag == 0}
        for until, window in self.held:
            if until > end and now_set.get(window.condition) not in (None, *window.values):
                return False
        for time, setter in self.coming:
            if time == end and setter.condition in now_set:
                return False
        return self._waits_fit(step, end, now_set) and self._guarded(end, now_set)

    def _holds(self, window: Window, start: int, end: int) -> bool:
        value = self.state[window.condition]
        for time, setter in self.coming:
            if setter.condition == window.condition:
                if time <= start:
                    value = setter.value
                elif time < end and setter.value not in window.values:
                    return False
        return value in window.values

    def _waits_fit(self, step: int, end: int, now_set: dict[int, str]) -> bool:
        for window in self.model.by_step[step]:
            if window.a >= 0:
                value = now_set.get(window.condition)
                if value is None:
                    if not self._holds(window, end, end + window.b):
                        return False
                elif value not in window.values:
                    return False
        return True

    def _guarded(self, end: int, now_set: dict[int, str]) -> bool:
        changes = sorted((t, s.condition, s.value) for t, s in self.coming if t <= end)
        changes += [(end, c, v) for c, v in now_set.items()]
        touched = {c for _, c, _ in changes}
        guards = [g for g in self.model.guards if any(c in touched for c, _ in g.never)]
        if not guards:
            return True
        state = dict(enumerate(self.state))
        for number, (time, condition, value) in enumerate(changes):
            state[condition] = value
            last = number + 1 == len(changes) or changes[number + 1][0] > time
            if last and any(all(state[c] in bad for c, bad in g.never) for g in guards):
                return False
        return True

    def take(self, step: int, start: int) -> None:
        """Do ``step`` from ``start``; the caller has asked ``earliest``."""
        model, end = self.model, start + self.model.seconds[step]
        due = sorted((t, n) for n, (t, _) in enumerate(self.coming) if t <= end)
        for _, n in due:
            self.state[self.coming[n][1].condition] = self.coming[n][1].value
        self.coming = [(t, s) for t, s in self.coming if t > end]
        self.held = [(u, w) for u, w in self.held if u > end]
        for setter in model.setters_by_step[step]:
            if setter.lag:
                self.coming.append((end + setter.lag, setter))
            else:
                self.state[setter.condition] = setter.value
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
        for _, setter in sorted(self.coming, key=lambda c: c[0]):
            state[setter.condition] = setter.value
        for window in self.model.finish:
            if state[window.condition] not in window.values:
                yield window


def begin(model: Model) -> Course:
    """The course at second 0."""
    return Course(model, list(model.start), place=model.start_place)
