"""Acts seen in a film put through the round's rules: what was done too early, or never made safe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from firstpitch.film.ground import TOLD
from firstpitch.film.types import OrderFault
from firstpitch.rounds import Problem, TimedStep, replay
from firstpitch.rounds.types import Broken, Effect, Guard, Literally, Step, Wait

APART = 1_000_000  # [s] between acts when replayed: a film cuts, so waits are over and walks are walked
DOUBTED, PLAIN = (
    2,
    0.85,
)  # acts made faulty by one from which that one is doubted; from which surety it takes twice as many
LATELY = 45.0  # [s] within which a thing seen done has not been undone off camera
SURE = 0.5  # how sure an act must be to be judged, or to stand as shown only later
JUDGED = frozenset({"requires", "guard", "awaits"})  # the others speak of times, which a film does not show


@dataclass(frozen=True)
class Act:
    """A step seen to be done in the film: when [s], and the words that tell it. ``begins`` is when it is first talked of at all."""

    step: str
    at: float
    quote: str
    sure: float = 1.0
    why: tuple[str, ...] = ()
    begins: float | None = None


def order_of(problem: Problem, acts: Sequence[Act]) -> tuple[tuple[OrderFault, ...], tuple[str, ...]]:
    """The faults of ``acts`` in spoken order, and in words what was taken as done silently.

    A condition that an act needs otherwise is taken as set silently in time when the film never shows how it came about. It is a fault when
    that is shown only later, or when an act seen before has set it wrong and nothing seen puts it right. The judging is done by
    ``rounds.replay``; here only the silent changes are put in. An act that alone would make several later acts faulty was more likely
    talked of than done, unless it is very plain: it is left out.
    """
    known = {step.id: step for step in problem.steps}
    ordered = [act for act in sorted(acts, key=lambda a: a.at) if act.step in known]
    sure, hints = [a for a in ordered if a.sure >= SURE], [a for a in ordered if a.sure < SURE]
    faults, silent = _judged(problem, sure, hints)
    for act in sorted(sure, key=lambda a: a.sure):
        faulty = {fault.step for fault in faults.values()}
        if len(_after(known[act.step], problem, faults) - {act.step}) < DOUBTED:
            continue
        rest = [other for other in sure if other is not act]
        fewer, quiet = _judged(problem, rest, [*hints, act])
        spared = len(faulty - {act.step}) - len({fault.step for fault in fewer.values()})
        if spared >= (DOUBTED if act.sure < PLAIN else 2 * DOUBTED):
            sure, hints, faults, silent = rest, [*hints, act], fewer, quiet
    return tuple(sorted(faults.values(), key=lambda fault: fault.at)), silent


Faults = Mapping[tuple[str, str], OrderFault]


def _after(step: Step, problem: Problem, faults: Faults) -> set[str]:
    """The steps whose faults speak of a condition that ``step`` changes by hand: those that may come of it."""
    mine = {effect.condition for effect in step.sets if effect.value not in TOLD}
    of_guard = {guard.id: {need.condition for need in guard.never} for guard in problem.guards}
    return {name for name, about in faults if mine & of_guard.get(about, {about})}


def _judged(problem: Problem, acts: Sequence[Act], hints: Sequence[Act]) -> tuple[Faults, tuple[str, ...]]:
    """What ``rounds.replay`` finds in these acts, with the silent changes put in: by step, and condition or guard."""
    known = {step.id: step for step in problem.steps}
    play = _Play(problem, acts, hints)
    sequence = play.sequence()
    steps = (*problem.steps, *play.added)
    guards = _reached(problem, steps, sequence)
    broken = replay(replace(problem, steps=steps, guards=guards), sequence, whole=False)
    found: dict[tuple[str, str], OrderFault] = {}
    for breach in broken:
        act = play.act_at(breach.at)
        if breach.rule in JUDGED and act is not None and not _only_talk(problem, known[act.step], breach):
            name = known[act.step].title
            text = breach.text.removesuffix(breach.harm).strip()
            what = text if breach.rule == "guard" or name in text else f"{name}: {text}"
            fault = OrderFault(act.at, act.step, breach.rule, what, breach.harm, act.quote)
            found.setdefault((act.step, breach.condition), fault)
    return found, tuple(play.silent)


def _only_talk(problem: Problem, step: Step, breach: Broken) -> bool:
    """Whether a breach is about talk alone: the round's own beginning and end, or one explanation that should come after another."""
    values = {e.value for other in problem.steps for e in other.sets if e.condition == breach.condition}
    if values & {"begun", "over"}:
        return True
    return breach.rule == "requires" and values <= TOLD and all(effect.value in TOLD for effect in step.sets)


class _Play:
    """The acts with the silent changes between them, in a time of their own."""

    def __init__(self, problem: Problem, acts: Sequence[Act], hints: Sequence[Act]) -> None:
        self.problem, self.acts, self.hints = problem, acts, hints
        self.known = {step.id: step for step in problem.steps}
        self.waits = {wait.id: wait for wait in problem.waits}
        self.setters = _setters(problem)
        self.guards = _guards(problem)
        self.state = dict(problem.start)
        self.seen: dict[str, float] = {}  # condition -> when [s] an act of the film set its value
        self.added: list[Step] = []
        self.silent: list[str] = []
        self.now = 0.0
        self.later: set[str] = set()  # steps shown only after now
        self.doubt: set[str] = set()  # steps that may have been done already, though it is not plain
        self._times: dict[int, Act] = {}

    def sequence(self) -> list[TimedStep]:
        """Every act and silent change as a timed step."""
        timed: list[TimedStep] = []
        for number, act in enumerate(self.acts):
            step, clock, self.now = self._own_copy(act, number), (number + 1) * APART, act.at
            after = self.acts[number + 1 :]
            self.later = {other.step for other in after if other.begins is None or other.begins >= act.at} - {act.step}
            self.doubt = {other.step for other in self.hints if other.at <= act.at}
            for change in self._silent_changes(self.known[act.step]):
                quiet = self._quiet_step(change, step)
                at = clock - APART // 2 + len(self.added)
                timed.append(TimedStep(quiet.id, at, at + quiet.seconds))
            timed.append(TimedStep(step.id, clock, clock + step.seconds))
            self._times[clock] = act
            self._apply(step)
        return timed

    def act_at(self, moment: int) -> Act | None:
        """The act that goes on or has ended at a moment of this time, with its waits; none for the time of silent changes."""
        return self._times.get(moment - moment % APART) if moment % APART < APART // 2 else None

    def _own_copy(self, act: Act, number: int) -> Step:
        """The step itself the first time, a copy when it is shown again: a film may show a thing twice."""
        step = self.known[act.step]
        if any(other.step == act.step for other in self.acts[:number]):
            step = replace(step, id=f"{step.id}@{number}")
            self.added.append(step)
        return step

    def _silent_changes(self, step: Step) -> list[Effect]:
        """What must have been changed off camera for ``step`` and may have been, so that only true faults are left."""
        changes: list[Effect] = []
        for literal in step.requires:
            if not literal.holds(self.state):
                changes += self._change_for(literal, step)
        own = {e.condition for e in step.sets}
        after = {**self.state, **{e.condition: e.value for e in step.sets}}
        for guard in dict.fromkeys(guard for condition in own for guard in self.guards.get(condition, ())):
            if all(need.holds(after) for need in guard.never):
                changes += self._way_out(guard, own)
        return changes

    def _change_for(self, literal: Literally, step: Step) -> list[Effect]:
        """What a step needs may have come about off camera, unless it is shown only later, was undone just now, or a guard names the harm
        of doing the step while it is as an act of the film has set it."""
        if literal.condition not in self.state:
            return []
        ways = self._ways(literal.condition, literal.values)
        lately = self.now - self.seen.get(literal.condition, -LATELY) < LATELY
        guarded = literal.condition in self.seen and self._guarded(literal.condition, step)
        return self._taken(literal.condition, ways, free=not lately and not guarded)

    def _guarded(self, condition: str, step: Step) -> bool:
        """Whether a guard forbids what ``step`` brings about together with the condition as it is now."""
        value = self.state[condition]
        for guard in self.guards.get(condition, ()):
            about = any(n.condition == condition and value in n.values for n in guard.never)
            if about and any(
                n.condition == e.condition and e.value in n.values for n in guard.never for e in step.sets
            ):
                return True
        return False

    def _way_out(self, guard: Guard, own: set[str]) -> list[Effect]:
        """One change off camera that keeps a guard from coming about; what an act of the film has set stays as it is seen."""
        for need in guard.never:
            if need.condition not in own:
                safe = {value for condition, value in self.setters if condition == need.condition} - need.values
                ways = self._ways(need.condition, safe)
                changes = self._taken(need.condition, ways, free=need.condition not in self.seen)
                if changes:
                    return changes
        return []

    def _ways(self, condition: str, values: Iterable[str]) -> list[tuple[str, str]]:
        return [(value, step) for value in sorted(values) for step in self.setters.get((condition, value), ())]

    def _taken(self, condition: str, ways: Sequence[tuple[str, str]], *, free: bool) -> list[Effect]:
        """The change taken as made off camera, if there is a way to make it and the film leaves room for it."""
        doubtful = any(step in self.doubt for _, step in ways)
        if not ways or not (doubtful or (free and not any(step in self.later for _, step in ways))):
            return []
        value = ways[0][0]
        self.state[condition] = value
        self.seen.pop(condition, None)
        self.silent.append(f"{self.problem.labels.get(condition, condition)}: {value.replace('-', ' ')}")
        return [Effect(condition, value)]

    def _quiet_step(self, change: Effect, before: Step) -> Step:
        number = len(self.added)
        step = replace(before, id=f"silent@{number}", seconds=1, requires=(), sets=(change,), starts=(), awaits=())
        self.added.append(step)
        return step

    def _apply(self, step: Step) -> None:
        for effect in step.sets:
            self.state[effect.condition], self.seen[effect.condition] = effect.value, self.now
        for name in step.starts:
            for effect in self.waits[name].sets if name in self.waits else ():
                self.state[effect.condition] = effect.value
                self.seen.pop(effect.condition, None)


def _guards(problem: Problem) -> Mapping[str, tuple[Guard, ...]]:
    """The guards that speak of each condition."""
    found: dict[str, tuple[Guard, ...]] = {}
    for guard in problem.guards:
        for condition in {need.condition for need in guard.never}:
            found[condition] = (*found.get(condition, ()), guard)
    return found


def _reached(problem: Problem, steps: Sequence[Step], sequence: Sequence[TimedStep]) -> tuple[Guard, ...]:
    """The guards whose every condition can come about in ``sequence``: the others need no judging."""
    known = {step.id: step for step in steps}
    waits = {wait.id: wait for wait in problem.waits}
    effects = (effect for timed in sequence for effect in _effects(known[timed.step], waits))
    values = {*problem.start.items(), *((e.condition, e.value) for e in effects)}
    return tuple(g for g in problem.guards if all(any((n.condition, v) in values for v in n.values) for n in g.never))


def _effects(step: Step, waits: Mapping[str, Wait]) -> Iterator[Effect]:
    """What a step brings about, by itself and by the waits it starts."""
    yield from step.sets
    for name in step.starts:
        yield from waits[name].sets if name in waits else ()


def _setters(problem: Problem) -> Mapping[tuple[str, str], tuple[str, ...]]:
    """Which steps bring each value of each condition about, by themselves or by a wait they start."""
    waits = {wait.id: wait for wait in problem.waits}
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for step in problem.steps:
        for effect in _effects(step, waits):
            key = (effect.condition, effect.value)
            found[key] = (*found.get(key, ()), step.id)
    return found
