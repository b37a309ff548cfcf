"""New times for a sequence of steps whose order has been changed."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from firstpitch.rounds import Problem, TimedStep


def retimed(problem: Problem, order: Sequence[TimedStep], moved: Collection[str] = ()) -> list[TimedStep]:
    """``order`` with times that leave room for walking.

    A step in ``moved`` starts as soon as the presenter gets there; all others keep their time or start as soon as they can after it.
    """
    places, place, free, timed = {s.id: s.place for s in problem.steps}, problem.start_place, 0, []
    for step in order:
        arrival = free + problem.walks[place][places[step.step]]
        start = arrival if step.step in moved else max(arrival, step.start)
        timed.append(TimedStep(step.step, start, start + step.end - step.start))
        place, free = places[step.step], timed[-1].end
    return timed
