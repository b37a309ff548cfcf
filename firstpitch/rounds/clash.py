"""When no round exists: the smallest set of facts that cannot all be true, in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from firstpitch.rounds import exact
from firstpitch.rounds.model import Model, Window
from firstpitch.rounds.reach import hopeless
from firstpitch.rounds.types import Clash
from firstpitch.rounds.wording import clock, condition_words, need_words

Fact = tuple[str, int]
SMALLEST_TRIES = 60


def start_clash(model: Model) -> Clash | None:
    """A clash when a guard is already broken at the start."""
    by_id = {g.id: g for g in model.problem.guards}
    for guard in model.guards:
        words = by_id[guard.id]
        if all(model.start[c] in bad for c, bad in guard.never):
            sides = " and ".join(
                condition_words(dict(model.problem.labels), n.condition, n.values) for n in words.never
            )
            return Clash((f"The van starts with {sides}.", f"That must never be: {words.harm}"), smallest=True)
    return None


def musts_too_long(limit: int, found: int, bound: int) -> Clash:
    """A clash between the minutes given and what the musts take."""
    proof = f"no round of them is shorter than {clock(bound)}" if bound > limit else "no shorter one was found"
    return Clash(
        (f"The round may take {clock(limit)}.", f"The musts alone take {clock(found)}; {proof}."),
        smallest=True,
        least_seconds=bound,
        found_seconds=found,
    )


def explain(model: Model, able: frozenset[int]) -> Clash:
    """Why there is no round of all the musts."""
    lost = sorted(model.musts - able)
    if lost:
        facts = min((_why_lost(model, step, able) for step in lost), key=lambda f: (len(f), f))
        return Clash(tuple(facts), smallest=True)
    return _core(model, able)


def _name(model: Model, step: int) -> str:
    return f"“{model.steps[step].title}” ({model.steps[step].kit_name})"


def _must(model: Model, step: int) -> str:
    return f"{_name(model, step)} is a must."


def _why_lost(model: Model, step: int, able: frozenset[int]) -> list[str]:
    """Why a must can never be done: what it needs, which steps alone could bring that about, and why none of those can be done."""
    facts, todo, seen = [_must(model, step)], [step], {step}
    while todo:
        sentences, makers = _obstacle(model, todo.pop(0), able)
        facts += [s for s in sentences if s not in facts]
        todo += [m for m in makers if m not in seen]
        seen.update(makers)
    return facts


def _obstacle(model: Model, step: int, able: frozenset[int]) -> tuple[list[str], list[int]]:
    """What keeps a step from ever being done, in words, and the steps that could help if they could be done themselves."""
    lacking = [m.what for m in model.problem.missing if m.step == model.steps[step].id]
    if lacking:
        return lacking[:1], []
    if step in model.barred:
        return [f"{_name(model, step)} changes one condition twice at the same second."], []
    ways = [(w, _makers(model, step, w)) for w in hopeless(model, step, able)]
    if ways:
        window, makers = min(ways, key=lambda way: len(way[1]))
        need = f"{_name(model, step)} needs {need_words(model, window)}."
        if not makers:
            return [need, "Nothing else on this van can bring that about."], []
        names = " or ".join(_name(model, m) for m in makers)
        return [need, f"Only {names} {'brings' if len(makers) == 1 else 'bring'} that about."], makers
    return _awaited(model, step, able)


def _makers(model: Model, step: int, window: Window) -> list[int]:
    """The other steps that, by themselves or by a wait they start, bring about what a need asks."""
    good = (s.step for s in model.by_condition[window.condition] if s.value in window.values)
    return [m for m in dict.fromkeys(good) if m != step]


def _awaited(model: Model, step: int, able: frozenset[int]) -> tuple[list[str], list[int]]:
    starter = next(w.starter for w in model.awaits_of[step] if w.starter not in able)
    titles = {w.id: w.title for w in model.problem.waits}
    begun = model.steps[starter].starts if starter != step else ()
    name = next((w for w in model.steps[step].awaits if w in begun or starter == step), "")
    first = f"{_name(model, step)} comes only after “{titles.get(name, name)}” is over."
    if starter == step:
        return [first, "Nothing else in this round starts that."], []
    return [first, f"Only {_name(model, starter)} starts that."], [starter]


@dataclass(frozen=True)
class _Asker:
    """Asks the exact solver whether facts can be true together; ``ask`` gives None when they can, else some that clash.

    ``unsure`` fills with the questions the solver had no time for; their answer is None too.
    """

    facts: tuple[Fact, ...]
    ask: Callable[[Sequence[Fact]], list[Fact] | None]
    unsure: list[Sequence[Fact]]


def _core(model: Model, able: frozenset[int]) -> Clash:
    asker, core = _asker(model, able, walking=False), None
    for walking in (False, True):
        asker = _asker(model, able, walking=walking)
        core = asker.ask(asker.facts)
        if core is not None:
            break
    if core is None:
        return Clash(("No round was found, and no proof that there is none.",), smallest=False)
    core = _shrink(core, asker)
    smallest = _smallest(asker, core)
    chosen = core if smallest is None else smallest
    sure = smallest is not None and not asker.unsure
    return Clash(tuple(_fact_words(model, fact) for fact in sorted(chosen)), smallest=sure)


def _asker(model: Model, able: frozenset[int], *, walking: bool) -> _Asker:
    from ortools.sat.python import cp_model

    facts = exact.Facts(frozenset(), able, model.finish, model.guards)
    program = exact.build(model, facts, walking=walking, switched=True)
    literals: dict[Fact, Any] = {("must", i): program.present[i] for i in sorted(model.musts)}
    literals.update(program.switches)
    by_index = {lit.index: fact for fact, lit in literals.items()}

    unsure: list[Sequence[Fact]] = []

    def ask(chosen: Sequence[Fact]) -> list[Fact] | None:
        program.cp.clear_assumptions()
        program.cp.add_assumptions([literals[f] for f in chosen])
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = 20.0
        status = solver.solve(program.cp)
        if status != cp_model.INFEASIBLE:
            if status == cp_model.UNKNOWN:
                unsure.append(chosen)
            return None
        return [by_index[i] for i in solver.sufficient_assumptions_for_infeasibility() if i in by_index]

    return _Asker(tuple(literals), ask, unsure)


def _shrink(core: list[Fact], asker: _Asker) -> list[Fact]:
    """Drop every fact without which the rest still clash."""
    kept = list(core)
    for fact in core:
        rest = [f for f in kept if f != fact]
        smaller = asker.ask(rest) if fact in kept else None
        if smaller is not None:
            kept = [f for f in rest if f in smaller] or rest
    return kept


def _smallest(asker: _Asker, core: list[Fact]) -> list[Fact] | None:
    """The smallest clash by growing hitting sets; None when it takes too many questions."""
    correction_sets: list[frozenset[Fact]] = []
    for _ in range(SMALLEST_TRIES):
        guess = _least_hitting(correction_sets)
        if len(guess) >= len(core):
            return core
        found = asker.ask(guess)
        if found is not None:
            return guess
        grown = list(guess)
        for fact in asker.facts:
            if fact not in grown and asker.ask([*grown, fact]) is None:
                grown.append(fact)
        if len(grown) == len(asker.facts):
            return None
        correction_sets.append(frozenset(asker.facts) - frozenset(grown))
    return None


def _least_hitting(sets: Sequence[frozenset[Fact]]) -> list[Fact]:
    """A smallest set of facts that meets every one of ``sets``."""
    from ortools.sat.python import cp_model

    if not sets:
        return []
    cp = cp_model.CpModel()
    facts = sorted(frozenset().union(*sets))
    taken = {f: cp.new_bool_var("") for f in facts}
    for group in sets:
        cp.add_bool_or([taken[f] for f in sorted(group)])
    cp.minimize(sum(taken.values()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.solve(cp)
    return [f for f in facts if solver.value(taken[f])]


def _fact_words(model: Model, fact: Fact) -> str:
    sort, number = fact
    if sort == "must":
        return _must(model, number)
    if sort == "finish":
        return f"The round ends with {need_words(model, model.finish[number])}."
    guard = next(g for g in model.problem.guards if g.id == model.guards[number].id)
    sides = " and ".join(condition_words(dict(model.problem.labels), n.condition, n.values) for n in guard.never)
    return f"Never together: {sides}. {guard.harm}"
