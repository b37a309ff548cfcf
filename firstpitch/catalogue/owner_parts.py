"""The parts of a kind file for the workshop and the owner: cautions, inspection, energy, water, start-up, card, film."""

from __future__ import annotations

from types import MappingProxyType

from firstpitch.catalogue import allowed
from firstpitch.catalogue.table import Table
from firstpitch.catalogue.types import (
    CardLine,
    Caution,
    Energy,
    FilmWords,
    Inspection,
    OwnerCard,
    StartUpItem,
    WaterUse,
)


def parse_cautions(top: Table) -> tuple[Caution, ...]:
    """The warnings, in file order."""
    return tuple(
        Caution(
            level=table.choice("level", allowed.CAUTION_LEVELS),
            text=table.text("text"),
            steps=table.texts("steps"),
            sign=table.choice("sign", allowed.SIGNS),
            source=table.text("source"),
            ways=table.texts("ways"),
        )
        for table in top.tables("cautions", ("level", "sign", "text", "steps", "source", "ways"))
    )


def parse_inspection(top: Table) -> tuple[Inspection, ...]:
    """The inspection points; one that is measured names the unit of its reading and no other does."""
    found: dict[str, Inspection] = {}
    for table in top.tables("inspection", ("id", "point", "how", "reading", "severity")):
        how = table.choice("how", allowed.HOWS)
        reading = table.text("reading", default="")
        if how == "measure" and not reading:
            raise table.fault("reading", "it is empty, but a point that is measured names the unit of its reading")
        if how != "measure" and reading:
            raise table.fault("reading", f"found “{reading}”, but only a point with how = “measure” has a reading")
        point = Inspection(
            table.name("id"), table.text("point"), how, reading, table.choice("severity", allowed.CAUTION_LEVELS)
        )
        if point.id in found:
            raise table.fault("id", "this id stands twice; give each its own")
        found[point.id] = point
    return tuple(found.values())


def parse_energy(top: Table) -> tuple[Energy, ...]:
    """What the kit draws or gives."""
    return tuple(
        Energy(
            table.choice("supply", allowed.ENERGIES),
            table.name("fact"),
            table.choice("control", allowed.CONTROLS),
            table.text("note", default=""),
        )
        for table in top.tables("energy", ("supply", "fact", "control", "note"))
    )


def parse_water(top: Table) -> tuple[WaterUse, ...]:
    """What water the kit holds, uses, wastes or feeds."""
    return tuple(
        WaterUse(table.choice("role", allowed.WATER_ROLES), table.name("fact"), table.text("note", default=""))
        for table in top.tables("water", ("role", "fact", "note"))
    )


def parse_start_up(top: Table) -> tuple[StartUpItem, ...]:
    """What the owner needs before the first trip."""
    return tuple(
        StartUpItem(table.text("item"), table.whole("number", 1, allowed.MOST), table.text("why"))
        for table in top.tables("start_up", ("item", "number", "why"))
    )


def parse_card(top: Table) -> OwnerCard:
    """The kit's own card in the pack."""
    card = top.needed_table("card", ("what", "use", "trouble", "figures", *allowed.CARDS))
    return OwnerCard(
        what=card.text("what"),
        use=card.texts("use", least=1),
        trouble=card.pairs("trouble"),
        figures=card.texts("figures"),
        arriving=_card_lines(card, "arriving"),
        leaving=_card_lines(card, "leaving"),
        towing=_card_lines(card, "towing"),
        winter=_card_lines(card, "winter"),
    )


def _card_lines(card: Table, key: str) -> tuple[CardLine, ...]:
    return tuple(
        CardLine(table.whole("order", 1, allowed.LAST_ORDER), table.text("text"), table.text("step", default=""))
        for table in card.tables(key, ("order", "text", "step"))
    )


def parse_film(top: Table) -> FilmWords:
    """What speakers call the kit; per step the words a film should contain, other ways to say its points, what is said while doing it."""
    film = top.needed_table("film", ("names", "words", "ways", "doing"))
    names = film.texts("names", least=1)
    words, ways, doing = (film.table(part, None) for part in ("words", "ways", "doing"))
    return FilmWords(
        names,
        MappingProxyType({step: words.texts(step, least=1) for step in words.names()}),
        MappingProxyType({step: tuple(_ways(text) for text in ways.texts(step, least=1)) for step in ways.names()}),
        MappingProxyType({step: doing.texts(step, least=1) for step in doing.names()}),
    )


def _ways(text: str) -> tuple[str, ...]:
    """The ways to say one point, parted by upright lines."""
    return tuple(way.strip() for way in text.split("|") if way.strip())
