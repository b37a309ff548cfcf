"""A card for each sort of kit on one van: what it is, how to use it, its cautions, troubles and figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firstpitch.catalogue.texts import fact_words, fill
from firstpitch.catalogue.types import Kind
from firstpitch.papers.cautions import CautionLine, kit_cautions
from firstpitch.papers.numbering import NumberedKit, number_words
from firstpitch.sheet.types import FactValue

UNKNOWN = "not on the sheet"


@dataclass(frozen=True)
class FigureLine:
    """One figure of the sheet; ``known`` is false where the sheet lacks it."""

    what: str
    value: str
    known: bool


@dataclass(frozen=True)
class OneKit:
    """One kit on a card, with its own figures."""

    number: int
    name: str
    where: str
    inside: bool
    note: str
    figures: tuple[FigureLine, ...]


@dataclass(frozen=True)
class KitCard:
    """The card for all kit of one kind that reads the same; ``alike``: every kit on it has the same figures."""

    title: str
    numbers: str
    kits: tuple[OneKit, ...]
    what: str
    use: tuple[str, ...]
    trouble: tuple[tuple[str, str], ...]
    cautions: tuple[CautionLine, ...]
    alike: bool


@dataclass(frozen=True)
class _Texts:
    what: str
    use: tuple[str, ...]
    trouble: tuple[tuple[str, str], ...]
    cautions: tuple[CautionLine, ...]


def _texts(kind: Kind, facts: Mapping[str, FactValue]) -> _Texts:
    def put(text: str) -> str:
        return fill(text, facts, kind.facts)

    card = kind.card
    return _Texts(
        what=put(card.what),
        use=tuple(put(line) for line in card.use),
        trouble=tuple((put(seen), put(do)) for seen, do in card.trouble),
        cautions=kit_cautions(kind, facts),
    )


def kit_cards(numbered: Sequence[NumberedKit]) -> tuple[KitCard, ...]:
    """The cards in order of the numbers; kit of one kind whose card reads the same shares a card."""
    groups: dict[tuple[str, _Texts], list[NumberedKit]] = {}
    for one in numbered:
        groups.setdefault((one.kind.key, _texts(one.kind, one.kit.facts)), []).append(one)
    return tuple(_card(texts, group) for (_, texts), group in groups.items())


def _card(texts: _Texts, group: Sequence[NumberedKit]) -> KitCard:
    kits = tuple(OneKit(n.number, n.kit.name, n.where, n.inside, n.kit.note, kit_figures(n)) for n in group)
    return KitCard(
        title=kits[0].name if len(kits) == 1 else group[0].kind.title,
        numbers=number_words([k.number for k in kits]),
        kits=kits,
        what=texts.what,
        use=texts.use,
        trouble=texts.trouble,
        cautions=texts.cautions,
        alike=all(k.figures == kits[0].figures for k in kits),
    )


def whole_van_card(kind: Kind, name: str) -> KitCard:
    """The card for the van as a whole, which has no number."""
    texts = _texts(kind, {})
    return KitCard(name, "", (), texts.what, texts.use, texts.trouble, texts.cautions, alike=True)


def kit_figures(one: NumberedKit) -> tuple[FigureLine, ...]:
    """The figures that the kit's card asks for, in its order, as the sheet writes them."""
    lines = []
    for name in one.kind.card.figures:
        what = one.kind.facts[name].what
        value = one.kit.facts.get(name)
        lines.append(
            FigureLine(
                what[:1].upper() + what[1:], fact_words(value) if value is not None else UNKNOWN, value is not None
            )
        )
    return tuple(lines)
