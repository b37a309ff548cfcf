"""What to film again, as a short round: the steps concerned in the order and at the places of the van's round."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from firstpitch.desk.pages.film.findings import Finding


@dataclass(frozen=True)
class AgainStep:
    """One step to film again: what for, and what must have been done before it with the camera off."""

    step: str
    title: str
    kit: str
    where: str
    seconds: int
    findings: tuple[Finding, ...]
    first: tuple[str, ...]


@dataclass(frozen=True)
class Again:
    """The short round: its steps and how long it takes [s], walks included."""

    steps: tuple[AgainStep, ...]
    seconds: int
    walk: int


def again_of(found: Mapping[str, Any], findings: Sequence[Finding]) -> Again:
    """The short round for these findings. A finding that names several alike steps is filmed once, at the first."""
    order = found["round"]
    known = {line["step"] for line in order}
    wanted: dict[str, list[Finding]] = {}
    for finding in findings:
        for step in [step for step in finding.steps if step in known][:1]:
            wanted.setdefault(step, []).append(finding)
    state = dict(found["start"])
    steps = []
    places = []
    for number, line in enumerate(order):
        if line["step"] not in wanted:
            continue
        first = _bring_about(order, number, state)
        _done(line, state)
        kit = found["labels"]["kits"].get(line["kit"], line["kit"])
        steps.append(
            AgainStep(
                line["step"], line["title"], kit, line["where"], line["seconds"], tuple(wanted[line["step"]]), first
            )
        )
        places.append(line["place"])
    walk = sum(found["walks"].get(a, {}).get(b, 0) for a, b in pairwise(places))
    return Again(tuple(steps), sum(step.seconds for step in steps) + walk, walk)


def _done(line: Mapping[str, Any], state: dict[str, str]) -> None:
    for condition, value in line["sets"]:
        state[condition] = value


def _bring_about(order: Sequence[Mapping[str, Any]], number: int, state: dict[str, str]) -> tuple[str, ...]:
    """Titles of the earlier steps of the round, done with hands, that bring about what this one needs; ``state`` becomes so."""
    titles: list[str] = []

    def bring(needs: Sequence[Any], before: int) -> None:
        for condition, values in needs:
            if state.get(condition) in values:
                continue
            for at in range(before - 1, -1, -1):
                line = order[at]
                if any(c == condition and v in values for c, v in line["sets"]):
                    bring(line["requires"], at)
                    _done(line, state)
                    if line["hands"]:
                        titles.append(line["title"])
                    break

    bring(order[number]["requires"], number)
    return tuple(dict.fromkeys(titles))
