"""The best stow and the proof of it, in three steps, each of which makes the next one small.

The relaxation says what no stow can be better than, and which places cost least beyond it. Those places alone make a small
program that soon gives a good stow. What then could still be better by more than the tolerance lies in few places, and the whole
program need look only there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstpitch.outfit.stow.evaluate import evaluate
from firstpitch.outfit.stow.program import POINTS, Answer, Program, Solved, program, run
from firstpitch.outfit.stow.relaxed import Relaxed, relaxed
from firstpitch.outfit.stow.search import refine

if TYPE_CHECKING:
    from firstpitch.outfit.stow.problem import Counts, StowProblem

PLACES = 4  # for each thing, on average, in the small program
EFFORT = 0.05  # CP-SAT's count of work for the small program, about that many seconds
LONGER = 4.0  # times the work of the time before
HALF = 0.5  # of the tolerance: nearer than that the small program need not come to its own best
SURE = 0.01  # points by which rounding can never deceive the relaxation


def prove(problem: StowProblem, start: Counts, *, seconds: float, tolerance: float, seed: int) -> Solved:
    """The best stow with everything aboard, from ``start`` where that is whole and sound. ``tolerance`` in points."""
    made = program(problem)
    least = relaxed(made, POINTS)
    if least is None or not _sound(problem, start):
        hint = start if _whole(problem, start) else None
        return run(made, hint=hint, seconds=seconds, tolerance=tolerance, seed=seed)
    good = _good(made, least, start, seconds=seconds, tolerance=tolerance, seed=seed)
    points = evaluate(problem, good).points
    if points - least.points <= tolerance - SURE:
        return Solved("best", good, points, least.points - SURE, 0.0, 0.0)
    return _rest(made, least, good, seconds=seconds, tolerance=tolerance, seed=seed)


def _whole(problem: StowProblem, counts: Counts) -> bool:
    return bool((counts.sum(axis=1) == problem.number).all())


def _sound(problem: StowProblem, counts: Counts) -> bool:
    return _whole(problem, counts) and not evaluate(problem, counts).breaches


def _good(made: Program, least: Relaxed, start: Counts, *, seconds: float, tolerance: float, seed: int) -> Counts:
    """A good stow: the small program's, made better nearby."""
    cheapest = sorted(least.extra, key=lambda key: (least.extra[key], key))
    only = {*cheapest[: PLACES * len(made.problem.items)], *_used(made, start)}
    found = run(made, hint=start, seconds=seconds, tolerance=tolerance * HALF, seed=seed, effort=EFFORT, only=only)
    core = found.counts if found.counts is not None else start
    better = refine(made.whole, core, enough=least.points + tolerance - SURE, seed=seed)
    return better if _sound(made.whole, better) else core


def _rest(made: Program, least: Relaxed, good: Counts, *, seconds: float, tolerance: float, seed: int) -> Solved:
    """What could still be better than ``good`` by more than the tolerance: it uses only places that cost little enough.

    CP-SAT begins anew after a while, each time from a better stow and by another way, since now and then one way takes very long.
    """
    points, bound, spent, effort = evaluate(made.whole, good).points, least.points - SURE, 0.0, EFFORT
    answer: Answer = "good"
    while spent < seconds and answer != "best":
        most = points - tolerance - least.points + SURE
        only = {*(key for key, extra in least.extra.items() if extra <= most), *_used(made, good)}
        left = seconds - spent
        found = run(made, hint=good, seconds=left, tolerance=tolerance, seed=seed, effort=effort, only=only)
        answer = found.answer
        # "Impossible" can only mean that rounding shuts out even the known stow: then there is none better either.
        bound = max(bound, points - tolerance if answer == "impossible" else min(found.bound, points - tolerance))
        spent, effort, seed = spent + found.seconds, effort * LONGER, seed + 1
        if found.counts is not None and found.points < points:
            better = found.counts
            if answer != "best":
                better = refine(made.whole, better, enough=bound + tolerance, seed=seed)
            good = better if _sound(made.whole, better) else found.counts
            points = evaluate(made.whole, good).points
        if points - bound <= tolerance:
            answer = "best"
    return Solved(answer, good, points, bound, 0.0, spent)


def _used(made: Program, counts: Counts) -> set[tuple[int, int]]:
    return {key for key, number in made.lies(counts).items() if number}
