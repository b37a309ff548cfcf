"""Our rounds and our checker against the plan validators of a general planning library, which read our PDDL text."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

import pytest

from bench.sizes import demo_problem, first_round, smaller
from firstpitch.rounds import Plan, Problem, TimedStep, plan_round, replay
from tests.outside.pddl.judge import Judge
from tests.outside.pddl.mutations import MAKERS, Maker, Wrong
from tests.random_rounds import random_problem

SEED = 20
PARTS = {"wren": ("water-heater",), "plover": ("mover", "hitch"), "heron": ("air-conditioner", "hob", "oven")}
WRONG = {"wren": 28, "plover": 42, "heron": 30}


@pytest.mark.parametrize("name", ["heron", "plover", "wren"])
def test_whole_demo_van_accepted(name: str) -> None:
    """The round of each demo van, from the welcome to the last look, is a valid plan of its PDDL 2.1 text, and clean in replay."""
    problem = demo_problem(name)
    plan = plan_round(problem)
    assert isinstance(plan, Plan)
    assert len(plan.steps) >= 80
    assert not replay(problem, plan.steps)
    assert Judge(problem).accepts(plan.steps)


def test_order_of_whole_demo_van_accepted() -> None:
    """The order of a whole van's round is a valid plan of the text without time as well."""
    problem = demo_problem("wren")
    assert Judge(problem).accepts_order(first_round(problem))


@cache
def part(name: str) -> Problem:
    return smaller(demo_problem(name), 0, keep=PARTS[name])


def wrong_plans(
    problem: Problem, plan: Sequence[TimedStep], count: int, rng: random.Random
) -> Iterator[tuple[Maker, Wrong]]:
    """``count`` different plans put wrong, one way after the other."""
    ways = {maker: list(maker(problem, plan)) for maker in MAKERS}
    for found in ways.values():
        rng.shuffle(found)
    seen: set[tuple[TimedStep, ...]] = set()
    while count:
        before = count
        for maker, found in ways.items():
            while count and found:
                wrong = found.pop()
                if tuple(wrong[1]) not in seen:
                    seen.add(tuple(wrong[1]))
                    yield maker, wrong
                    count -= 1
                    break
        assert count < before, "too few ways to put this plan wrong"


@pytest.mark.parametrize("name", sorted(PARTS))
def test_wrong_plans_rejected_by_both(name: str) -> None:
    """A hundred plans, each put wrong in a known way, are rejected by the library's validator and by replay, which names the rule."""
    problem = part(name)
    plan = first_round(problem)
    judge = Judge(problem)
    assert judge.accepts(plan)
    assert not replay(problem, plan)
    for maker, (rules, wrong) in wrong_plans(problem, plan, WRONG[name], random.Random(SEED)):
        told = {broken.rule for broken in replay(problem, wrong)}
        assert told & set(rules.split(" or ")), f"replay does not tell: {maker.__doc__} {wrong}"
        assert not judge.accepts(wrong), f"the validator accepts: {maker.__doc__} {wrong}"


def test_wrong_plans_are_a_hundred_of_every_sort() -> None:
    """The wrong plans are a hundred in all, and every way of putting a plan wrong is among them."""
    used: list[Maker] = []
    for name in PARTS:
        problem = part(name)
        used += [m for m, _ in wrong_plans(problem, first_round(problem), WRONG[name], random.Random(SEED))]
    assert len(used) == 100
    assert set(used) == set(MAKERS)


def _tries(problem: Problem, rng: random.Random) -> Iterator[list[TimedStep]]:
    """Sequences of all sorts: the planned one, the planned one a little changed, and plain guesses."""
    plan = plan_round(problem)
    if isinstance(plan, Plan):
        yield list(plan.steps)
        yield [TimedStep(t.step, t.start + late, t.end + late) for n, t in enumerate(plan.steps) for late in [2 * n]]
        for at in range(len(plan.steps)):
            late = [3 if n >= at else 0 for n in range(len(plan.steps))]
            yield [TimedStep(t.step, t.start + k, t.end + k) for t, k in zip(plan.steps, late, strict=True)]
    for _ in range(3):
        steps, place, now, guess = list(problem.steps), problem.start_place, 0, []
        rng.shuffle(steps)
        for step in steps[: rng.randint(1, len(steps))]:
            start = now + problem.walks[place][step.place] + rng.choice((0, 0, 1, 4))
            place, now = step.place, start + step.seconds
            guess.append(TimedStep(step.id, start, now))
        yield guess


def _ends_together(problem: Problem, sequence: Sequence[TimedStep]) -> bool:
    """Whether two things end in the same second, so that the order alone cannot say which comes first."""
    by_id, waits = {s.id: s for s in problem.steps}, {w.id: w for w in problem.waits}
    ends = [t.end for t in sequence]
    ends += [t.end + waits[w].seconds for t in sequence for w in by_id[t.step].starts]
    return len(set(ends)) < len(ends)


@pytest.mark.parametrize("block", range(2))
def test_validator_and_replay_agree(block: int) -> None:
    """On small random problems the library's validator and replay give the same verdict on every sequence, right or wrong."""
    accepted = 0
    for seed in range(block * 18, block * 18 + 18):
        problem = replace(random_problem(seed), minutes=None)
        judge = Judge(problem)
        for sequence in _tries(problem, random.Random(seed)):
            verdict = judge.accepts(sequence)
            assert verdict == (not replay(problem, sequence)), f"seed {seed}: {sequence}"
            accepted += verdict
            if verdict and not _ends_together(problem, sequence):
                assert judge.accepts_order(sequence), f"seed {seed}: {sequence}"
    assert accepted > 20
