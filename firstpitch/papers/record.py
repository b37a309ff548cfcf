"""The record of a handover as a PDF file: what was noted, and who signed it. It certifies nothing, and says so."""

from __future__ import annotations

from dataclasses import dataclass

from firstpitch.papers.drawing.signs import draw_sign, draw_state
from firstpitch.papers.pdf import plain, typeset
from firstpitch.papers.words import words

WIDTH, HEIGHT = 600, 200  # of the glass a signature is drawn on


@dataclass(frozen=True)
class FactLine:
    """A cell at the head of the record."""

    what: str
    value: str


@dataclass(frozen=True)
class ShownLine:
    """A step that was shown: when, how long it took and was to take (empty where it was not planned), by whom."""

    time: str
    kit: str
    title: str
    took: str
    planned: str
    tried: bool
    who: str


@dataclass(frozen=True)
class LeftLine:
    """A step that was left out, why and by whom; ``must``: it is one that is always due."""

    step: str
    reason: str
    who: str
    must: bool


@dataclass(frozen=True)
class NotShownLine:
    """The steps of one kit that nobody spoke of; ``due``: some of them are always due."""

    kit: str
    steps: str
    due: bool


@dataclass(frozen=True)
class OverrideLine:
    """Somebody went on against a warning."""

    time: str
    step: str
    harm: str
    reason: str
    who: str


@dataclass(frozen=True)
class NoteLine:
    """Something noted: found otherwise, a change of the round, a word of somebody."""

    time: str
    words: str
    who: str


@dataclass(frozen=True)
class SnagLine:
    """A snag: how grave, what, and what became of it."""

    level: str
    words: str
    raised: str
    mended: str
    stop: bool


@dataclass(frozen=True)
class LetGo:
    """Who answers for it that the van went with snags of the gravest sort open."""

    name: str
    reason: str
    snags: tuple[str, ...]


@dataclass(frozen=True)
class Signed:
    """Both signatures. ``path`` is the owner's line within 600 by 200, empty where the name was typed and confirmed.

    ``digest`` stands in groups of 8 signs.
    """

    name: str
    how: str
    path: str
    confirmed_by: str
    when: str
    digest: str


@dataclass(frozen=True)
class RecordData:
    """Everything a record says, in words. ``signed`` is None while it can still change."""

    van: str
    owner: str
    dealership: str
    facts: tuple[FactLine, ...]
    several: bool
    let_go: LetGo | None
    unsettled: tuple[str, ...]
    overridden: tuple[OverrideLine, ...]
    snags: tuple[SnagLine, ...]
    left_out: tuple[LeftLine, ...]
    not_shown: tuple[NotShownLine, ...]
    notes: tuple[NoteLine, ...]
    shown: tuple[ShownLine, ...]
    tried: int
    signed: Signed | None


def record_document(data: RecordData, drawing: str = "") -> bytes:
    """The record as a tagged PDF (PDF/UA-1), the van's ``drawing`` (SVG, inks fixed) at its head; the same bytes for the same record."""
    svg = {f"state-{state}": draw_state(state, mode="fixed") for state in ("done", "tried")}
    svg |= {f"sign-{sign}": draw_sign(sign, mode="fixed") for sign in ("prohibition", "warning")}
    if data.signed and data.signed.path:
        svg["signature"] = signature_svg(data.signed.path)
    if drawing:
        svg["drawing"] = drawing
    title = f"{data.van}: record of the handover to {data.owner}"
    values = {"title": title, "van": data.van, "record": plain(data), "words": words()["record"]}
    return typeset("record.typ", values, svg)


def signature_svg(path: str) -> str:
    """The line that was drawn, in ink. ``path`` holds nothing but numbers, M and L."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}"><path d="{path}" fill="none" '
        'stroke="#1b1a17" stroke-width="4" stroke-linecap="round" stroke-linejoin="round"/></svg>'
    )
