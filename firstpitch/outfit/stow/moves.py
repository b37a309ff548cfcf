"""Judging a stow somebody made by hand, and the best next thing to do about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.outfit.stow.evaluate import Score, StowFigures, evaluate, kilos, score
from firstpitch.outfit.stow.left import car_room, may_ride, wanted
from firstpitch.outfit.stow.problem import Counts, StowProblem, stow_problem
from firstpitch.outfit.verdict import Word, compare

if TYPE_CHECKING:
    from firstpitch.outfit.types import LoadItem, Outfit

NOT_YET, HOME = "", "home"
MOST_MOVES = 30
NOTICEABLE = 0.5  # kg on the ball


@dataclass(frozen=True)
class Move:
    """Carry ``number`` pieces of an item from one locker to another (ids; empty: not stowed yet, ``home``: leave it there).

    ``nose`` is what it does on the ball [kg], ``inertia`` to the load's yaw inertia [kg·m²], ``side`` to its level [kg·m].
    """

    item: str
    number: int
    origin: str
    to: str
    nose: float
    inertia: float
    side: float
    excess: float
    sentence: str


@dataclass(frozen=True)
class StowJudgement:
    """A stow as it stands: the word, its figures with every limit it breaks, and the best next move (None: none helps)."""

    word: Word
    figures: StowFigures
    next_move: Move | None
    sentence: str
    unknown: tuple[str, ...]


def judge_stow(outfit: Outfit) -> StowJudgement:
    """The verdict on ``outfit.stow`` and the single move that helps most. Raises ValueError without a stow."""
    if outfit.stow is None:
        raise ValueError("there is no stow to judge")
    problem = stow_problem(outfit)
    counts = problem.counts(outfit.stow)
    figures = evaluate(problem, counts)
    word = word_of(problem, figures)
    move = next_move(problem, counts)
    return StowJudgement(word, figures, move, _sentence(problem, figures, word, move), blocks(problem))


def blocks(problem: StowProblem) -> tuple[str, ...]:
    """What must be found out before anybody can say that a stow fits."""
    limits = tuple(f"the noseweight limit of {part}" for part in problem.band.unknown)
    axle = () if problem.outfit.van.masses.axle_limit is not None else ("the limit of the caravan's axle",)
    return (*problem.assumed, *limits, *axle, *problem.unknown)


def word_of(problem: StowProblem, figures: StowFigures) -> Word:
    """``does not fit`` with any limit broken or anything not placed, ``cannot say`` with a figure missing, else fits or tight."""
    if figures.breaches or figures.not_placed:
        return "does not fit"
    if blocks(problem) or problem.band.ruling is None:
        return "cannot say"
    return compare(figures.nose, problem.band.ruling)


def next_move(problem: StowProblem, counts: Counts) -> Move | None:
    """The single move after which the stow is best, None where no move makes it better.

    Better means: less over a limit; then less left unstowed; then fewer points. Leaving a thing at home is proposed only
    where no other move brings down what is over a limit.
    """
    now = score(problem, counts)
    best: tuple[Score, Counts, tuple[int, int, int, int]] | None = None
    for change in _changes(problem, counts):
        trial = _changed(counts, change)
        then = score(problem, trial)
        if then.better_than(best[0] if best else now):
            best = (then, trial, change)
    if now.excess > 0 and (best is None or best[0].excess >= now.excess - 1e-6):
        best = _home(problem, counts, now) or best
    if best is None:
        return None
    return _described(problem, counts, best[1], best[2])


def improve(problem: StowProblem, counts: Counts, most: int = MOST_MOVES) -> tuple[Move, ...]:
    """One best move after another until none helps, at most ``most``."""
    found: list[Move] = []
    rows = {item.id: i for i, item in enumerate(problem.items)}
    columns = {locker.id: j for j, locker in enumerate(problem.lockers)}
    counts = counts.copy()
    while len(found) < most:
        move = next_move(problem, counts)
        if move is None:
            break
        change = (rows[move.item], move.number, columns.get(move.origin, -1), columns.get(move.to, -1))
        counts = _changed(counts, change)
        found.append(move)
    return tuple(found)


def _changes(problem: StowProblem, counts: Counts) -> Iterator[tuple[int, int, int, int]]:
    """Every (item, pieces, from, to): one piece or all that lie together; from −1 means not stowed yet."""
    left = problem.number - counts.sum(axis=1)
    for i in range(len(problem.items)):
        origins = [(j, int(counts[i, j])) for j in range(len(problem.lockers)) if counts[i, j]]
        if left[i] > 0:
            origins.append((-1, int(left[i])))
        for origin, lying in origins:
            for to in range(len(problem.lockers)):
                if to != origin and problem.allowed[i, to]:
                    yield from ((i, pieces, origin, to) for pieces in {1, lying})


def _changed(counts: Counts, change: tuple[int, int, int, int]) -> Counts:
    i, pieces, origin, to = change
    trial = counts.copy()
    if origin >= 0:
        trial[i, origin] -= pieces
    if to >= 0:
        trial[i, to] += pieces
    return trial


def _home(problem: StowProblem, counts: Counts, now: Score) -> tuple[Score, Counts, tuple[int, int, int, int]] | None:
    """The piece that is best left at home: the one that brings down the excess most for what it weighs."""
    best = None
    for i in range(len(problem.items)):
        for j in range(len(problem.lockers)):
            if counts[i, j]:
                change = (i, 1, j, -1)
                trial = _changed(counts, change)
                then = score(problem, trial)
                key = (then.excess, then.left)
                if then.excess < now.excess - 1e-6 and (best is None or key < (best[0].excess, best[0].left)):
                    best = (then, trial, change)
    return best


def _described(problem: StowProblem, before: Counts, after: Counts, change: tuple[int, int, int, int]) -> Move:
    i, pieces, origin, to = change
    item = problem.items[i]
    was, now = evaluate(problem, before), evaluate(problem, after)
    nose = now.nose.middle - was.nose.middle
    what = item.name if pieces == 1 and item.number == 1 else f"{pieces} × {item.name}"
    if to < 0:
        action = _away(problem, now, item, f"{what} ({kilos(item.mass * pieces)})", item.mass * pieces)
    elif origin < 0:
        action = f"Put {what} in {problem.lockers[to].name}"
    else:
        action = f"Move {what} from {problem.lockers[origin].name} to {problem.lockers[to].name}"
    effects = [f"{'+' if nose > 0 else '−'}{kilos(abs(nose))} on the ball"] if abs(nose) >= NOTICEABLE else []
    spared = was.excess - now.excess
    if spared > 0:
        rest = f", {kilos(now.excess)} still over" if now.excess > 0 else ", all limits kept"
        effects.append(f"{kilos(spared)} less over the limits{rest}")
    elif was.inertia - now.inertia >= 1:
        effects.append(f"{was.inertia - now.inertia:.0f} kg·m² less swing")
    level = abs(was.side) - abs(now.side)
    if level >= 1:
        effects.append("more level from side to side")
    sentence = f"{action}: {', '.join(effects) or 'a little steadier'}."
    names = [NOT_YET if origin < 0 else problem.lockers[origin].id, HOME if to < 0 else problem.lockers[to].id]
    return Move(
        item.id, pieces, names[0], names[1], nose, now.inertia - was.inertia, now.side - was.side, -spared, sentence
    )


def _away(problem: StowProblem, figures: StowFigures, item: LoadItem, what: str, mass: float) -> str:
    """Out of the van: into the car first, where the thing is wanted and may lie there; then home."""
    if not (wanted(item) and may_ride(item)):
        return f"Leave {what} at home"
    room = car_room(problem, figures)
    if room.spare is None:
        return f"Carry {what} in the car if that has room (what it may take is not known), else leave it at home"
    return f"Carry {what} in the car" if room.spare >= mass else f"Leave {what} at home"


def _sentence(problem: StowProblem, figures: StowFigures, word: Word, move: Move | None) -> str:
    start = {
        "fits": "This stow keeps every limit.",
        "tight": "This stow keeps every limit, with little noseweight to spare.",
        "cannot say": f"This stow breaks no known limit, but {', '.join(blocks(problem)[:3]) or 'a limit'} is not known.",
        "does not fit": " ".join(breach.sentence for breach in figures.breaches)
        or f"{len(figures.not_placed)} things have no place yet.",
    }[word]
    return f"{start} {move.sentence}" if move else f"{start} No single move makes it better."
