"""A plain simulation of docs/rounds.md, one second after the other, to hold against the checker. It shares nothing with it."""

from __future__ import annotations

from collections import Counter

from firstpitch.rounds import Literally, Problem, TimedStep

Rule = tuple[str, str, str]


def rules_broken(of: Problem, sequence: list[TimedStep], *, whole: bool) -> set[Rule]:
    """(rule, step, condition) of everything that a sequence of different steps in time order breaks."""
    steps = {s.id: s for s in of.steps}
    waits = {w.id: w for w in of.waits}
    end = max((t.end for t in sequence), default=0)
    running = [(waits[w], t.step, t.end) for t in sequence for w in steps[t.step].starts]
    acts: dict[int, list[tuple[str, str]]] = {}
    for timed in sequence:
        acts.setdefault(timed.end, []).extend((e.condition, e.value) for e in steps[timed.step].sets)
    for wait, _, begun in running:
        acts.setdefault(begun + wait.seconds, []).extend((e.condition, e.value) for e in wait.sets)
    states: list[dict[str, str]] = [dict(of.start)]
    for second in range(end + 1):
        if second:
            states.append(dict(states[-1]))
        states[second].update(acts.get(second, []))

    def holds(literal: Literally, second: int) -> bool:
        return states[second].get(literal.condition) in literal.values

    found: set[Rule] = set()
    for changes in acts.values():
        found |= {("conflict", "", c) for c, n in Counter(c for c, _ in changes).items() if n > 1}
    for state in states:
        for guard in of.guards:
            if all(state.get(n.condition) in n.values for n in guard.never):
                found.add(("guard", "", guard.id))
    place, free = of.start_place, 0
    for timed in sequence:
        step = steps[timed.step]
        if timed.start - free < of.walks[place][step.place]:
            found.add(("walking", step.id, ""))
        place, free = step.place, timed.end
        if step.id in {m.step for m in of.missing}:
            found.add(("requires", step.id, ""))
        for literal in step.requires:
            if not all(holds(literal, s) for s in range(timed.start, timed.end)):
                found.add(("requires", step.id, literal.condition))
        for name in step.awaits:
            if not any(w.id == name and begun + w.seconds <= timed.start for w, _, begun in running):
                found.add(("awaits", step.id, name))
    for wait, starter, begun in running:
        seconds = range(begun, max(begun + 1, min(begun + wait.seconds, end)))
        found |= {("sustains", starter, n.condition) for n in wait.sustains if not all(holds(n, s) for s in seconds)}
        if whole and begun + wait.seconds > end:
            found.add(("unfinished", starter, wait.id))
    if whole:
        found |= {("finish", "", f.condition) for f in of.finish if not holds(f, end)}
        done = {t.step for t in sequence}
        found |= {("must", s.id, "") for s in of.steps if s.level == "must" and s.id not in done}
    return found
