"""Catalogue texts with the sheet's figures put in."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from firstpitch.sheet.types import FactSpec, FactValue, Quantity

PLACEHOLDER = re.compile(r"\{([a-z0-9_]+)\}")
_SPACES = re.compile(r"\s+")


def fact_words(value: FactValue) -> str:
    """One fact as it reads in a sentence.

    >>> fact_words(Quantity(0.01, "m³", "10 l")), fact_words(True), fact_words(2)
    ('10 l', 'yes', '2')
    """
    if isinstance(value, Quantity):
        return value.written
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return f"{value.day} {value:%B %Y}"
    return str(value)


def fill(text: str, facts: Mapping[str, FactValue], specs: Mapping[str, FactSpec]) -> str:
    """``text`` on one line with each ``{fact}`` replaced; an unknown fact is said to be on the kit's plate, never guessed.

    >>> fill("It holds {capacity}.", {}, {"capacity": FactSpec("capacity", "water it holds", "quantity", "l")})
    'It holds (water it holds: see its plate or handbook).'
    """

    def one(found: re.Match[str]) -> str:
        name = found[1]
        if name in facts:
            return fact_words(facts[name])
        return f"({specs[name].what}: see its plate or handbook)"

    return _SPACES.sub(" ", PLACEHOLDER.sub(one, text)).strip()
