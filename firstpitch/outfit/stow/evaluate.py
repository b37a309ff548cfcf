"""What a given stow does: loads, noseweight, level, yaw inertia, and every limit it breaks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firstpitch.outfit.lockers import why_not
from firstpitch.outfit.stow.problem import Counts, StowProblem
from firstpitch.outfit.verdict import Span, shown

HAIR = 1e-6  # kg
SMALL = 10.0  # kg; below it a decimal is worth showing


@dataclass(frozen=True)
class LockerLoad:
    """One locker's load: ``mass`` and ``limit`` [kg] (None: unknown), ``filled`` share of its usable space, what lies in it."""

    id: str
    name: str
    mass: float
    limit: float | None
    filled: float
    pieces: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Breach:
    """One limit or rule that a stow breaks, by how much [kg] (a share of the room counts as kg of what is too much), in a sentence."""

    rule: str
    over: float
    sentence: str


@dataclass(frozen=True)
class StowFigures:
    """What a stow does. ``nose`` on the ball, ``mass`` of the van [kg]; ``side`` load moment towards the nearside [kg·m];
    ``inertia`` of the load about the laden van's centre of gravity [kg·m²], ``centre`` its x [m]; ``height`` of the load [m].

    ``points`` is what the plan makes least, without pieces left at home; ``out_of_band`` kg outside the preferred noseweight.
    """

    mass: float
    nose: Span
    side: float
    inertia: float
    centre: float
    height: float
    points: float
    out_of_band: float
    moved: int
    lockers: tuple[LockerLoad, ...]
    breaches: tuple[Breach, ...]
    not_placed: tuple[tuple[str, int], ...]

    @property
    def excess(self) -> float:
        """How much is wrong altogether [kg]; 0 for a stow that keeps every limit."""
        return sum(breach.over for breach in self.breaches)


def evaluate(problem: StowProblem, counts: Counts) -> StowFigures:
    """The figures of a stow given as an n × k table of numbers."""
    loads = problem.mass @ counts
    total = problem.base_mass + float(loads.sum())
    nose = _nose(problem, loads)
    where = _centre(problem, loads, total)
    inertia = float(loads @ ((problem.x - where) ** 2 + problem.y**2))
    carried = float(loads.sum())
    points, out_of_band, moved = _points(problem, counts, loads, nose)
    return StowFigures(
        mass=total,
        nose=nose,
        side=float(loads @ problem.y),
        inertia=inertia,
        centre=where,
        height=float(loads @ problem.z) / carried if carried > 0 else 0.0,
        points=points,
        out_of_band=out_of_band,
        moved=moved,
        lockers=_lockers(problem, counts, loads),
        breaches=tuple(_breaches(problem, counts, loads, total, nose)),
        not_placed=tuple(
            (item.id, int(left))
            for item, left in zip(problem.items, problem.number - counts.sum(axis=1), strict=True)
            if left > 0
        ),
    )


@dataclass(frozen=True)
class Score:
    """How good a stow is, to compare two: first least ``excess`` [kg], then least left over [kg], then fewest points."""

    excess: float
    left: float
    points: float

    def better_than(self, other: Score) -> bool:
        """Whether it is better by more than a hair."""
        for mine, theirs in ((self.excess, other.excess), (self.left, other.left)):
            if abs(mine - theirs) > HAIR:
                return mine < theirs
        return self.points < other.points - HAIR


def score(problem: StowProblem, counts: Counts) -> Score:
    """The score of a stow; quick, for trying many."""
    loads = problem.mass @ counts
    nose = _nose(problem, loads)
    total = problem.base_mass + float(loads.sum())
    wrong = np.where(problem.allowed, 0, counts)
    excess = float(problem.mass @ wrong.sum(axis=1))
    known = np.array([locker.limit is not None for locker in problem.lockers], dtype=bool)
    excess += float(np.maximum(0.0, loads - problem.limit)[known].sum())
    filled = problem.volume @ counts
    over = filled > problem.room * (1 + HAIR)
    excess += float((loads[over] * (1 - problem.room[over] / filled[over])).sum())
    excess += max(0.0, total - problem.outfit.van.masses.mtplm)
    if problem.band.ruling is not None:
        excess += max(0.0, nose.high - problem.band.ruling)
    excess += max(0.0, problem.floor - nose.low)
    excess += sum(max(0.0, row.base + float(row.share @ loads) - row.limit) for row in problem.axles)
    points, _, _ = _points(problem, counts, loads, nose)
    return Score(excess, float(problem.mass @ (problem.number - counts.sum(axis=1))), points)


def _nose(problem: StowProblem, loads: np.ndarray) -> Span:
    low = min(row.base.low + float(row.share @ loads) for row in problem.noses)
    high = max(row.base.high + float(row.share @ loads) for row in problem.noses)
    return Span(low, high)


def _centre(problem: StowProblem, loads: np.ndarray, total: float) -> float:
    return (problem.base_mass * problem.base_x + float(loads @ problem.x)) / total


def _points(problem: StowProblem, counts: Counts, loads: np.ndarray, nose: Span) -> tuple[float, float, int]:
    low, high = problem.band.preferred
    out_of_band = max(0.0, low - nose.low, 0.0) + max(0.0, nose.high - high)
    moved = int(np.maximum(problem.today - counts, 0).sum()) if problem.today is not None else 0
    worth = problem.worth
    points = float(problem.cost @ loads) + worth.band * out_of_band + worth.side * abs(float(loads @ problem.y))
    return points + worth.move * moved, out_of_band, moved


def _lockers(problem: StowProblem, counts: Counts, loads: np.ndarray) -> tuple[LockerLoad, ...]:
    return tuple(
        LockerLoad(
            locker.id,
            locker.name,
            float(loads[j]),
            locker.limit,
            float(problem.volume @ counts[:, j]) / float(problem.room[j]),
            tuple((item.name, int(counts[i, j])) for i, item in enumerate(problem.items) if counts[i, j]),
        )
        for j, locker in enumerate(problem.lockers)
    )


def _breaches(problem: StowProblem, counts: Counts, loads: np.ndarray, total: float, nose: Span) -> list[Breach]:
    found = _in_lockers(problem, counts, loads)
    mtplm, ruling = problem.outfit.van.masses.mtplm, problem.band.ruling
    if total > mtplm + HAIR:
        found.append(
            Breach(
                "mtplm",
                total - mtplm,
                f"The van is {kilos(total - mtplm)} over its greatest laden mass of {kilos(mtplm)}.",
            )
        )
    if ruling is not None and nose.high > ruling + HAIR:
        over = nose.high - ruling
        found.append(
            Breach("nose-most", over, f"The noseweight is {kilos(over)} over the ruling limit of {kilos(ruling)}.")
        )
    if nose.low < problem.floor - HAIR:
        short = problem.floor - nose.low
        found.append(
            Breach("nose-least", short, f"The noseweight is {kilos(short)} below the least of {kilos(problem.floor)}.")
        )
    for row in problem.axles:
        over = row.base + float(row.share @ loads) - row.limit
        if over > HAIR:
            found.append(
                Breach("axle", over, f"The caravan's {row.name} is {kilos(over)} over its limit of {kilos(row.limit)}.")
            )
    return found


def _in_lockers(problem: StowProblem, counts: Counts, loads: np.ndarray) -> list[Breach]:
    found = []
    for i, j in np.argwhere((counts > 0) & ~problem.allowed):
        item, locker = problem.items[i], problem.lockers[j]
        mass = float(counts[i, j]) * item.mass
        found.append(Breach("place", mass, f"{item.name} may not be in {locker.name}: {why_not(item, locker)}."))
    for j, locker in enumerate(problem.lockers):
        over = float(loads[j] - problem.limit[j])
        if locker.limit is not None and over > HAIR:
            found.append(
                Breach(
                    "locker-mass",
                    over,
                    f"{locker.name} holds {kilos(over)} more than its limit of {kilos(locker.limit)}.",
                )
            )
        filled = float(problem.volume @ counts[:, j])
        if filled > problem.room[j] * (1 + HAIR):
            share = filled / float(problem.room[j])
            much = float(loads[j]) * (1 - 1 / share)
            found.append(Breach("locker-room", much, f"{locker.name} is full {share:.1f} times over."))
    return found


def kilos(mass: float) -> str:
    """A mass in words, with a decimal where it is small."""
    return shown(mass, "kg", 1 if mass < SMALL else 0)
