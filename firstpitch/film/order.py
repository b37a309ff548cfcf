"""Acts seen in a film put through the round's rules: what was done too early, or never made safe."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from firstpitch.film.types import OrderFault
from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.types import Effect, Guard, Literally, Step

APART = 1_000_000  # [s] between acts when replayed: a film cuts, so waits are over and walks are walked
JUDGED = frozenset({"requires", "guard", "awaits"})  # the others speak of times, which a film does not show


@dataclass(frozen=True)
class Act:
    """A step seen to be done in the film: when [s], and the words that tell it."""

    step: str
    at: float
    quote: str
    sure: float = 1.0
    why: tuple[str, ...] = ()


def order_of(problem: Problem, acts: Sequence[Act]) -> tuple[tuple[OrderFault, ...], tuple[str, ...]]:
    """The faults of ``acts`` in spoken order, and in words what was taken as done silently.

    A condition that an act needs otherwise is taken as set silently in time when the film never shows how it came about. It is a fault when
    that is shown only later, or when an act seen before has set it wrong and nothing seen puts it right. The judging is done by
    ``rounds.replay``; here only the silent changes are put in.
    """
    known = {step.id: step for step in problem.steps}
    play = _Play(problem, [act for act in sorted(acts, key=lambda a: a.at) if act.step in known])
    sequence = play.sequence()
    broken = replay(replace(problem, steps=(*problem.steps, *play.added)), sequence, whole=False)
    found: dict[tuple[str, str, str], OrderFault] = {}
    for breach in broken:
        act = play.act_at(breach.at)
        if breach.rule in JUDGED and act is not None:
            name = known[act.step].title
            what = breach.text if breach.rule == "guard" else f"{name}: {breach.text}"
            found.setdefault(
                (act.step, breach.rule, breach.condition),
                OrderFault(act.at, act.step, breach.rule, what, breach.harm, act.quote),
            )
    return tuple(sorted(found.values(), key=lambda fault: fault.at)), tuple(play.silent)


class _Play:
    """The acts with the silent changes between them, in a time of their own."""

    def __init__(self, problem: Problem, acts: Sequence[Act]) -> None:
        self.problem, self.acts = problem, acts
        self.known = {step.id: step for step in problem.steps}
        self.state = dict(problem.start)
        self.seen: dict[str, bool] = {}  # condition -> whether its value was set by an act of the film
        self.added: list[Step] = []
        self.silent: list[str] = []
        self.setters = _setters(problem)
        self._times: dict[int, Act] = {}

    def sequence(self) -> list[TimedStep]:
        """Every act and silent change as a timed step."""
        timed: list[TimedStep] = []
        for number, act in enumerate(self.acts):
            step, clock = self._own_copy(act, number), (number + 1) * APART
            later = {other.step for other in self.acts[number:]}
            for change in self._silent_changes(self.known[act.step], later - {act.step}):
                quiet = self._quiet_step(change, step, len(self.added))
                at = clock - APART // 2 + len(self.added)
                timed.append(TimedStep(quiet.id, at, at + quiet.seconds))
            timed.append(TimedStep(step.id, clock, clock + step.seconds))
            self._times[clock] = act
            self._apply(step)
        return timed

    def act_at(self, moment: int) -> Act | None:
        """The act that goes on or has just ended at a moment of this time."""
        return self._times.get(moment - moment % APART)

    def _own_copy(self, act: Act, number: int) -> Step:
        """The step itself the first time, a copy when it is shown again: a film may show a thing twice."""
        step = self.known[act.step]
        if any(other.step == act.step for other in self.acts[:number]):
            step = replace(step, id=f"{step.id}@{number}")
            self.added.append(step)
        return step

    def _silent_changes(self, step: Step, later: set[str]) -> list[Effect]:
        """What must have been changed off camera for ``step`` and may have been, so that only true faults are left."""
        changes: list[Effect] = []
        for literal in step.requires:
            if not literal.holds(self.state):
                changes += self._change_for(literal, later)
        after = {**self.state, **{e.condition: e.value for e in step.sets}}
        own = {e.condition for e in step.sets}
        for guard in self.problem.guards:
            if all(n.holds(after) for n in guard.never) and any(n.condition in own for n in guard.never):
                changes += self._way_out(guard, own, later)
                after |= {e.condition: e.value for e in changes}
        return changes

    def _change_for(self, literal: Literally, later: set[str]) -> list[Effect]:
        if self.seen.get(literal.condition) or literal.condition not in self.state:
            return []
        ways = [
            (value, step)
            for value in sorted(literal.values)
            for step in self.setters.get((literal.condition, value), ())
        ]
        if not ways or any(step in later for _, step in ways):
            return []
        return [self._set(literal.condition, ways[0][0])]

    def _way_out(self, guard: Guard, own: set[str], later: set[str]) -> list[Effect]:
        """One change off camera that keeps the guard from coming about, if the film leaves room for one."""
        for need in guard.never:
            if need.condition in own or self.seen.get(need.condition):
                continue
            safe = {v for c, v in self.setters if c == need.condition} - need.values
            ways = [(value, step) for value in sorted(safe) for step in self.setters[need.condition, value]]
            if ways and not any(step in later for _, step in ways):
                return [self._set(need.condition, ways[0][0])]
        return []

    def _set(self, condition: str, value: str) -> Effect:
        self.state[condition] = value
        self.silent.append(f"{self.problem.labels.get(condition, condition)}: {value.replace('-', ' ')}")
        return Effect(condition, value)

    def _quiet_step(self, change: Effect, before: Step, number: int) -> Step:
        step = replace(before, id=f"silent@{number}", seconds=1, requires=(), sets=(change,), starts=(), awaits=())
        self.added.append(step)
        return step

    def _apply(self, step: Step) -> None:
        for effect in step.sets:
            self.state[effect.condition], self.seen[effect.condition] = effect.value, True
        waits = {wait.id: wait for wait in self.problem.waits}
        for name in step.starts:
            for effect in waits[name].sets if name in waits else ():
                self.state[effect.condition], self.seen[effect.condition] = effect.value, False


def _setters(problem: Problem) -> Mapping[tuple[str, str], tuple[str, ...]]:
    """Which steps bring each value of each condition about, by themselves or by a wait they start."""
    waits = {wait.id: wait for wait in problem.waits}
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for step in problem.steps:
        effects = [*step.sets, *(e for name in step.starts if name in waits for e in waits[name].sets)]
        for effect in effects:
            key = (effect.condition, effect.value)
            found[key] = (*found.get(key, ()), step.id)
    return found
