"""A round as one JSON object that a machine can replay, and the way back. See docs/rounds.md, "The round as JSON"."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any, NoReturn

from firstpitch.rounds.types import Effect, Literally, Plan, Problem, TimedStep
from firstpitch.rounds.why import why
from firstpitch.sheet.errors import SheetError, quoted

MOST_BYTES = 5_000_000
MOST_STEPS = 10_000
MOST_SECONDS = 1_000_000
LONGEST_ID = 200
STEP_KEYS = ("id", "start_s", "end_s")

Needs = dict[str, str | list[str]]


def round_object(problem: Problem, plan: Plan) -> dict[str, Any]:
    """The object that docs/rounds.md describes, of plain texts, numbers, lists and objects. Times in whole seconds, x and y in metres.

    ValueError when the plan is not a valid round of this problem.
    """
    levels = {step.id: step for step in problem.steps}
    return {
        "van": problem.van,
        "mode": problem.mode,
        "start_name": problem.start_name,
        "start_place": problem.start_place,
        "start": dict(problem.start),
        "finish": _needs(problem.finish),
        "places": {p.id: {"x": p.x, "y": p.y, "inside": p.inside} for p in problem.places},
        "walks": [[a.id, b.id, problem.walks[a.id][b.id]] for a in problem.places for b in problem.places if a != b],
        "steps": _steps(problem, plan),
        "waits": _waits(problem, plan),
        "left_out": [
            {"id": left.step, "level": levels[left.step].level, "worth": levels[left.step].worth, "reason": left.reason}
            for left in plan.left_out
        ],
        "guards": [{"id": g.id, "never": _needs(g.never), "harm": g.harm} for g in problem.guards],
        "total_s": plan.total,
        "bound_s": plan.bound,
        "gap": round(plan.gap, 6),
        "seed": plan.seed,
    }


def _needs(literals: Iterable[Literally]) -> Needs:
    """Conditions that must all hold: each with the value it must have, or the list of values it may have."""
    found: dict[str, frozenset[str]] = {}
    for literal in literals:
        found[literal.condition] = found.get(literal.condition, literal.values) & literal.values
    return {name: next(iter(v)) if len(v) == 1 else sorted(v) for name, v in found.items()}


def _sets(effects: Iterable[Effect]) -> dict[str, str]:
    return {effect.condition: effect.value for effect in effects}


def _steps(problem: Problem, plan: Plan) -> list[dict[str, Any]]:
    steps, reasons = {step.id: step for step in problem.steps}, why(problem, plan)
    rows: list[dict[str, Any]] = []
    for timed in plan.steps:
        step = steps[timed.step]
        rows.append(
            {
                "id": step.id,
                "kit": step.kit,
                "place": step.place,
                "start_s": timed.start,
                "end_s": timed.end,
                "level": step.level,
                "worth": step.worth,
                "requires": _needs(step.requires),
                "sets": _sets(step.sets),
                "starts": list(step.starts),
                "awaits": list(step.awaits),
                "why": list(reasons[step.id]),
            }
        )
    return rows


def _waits(problem: Problem, plan: Plan) -> list[dict[str, Any]]:
    waits = {wait.id: wait for wait in problem.waits}
    return [
        {
            "id": timed.wait,
            "start_s": timed.start,
            "end_s": timed.end,
            "sustains": _needs(waits[timed.wait].sustains),
            "sets": _sets(waits[timed.wait].sets),
        }
        for timed in plan.waits
    ]


def read_sequence(text: str | bytes, file: str) -> list[TimedStep]:
    """The timed steps of a JSON text: an object with ``steps``, as ``round_object`` gives it, or a bare list of steps.

    Of each step only ``id`` (a text), ``start_s`` and ``end_s`` (whole seconds from 0 to 1,000,000) are read; whether they make a safe
    round is for ``replay`` to say. Raises SheetError, one sentence that begins with ``file``, when the text is anything else: not
    UTF-8, not JSON, over 5,000,000 bytes or 10,000 steps, a key missing or of the wrong sort.

    >>> read_sequence('[{"id": "hob.light", "start_s": 0, "end_s": 40}]', "part.json")
    [TimedStep(step='hob.light', start=0, end=40)]
    """
    tree = _parse(_decoded(text, file), file)
    if isinstance(tree, dict):
        if "steps" not in tree:
            raise SheetError(f"{file}: there is no key “steps”; give a round as JSON, or a list of steps.")
        tree = tree["steps"]
    if not isinstance(tree, list):
        raise SheetError(f"{file}: {_found(tree)} stands where the list of steps should be; give a list of steps.")
    if len(tree) > MOST_STEPS:
        raise SheetError(
            f"{file}: there are {len(tree):,} steps; allowed are {MOST_STEPS:,}. Check that it is the right file."
        )
    return [_timed(step, f"{file}, step {number}") for number, step in enumerate(tree, start=1)]


def _decoded(text: str | bytes, file: str) -> str:
    if len(text) > MOST_BYTES:
        raise SheetError(
            f"{file}: the file is {len(text):,} {'characters' if isinstance(text, str) else 'bytes'} long, but a round has "
            f"at most {MOST_BYTES:,}; check that it is the right file."
        )
    if isinstance(text, str):
        return text.removeprefix("\ufeff")
    try:
        return text.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise SheetError(f"{file}: the file is not UTF-8 text; save it as UTF-8.") from None


def _parse(text: str, file: str) -> Any:
    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            keys = [key for key, _ in pairs]
            twice = next(key for key in keys if keys.count(key) > 1)
            raise SheetError(f"{file}: the key {quoted(twice)} stands twice in one object; keep one of them.")
        return found

    def no_number(name: str) -> NoReturn:
        raise SheetError(f"{file}: {name} is not a number; allowed are whole seconds from 0.")

    if not text.strip():
        raise SheetError(f"{file}: the file is empty; give a round as JSON, or a list of steps.")
    try:
        return json.loads(text, object_pairs_hook=once, parse_constant=no_number)
    except json.JSONDecodeError as wrong:
        raise SheetError(
            f"{file}, line {wrong.lineno}: this is not JSON (column {wrong.colno}: {wrong.msg.lower()}); "
            "give the file that “firstpitch round --json” writes."
        ) from None
    except RecursionError:
        raise SheetError(f"{file}: lists or objects are nested too deep; give a plain list of steps.") from None
    except ValueError:
        raise SheetError(f"{file}: a number has thousands of digits; allowed are whole seconds from 0.") from None


def _timed(step: Any, where: str) -> TimedStep:
    if not isinstance(step, dict):
        raise SheetError(f"{where}: {_found(step)} stands here; a step is an object with {', '.join(STEP_KEYS)}.")
    missing = [key for key in STEP_KEYS if key not in step]
    if missing:
        raise SheetError(f"{where}: the key “{missing[0]}” is missing; a step has {', '.join(STEP_KEYS)}.")
    name = step["id"]
    if not isinstance(name, str) or not name or len(name) > LONGEST_ID or not name.isprintable():
        raise SheetError(f"{where}, id: found {_found(name)}; allowed is the id of a step, such as “hob.light”.")
    start, end = (_seconds(step, key, where) for key in STEP_KEYS[1:])
    if end < start:
        raise SheetError(f"{where}: end_s {end} is before start_s {start}; a step ends after it starts.")
    return TimedStep(name, start, end)


def _seconds(step: Mapping[str, Any], key: str, where: str) -> int:
    value = step[key]
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= MOST_SECONDS:
        raise SheetError(
            f"{where}, {key}: found {_found(value)}; allowed are whole seconds from 0 to {MOST_SECONDS:,}."
        )
    return value


def _found(value: Any) -> str:
    """What stands there, in words."""
    if value is None:
        return "nothing (null)"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    return (
        f"the text {quoted(value)}"
        if isinstance(value, str)
        else f"{value:.10g}"
        if isinstance(value, float)
        else quoted(value)[1:-1]
    )
