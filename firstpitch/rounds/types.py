"""The round's input and result, frozen. See docs/rounds.md for what each rule means.

Times are whole seconds from the start of the round. A state is a mapping from condition id to value.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from firstpitch.catalogue.types import Level

Mode = Literal["handover", "film"]


@dataclass(frozen=True)
class Literally:
    """Holds while ``condition`` has one of ``values``."""

    condition: str
    values: frozenset[str]

    def holds(self, state: Mapping[str, str]) -> bool:
        """Whether this holds in ``state``; a condition the van does not have never holds."""
        return state.get(self.condition) in self.values


@dataclass(frozen=True)
class Effect:
    """Sets ``condition`` to ``value``."""

    condition: str
    value: str


@dataclass(frozen=True)
class Place:
    """Where a person stands [m], outside round the van or inside along the aisle; ``words`` say where that is."""

    id: str
    x: float
    y: float
    inside: bool
    words: str = ""


@dataclass(frozen=True)
class Step:
    """One step of the round. ``seconds`` = spoken + hands + owner's try, rounded up.

    Spoken are ``say`` and before it ``cautions``, those to stop for.
    """

    id: str
    kit: str
    kit_name: str
    topic: str
    title: str
    place: str
    seconds: int
    level: Level
    worth: int
    requires: tuple[Literally, ...] = ()
    sets: tuple[Effect, ...] = ()
    starts: tuple[str, ...] = ()
    awaits: tuple[str, ...] = ()
    say: str = ""
    points: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    spoken: int = 0
    hands: int = 0
    owner_try: int = 0


@dataclass(frozen=True)
class Wait:
    """A process of ``seconds`` that runs by itself from the end of the step that starts it."""

    id: str
    kit: str
    title: str
    seconds: int
    sustains: tuple[Literally, ...] = ()
    sets: tuple[Effect, ...] = ()


@dataclass(frozen=True)
class Guard:
    """``never`` must not all hold at one instant, or the harm is done."""

    id: str
    kit: str
    never: tuple[Literally, ...]
    harm: str


@dataclass(frozen=True)
class Missing:
    """Something a step, wait or finish needs and this van lacks: ``what`` is a sentence for the user."""

    step: str
    what: str


@dataclass(frozen=True)
class Problem:
    """Everything the planner and the checker need to know. ``walks[a][b]`` is whole seconds between places.

    ``minutes`` None: no limit. ``missing`` steps cannot be done on this van at all. ``labels`` gives conditions in words.
    """

    van: str
    mode: Mode
    start_name: str
    start: Mapping[str, str]
    finish: tuple[Literally, ...]
    places: tuple[Place, ...]
    walks: Mapping[str, Mapping[str, int]]
    start_place: str
    steps: tuple[Step, ...]
    waits: tuple[Wait, ...]
    guards: tuple[Guard, ...]
    minutes: float | None = None
    missing: tuple[Missing, ...] = ()
    labels: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class TimedStep:
    """A step with its times."""

    step: str
    start: int
    end: int


@dataclass(frozen=True)
class TimedWait:
    """A wait with its times."""

    wait: str
    start: int
    end: int


@dataclass(frozen=True)
class LeftOut:
    """A step not in the round, why, and what taking it in would cost [s]."""

    step: str
    reason: str
    cost: int | None


@dataclass(frozen=True)
class Plan:
    """A round: ``total`` is when it ends, ``bound`` a proven lower bound on the least possible total for these steps.

    ``worth`` is the worth taken in, ``worth_bound`` a proven upper bound on what fits.
    """

    steps: tuple[TimedStep, ...]
    waits: tuple[TimedWait, ...]
    left_out: tuple[LeftOut, ...]
    total: int
    bound: int
    worth: int
    worth_bound: int
    breaks: int
    seed: int
    proven: bool

    @property
    def gap(self) -> float:
        """How far the total may be above the least possible, as a fraction of the bound."""
        return (self.total - self.bound) / self.bound if self.bound else 0.0


@dataclass(frozen=True)
class Clash:
    """No round exists: facts that cannot all be true, each a sentence.

    ``smallest``: no smaller set of facts clashes; otherwise only that none of these can be dropped. ``least_seconds`` is set when the
    musts do not fit the minutes: a proven lower bound on what they take, with ``found_seconds`` the quickest round of them found.
    """

    facts: tuple[str, ...]
    smallest: bool
    least_seconds: int | None = None
    found_seconds: int | None = None


@dataclass(frozen=True)
class Broken:
    """A rule that a sequence breaks: what, where, which condition, and the harm where a guard names one."""

    rule: Literal[
        "requires",
        "guard",
        "sustains",
        "finish",
        "walking",
        "overlap",
        "length",
        "unknown",
        "awaits",
        "twice",
        "conflict",
        "unfinished",
        "must",
    ]
    step: str
    at: int
    condition: str
    text: str
    harm: str = ""
