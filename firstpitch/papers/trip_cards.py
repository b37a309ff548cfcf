"""The arriving, leaving, towing and winter cards of one van, in the right order for its kit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import CardLine, Catalogue, Kind
from firstpitch.papers.cautions import CautionLine, step_cautions
from firstpitch.papers.numbering import NumberedKit, number_words
from firstpitch.papers.words import words
from firstpitch.sheet.types import BuildSheet, Kit

Trip = Literal["arriving", "leaving", "towing", "winter"]
TRIPS: tuple[Trip, ...] = ("arriving", "leaving", "towing", "winter")


@dataclass(frozen=True)
class TripLine:
    """One line to do. ``kit`` names what it is about with its numbers; ``steps`` are the round's steps it stands for."""

    text: str
    kit: str
    numbers: str
    cautions: tuple[CautionLine, ...]
    steps: tuple[str, ...]


@dataclass(frozen=True)
class TripCard:
    """A card for one occasion."""

    key: Trip
    title: str
    intro: str
    lines: tuple[TripLine, ...]


def trip_cards(sheet: BuildSheet, catalogue: Catalogue, numbered: Sequence[NumberedKit]) -> tuple[TripCard, ...]:
    """The four cards. Lines come in the catalogue's card order; the same line from several kits stands once."""
    whole = catalogue.kinds.get("van")
    own = [] if whole is None else [(0, Kit("van", "van", sheet.identity.name, 0, 0, None, {}, {}), whole)]
    entries = own + [(n.number, n.kit, n.kind) for n in numbered]
    return tuple(_card(trip, entries) for trip in TRIPS)


def _card(trip: Trip, entries: Sequence[tuple[int, Kit, Kind]]) -> TripCard:
    gathered: dict[tuple[int, str], list[tuple[int, Kit, Kind, CardLine]]] = {}
    for number, kit, kind in entries:
        for line in getattr(kind.card, trip):
            text = fill(line.text, kit.facts, kind.facts)
            gathered.setdefault((line.order, text), []).append((number, kit, kind, line))
    said: set[str] = set()
    lines = [_line(key[1], gathered[key], said) for key in sorted(gathered, key=lambda key: _place(key, gathered))]
    own = words()["cards"][trip]
    return TripCard(trip, own["title"], own["intro"], tuple(lines))


def _place(
    key: tuple[int, str], gathered: Mapping[tuple[int, str], Sequence[tuple[int, Kit, Kind, CardLine]]]
) -> tuple[int, int, str]:
    return key[0], min(number for number, *_ in gathered[key]), key[1]


def _line(text: str, sources: Sequence[tuple[int, Kit, Kind, CardLine]], said: set[str]) -> TripLine:
    """One line from the kits that give it; a caution already ``said`` on this card is not said again."""
    cautions = []
    for _, kit, kind, line in sources:
        for caution in step_cautions(kind, kit.facts, line.step):
            if caution.text not in said:
                said.add(caution.text)
                cautions.append(caution)
    numbers = sorted({number for number, *_ in sources if number})
    kits = {kit.id: kit.name for _, kit, _, _ in sources}
    name = next(iter(kits.values())) if len(kits) == 1 else sources[0][2].title
    return TripLine(
        text=text,
        kit=name if numbers else "",
        numbers=number_words(numbers),
        cautions=tuple(cautions),
        steps=tuple(f"{kit.id}.{line.step}" for _, kit, _, line in sources if line.step),
    )
