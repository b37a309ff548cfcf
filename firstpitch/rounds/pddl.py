"""A problem and a round as PDDL 2.1 text, for general planners and plan validators. See docs/decisions/0005-pddl.md.

One durative action for each step, one for each wait, one for walking, and one that spans the whole round and holds the guards. PDDL 2.1
wants an end and a start that leans on it a little apart. So everything starts a thousandth of a second after its whole second and
ends on its whole second; nothing changes in between, and what must hold "from start to end" is just what docs/rounds.md says.

A wait spans the step that starts it: while that step is being done its sustained conditions do not count, from its end on they do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstpitch.rounds import pddl_terms as terms
from firstpitch.rounds.types import Problem, Step, TimedStep, Wait

REQUIREMENTS = (
    ":typing :durative-actions :duration-inequalities :negative-preconditions :disjunctive-preconditions :fluents"
)
PREDICATES = (
    "(here ?p - place) (now ?c - condition ?v - value) (todo ?s - step) (begun ?s - step) (doing ?s - step) (done ?s - step)"
    " (running ?w - wait ?s - step) (ended ?w - wait) (free) (round-on) (round-over) (never)"
)
LONGEST = 10_000_000


def domain_pddl(problem: Problem) -> str:
    """The domain: everything that can be done on this van, in PDDL 2.1. The same problem gives the same text.

    Steps for which the van lacks something are left out. ValueError when a step, or a walk between two places, takes less than a second.
    """
    steps, known = terms.able(problem), terms.values(problem)
    parts = [
        "(define (domain firstpitch)",
        f"  (:requirements {REQUIREMENTS})",
        "  (:types place condition value step wait)",
        terms.constants(problem),
        f"  (:predicates {PREDICATES})",
        "  (:functions (walk-seconds ?a - place ?b - place))",
        _round(problem),
        _walk(),
        *(_step(problem, step, known) for step in steps),
        *(_wait(step, wait, known) for step in steps for wait in terms.started(problem, step)),
        ")",
    ]
    return "\n".join(parts) + "\n"


def problem_pddl(problem: Problem) -> str:
    """The problem: the start, the walking times, and the goal (every must step done, the finish conditions, the round over)."""
    walks = [
        f"(= (walk-seconds p-{terms.mangle(a)} p-{terms.mangle(b)}) {_clock(max(1, seconds * 1000 - 1))})"
        for a, row in problem.walks.items()
        for b, seconds in row.items()
    ]
    parts = [
        "(define (problem one-round)",
        "  (:domain firstpitch)",
        "  (:init",
        *(f"    {fact}" for fact in ("(free)", *terms.beginning(problem), *walks)),
        "  )",
        "  (:goal (and",
        *(f"    {wanted}" for wanted in ("(round-over)", *terms.goal(problem))),
        "  ))",
        "  (:metric minimize (total-time))",
        ")",
    ]
    return "\n".join(parts) + "\n"


def plan_pddl(problem: Problem, sequence: Sequence[TimedStep]) -> str:
    """A sequence of steps as a plan of that domain: ``seconds: (action) [seconds]``, one a line, in order of their start.

    Walks and waits are put in as docs/rounds.md has them: a walk begins when the step before ends, a wait when its step ends.
    The text is written for any sequence, sound or not. ValueError when a step has a time before 0 or ends before it begins.
    """
    lines = sorted(_lines(problem, sequence))
    return "".join(f"{_clock(start)}: ({action}) [{_clock(length)}]\n" for start, _, action, length in lines)


def _lines(problem: Problem, sequence: Sequence[TimedStep]) -> Iterator[tuple[int, int, str, int]]:
    """(start, rank, action, length) with times in thousandths of a second."""
    by_id = {step.id: step for step in problem.steps}
    place, free = problem.start_place, 0
    yield 0, 0, "round", max((t.end for t in sequence), default=0) * 1000 + 1
    for timed in sequence:
        if timed.start < 0 or timed.end <= timed.start:
            raise ValueError(
                f"the step {timed.step} runs from {timed.start} s to {timed.end} s, which is no time to run"
            )
        yield timed.start * 1000 + 1, 2, f"do-{terms.mangle(timed.step)}", (timed.end - timed.start) * 1000 - 1
        step = by_id.get(timed.step)
        if step is None:
            continue
        if step.place != place:
            walk = f"walk p-{terms.mangle(place)} p-{terms.mangle(step.place)}"
            yield free * 1000 + 1, 1, walk, problem.walks[place][step.place] * 1000 - 1
        for wait in terms.started(problem, step):
            yield timed.start * 1000 + 1, 3, _wait_name(step, wait), (timed.end + wait.seconds - timed.start) * 1000 - 1
        place, free = step.place, timed.end


def _clock(thousandths: int) -> str:
    return f"{thousandths // 1000}.{thousandths % 1000:03d}"


@dataclass(frozen=True)
class _Parts:
    """What a durative action asks for and does: conditions at its start and all the while, effects at its start and its end."""

    at_start: Sequence[str] = ()
    over_all: Sequence[str] = ()
    then: Sequence[str] = ()
    at_end: Sequence[str] = ()


def _action(name: str, duration: str, parts: _Parts, parameters: str = "") -> str:
    condition = [("at start", parts.at_start), ("over all", parts.over_all)]
    effect = [("at start", parts.then), ("at end", parts.at_end)]
    return "\n".join(
        [
            f"  (:durative-action {name}",
            f"    :parameters ({parameters})",
            f"    :duration {duration}",
            f"    :condition (and {' '.join(f'({when} {terms.both(wanted)})' for when, wanted in condition if wanted)})",
            f"    :effect (and {' '.join(f'({when} {terms.both(done)})' for when, done in effect if done)}))",
        ]
    )


def _round(problem: Problem) -> str:
    """The action that spans the round: no guard ever holds, and everything else happens within it."""
    most = LONGEST if problem.minutes is None else int(problem.minutes * 60)
    parts = _Parts(
        at_start=["(free)", "(not (round-over))"],
        over_all=[terms.not_all(guard) for guard in problem.guards],
        then=["(round-on)"],
        at_end=["(not (round-on))", "(round-over)"],
    )
    return _action("round", f"(and (>= ?duration 0.001) (<= ?duration {_clock(most * 1000 + 1)}))", parts)


def _walk() -> str:
    parts = _Parts(
        at_start=["(free)", "(here ?a)"],
        over_all=["(round-on)"],
        then=["(not (free))", "(not (here ?a))"],
        at_end=["(here ?b)", "(free)"],
    )
    return _action("walk", "(= ?duration (walk-seconds ?a ?b))", parts, "?a - place ?b - place")


def _step(problem: Problem, step: Step, known: terms.Values) -> str:
    name = f"s-{terms.mangle(step.id)}"
    waits = terms.started(problem, step)
    parts = _Parts(
        at_start=["(free)", f"(todo {name})", *(f"(ended w-{terms.mangle(wait)})" for wait in step.awaits)],
        over_all=[
            "(round-on)",
            f"(here p-{terms.mangle(step.place)})",
            *map(terms.holds, step.requires),
            *(_running(step, wait) for wait in waits),
        ],
        then=["(not (free))", f"(not (todo {name}))", *([f"(begun {name})", f"(doing {name})"] if waits else [])],
        at_end=[
            "(free)",
            f"(done {name})",
            *([f"(not (doing {name}))"] if waits else []),
            *terms.changes(step.sets, known),
        ],
    )
    return _action(f"do-{terms.mangle(step.id)}", f"(= ?duration {_clock(step.seconds * 1000 - 1)})", parts)


def _running(step: Step, wait: Wait) -> str:
    return f"(running w-{terms.mangle(wait.id)} s-{terms.mangle(step.id)})"


def _wait_name(step: Step, wait: Wait) -> str:
    return f"wait-{terms.mangle(wait.id)}_by_{terms.mangle(step.id)}"


def _wait(step: Step, wait: Wait, known: terms.Values) -> str:
    """A wait together with the step that starts it; each asks for the other, so that they start as one."""
    running = _running(step, wait)
    doing = f"(doing s-{terms.mangle(step.id)})"
    parts = _Parts(
        over_all=[
            "(round-on)",
            f"(begun s-{terms.mangle(step.id)})",
            *(f"(or {doing} {terms.holds(literal)})" for literal in wait.sustains),
        ],
        then=[running],
        at_end=[f"(not {running})", f"(ended w-{terms.mangle(wait.id)})", *terms.changes(wait.sets, known)],
    )
    return _action(_wait_name(step, wait), f"(= ?duration {_clock((step.seconds + wait.seconds) * 1000 - 1)})", parts)
