"""What has happened in a handover so far, read from its events as docs/live-round.md says."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any, Protocol, TypeVar

from firstpitch.rounds import Effect, Problem, Step, TimedStep

SETTLES = ("undone", "conflict.settled")


class Seen(Protocol):
    """An event as the desk stores it or as a tablet sends it."""

    @property
    def pk(self) -> Any: ...
    @property
    def device(self) -> str: ...
    @property
    def number(self) -> int: ...
    @property
    def at(self) -> datetime: ...
    @property
    def what(self) -> str: ...
    @property
    def data(self) -> Mapping[str, Any]: ...


E = TypeVar("E", bound=Seen)


def clock(event: Seen) -> datetime:
    """When it was seen, to the millisecond, as tablets reckon."""
    return event.at - timedelta(microseconds=event.at.microsecond % 1000)


def in_order(events: Iterable[E]) -> list[E]:
    """The one order in which events of several devices are read."""
    rows: dict[str, list[E]] = defaultdict(list)
    for event in events:
        rows[event.device].append(event)
    for row in rows.values():
        row.sort(key=lambda e: (e.number, clock(e), str(e.pk)))
    heads = dict.fromkeys(rows, 0)
    merged: list[E] = []
    while heads:
        device = min(heads, key=lambda d: (clock(rows[d][heads[d]]), d))
        merged.append(rows[device][heads[device]])
        heads[device] += 1
        if heads[device] == len(rows[device]):
            del heads[device]
    return merged


def taken_back(ordered: Sequence[Seen]) -> frozenset[str]:
    """The ids of events that do not count any more."""
    gone: set[str] = set()
    for event in reversed(ordered):
        if event.what not in SETTLES or str(event.pk) in gone:
            continue
        if event.what == "undone":
            gone.add(str(event.data.get("event", "")))
        else:
            gone |= {str(one) for one in event.data.get("events", ()) if one != event.data.get("keeps")}
    return frozenset(gone)


@dataclass(frozen=True)
class Act:
    """A step that was done: when it was begun and over [s], whether the owner tried it, by which event."""

    step: str
    begun: int
    at: int
    tried: bool
    event: str


@dataclass(frozen=True)
class Found:
    """A condition that was found otherwise, at a second."""

    condition: str
    value: str
    at: int
    reason: str
    event: str


@dataclass(frozen=True)
class SoFar:
    """A handover so far. ``origin`` is second 0, None before anything was begun; ``changes`` are acts and finds in order.

    ``order`` is that of the last replanning, ``changed`` the last ``round.changed`` with its second, ``last`` when the last change was.
    """

    origin: datetime | None
    changes: tuple[Act | Found, ...]
    left: Mapping[str, str]
    order: tuple[str, ...] | None
    changed: tuple[int, Mapping[str, Any]] | None
    current: str | None
    last: int

    @property
    def acts(self) -> tuple[Act, ...]:
        """The steps done, in order."""
        return tuple(c for c in self.changes if isinstance(c, Act))

    def second(self, at: datetime) -> int:
        """A time of the clock as a second of the round, never before the last change."""
        if self.origin is None:
            return 0
        return max(
            (at - timedelta(microseconds=at.microsecond % 1000) - self.origin) // timedelta(seconds=1), self.last
        )


def so_far(events: Iterable[Seen]) -> SoFar:
    """What these events of one handover tell, in whatever order they are given."""
    ordered = in_order(events)
    gone = taken_back(ordered)
    count = [e for e in ordered if str(e.pk) not in gone]
    origin = next((clock(e) for e in count if e.what in ("step.begun", "step.done")), None)
    reader = _Reader(origin)
    for event in count:
        reader.read(event)
    return reader.result()


class _Reader:
    """Reads events one by one."""

    def __init__(self, origin: datetime | None) -> None:
        self.origin = origin
        self.changes: list[Act | Found] = []
        self.begun: dict[str, int] = {}
        self.tried: set[str] = set()
        self.left: dict[str, str] = {}
        self.order: tuple[str, ...] | None = None
        self.changed: tuple[int, Mapping[str, Any]] | None = None
        self.last_act = self.last = 0

    def read(self, event: Seen) -> None:
        """Take in one event that counts."""
        data, step = event.data, str(event.data.get("step", ""))
        second = 0 if self.origin is None else (clock(event) - self.origin) // timedelta(seconds=1)
        if event.what == "step.begun":
            self.begun.pop(step, None)
            self.begun[step] = max(0, second)
        elif event.what == "step.done":
            self._done(event, step, second)
        elif event.what == "step.left":
            self.left.setdefault(step, str(data.get("reason", "")))
        elif event.what == "state.set":
            self.last = max(second, self.last)
            found = (str(data["condition"]), str(data["value"]), self.last, str(data.get("reason", "")), str(event.pk))
            self.changes.append(Found(*found))
        elif event.what == "round.changed":
            self.changed = (second, data)
        elif event.what == "round.replanned":
            self.order = tuple(str(one) for one in data.get("order", ()))

    def _done(self, event: Seen, step: str, second: int) -> None:
        if event.data.get("tried"):
            self.tried.add(step)
        if any(isinstance(c, Act) and c.step == step for c in self.changes):
            return
        at = max(second, self.last_act + 1, self.last)
        self.changes.append(Act(step, min(self.begun.get(step, self.last_act), at - 1), at, False, str(event.pk)))
        self.last_act = self.last = at

    def result(self) -> SoFar:
        """What was read."""
        done = {c.step for c in self.changes if isinstance(c, Act)}
        changes = tuple(replace(c, tried=c.step in self.tried) if isinstance(c, Act) else c for c in self.changes)
        left = {step: why for step, why in self.left.items() if step not in done}
        current = next((s for s in reversed(self.begun) if s not in done and s not in left), None)
        return SoFar(self.origin, changes, left, self.order, self.changed, current, self.last)


def as_sequence(problem: Problem, past: SoFar) -> tuple[Problem, tuple[TimedStep, ...]]:
    """The problem and the sequence of what was done, for ``replay`` and ``replan``: each step judged by the second before it was over.

    What was found is a step of its own that takes no time. Steps the problem does not have (the sheet has changed) are left away.
    """
    known = {step.id: step for step in problem.steps}
    more: list[Step] = []
    sequence: list[TimedStep] = []
    place = problem.start_place
    for number, change in enumerate(past.changes):
        if isinstance(change, Act):
            if change.step in known:
                place = known[change.step].place
                sequence.append(TimedStep(change.step, change.at - 1, change.at))
        else:
            found = stands_in(f"found.{number}", place, (Effect(change.condition, change.value),))
            more.append(found)
            sequence.append(TimedStep(found.id, change.at, change.at))
    return replace(problem, steps=(*problem.steps, *more)), tuple(sequence)


def stands_in(name: str, place: str, sets: tuple[Effect, ...] = ()) -> Step:
    """A step that only says where somebody stands, or what was found there."""
    return Step(name, "now", "You", "papers", "As it was found", place, 0, "may", 0, sets=sets)
