"""A good order for a given set of steps: first rounds by greedy choice, then local search, then the exact solver for the bound."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from firstpitch.rounds import exact
from firstpitch.rounds.bound import lower_bound
from firstpitch.rounds.causes import frame_of
from firstpitch.rounds.greedy import Taste, build
from firstpitch.rounds.improve import Effort, Scale, improve
from firstpitch.rounds.model import Model
from firstpitch.rounds.orders import Contradiction, Orders, infer

Tell = Callable[[str, int | None, int | None], None]
Ends = Mapping[int, int]


@dataclass(frozen=True)
class Patience:
    """How hard to work.

    ``starts`` first rounds sought, ``tries`` moves of the local search, ``work`` deterministic time of the exact solver on rounds of
    up to ``prove_up_to`` steps, ``exact_up_to`` the number of steps up to which the choice of steps is exact too.
    """

    starts: int = 3
    tries: int = 80_000
    work: float = 4.0
    prove_up_to: int = 30
    exact_up_to: int = 12


@dataclass(frozen=True)
class Search:
    """One search: its seed, its patience, and whom to tell of progress (stage, total and bound so far [s])."""

    seed: int = 0
    patience: Patience = Patience()
    tell: Tell | None = None

    def say(self, stage: str, total: int, bound: int) -> None:
        """Report progress."""
        if self.tell:
            self.tell(stage, total, bound)


@dataclass(frozen=True)
class Arranged:
    """A valid round of a set of steps: the end of each, in order, and a proven lower bound on any round of these steps."""

    ends: Ends
    bound: int

    @property
    def total(self) -> int:
        """When the round ends [s]."""
        return max(self.ends.values(), default=0)


def rank(model: Model, ends: Ends) -> tuple[int, int]:
    """Total and breaks: less is better."""
    return max(ends.values(), default=0), sum(model.topic[a] != model.topic[b] for a, b in pairwise(ends))


def arrange(
    model: Model, steps: frozenset[int], search: Search, known: Ends | None = None, *, bounded: bool = True
) -> Arranged | None:
    """A good round of exactly these steps, or None when none was found; ``known`` is a valid round of them to start from.

    Not ``bounded``: the bound is only the seconds of the steps, which costs no time.
    """
    try:
        orders = infer(model, steps)
    except Contradiction:
        return None
    rng = random.Random(search.seed)
    firsts = _first_rounds(model, steps, orders, search, rng)
    if known is not None:
        firsts.append(known)
    if not firsts:
        return None
    firsts.sort(key=lambda ends: rank(model, ends))
    bound = lower_bound(model, steps, orders) if bounded else sum(model.seconds[i] for i in steps)
    best = firsts[0]
    for ends in firsts[:2]:
        better = _improved(model, ends, Effort(tries=search.patience.tries // 2), rng)
        if rank(model, better) < rank(model, best):
            best = better
    search.say("search", rank(model, best)[0], bound)
    return Arranged(best, bound)


def first_round(model: Model, steps: frozenset[int]) -> Ends | None:
    """The first valid round of exactly these steps that is found, not improved; None when none is found quickly."""
    try:
        orders = infer(model, steps)
    except Contradiction:
        return None
    return next(iter(_first_rounds(model, steps, orders, Search(patience=Patience(starts=1)), random.Random(0))), None)


def _first_rounds(
    model: Model, steps: frozenset[int], orders: Orders, search: Search, rng: random.Random
) -> list[Ends]:
    """So many first rounds, each chosen to a different taste; fewer when the tastes run into dead ends."""
    tastes = [
        Taste(),
        Taste(topic=12.0),
        Taste(wait=0.2),
        Taste(topic=0.0),
        *(Taste(chance=3.0 * n) for n in range(1, 9)),
    ]
    found: list[Ends] = []
    for taste in tastes:
        course = build(model, steps, orders, taste, rng)
        if course is not None:
            if not found:
                search.say("first round", course.now, sum(model.seconds[i] for i in steps))
            found.append(course.ends)
            if len(found) == search.patience.starts:
                break
    return found


def _improved(model: Model, ends: Ends, effort: Effort, rng: random.Random) -> Ends:
    scale = Scale(model, frame_of(model, ends))
    better = scale.ends(improve(scale, list(ends), effort, rng))
    return ends if better is None else better


def tighten(model: Model, arranged: Arranged, search: Search) -> Arranged:
    """Improve a round and its bound with the exact solver, within ``patience.work``."""
    steps = frozenset(arranged.ends)
    if arranged.total <= arranged.bound or len(steps) > search.patience.prove_up_to:
        return arranged
    orders = infer(model, steps)
    program = exact.build(model, exact.whole(model, steps), walking=True, orders=orders)
    program.cp.add(program.total >= arranged.bound)
    program.cp.add(program.total <= arranged.total)
    program.cp.minimize(program.total)
    exact.hint(program, arranged.ends)
    outcome = exact.solve(program, exact.Budget(work=search.patience.work, seed=search.seed))
    if not outcome.possible:
        return arranged
    bound = max(arranged.bound, math.ceil(outcome.bound - 1e-6))
    ends = arranged.ends
    if rank(model, outcome.ends) < rank(model, ends):
        ends = _improved(
            model, outcome.ends, Effort(tries=search.patience.tries // 4, hot=0.5), random.Random(search.seed)
        )
    search.say("proof", rank(model, ends)[0], bound)
    return replace(arranged, ends=ends, bound=bound)
