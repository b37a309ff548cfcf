"""Proof that every figure a kind file speaks of exists, is of the right sort, and is used."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final

from firstpitch.catalogue import allowed
from firstpitch.catalogue.lines import Kinds, one_owner, owners
from firstpitch.catalogue.types import Kind
from firstpitch.catalogue.wording import listed, said, shown
from firstpitch.sheet.faults import either, nearest
from firstpitch.sheet.types import FactSpec
from firstpitch.sheet.units import SORTS, some_units, sort_of

# Facts that the engines read by these names from any kit, whether or not its kind file speaks of them.
READ_BY_NAME: Final = ("mass", "in_miro")

_QUANTITY = re.compile(r"(-?[0-9]+(?:\.[0-9]+)?) ?(\S.*)")
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_TERM_SORT: Final[Mapping[str, str]] = {
    "volume": "volume",
    "flow": "volume flow",
    "power": "power",
    "from": "temperature",
    "to": "temperature",
    "efficiency": "share",
}
_DRAWS: Final[tuple[str, ...]] = ("power", "current", "mass flow")
_STORES: Final[tuple[str, ...]] = (*_DRAWS, "charge", "energy", "mass")


def placeholders(text: str) -> tuple[str, ...]:
    """The names of the facts whose figures a text asks for, in order.

    >>> placeholders("It holds {capacity} and draws {mains_power}.")
    ('capacity', 'mains_power')
    """
    return tuple(_PLACEHOLDER.findall(text))


def figure_faults(kinds: Kinds, kind: Kind) -> Iterator[str]:
    """One sentence for each fault of units, terms of durations, energy, water, card figures and placeholders in ``kind``."""
    for name, fact in kind.facts.items():
        if fact.type == "quantity" and not sort_of(fact.unit):
            yield said(kind.file, f"facts.{name}.unit", _no_unit(fact.unit))
    for point in kind.inspection:
        if point.reading and not sort_of(point.reading):
            yield said(kind.file, f"inspection.{point.id}.reading", _no_unit(point.reading))
    yield from _energy_and_water(kind)
    for name in kind.card.figures:
        if name not in kind.facts:
            yield said(kind.file, "card.figures", _no_fact(kind, name))
    for wait, spec in kind.waits.items():
        for term, written in spec.duration.terms.items():
            if isinstance(written, str):
                yield from _term(kinds, kind, f"waits.{wait}.duration.{term}", term, written)
    for key, text in _filled(kind):
        yield from _placeholder_faults(kind, key, text)
    for key, text in _plain(kind):
        if "{" in text or "}" in text:
            wrong = "a figure in curly brackets can stand only in say, caution, inspection, start-up and card texts"
            yield said(kind.file, key, wrong)


def _no_unit(found: str) -> str:
    examples = either(next(iter(units)) for units in SORTS.values())
    return f"found {shown(found)}, which is not a unit this program knows; use for example {examples}"


def _no_fact(kind: Kind, name: str) -> str:
    has = f"; its facts are {listed(kind.facts)}{nearest(name, kind.facts)}" if kind.facts else ", which has none"
    return f"there is no fact “{name}” in {kind.file}{has}"


def _energy_and_water(kind: Kind) -> Iterator[str]:
    uses = [
        (f"energy.{n}.fact", use.fact, _STORES if use.control == "source" else _DRAWS)
        for n, use in enumerate(kind.energy, 1)
    ]
    uses += [(f"water.{n}.fact", use.fact, ("volume", "volume flow")) for n, use in enumerate(kind.water, 1)]
    for key, name, sorts in uses:
        if name not in kind.facts:
            yield said(kind.file, key, _no_fact(kind, name))
        else:
            yield from _sort_fault(kind, key, name, kind.facts[name], sorts)


def _sort_fault(kind: Kind, key: str, name: str, fact: FactSpec, sorts: tuple[str, ...]) -> Iterator[str]:
    found = sort_of(fact.unit) if fact.type == "quantity" else ""
    if found not in sorts and (found or fact.type != "quantity"):
        is_a = f"in {fact.unit}, a figure of {found}" if found else f"of type {fact.type}"
        yield said(kind.file, key, f"fact “{name}” is {is_a}; allowed is a figure of {either(sorts)}")


def _divisor_fault(kind: Kind, key: str, term: str, written: str, fact: FactSpec) -> Iterator[str]:
    """A duration divides by most of its terms and none can be below zero, so the sheet's figures must be bounded."""
    yield from _sort_fault(kind, key, written, fact, (_TERM_SORT[term],))
    if _TERM_SORT[term] != "temperature" and (fact.least is None or fact.least <= 0):
        yield said(
            kind.file, key, f"fact “{written}” may be 0 or less; give it a least above 0 to reckon a duration with"
        )


def _term(kinds: Kinds, kind: Kind, key: str, term: str, written: str) -> Iterator[str]:
    sort = _TERM_SORT[term]
    if written[0] in "+-.0123456789":
        yield from _quantity(kind, key, written, sort)
    elif written == "cold_water":
        if sort != "temperature":
            yield said(kind.file, key, f"found “cold_water”, which is a temperature; allowed is a figure of {sort}")
    elif "." in written:
        owner, _, name = written.partition(".")
        if owner not in kind.links:
            known = listed(kind.links)
            wrong = f"“{owner}” in “{written}” is no link here; the links are {known}{nearest(owner, kind.links)}"
            yield said(kind.file, key, wrong)
            return
        if not one_owner(kind, owner):
            yield said(kind.file, key, f"“{owner}” in “{written}” stands for every such kit, which has no one figure")
        for other in (kinds[k] for k in owners(kind, owner)):
            if name not in other.facts:
                yield said(kind.file, key, _no_fact(other, name))
            else:
                yield from _divisor_fault(kind, key, term, written, other.facts[name])
    elif written not in kind.facts:
        wrong = f"{_no_fact(kind, written)}; a figure that is no fact is written with its unit, as “60 degC”"
        yield said(kind.file, key, wrong)
    else:
        yield from _divisor_fault(kind, key, term, written, kind.facts[written])


def _quantity(kind: Kind, key: str, written: str, sort: str) -> Iterator[str]:
    found = _QUANTITY.fullmatch(written)
    if not found or sort_of(found[2]) != sort:
        units = some_units(next(iter(SORTS[sort])))
        yield said(kind.file, key, f"“{written}” is not a figure of {sort}; write a number and a unit: {units}")
    elif sort != "temperature" and float(found[1]) <= 0:
        yield said(kind.file, key, f"found “{written}”; allowed is a figure above 0")


def _filled(kind: Kind) -> Iterator[tuple[str, str]]:
    """The texts that may ask for a figure."""
    yield from ((f"steps.{step.id}.say", step.say) for step in kind.steps)
    yield from ((f"cautions.{n}.text", caution.text) for n, caution in enumerate(kind.cautions, 1))
    yield from ((f"inspection.{point.id}.point", point.point) for point in kind.inspection)
    for n, item in enumerate(kind.start_up, 1):
        yield from ((f"start_up.{n}.item", item.item), (f"start_up.{n}.why", item.why))
    yield "card.what", kind.card.what
    yield from (("card.use", line) for line in kind.card.use)
    yield from (("card.trouble", text) for pair in kind.card.trouble for text in pair)
    for card in allowed.CARDS:
        yield from ((f"card.{card}.{n}.text", line.text) for n, line in enumerate(getattr(kind.card, card), 1))


def _plain(kind: Kind) -> Iterator[tuple[str, str]]:
    """The texts that stand as they are."""
    yield from (("title", kind.title), ("about", kind.about))
    yield from ((f"facts.{name}.what", fact.what) for name, fact in kind.facts.items())
    yield from ((f"conditions.{name}.what", condition.what) for name, condition in kind.conditions.items())
    for step in kind.steps:
        yield f"steps.{step.id}.title", step.title
        yield from ((f"steps.{step.id}.points", point) for point in step.points)
    yield from ((f"waits.{name}.title", wait.title) for name, wait in kind.waits.items())
    yield from ((f"guards.{guard.id}.harm", guard.harm) for guard in kind.guards)
    yield from ((f"energy.{n}.note", use.note) for n, use in enumerate(kind.energy, 1))
    yield from ((f"water.{n}.note", use.note) for n, use in enumerate(kind.water, 1))
    yield from (("film.names", name) for name in kind.film.names)
    yield from ((f"film.words.{step}", word) for step, words in kind.film.words.items() for word in words)
    yield from (
        (f"film.ways.{step}", way) for step, points in kind.film.ways.items() for ways in points for way in ways
    )
    yield from ((f"film.doing.{step}", text) for step, texts in kind.film.doing.items() for text in texts)
    yield from ((f"cautions.{n}.ways", way) for n, caution in enumerate(kind.cautions, 1) for way in caution.ways)


def _placeholder_faults(kind: Kind, key: str, text: str) -> Iterator[str]:
    if "{" not in text and "}" not in text:
        return
    for name in placeholders(text):
        if name not in kind.facts:
            yield said(kind.file, key, f"“{{{name}}}” asks for a figure, but {_no_fact(kind, name)}")
    if set("{}") & set(_PLACEHOLDER.sub("", text)):
        yield said(kind.file, key, "a curly bracket stands alone; a figure is written “{fact}”")


def unused_faults(kinds: Kinds) -> Iterator[str]:
    """One sentence for each fact that no text, duration, energy, water or card figure speaks of."""
    used = {(key, name) for key, kind in kinds.items() for name in (*_own_uses(kind), *READ_BY_NAME)}
    for kind in kinds.values():
        for wait in kind.waits.values():
            for term in map(str, wait.duration.terms.values()):
                owner, _, name = term.partition(".")
                used |= {(key, name) for key in owners(kind, owner)}
    for key, kind in kinds.items():
        for name in kind.facts:
            if (key, name) not in used:
                wrong = "nothing in the catalogue uses this fact; put it on the card, in a text or a duration, or leave it out"
                yield said(kind.file, f"facts.{name}", wrong)


def _own_uses(kind: Kind) -> Iterator[str]:
    yield from (name for _, text in _filled(kind) for name in placeholders(text))
    yield from (use.fact for use in kind.energy)
    yield from (use.fact for use in kind.water)
    yield from kind.card.figures
    yield from (str(term) for wait in kind.waits.values() for term in wait.duration.terms.values())
