"""When no round exists: the smallest set of facts that cannot all be true, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstpitch.rounds.core import Asker, Fact, least_clash
from firstpitch.rounds.model import Model, Window
from firstpitch.rounds.reach import hopeless
from firstpitch.rounds.types import Clash
from firstpitch.rounds.wording import clock, condition_words, listed, need_words


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


def _core(model: Model, able: frozenset[int]) -> Clash:
    for walking in (False, True):
        found = least_clash(Asker(model, able, walking=walking))
        if found is not None:
            core, smallest = found
            return Clash(tuple(_core_words(model, sorted(core, key=_reading_order))), smallest=smallest)
    return Clash(("No round was found, and no proof that there is none.",), smallest=False)


def _reading_order(fact: Fact) -> tuple[int, int]:
    return ("must", "finish", "guard").index(fact[0]), fact[1]


def _core_words(model: Model, core: Sequence[Fact]) -> Iterator[str]:
    """Each fact in words, a must with what it needs and leaves of all that the facts are about."""
    about: dict[Fact, set[int]] = {fact: _conditions(model, fact) for fact in core}
    for fact in core:
        others = set().union(*(about[f] for f in core if f != fact))
        yield _fact_words(model, fact, others if len(core) > 1 else about[fact])
    if len(core) == 1:
        yield "No order of the steps on this van allows that."


def _conditions(model: Model, fact: Fact) -> set[int]:
    """The conditions that a fact is about."""
    sort, number = fact
    if sort == "must":
        return {w.condition for w in model.by_step[number]} | {s.condition for s in model.setters_by_step[number]}
    if sort == "finish":
        return {model.finish[number].condition}
    return {condition for condition, _ in model.guards[number].never}


def _fact_words(model: Model, fact: Fact, about: set[int]) -> str:
    sort, number = fact
    if sort == "must":
        return _must_words(model, number, about)
    if sort == "finish":
        return f"The round ends with {need_words(model, model.finish[number])}."
    guard = next(g for g in model.problem.guards if g.id == model.guards[number].id)
    sides = " and ".join(condition_words(dict(model.problem.labels), n.condition, n.values) for n in guard.never)
    return f"Never together: {sides}. {guard.harm}"


def _must_words(model: Model, step: int, about: set[int]) -> str:
    needs = dict.fromkeys(need_words(model, w) for w in model.by_step[step] if w.condition in about)
    leaves = dict.fromkeys(
        condition_words(dict(model.problem.labels), model.conditions[s.condition], frozenset({s.value}))
        for s in model.setters_by_step[step]
        if s.condition in about
    )
    parts = [f"{verb} {listed(list(what), len(what))}" for verb, what in (("needs", needs), ("leaves", leaves)) if what]
    return _must(model, step) if not parts else f"{_must(model, step)[:-1]}; it {' and it '.join(parts)}."
