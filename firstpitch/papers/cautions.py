"""Cautions as they are printed: a sign's shape, a word for how grave it is, and the text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import Kind
from firstpitch.papers.words import words
from firstpitch.sheet.types import FactValue

_GRAVE = {"stop": 0, "care": 1, "note": 2}


@dataclass(frozen=True)
class CautionLine:
    """A caution as printed; ``level`` is in words and may be empty."""

    sign: str
    level: str
    text: str


def kit_cautions(kind: Kind, facts: Mapping[str, FactValue]) -> tuple[CautionLine, ...]:
    """All cautions of a kit, the gravest first."""
    ordered = sorted(kind.cautions, key=lambda caution: _GRAVE[caution.level])
    return tuple(CautionLine(c.sign, words()["levels"][c.level], fill(c.text, facts, kind.facts)) for c in ordered)


def step_cautions(kind: Kind, facts: Mapping[str, FactValue], step: str) -> tuple[CautionLine, ...]:
    """The ``stop`` cautions to be read before ``step``: those that name it and those that stand for every step."""
    return tuple(
        CautionLine(c.sign, words()["levels"]["stop"], fill(c.text, facts, kind.facts))
        for c in kind.cautions
        if step and c.level == "stop" and (not c.steps or step in c.steps)
    )


@dataclass(frozen=True)
class SafetyPart:
    """The usual cautions on one subject."""

    title: str
    cautions: tuple[CautionLine, ...]


def usual_cautions() -> tuple[SafetyPart, ...]:
    """The cautions that every pack carries, by subject."""
    return tuple(
        SafetyPart(part["title"], tuple(CautionLine(c["sign"], "", c["text"]) for c in part["cautions"]))
        for part in words()["safety"]
    )
