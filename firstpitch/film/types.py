"""The film's inputs and results, frozen. See docs/film.md for what each finding means.

Times are seconds from the start of the recording. Keys: ``kit.step#n`` is the n-th point of a step, ``kit!n`` the n-th caution of a kit
(both from 1), ``kit=fact`` a figure of a kit, ``van=mtplm`` one of the van itself. Where several kits are of one kind and the words
are the same for all of them, they share the key of the first on the sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from firstpitch.catalogue.types import CautionLevel, Level
from firstpitch.rounds import Problem
from firstpitch.sheet.types import FactValue

PointState = Literal["said", "partly", "missing"]
CautionState = Literal["said", "late", "missing"]
FigureState = Literal["agrees", "differs", "not on the sheet"]


@dataclass(frozen=True)
class Word:
    """One recognised word. ``sure`` is the recogniser's own confidence, 0 to 1, None where it gives none."""

    text: str
    start: float
    end: float
    sure: float | None = None


@dataclass(frozen=True)
class Cue:
    """A piece of captions: what is said from ``start`` to ``end``. ``words`` is empty where only the whole cue is timed."""

    start: float
    end: float
    text: str
    words: tuple[Word, ...] = ()


@dataclass(frozen=True)
class Recording:
    """What is said in one film, in order, never overlapping. ``mended`` says in words what was put right in reading it."""

    cues: tuple[Cue, ...]
    length: float
    mended: tuple[str, ...] = ()


@dataclass(frozen=True)
class Point:
    """One thing to say. ``steps`` are the round's steps it belongs to, one a kit; ``words`` those a film of the step should contain.

    ``ways`` are others to say it, as people speak.
    """

    key: str
    kind: str
    kits: tuple[str, ...]
    steps: tuple[str, ...]
    level: Level
    text: str
    say: str
    words: tuple[str, ...]
    ways: tuple[str, ...] = ()


@dataclass(frozen=True)
class CautionDue:
    """A caution to be spoken before any of ``steps`` is done; no steps: before the kit is used at all. ``ways`` are others to say it."""

    key: str
    kind: str
    kits: tuple[str, ...]
    level: CautionLevel
    text: str
    steps: tuple[str, ...]
    ways: tuple[str, ...] = ()


@dataclass(frozen=True)
class KnownFigure:
    """A figure that the sheet could give. ``value`` None: unknown on this sheet. ``unit`` is the one people say it in."""

    key: str
    kind: str
    kits: tuple[str, ...]
    what: str
    unit: str
    value: FactValue | None


@dataclass(frozen=True)
class Subject:
    """A kind of kit that can be spoken of: the words speakers use for it. ``kits`` is empty when this van has none."""

    kind: str
    title: str
    names: tuple[str, ...]
    kits: tuple[str, ...]


@dataclass(frozen=True)
class FilmBrief:
    """What a film of one van should contain. ``problem`` is its round in mode ``film``.

    ``doing`` is, per step of the round, what people say while their hands do it.
    """

    van: str
    problem: Problem
    subjects: tuple[Subject, ...]
    points: tuple[Point, ...]
    cautions: tuple[CautionDue, ...]
    figures: tuple[KnownFigure, ...]
    doing: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class PointFound:
    """Whether a point is said: ``at`` and ``quote`` are where, None and empty when missing; ``sure`` is 0 to 1; ``why`` the evidence."""

    point: str
    state: PointState
    at: float | None
    quote: str
    sure: float
    why: tuple[str, ...]


@dataclass(frozen=True)
class FigureHeard:
    """A figure that was spoken. ``figure`` is the key it is held against, empty when the sheet has nothing like it."""

    at: float
    quote: str
    said: str
    value: float
    most: float | None
    unit: str
    figure: str
    state: FigureState
    sheet: str
    sure: float
    why: tuple[str, ...]


@dataclass(frozen=True)
class CautionHeard:
    """Whether a caution is spoken in time: ``act`` is when the act it warns of begins, None when the film never comes to it."""

    caution: str
    state: CautionState
    at: float | None
    act: float | None
    quote: str
    sure: float
    why: tuple[str, ...]


@dataclass(frozen=True)
class OrderFault:
    """Something done in the film that the round's rules forbid at that point. ``sure`` is 0 to 1."""

    at: float
    step: str
    rule: str
    what: str
    harm: str
    quote: str
    sure: float = 1.0


@dataclass(frozen=True)
class NotFitted:
    """Something spoken of that the sheet does not list."""

    kind: str
    title: str
    at: float
    quote: str
    why: tuple[str, ...]


@dataclass(frozen=True)
class Stretch:
    """A part of the film about one kit (empty: about none): what was seen to be shown there, with ``steps`` taken as done in it."""

    kind: str
    kits: tuple[str, ...]
    start: float
    end: float
    steps: tuple[str, ...]


@dataclass(frozen=True)
class Padding:
    """Words that tell the owner nothing, or the same again: ``again`` is when it was said first, None for padding."""

    at: float
    end: float
    quote: str
    again: float | None


@dataclass(frozen=True)
class Pace:
    """Words a minute over the speech of the whole film, and the stretches that are too fast to follow (start, end, words a minute)."""

    words: int
    words_per_minute: float
    fast: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Score:
    """Out of 100, with each part's share: (what, points given, points it could give, why)."""

    total: float
    parts: tuple[tuple[str, float, float, str], ...]
    stops: tuple[str, ...]


@dataclass(frozen=True)
class Coverage:
    """Everything found in one film. ``blocking`` are the keys of ``stop`` cautions that are missing or late: they block publishing."""

    van: str
    length: float
    points: tuple[PointFound, ...]
    figures: tuple[FigureHeard, ...]
    cautions: tuple[CautionHeard, ...]
    order: tuple[OrderFault, ...]
    not_fitted: tuple[NotFitted, ...]
    stretches: tuple[Stretch, ...]
    padding: tuple[Padding, ...]
    pace: Pace
    score: Score
    blocking: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Chapter:
    """A part of the film that answers for one kit."""

    title: str
    kits: tuple[str, ...]
    start: float
    end: float


@dataclass(frozen=True)
class Shot:
    """One shot of a script: what the camera sees, the cautions to say before the act, the points, the figures from the sheet; times [s]."""

    number: int
    step: str
    kit: str
    title: str
    place: str
    sees: str
    cautions: tuple[str, ...]
    points: tuple[str, ...]
    say: str
    figures: Mapping[str, str]
    walk: int
    start: int
    seconds: int
    waits: tuple[str, ...] = ()


@dataclass(frozen=True)
class Script:
    """A shot list in round order at ``words_per_minute``."""

    van: str
    shots: tuple[Shot, ...]
    total: int
    words_per_minute: float
    left_out: tuple[str, ...] = ()
