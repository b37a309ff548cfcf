"""Everything an owner's pack says, put together once; the PDF and the page both print from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from firstpitch.catalogue.types import Catalogue
from firstpitch.papers.cautions import SafetyPart, usual_cautions
from firstpitch.papers.drawing import Mark
from firstpitch.papers.kit_cards import UNKNOWN, FigureLine, KitCard, kit_cards, whole_van_card
from firstpitch.papers.numbering import NumberedKit, number_kit
from firstpitch.papers.programme import Programme, programme
from firstpitch.papers.trip_cards import TripCard, trip_cards
from firstpitch.papers.words import words
from firstpitch.rounds.types import Plan, Problem
from firstpitch.sheet.types import BuildSheet
from firstpitch.sheet.units import show

if TYPE_CHECKING:
    from firstpitch.papers.outfit_sheet import OutfitData

_VAN = "van"


@dataclass(frozen=True)
class KeyLine:
    """A line of the key beside the drawing."""

    number: int
    name: str
    where: str
    inside: bool


@dataclass(frozen=True)
class StartUpLine:
    """Something to have before the first trip, and what wants it."""

    item: str
    number: int
    why: str


@dataclass(frozen=True)
class AskLine:
    """Whom to ask about what; ``who`` is empty where the owner has to write it in."""

    about: str
    who: str


@dataclass(frozen=True)
class MissingFigure:
    """A figure to be filled in by hand."""

    numbers: str
    kit: str
    what: str


@dataclass(frozen=True)
class PackData:
    """The owner's pack of one van. ``round`` is None where no round has been planned, ``outfit`` where no car was given."""

    van: str
    chassis_number: str
    built: str
    made: str
    sheet: BuildSheet
    marks: tuple[Mark, ...]
    key: tuple[KeyLine, ...]
    figures: tuple[FigureLine, ...]
    safety: tuple[SafetyPart, ...]
    ask: tuple[AskLine, ...]
    trips: tuple[TripCard, ...]
    cards: tuple[KitCard, ...]
    start_up: tuple[StartUpLine, ...]
    missing: tuple[MissingFigure, ...]
    round: Programme | None
    outfit: OutfitData | None = None


def pack_data(
    sheet: BuildSheet,
    catalogue: Catalogue,
    problem: Problem | None = None,
    plan: Plan | None = None,
    *,
    made: date | None = None,
    outfit: OutfitData | None = None,
) -> PackData:
    """The pack of ``sheet``. With ``problem`` and ``plan`` it holds the round; ``made`` is the date printed on it.
    ``outfit`` is the outfit and stow sheet, which then has its pages in the pack.

    Same input, same pack. Figures the sheet lacks are said to be missing; none is put in their place.
    """
    numbered = number_kit(sheet, catalogue)
    whole = catalogue.kinds.get(_VAN)
    own = (whole_van_card(whole, whole.title),) if whole else ()
    identity = sheet.identity
    return PackData(
        van=identity.name,
        chassis_number=identity.chassis_number or "",
        built=day(identity.built) if identity.built else "",
        made=day(made) if made else "",
        sheet=sheet,
        marks=tuple(n.mark for n in numbered),
        key=tuple(KeyLine(n.number, n.kit.name, n.where, n.inside) for n in numbered),
        figures=_van_figures(sheet),
        safety=usual_cautions(),
        ask=_ask(sheet),
        trips=trip_cards(sheet, catalogue, numbered),
        cards=(*own, *kit_cards(numbered)),
        start_up=_start_up(catalogue, numbered),
        missing=_missing(sheet, numbered),
        round=programme(problem, plan, {n.kit.id: n.number for n in numbered}) if problem and plan else None,
        outfit=outfit,
    )


def day(when: date) -> str:
    """A date in words.

    >>> day(date(2026, 3, 9))
    '9 March 2026'
    """
    return f"{when.day} {when:%B %Y}"


def _van_figures(sheet: BuildSheet) -> tuple[FigureLine, ...]:
    masses, body, tyre = sheet.masses, sheet.body, sheet.gear.tyre

    def line(what: str, si: float | None, unit: str, other: str = "") -> FigureLine:
        if si is None:
            return FigureLine(what, UNKNOWN, known=False)
        more = f" ({show(si, other)})" if other else ""
        return FigureLine(what, show(si, unit, 4 if unit == "kg" else 3) + more, known=True)

    def text(what: str, value: object) -> FigureLine:
        return FigureLine(what, str(value) if value is not None else UNKNOWN, value is not None)

    return (
        line("Mass in running order (MiRO)", masses.miro, "kg"),
        line("Greatest mass when loaded (MTPLM)", masses.mtplm, "kg"),
        line("What you may load: MTPLM less MiRO", masses.mtplm - masses.miro, "kg"),
        line("Limit of noseweight, as plated", masses.noseweight_limit, "kg"),
        line("Limit of each axle", masses.axle_limit, "kg"),
        line("Length from towball to rear wall", body.rear, "m"),
        line("Width", body.width, "m"),
        line("Height", body.height, "m"),
        text("Berths", body.berths),
        text("Tyre size", tyre.size),
        text("Tyre load index", tyre.load_index),
        text("Tyre speed symbol", tyre.speed_symbol),
        line("Tyre pressure, cold", tyre.pressure, "bar", "psi"),
        line("Wheel nut or bolt torque", tyre.wheel_torque, "N·m"),
    )


def _ask(sheet: BuildSheet) -> tuple[AskLine, ...]:
    own = words()["ask"]
    dealer = ". ".join(part for part in (sheet.identity.dealer, sheet.identity.contact) if part)
    return (
        AskLine(own["dealer"], dealer),
        *(AskLine(own[key], "") for key in ("gas", "mains", "emergency", "site")),
    )


def _start_up(catalogue: Catalogue, numbered: Sequence[NumberedKit]) -> tuple[StartUpLine, ...]:
    """What all kit asks for, each thing once, with the largest number that any one of them asks for.

    Things are the same where one is called like the other with more words behind it; the longer name stands.
    """
    whole = catalogue.kinds.get(_VAN)
    kinds = [*([whole] if whole else []), *{n.kind.key: n.kind for n in numbered}.values()]
    found: list[StartUpLine] = []
    for kind in kinds:
        for item in kind.start_up:
            at = next((n for n, known in enumerate(found) if _same_thing(known.item, item.item)), None)
            if at is None:
                found.append(StartUpLine(item.item, item.number, item.why))
                continue
            known = found[at]
            why = known.why if item.why in known.why else f"{known.why}; {item.why}"
            found[at] = StartUpLine(max(known.item, item.item, key=len), max(known.number, item.number), why)
    return tuple(found)


def _same_thing(one: str, other: str) -> bool:
    """Whether two items of the start-up list are one thing.

    >>> _same_thing("Mains polarity tester", "mains polarity tester that plugs into a socket")
    True
    >>> _same_thing("Spare battery for the alarm fob", "Spare battery for the mover's handset")
    False
    """
    short, long = sorted((one.casefold(), other.casefold()), key=len)
    return long == short or long.startswith((f"{short} ", f"{short},"))


def _missing(sheet: BuildSheet, numbered: Sequence[NumberedKit]) -> tuple[MissingFigure, ...]:
    lacking = [
        MissingFigure(str(n.number), n.kit.name, spec.what)
        for n in numbered
        for name, spec in n.kind.facts.items()
        if name not in n.kit.facts and (spec.need == "must" or name in n.kind.card.figures)
    ]
    own = [MissingFigure("", sheet.identity.name, f.what) for f in _van_figures(sheet) if not f.known]
    return (*own, *lacking)
