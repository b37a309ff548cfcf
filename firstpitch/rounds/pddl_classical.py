"""A problem and a round as classical PDDL: the order alone, for the many planners that know no time. See docs/decisions/0005-pddl.md.

Durations are dropped. A step happens at once, when it would end. A wait begins with the step that starts it and ends with an action of
its own; while it runs, nothing may happen that upsets what it needs. A guard becomes a condition of every action that could complete it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from firstpitch.rounds import pddl_terms as terms
from firstpitch.rounds.types import Effect, Literally, Problem, Step, TimedStep, Wait

REQUIREMENTS = ":typing :negative-preconditions :disjunctive-preconditions :action-costs"
PREDICATES = (
    "(here ?p - place) (now ?c - condition ?v - value) (todo ?s - step) (done ?s - step)"
    " (running ?w - wait) (ended ?w - wait) (never)"
)


def classical_domain_pddl(problem: Problem) -> str:
    """The domain without time. The same problem gives the same text; ValueError as for ``domain_pddl``."""
    steps, known = terms.able(problem), terms.values(problem)
    waits = list(dict.fromkeys(wait for step in steps for wait in terms.started(problem, step)))
    parts = [
        "(define (domain firstpitch-order)",
        f"  (:requirements {REQUIREMENTS})",
        "  (:types place condition value step wait)",
        terms.constants(problem),
        f"  (:predicates {PREDICATES})",
        "  (:functions (total-cost) (walk-seconds ?a - place ?b - place))",
        _walk(),
        *(_step(problem, step, known) for step in steps),
        *(_end(problem, wait, known) for wait in waits),
        ")",
    ]
    return "\n".join(parts) + "\n"


def classical_problem_pddl(problem: Problem) -> str:
    """The problem without time; the cost to keep low is the seconds spent on steps and walking."""
    walks = [
        f"(= (walk-seconds p-{terms.mangle(a)} p-{terms.mangle(b)}) {seconds})"
        for a, row in problem.walks.items()
        for b, seconds in row.items()
    ]
    idle = [f"(not (running w-{terms.mangle(wait)}))" for wait in sorted({w.id for w in problem.waits})]
    harmed = [terms.NEVER for guard in problem.guards if all(n.holds(problem.start) for n in guard.never)]
    parts = [
        "(define (problem one-order)",
        "  (:domain firstpitch-order)",
        "  (:init",
        *(f"    {fact}" for fact in ("(= (total-cost) 0)", *terms.beginning(problem), *walks)),
        "  )",
        "  (:goal (and",
        *(f"    {wanted}" for wanted in (*terms.goal(problem), *idle, *harmed[:1])),
        "  ))",
        "  (:metric minimize (total-cost))",
        ")",
    ]
    return "\n".join(parts) + "\n"


def classical_plan_pddl(problem: Problem, sequence: Sequence[TimedStep]) -> str:
    """A sequence of steps as a plan of that domain: ``(action)``, one a line, each step and each wait in order of its end.

    Where a wait and a step end at the same second the step comes first, unless it upsets what the wait needs.
    """
    by_id = {step.id: step for step in problem.steps}
    place = problem.start_place
    events: list[tuple[int, int, list[str]]] = []
    waits = [
        (timed.end + wait.seconds, wait)
        for timed in sequence
        if timed.step in by_id
        for wait in terms.started(problem, by_id[timed.step])
    ]
    for timed in sequence:
        step = by_id.get(timed.step)
        walk = []
        if step is not None and step.place != place:
            walk, place = [f"(walk p-{terms.mangle(place)} p-{terms.mangle(step.place)})"], step.place
        upsets = step is not None and any(end == timed.end and _upset(wait.sustains, step.sets) for end, wait in waits)
        events.append((timed.end, 2 if upsets else 0, [*walk, f"(do-{terms.mangle(timed.step)})"]))
    events += [(end, 1, [f"(end-{terms.mangle(wait.id)})"]) for end, wait in waits]
    return "".join(f"{line}\n" for _, _, lines in sorted(events, key=lambda e: e[:2]) for line in lines)


def steps_of(text: str) -> tuple[str, ...]:
    """The ids of the steps in a plan of that domain, in order; walks and waits are left out.

    >>> steps_of("(walk p-door p-sink)\\n(do-tap__open)\\n(end-heater__heating)\\n")
    ('tap.open',)
    """
    names = [line.strip().strip("()").split()[0] for line in text.splitlines() if line.strip().startswith("(")]
    return tuple(terms.unmangle(name.removeprefix("do-"))[0] for name in names if name.startswith("do-"))


def _action(name: str, condition: Iterable[str], effect: Iterable[str], parameters: str = "") -> str:
    return "\n".join(
        [
            f"  (:action {name}",
            f"    :parameters ({parameters})",
            f"    :precondition (and {' '.join(condition)})",
            f"    :effect (and {' '.join(effect)}))",
        ]
    )


def _walk() -> str:
    effect = ["(not (here ?a))", "(here ?b)", "(increase (total-cost) (walk-seconds ?a ?b))"]
    return _action("walk", ["(here ?a)"], effect, "?a - place ?b - place")


def _step(problem: Problem, step: Step, known: terms.Values) -> str:
    name = f"s-{terms.mangle(step.id)}"
    waits = terms.started(problem, step)
    after = {effect.condition: effect.value for effect in step.sets}
    condition = [
        f"(todo {name})",
        f"(here p-{terms.mangle(step.place)})",
        *(f"(ended w-{terms.mangle(wait)})" for wait in step.awaits),
        *map(terms.holds, step.requires),
        *_unharmed(problem, after),
        *_undisturbed(problem, step.sets),
        *(f"(not {_running(wait)})" for wait in waits),
        *(_holds_after(literal, after) for wait in waits for literal in wait.sustains),
    ]
    effect = [
        f"(not (todo {name}))",
        f"(done {name})",
        *terms.changes(step.sets, known),
        *map(_running, waits),
        f"(increase (total-cost) {step.seconds})",
    ]
    return _action(f"do-{terms.mangle(step.id)}", _each_once(condition), effect)


def _end(problem: Problem, wait: Wait, known: terms.Values) -> str:
    after = {effect.condition: effect.value for effect in wait.sets}
    others = [guarded for guarded in problem.waits if guarded.id != wait.id]
    condition = [_running(wait), *_unharmed(problem, after), *_not_running(others, wait.sets)]
    effect = [f"(not {_running(wait)})", f"(ended w-{terms.mangle(wait.id)})", *terms.changes(wait.sets, known)]
    return _action(f"end-{terms.mangle(wait.id)}", _each_once(condition), effect)


def _running(wait: Wait) -> str:
    return f"(running w-{terms.mangle(wait.id)})"


def _each_once(condition: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(part for part in condition if part))


def _holds_after(literal: Literally, after: Mapping[str, str]) -> str:
    """That ``literal`` holds once the changes ``after`` are made; empty when they see to it."""
    if literal.condition not in after:
        return terms.holds(literal)
    return "" if after[literal.condition] in literal.values else terms.NEVER


def _unharmed(problem: Problem, after: Mapping[str, str]) -> list[str]:
    """For every guard that the changes could complete: that something in it does not hold."""
    found = []
    for guard in problem.guards:
        changed = [n for n in guard.never if n.condition in after]
        if changed and all(after[n.condition] in n.values for n in changed):
            rest = [n for n in guard.never if n.condition not in after]
            found.append(terms.either(f"(not {terms.holds(literal)})" for literal in rest))
    return found


def _upset(sustains: Iterable[Literally], sets: Iterable[Effect]) -> bool:
    return any(n.condition == e.condition and e.value not in n.values for n in sustains for e in sets)


def _not_running(waits: Iterable[Wait], sets: Iterable[Effect]) -> list[str]:
    changed = list(sets)
    return [f"(not {_running(wait)})" for wait in waits if _upset(wait.sustains, changed)]


def _undisturbed(problem: Problem, sets: Iterable[Effect]) -> list[str]:
    """That no wait is running whose needs the changes upset."""
    return _not_running(problem.waits, sets)
