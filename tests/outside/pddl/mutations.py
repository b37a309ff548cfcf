"""Plans put wrong on purpose. Each function says in its first line why its plans must break docs/rounds.md, whatever a checker says.

Nothing here asks the checker. A step that is moved forward starts as soon as the presenter gets there; all others keep their time or,
where that has become impossible, start as soon as they can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from firstpitch.rounds import Literally, Problem, Step, TimedStep
from tests.retiming import retimed

Wrong = tuple[str, list[TimedStep]]
Maker = Callable[[Problem, Sequence[TimedStep]], Iterator[Wrong]]


def _steps(problem: Problem) -> dict[str, Step]:
    return {step.id: step for step in problem.steps}


def _moved(problem: Problem, plan: Sequence[TimedStep], late: int, early: int) -> list[TimedStep]:
    """The step at ``late`` done just before the one at ``early``."""
    order = [*plan[:early], plan[late], *plan[early:late], *plan[late + 1 :]]
    return retimed(problem, order, [plan[late].step])


def _settings(problem: Problem, condition: str) -> dict[str, str]:
    """What each step sets ``condition`` to."""
    return {s.id: e.value for s in problem.steps for e in s.sets if e.condition == condition}


def _waits_set(problem: Problem, condition: str) -> bool:
    return any(e.condition == condition for wait in problem.waits for e in wait.sets)


def _holds_at_start(problem: Problem, literal: Literally) -> bool:
    return problem.start.get(literal.condition) in literal.values


def must_left_out(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A must step is missing."""
    for at, timed in enumerate(plan):
        if _steps(problem)[timed.step].level == "must":
            yield "must", [*plan[:at], *plan[at + 1 :]]


def done_again(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step is done a second time, straight after the first."""
    for at, timed in enumerate(plan):
        yield "twice", retimed(problem, [*plan[: at + 1], timed, *plan[at + 1 :]])


def cut_short(_: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step ends a second before it can be over."""
    for at, timed in enumerate(plan):
        if timed.end - timed.start > 1:
            yield "length", [*plan[:at], TimedStep(timed.step, timed.start, timed.end - 1), *plan[at + 1 :]]


def drawn_out(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step is given more time than it takes."""
    for at, timed in enumerate(plan):
        longer = TimedStep(timed.step, timed.start, timed.end + 7)
        yield "length", retimed(problem, [*plan[:at], longer, *plan[at + 1 :]])


def two_at_once(_: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step starts a second before the one before it has ended."""
    for at in range(1, len(plan)):
        early = plan[at].start - (plan[at - 1].end - 1)
        shifted = TimedStep(plan[at].step, plan[at].start - early, plan[at].end - early)
        yield "overlap", [*plan[:at], shifted, *plan[at + 1 :]]


def quicker_than_on_foot(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step starts a second before the presenter can have walked there."""
    by_id = _steps(problem)
    for at in range(1, len(plan)):
        walk = problem.walks[by_id[plan[at - 1].step].place][by_id[plan[at].step].place]
        if walk:
            early = plan[at].start - (plan[at - 1].end + walk - 1)
            shifted = TimedStep(plan[at].step, plan[at].start - early, plan[at].end - early)
            yield "walking", [*plan[:at], shifted, *plan[at + 1 :]]


def _causes(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[tuple[int, int, Literally]]:
    """(late, early, need): the step at ``late`` has a need that does not hold at the start and that only ``early`` meets before it."""
    by_id = _steps(problem)
    for late, timed in enumerate(plan):
        for need in by_id[timed.step].requires:
            if _holds_at_start(problem, need) or _waits_set(problem, need.condition):
                continue
            setting = _settings(problem, need.condition)
            meets = [at for at in range(late) if setting.get(plan[at].step) in need.values]
            if len(meets) == 1:
                yield late, meets[0], need


def before_its_cause(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step comes before the only step that brings about what it needs."""
    for late, early, _ in _causes(problem, plan):
        yield "requires", _moved(problem, plan, late, early)


def two_swapped(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step and the only step that brings about what it needs change places."""
    for late, early, _ in _causes(problem, plan):
        order = list(plan)
        order[early], order[late] = order[late], order[early]
        yield "requires", retimed(problem, order, [plan[late].step])


def flame_under_a_cover(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A gas flame is lit while its flue's cover is still on."""
    for late, early, need in _causes(problem, plan):
        lights = any(e.value == "lit" for e in _steps(problem)[plan[late].step].sets)
        if lights and need.condition.endswith(".cover"):
            yield "requires", _moved(problem, plan, late, early)


def before_the_wait_is_over(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step that awaits a wait, or needs what only that wait brings about, starts while the wait still runs."""
    by_id, waits = _steps(problem), {w.id: w for w in problem.waits}
    for early, starter in enumerate(plan):
        for wait in (waits[name] for name in by_id[starter.step].starts):
            for late in range(early + 1, len(plan)):
                step = by_id[plan[late].step]
                leans = wait.id in step.awaits or any(_only_by(problem, need, wait.id) for need in step.requires)
                walk = problem.walks[by_id[starter.step].place][step.place]
                if leans and late > early + 1 and walk < wait.seconds:
                    yield "awaits or requires", _moved(problem, plan, late, early + 1)


def _only_by(problem: Problem, need: Literally, wait: str) -> bool:
    """Whether nothing but ``wait`` ever makes ``need`` hold."""
    setters = {w.id for w in problem.waits for e in w.sets if e.condition == need.condition and e.value in need.values}
    stepped = any(value in need.values for value in _settings(problem, need.condition).values())
    return setters == {wait} and not stepped and not _holds_at_start(problem, need)


def wait_upset(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """A step undoes what a wait needs before the wait is over."""
    by_id, waits = _steps(problem), {w.id: w for w in problem.waits}
    for early, starter in enumerate(plan):
        for wait in (waits[name] for name in by_id[starter.step].starts):
            needs = {n.condition: n.values for n in wait.sustains}
            for late in range(early + 2, len(plan)):
                step = by_id[plan[late].step]
                upsets = any(e.condition in needs and e.value not in needs[e.condition] for e in step.sets)
                walk = problem.walks[by_id[starter.step].place][step.place]
                if upsets and walk + step.seconds < wait.seconds:
                    yield "sustains", _moved(problem, plan, late, early + 1)


def left_undone(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """The step that brings about what must hold at the end is left out, and before it that did not hold."""
    for literal in problem.finish:
        if _waits_set(problem, literal.condition):
            continue
        setting = _settings(problem, literal.condition)
        acts = [at for at, timed in enumerate(plan) if timed.step in setting]
        if not acts or _steps(problem)[plan[acts[-1]].step].starts:
            continue
        before = setting[plan[acts[-2]].step] if len(acts) > 1 else problem.start.get(literal.condition)
        if before not in literal.values:
            yield "finish", [*plan[: acts[-1]], *plan[acts[-1] + 1 :]]


def harm_done(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """Of two things that must never hold together, one is brought about while the other, true at the start, has not been ended."""
    for guard in problem.guards:
        if len(guard.never) != 2:
            continue
        for made, standing in (guard.never, guard.never[::-1]):
            if not _holds_at_start(problem, standing) or _waits_set(problem, standing.condition):
                continue
            makes, ends = _settings(problem, made.condition), _settings(problem, standing.condition)
            first = next((at for at, timed in enumerate(plan) if timed.step in ends), len(plan))
            for late in range(first + 1, len(plan)):
                name = plan[late].step
                if makes.get(name) in made.values and name not in ends:
                    yield "guard", _moved(problem, plan, late, first)


def gone_home_early(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[Wrong]:
    """The round stops with the step that starts a wait, which then is not over."""
    for at, timed in enumerate(plan):
        if _steps(problem)[timed.step].starts:
            yield "unfinished", list(plan[: at + 1])


MAKERS: tuple[Maker, ...] = (
    must_left_out,
    done_again,
    cut_short,
    drawn_out,
    two_at_once,
    quicker_than_on_foot,
    before_its_cause,
    two_swapped,
    flame_under_a_cover,
    before_the_wait_is_over,
    wait_upset,
    left_undone,
    harm_done,
    gone_home_early,
)
