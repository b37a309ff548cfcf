"""The planner: from a problem to a round with a proven bound, or to the facts that clash."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace

from firstpitch.rounds import exact
from firstpitch.rounds.answer import plan_of
from firstpitch.rounds.arrange import Arranged, Ends, Patience, Search, Tell, arrange, tighten
from firstpitch.rounds.bound import bounds
from firstpitch.rounds.causes import frame_of
from firstpitch.rounds.choose import Lesson, choose, learn, most_worth, surely, weight, worth_of
from firstpitch.rounds.clash import explain, musts_too_long, start_clash
from firstpitch.rounds.improve import Scale
from firstpitch.rounds.model import Model, index_problem
from firstpitch.rounds.orders import Contradiction, infer
from firstpitch.rounds.quick import at_once
from firstpitch.rounds.reach import reachable
from firstpitch.rounds.types import Clash, Plan, Problem

ROOM_TRIES = 24
QUICKER = 20
FEW = 30
WORK_ON_FEW, WORK_ON_MANY = 20.0, 1.5  # deterministic time of the exact solver
SEARCH_SAVES = 60  # seconds that a long search may save over a quick one, until one has shown it


def plan_round(
    problem: Problem, *, seed: int = 0, patience: Patience | None = None, tell: Tell | None = None
) -> Plan | Clash:
    """The best round found for ``problem`` (docs/rounds.md says what is best), or the facts that clash.

    The same problem, seed and patience give the same answer. ``tell`` is called with a stage, the total and the bound so far [s].
    Raises ValueError when two steps start the same wait.
    """
    model = index_problem(problem)
    search = Search(seed, patience or Patience(), tell)
    clash = start_clash(model)
    if clash:
        return clash
    able = reachable(model, range(len(model.steps)))
    if model.musts - able:
        return explain(model, able)
    exactly = _exactly(model, able, seed) if len(able) <= search.patience.exact_up_to else None
    if exactly is not None:
        return exactly
    if model.limit is None:
        return _everything(model, able, search)
    return _within(model, able, model.limit, search)


def _everything(model: Model, able: frozenset[int], search: Search) -> Plan | Clash:
    found = arrange(model, able, search)
    if found is not None:
        return plan_of(model, able, tighten(model, found, search), worth_of(model, able), search.seed)
    chosen = _choose_and_arrange(model, able, sum(model.seconds), search, fits=None)
    if chosen.found is None:
        chosen = _by_proof(model, able, None, search)
    if chosen.found is None:
        return explain(model, able)
    return plan_of(model, able, tighten(model, chosen.found, search), chosen.worth_bound, search.seed)


@dataclass(frozen=True)
class _Proof:
    """What the exact solver found: a round or none, a bound on the worth of any, and whether it is sure that there is none."""

    found: Arranged | None
    worth_bound: int
    none: bool = False


def _choose_and_arrange(model: Model, able: frozenset[int], room: int, search: Search, *, fits: int | None) -> _Proof:
    """Choose the most worth that ``room`` seconds of steps hold and arrange it so that the round ends within ``fits`` [s].

    What turns out not to go together is learnt; where the walk does not fit, seconds are given back. The bound on the worth is that of the
    first choice, which knows of neither.
    """
    most = worth_of(model, able)
    lessons: list[Lesson] = []
    saves = SEARCH_SAVES
    passed: Arranged | None = None
    for attempt in range(ROOM_TRIES):
        choice = choose(model, able, room, search.seed, lessons)
        if choice is None:
            break
        if attempt == 0:
            most = min(most, choice.worth_bound)
        lesson = learn(model, able, choice.steps)
        if lesson is not None:
            lessons.append(lesson)
            continue
        quick = arrange(model, choice.steps, _quick(search), bounded=False)
        if quick is None:
            break
        over = 0 if fits is None else quick.total - fits
        if over > saves:
            passed = quick if passed is None or quick.total < passed.total else passed
            room -= over - saves
            continue
        found = arrange(model, choice.steps, search, quick.ends) or quick
        if fits is None or found.total <= fits:
            return _Proof(found, most)
        saves = quick.total - found.total
        room -= found.total - fits
    if passed is not None and fits is not None and passed.total - fits <= SEARCH_SAVES:
        passed = arrange(model, frozenset(passed.ends), search, passed.ends) or passed
        return _Proof(passed if passed.total <= fits else None, most)
    return _Proof(None, most)


def _quick(search: Search) -> Search:
    """The same search with little patience, for trying many sets of steps."""
    patience = replace(search.patience, starts=2, tries=search.patience.tries // QUICKER)
    return replace(search, patience=patience, tell=None)


def _by_proof(model: Model, able: frozenset[int], limit: int | None, search: Search) -> _Proof:
    """A round of most worth within ``limit`` [s] by the exact solver, without walking (quicker), then with it if there are few."""
    most = worth_of(model, able)
    ways = (False, True) if len(able) <= search.patience.prove_up_to else (False,)
    for walking in ways:
        outcome = _most_worth(model, able, limit, search.seed, walking=walking)
        if outcome.possible is False:
            return _Proof(None, 0, none=True)
        if outcome.possible:
            most = min(most, most_worth(model, outcome.bound))
            known = dict(outcome.ends) if walking else _timed(model, outcome.ends)
            found = arrange(model, frozenset(outcome.ends), search, known)
            if found is not None and (limit is None or found.total <= limit):
                return _Proof(found, most)
    return _Proof(None, most)


def _most_worth(model: Model, able: frozenset[int], limit: int | None, seed: int, *, walking: bool) -> exact.Outcome:
    """The most worth that any valid round has within ``limit`` [s], and of that worth the least seconds of steps."""
    program = exact.build(model, exact.whole(model, model.musts, able - model.musts), walking=walking)
    if limit is not None:
        program.cp.add(program.total <= limit)
    program.cp.maximize(sum(weight(model, i) * program.present[i] for i in sorted(able - model.musts)))
    work = WORK_ON_FEW if len(able) <= FEW else WORK_ON_MANY
    return exact.solve(program, exact.Budget(work=work, seed=seed))


def _timed(model: Model, ends: Ends) -> Ends | None:
    """The same order with walking, where the order alone keeps the round valid; None where it does not."""
    scale = Scale(model, frame_of(model, ends))
    return scale.ends(list(ends))


def _within(model: Model, able: frozenset[int], limit: int, search: Search) -> Plan | Clash:
    """Most worth within the minutes."""
    sure = surely(model, able)
    try:
        orders = infer(model, sure, able - sure)
    except Contradiction:
        return explain(model, able)
    first = _first_answer(model, able, limit, search)
    least, walking = bounds(model, sure, orders)
    chosen = _Proof(None, worth_of(model, able))
    if least <= limit:
        chosen = _choose_and_arrange(model, able, limit - walking, search, fits=limit)
        chosen = _richer(model, chosen, first, search)
    if chosen.found is None:
        chosen = _musts_only(model, able, limit, search, chosen.worth_bound)
    if chosen.found is None:
        return explain(model, able)
    if chosen.found.total > limit:
        return musts_too_long(limit, chosen.found.total, max(least, limit + 1 if chosen.none else 0))
    found = _fill_up(model, able, chosen.found, limit, search)
    return plan_of(model, able, tighten(model, found, search), chosen.worth_bound, search.seed)


def _first_answer(model: Model, able: frozenset[int], limit: int, search: Search) -> Ends | None:
    """A round within ``limit`` [s] at once, which is told of; None when none is found that quickly."""
    ends = at_once(model, able, random.Random(search.seed))
    total = max(ends.values(), default=0) if ends is not None else 0
    if ends is None or total > limit:
        return None
    search.say("first round", total, sum(model.seconds[i] for i in ends))
    return ends


def _richer(model: Model, chosen: _Proof, first: Ends | None, search: Search) -> _Proof:
    """The first answer, worked on, where the long search came to less worth."""
    worth = -1 if chosen.found is None else worth_of(model, frozenset(chosen.found.ends))
    if first is None or worth_of(model, frozenset(first)) <= worth:
        return chosen
    return replace(chosen, found=arrange(model, frozenset(first), search, first) or chosen.found)


def _musts_only(model: Model, able: frozenset[int], limit: int, search: Search, most: int) -> _Proof:
    """A quick round of the musts and what they rest on, perhaps over ``limit``; ``none`` when it is sure that none fits."""
    worthless = replace(model, problem=replace(model.problem, steps=tuple(replace(s, worth=0) for s in model.steps)))
    found = _choose_and_arrange(worthless, able, sum(model.seconds), search, fits=None).found
    if found is not None:
        found = tighten(model, found, search)
        if found.total <= limit or len(able) > search.patience.prove_up_to:
            return _Proof(found, most)
    proof = _by_proof(model, able, limit, search)
    if proof.found is not None:
        return replace(proof, worth_bound=min(most, proof.worth_bound))
    return _Proof(found or _by_proof(worthless, able, None, search).found, most, none=proof.none)


def _fill_up(model: Model, able: frozenset[int], found: Arranged, limit: int, search: Search) -> Arranged:
    """Take in left-out steps, most worth first, while the round still fits."""
    quick = _quick(search)
    spare = sorted(able - set(found.ends), key=lambda i: (-model.steps[i].worth, model.seconds[i], i))
    for step in spare:
        if found.total + model.seconds[step] <= limit:
            trial = arrange(model, frozenset({*found.ends, step}), quick, bounded=False)
            if trial is not None and trial.total <= limit:
                found = trial
    return found


def _exactly(model: Model, able: frozenset[int], seed: int) -> Plan | Clash | None:
    """A small problem, solved exactly: most worth, then least time, then fewest breaks; None when the solver runs out of work."""
    quickest = _least_time(model, able, None, 0, seed)
    if quickest.possible is False:
        return explain(model, able)
    shortest = max(quickest.ends.values(), default=0)
    if not quickest.proven:
        return None
    if model.limit is not None and shortest > model.limit:
        return musts_too_long(model.limit, shortest, shortest)
    richest = _most_worth(model, able, model.limit, seed, walking=True)
    outcome = _least_time(model, able, model.limit, worth_of(model, frozenset(richest.ends)), seed)
    if not (richest.proven and outcome.proven):
        return None
    found = Arranged(outcome.ends, max(outcome.ends.values(), default=0))
    plan = plan_of(model, able, found, worth_of(model, frozenset(outcome.ends)), seed)
    return replace(plan, proven=True)


def _least_time(model: Model, able: frozenset[int], limit: int | None, worth: int, seed: int) -> exact.Outcome:
    """The quickest valid round of at least this worth, with the fewest breaks among the quickest."""
    program = exact.build(model, exact.whole(model, model.musts, able - model.musts), walking=True)
    if limit is not None:
        program.cp.add(program.total <= limit)
    program.cp.add(sum(model.steps[i].worth * program.present[i] for i in sorted(able - model.musts)) >= worth)
    breaks = sum(lit for (i, j), lit in program.arcs.items() if model.topic[i] != model.topic[j])
    program.cp.minimize(program.total * (len(model.steps) + 1) + breaks)
    return exact.solve(program, exact.Budget(work=60.0, seed=seed))
