"""One step after the other without looking far ahead: the greedy round, and the times of an order that is given."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from firstpitch.rounds import Effect, Literally, Problem, Step, TimedStep, Wait


@dataclass
class Course:
    """A round under way: what is done, the state now, the waits that run with the second at which each is over."""

    problem: Problem
    place: str = field(init=False)
    state: dict[str, str] = field(init=False)
    now: int = 0
    done: list[TimedStep] = field(default_factory=list)
    running: list[tuple[int, Wait]] = field(default_factory=list)
    over: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.place, self.state = self.problem.start_place, dict(self.problem.start)
        self.waits = {wait.id: wait for wait in self.problem.waits}

    def start_of(self, step: Step) -> int | None:
        """The first second at which ``step`` can start, on arrival or when a wait is over, or None."""
        arrival = self.now + self.problem.walks[self.place][step.place]
        for start in sorted({arrival, *(end for end, _ in self.running if end > arrival)}):
            if self._sound(step, start):
                return start
        return None

    def _sound(self, step: Step, start: int) -> bool:
        end, state = start + step.seconds, dict(self.state)
        early = {wait.id for until, wait in self.running if until <= start}
        if any(wait not in self.over and wait not in early for wait in step.awaits):
            return False
        for until, wait in sorted(self.running, key=lambda r: r[0]):
            if until <= start:
                state.update(_values(wait.sets))
                if self._harm(state):
                    return False
        if not _all_hold(step.requires, state):
            return False
        for until, wait in sorted(self.running, key=lambda r: r[0]):
            if start < until < end:
                state.update(_values(wait.sets))
                if not _all_hold(step.requires, state) or self._harm(state):
                    return False
            if until > end and any(_upsets(step.sets, need) for need in wait.sustains):
                return False
            if until == end and {e.condition for e in wait.sets} & {e.condition for e in step.sets}:
                return False
            if until == end:
                state.update(_values(wait.sets))
        state.update(_values(step.sets))
        begun = [self.waits[name] for name in step.starts]
        return not self._harm(state) and all(_all_hold(wait.sustains, state) for wait in begun)

    def _harm(self, state: dict[str, str]) -> bool:
        return any(_all_hold(guard.never, state) for guard in self.problem.guards)

    def take(self, step: Step, start: int) -> None:
        """Do ``step`` at ``start``."""
        self.now, self.place = start + step.seconds, step.place
        for until, wait in sorted(self.running, key=lambda r: r[0]):
            if until <= self.now:
                self.state.update(_values(wait.sets))
                self.over.add(wait.id)
        self.running = [r for r in self.running if r[0] > self.now]
        self.state.update(_values(step.sets))
        self.running += [(self.now + self.waits[name].seconds, self.waits[name]) for name in step.starts]
        self.done.append(TimedStep(step.id, start, self.now))


def _values(sets: Iterable[Effect]) -> dict[str, str]:
    return {effect.condition: effect.value for effect in sets}


def _all_hold(needs: Iterable[Literally], state: dict[str, str]) -> bool:
    return all(need.holds(state) for need in needs)


def _upsets(sets: Iterable[Effect], need: Literally) -> bool:
    return any(e.condition == need.condition and e.value not in need.values for e in sets)


def _spoils(course: Course, step: Step, left: Collection[Step]) -> bool:
    """Whether ``step`` undoes what a step still to come, or the finish, needs and nothing still to come can bring about again."""
    others = [s for s in left if s is not step]
    needs = [*course.problem.finish, *(need for s in others for need in s.requires)]
    for need in needs:
        if _upsets(step.sets, need):
            coming = [
                *others,
                *(course.waits[w] for s in [*others, step] for w in s.starts),
                *(w for _, w in course.running),
            ]
            if not any(e.condition == need.condition and e.value in need.values for c in coming for e in c.sets):
                return True
    return False


def _too_soon(course: Course, step: Step, left: Collection[Step]) -> bool:
    """Whether ``step`` puts back what nothing has changed yet, and a step still to come will change."""
    return any(
        course.state.get(e.condition) == e.value
        and any(o.condition == e.condition and o.value != e.value for s in left if s is not step for o in s.sets)
        for e in step.sets
    )


def greedy(problem: Problem) -> tuple[list[TimedStep], int]:
    """The nearest step that can be done and spoils nothing, again and again; with the number of steps left when none can be."""
    course, left = Course(problem), list(problem.steps)
    while left:
        able = [
            (start, n, s)
            for n, s in enumerate(left)
            if not _spoils(course, s, left)
            and not _too_soon(course, s, left)
            and (start := course.start_of(s)) is not None
        ]
        last = [a for a in able if len(left) == 1 or not _ends_it(a[2], left)]
        if not last:
            break
        start, _, step = min(last, key=lambda a: a[:2])
        course.take(step, start)
        left.remove(step)
    return course.done, len(left)


def _ends_it(step: Step, left: Sequence[Step]) -> bool:
    """Whether ``step`` makes a need of every other step that is left impossible (the last look)."""
    return all(any(_upsets(step.sets, need) for need in s.requires) for s in left if s is not step)


def timed(problem: Problem, order: Iterable[str]) -> list[TimedStep] | None:
    """``order`` with each step as early as it can be, waiting where it must; None when a step cannot be done in its turn."""
    course, by_id = Course(problem), {step.id: step for step in problem.steps}
    for name in order:
        start = course.start_of(by_id[name])
        if start is None:
            return None
        course.take(by_id[name], start)
    return course.done
