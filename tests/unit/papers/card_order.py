"""Can a trip card be followed from the top? Judged by what the round's steps require and by the guards of one van."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstpitch.papers.trip_cards import TripCard, TripLine
from firstpitch.rounds.types import Guard, Problem, Step
from tests.demo_rounds import DemoRound


def order_faults(card: TripCard, van: DemoRound) -> list[str]:
    """One sentence for each line whose step breaks what it requires, or a guard, by what the card has said so far.

    A condition that no line of the card touches is not judged: the card then relies on how the van stands.
    """
    problem = van.problem
    steps = {step.id: step for step in problem.steps}
    todo = [(line, steps[s]) for line in card.lines for s in line.steps if s in steps]
    state: dict[str, str] = {}
    faults: list[str] = []
    for i, (line, step) in enumerate(todo):
        later = {pair for _, s in todo[i + 1 :] for pair in _brings(problem, s).items()}
        faults += [f"{card.title}: {text}" for text in _lacking(line, step, state, later)]
        changed = _brings(problem, step)
        state.update(changed)
        faults += [f"{card.title}: after “{line.text}”: {g.harm}" for g in _broken(problem.guards, state, changed)]
    return faults


def _brings(problem: Problem, step: Step) -> dict[str, str]:
    """What the step, and the waits it starts, bring about."""
    waits = [wait for wait in problem.waits if wait.id in step.starts]
    return {e.condition: e.value for part in (step, *waits) for e in part.sets}


def _lacking(line: TripLine, step: Step, state: Mapping[str, str], later: set[tuple[str, str]]) -> Iterator[str]:
    for need in step.requires:
        now = state.get(need.condition)
        if now in need.values:
            continue
        if now is not None or any((need.condition, value) in later for value in need.values):
            wanted = " or ".join(sorted(need.values))
            sentence = f"“{line.text}” needs {need.condition} = {wanted}, but by then it is {now or 'not yet so'}."
            yield sentence


def _broken(guards: tuple[Guard, ...], state: Mapping[str, str], changed: Mapping[str, str]) -> Iterator[Guard]:
    for guard in guards:
        if any(g.condition in changed for g in guard.never) and all(g.holds(state) for g in guard.never):
            yield guard
