"""Every valid round of a small problem, by trying all orders and moments; judged by the checker alone."""

from __future__ import annotations

from collections.abc import Iterator

from firstpitch.rounds import Problem, Step, TimedStep, replay


def all_rounds(problem: Problem, *, late: int = 1) -> Iterator[tuple[TimedStep, ...]]:
    """Every valid round in which each step starts within ``late`` seconds of when all that runs is over, or sooner."""
    yield from _longer(problem, [], late)


def _longer(problem: Problem, done: list[TimedStep], late: int) -> Iterator[tuple[TimedStep, ...]]:
    if not replay(problem, done):
        yield tuple(done)
    taken = {t.step for t in done}
    for step in problem.steps:
        if step.id in taken:
            continue
        for start in _moments(problem, done, step, late):
            trial = [*done, TimedStep(step.id, start, start + step.seconds)]
            if not replay(problem, trial, whole=False):
                yield from _longer(problem, trial, late)


def _moments(problem: Problem, done: list[TimedStep], step: Step, late: int) -> range:
    steps = {s.id: s for s in problem.steps}
    waits = {w.id: w for w in problem.waits}
    place = steps[done[-1].step].place if done else problem.start_place
    base = (done[-1].end if done else 0) + problem.walks[place][step.place]
    running = [t.end + waits[w].seconds for t in done for w in steps[t.step].starts]
    return range(base, max([base, *(r + late for r in running)]) + 1)
