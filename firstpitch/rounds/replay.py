"""The independent checker: judges any timed sequence of steps against docs/rounds.md. It never calls the planner."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstpitch.rounds.types import Broken, Literally, Problem, Step, TimedStep, Wait

_Changes = Mapping[str, Sequence[tuple[int, str]]]


@dataclass(frozen=True)
class _Run:
    """What the sequence does: known steps with times, waits with times and starter, changes by condition in time order."""

    problem: Problem
    steps: tuple[tuple[Step, TimedStep], ...]
    waits: tuple[tuple[Wait, str, int, int], ...]
    changes: _Changes
    end: int

    def value(self, condition: str, at: int) -> str | None:
        """The value at an instant, after everything that acts at that instant."""
        seen = self.changes.get(condition, ())
        index = bisect_right([time for time, _ in seen], at)
        return seen[index - 1][1] if index else self.problem.start.get(condition)

    def breach(self, literal: Literally, start: int, end: int) -> tuple[int, str | None] | None:
        """The first instant in [start, end) at which ``literal`` does not hold, with the value then; a point if start = end."""
        value = self.value(literal.condition, start)
        if value not in literal.values:
            return start, value
        for time, changed in self.changes.get(literal.condition, ()):
            if start < time < end and changed not in literal.values:
                return time, changed
        return None


def replay(problem: Problem, sequence: Sequence[TimedStep], *, whole: bool = True) -> tuple[Broken, ...]:
    """Every rule that ``sequence`` breaks, in time order; empty when it is clean.

    ``whole`` False judges a part of a round (a film, a handover under way): the rules ``unfinished``, ``finish`` and ``must`` are left out.
    """
    run = _run(problem, sequence)
    found = [
        *_known(problem, sequence),
        *_lengths(run),
        *_presenter(run),
        *_requires(run),
        *_awaits(run),
        *_sustains(run),
        *_conflicts(run),
        *_guards(run),
    ]
    if whole:
        found += [*_unfinished(run), *_finish(run), *_musts(run)]
    return tuple(sorted(found, key=lambda b: b.at))


def _run(problem: Problem, sequence: Sequence[TimedStep]) -> _Run:
    by_id = {s.id: s for s in problem.steps}
    waits_by_id = {w.id: w for w in problem.waits}
    steps = tuple((by_id[t.step], t) for t in sequence if t.step in by_id)
    waits = tuple(
        (waits_by_id[w], step.id, timed.end, timed.end + waits_by_id[w].seconds)
        for step, timed in steps
        for w in step.starts
    )
    changes: dict[str, list[tuple[int, str]]] = {}
    for step, timed in steps:
        for effect in step.sets:
            changes.setdefault(effect.condition, []).append((timed.end, effect.value))
    for wait, _, _, end in waits:
        for effect in wait.sets:
            changes.setdefault(effect.condition, []).append((end, effect.value))
    for seen in changes.values():
        seen.sort(key=lambda change: change[0])
    return _Run(problem, steps, waits, changes, max((t.end for _, t in steps), default=0))


def _words(problem: Problem, literal: Literally) -> str:
    what = problem.labels.get(literal.condition, literal.condition)
    return f"{what}: {' or '.join(sorted(v.replace('-', ' ') for v in literal.values))}"


def _known(problem: Problem, sequence: Sequence[TimedStep]) -> Iterator[Broken]:
    known = {s.id for s in problem.steps}
    for timed in sequence:
        if timed.step not in known:
            yield Broken("unknown", timed.step, timed.start, "", f"There is no step “{timed.step}” on this van.")
    for step, times in Counter(t.step for t in sequence).items():
        if times > 1:
            last = max(t.start for t in sequence if t.step == step)
            yield Broken("twice", step, last, "", f"“{step}” is done {times} times; each step is done once.")


def _lengths(run: _Run) -> Iterator[Broken]:
    for step, timed in run.steps:
        if timed.end - timed.start != step.seconds:
            text = f"“{step.title}” takes {step.seconds} s but is given {timed.end - timed.start} s."
            yield Broken("length", step.id, timed.start, "", text)


def _presenter(run: _Run) -> Iterator[Broken]:
    place, free, before = run.problem.start_place, 0, ""
    for step, timed in run.steps:
        walk = run.problem.walks[place][step.place]
        if timed.start < free:
            earlier = f"“{before}” has ended" if before else "the round begins"
            yield Broken("overlap", step.id, timed.start, "", f"“{step.title}” starts before {earlier}.")
        elif timed.start < free + walk:
            since = f"“{before}” ends" if before else "the round begins"
            text = f"“{step.title}” starts {timed.start - free} s after {since}, but the walk there takes {walk} s."
            yield Broken("walking", step.id, timed.start, "", text)
        place, free, before = step.place, timed.end, step.title


def _requires(run: _Run) -> Iterator[Broken]:
    lacking = {m.step: m.what for m in run.problem.missing}
    for step, timed in run.steps:
        if step.id in lacking:
            yield Broken("requires", step.id, timed.start, "", lacking[step.id])
        for literal in step.requires:
            breach = run.breach(literal, timed.start, timed.end)
            if breach:
                at, value = breach
                text = f"“{step.title}” needs {_words(run.problem, literal)}, but it is {_said(value)} then."
                yield Broken("requires", step.id, at, literal.condition, text, _harm(run.problem, step, literal, value))


def _said(value: str | None) -> str:
    return "not on this van" if value is None else value.replace("-", " ")


def _harm(problem: Problem, step: Step, literal: Literally, value: str | None) -> str:
    """The harm a guard names for doing this step while the condition is wrong, if one does."""
    for guard in problem.guards:
        about = any(n.condition == literal.condition and value in n.values for n in guard.never)
        does = any(n.condition == e.condition and e.value in n.values for n in guard.never for e in step.sets)
        if about and does:
            return guard.harm
    return ""


def _awaits(run: _Run) -> Iterator[Broken]:
    over: dict[str, int] = {}
    for wait, _, _, end in run.waits:
        over[wait.id] = min(end, over.get(wait.id, end))
    titles = {w.id: w.title for w in run.problem.waits}
    for step, timed in run.steps:
        for wait_id in step.awaits:
            if over.get(wait_id, timed.start + 1) > timed.start:
                text = f"“{step.title}” comes before “{titles.get(wait_id, wait_id)}” is over."
                yield Broken("awaits", step.id, timed.start, wait_id, text)


def _sustains(run: _Run) -> Iterator[Broken]:
    for wait, starter, start, end in run.waits:
        for literal in wait.sustains:
            breach = run.breach(literal, start, min(end, run.end) if run.end > start else start)
            if breach:
                at, value = breach
                text = (
                    f"“{wait.title}” needs {_words(run.problem, literal)} all the while, but it is {_said(value)} then."
                )
                yield Broken("sustains", starter, at, literal.condition, text)


def _conflicts(run: _Run) -> Iterator[Broken]:
    for condition, seen in run.changes.items():
        for time, times in Counter(time for time, _ in seen).items():
            if times > 1:
                what = run.problem.labels.get(condition, condition)
                yield Broken("conflict", "", time, condition, f"Two things change “{what}” at the same instant.")


def _guards(run: _Run) -> Iterator[Broken]:
    moments = sorted({0, *(t for seen in run.changes.values() for t, _ in seen if t <= run.end)})
    ended = {timed.end: step.id for step, timed in run.steps}
    for guard in run.problem.guards:
        before = False
        for moment in moments:
            now = all(run.value(n.condition, moment) in n.values for n in guard.never)
            if now and not before:
                what = " and ".join(_words(run.problem, n) for n in guard.never)
                text = f"At the same time {what}. {guard.harm}"
                yield Broken("guard", ended.get(moment, ""), moment, guard.id, text, guard.harm)
            before = now


def _unfinished(run: _Run) -> Iterator[Broken]:
    for wait, starter, _, end in run.waits:
        if end > run.end:
            text = f"“{wait.title}” is still going when the round ends, with {end - run.end} s to go."
            yield Broken("unfinished", starter, run.end, wait.id, text)


def _finish(run: _Run) -> Iterator[Broken]:
    for literal in run.problem.finish:
        value = run.value(literal.condition, run.end)
        if value not in literal.values:
            text = f"At the end {_words(run.problem, literal)} is called for, but it is {_said(value)}."
            yield Broken("finish", "", run.end, literal.condition, text)


def _musts(run: _Run) -> Iterator[Broken]:
    done = {step.id for step, _ in run.steps}
    for step in run.problem.steps:
        if step.level == "must" and step.id not in done:
            yield Broken("must", step.id, run.end, "", f"“{step.title}” ({step.kit_name}) is a must and is left out.")
