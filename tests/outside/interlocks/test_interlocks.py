"""Interlocks of common practice, each tried both ways."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from bench.sizes import demo_problem
from firstpitch.rounds import Plan, Problem, TimedStep, plan_round, replay
from tests.retiming import retimed

ROWS: list[dict[str, Any]] = tomllib.loads((Path(__file__).parent / "interlocks.toml").read_text("utf-8"))["interlock"]
NAMES = [row["words"] for row in ROWS]
Row = Mapping[str, Any]


@cache
def _planned(van: str, start: tuple[tuple[str, str], ...]) -> tuple[Problem, tuple[TimedStep, ...]]:
    whole = demo_problem(van)
    assert set(dict(start)) <= set(whole.start)
    problem = replace(whole, start={**whole.start, **dict(start)})
    plan = plan_round(problem)
    assert isinstance(plan, Plan)
    return problem, plan.steps


def planned(row: Row) -> tuple[Problem, tuple[TimedStep, ...]]:
    """The row's van with the round our planner makes for it."""
    return _planned(row["van"], tuple(sorted(row.get("start", {}).items())))


def put_wrong(problem: Problem, plan: Sequence[TimedStep], wrong: Sequence[str]) -> list[TimedStep]:
    """The round with one step left out, or done just before or straight after another."""
    step = next(timed for timed in plan if timed.step == wrong[0])
    rest = [timed for timed in plan if timed is not step]
    if wrong[1] == "left out":
        return rest
    at = next(n for n, timed in enumerate(rest) if timed.step == wrong[2]) + (wrong[1] == "straight after")
    return retimed(problem, [*rest[:at], step, *rest[at:]], [step.step])


def changes(problem: Problem, plan: Sequence[TimedStep]) -> Iterator[tuple[int, str, str]]:
    """(second, condition, value) of everything that changes in the round."""
    steps, waits = {s.id: s for s in problem.steps}, {w.id: w for w in problem.waits}
    for timed in plan:
        yield from ((timed.end, e.condition, e.value) for e in steps[timed.step].sets)
        for wait in (waits[name] for name in steps[timed.step].starts):
            yield from ((timed.end + wait.seconds, e.condition, e.value) for e in wait.sets)


def states(problem: Problem, plan: Sequence[TimedStep]) -> list[tuple[int, dict[str, str]]]:
    """The state from each second at which something changes, the start first."""
    state, found = dict(problem.start), [(0, dict(problem.start))]
    for second, condition, value in sorted(changes(problem, plan)):
        state[condition] = value
        found.append((second, dict(state)))
    last = dict(found)  # of several changes in one second only the state after all of them counts
    return sorted(last.items())


def holds(text: str, state: Mapping[str, str]) -> bool:
    """Whether ``condition = value|other value`` holds."""
    condition, values = (part.strip() for part in text.split("="))
    return state[condition] in values.split("|")


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_wrong_order_is_refused(row: Row) -> None:
    """The wrong order is refused, and the reason given is the one that a specialist would give."""
    problem, plan = planned(row)
    assert not replay(problem, plan)
    wrong = put_wrong(problem, plan, row["wrong"])
    told = {(broken.rule, broken.condition) for broken in replay(problem, wrong)}
    assert tuple(row["refused"]) in told


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_planned_round_keeps_to_it(row: Row) -> None:
    """The round our planner makes for this van has the right order."""
    problem, plan = planned(row)
    reached, rule, right = states(problem, plan), row["refused"][0], row["right"]
    if rule == "finish":
        assert all(holds(text, reached[-1][1]) for text in right)
    elif rule == "guard":
        assert not any(all(holds(text, state) for text in right) for _, state in reached)
    else:
        done = next(timed for timed in plan if timed.step == row["wrong"][0])
        before = [state for second, state in reached if second <= done.start][-1]
        during = [state for second, state in reached if done.start < second < done.end]
        assert all(holds(text, state) for state in (before, *during) for text in right)


def test_table_is_whole() -> None:
    """There are at least twenty interlocks, each in words of its own and marked as common practice without a source."""
    assert len(ROWS) >= 20
    assert len(set(NAMES)) == len(ROWS)
    assert all(row["source"] == "common practice, no source" for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_words_of_the_row_are_on_the_van(row: Row) -> None:
    """What a row says in terms of conditions is said of conditions and values that its van has, so that no row passes emptily."""
    problem, _ = planned(row)
    known = {(c, v) for c, v in problem.start.items()}
    known |= {(e.condition, e.value) for part in (*problem.steps, *problem.waits) for e in part.sets}
    for text in row["right"]:
        condition, values = (part.strip() for part in text.split("="))
        assert any((condition, value) in known for value in values.split("|")), text
