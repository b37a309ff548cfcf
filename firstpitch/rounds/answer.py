"""From the ends of steps to the plan that is given as the answer."""

from __future__ import annotations

from itertools import pairwise

from firstpitch.rounds.arrange import Arranged
from firstpitch.rounds.choose import worth_of
from firstpitch.rounds.left_out import left_out
from firstpitch.rounds.model import Model
from firstpitch.rounds.types import Plan, TimedStep, TimedWait


def plan_of(model: Model, able: frozenset[int], found: Arranged, most: int, seed: int) -> Plan:
    """The plan; proven only when it takes every step that can be done and no order of them can be quicker."""
    ends = dict(sorted(found.ends.items(), key=lambda e: e[1]))
    starters = {w: i for i, s in enumerate(model.steps) for w in s.starts}
    waits = [
        TimedWait(w.id, ends[starters[w.id]], ends[starters[w.id]] + w.seconds)
        for w in model.problem.waits
        if starters.get(w.id) in ends
    ]
    worth = worth_of(model, frozenset(ends))
    return Plan(
        steps=tuple(TimedStep(model.steps[i].id, end - model.seconds[i], end) for i, end in ends.items()),
        waits=tuple(sorted(waits, key=lambda w: (w.start, w.wait))),
        left_out=left_out(model, able, ends),
        total=found.total,
        bound=min(found.bound, found.total),
        worth=worth,
        worth_bound=max(most, worth),
        breaks=sum(model.topic[a] != model.topic[b] for a, b in pairwise(ends)),
        seed=seed,
        proven=found.bound >= found.total and len(ends) == len(able),
    )
