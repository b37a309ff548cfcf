"""Papers: the owner's pack and the round, as PDF and as pages, and the line drawings that stand in them.

Everything here is a plain function of its input: the same van gives the same bytes. Nothing is read from the network.
"""

from __future__ import annotations

from datetime import date

from firstpitch.catalogue.types import Catalogue
from firstpitch.papers.data import PackData, pack_data
from firstpitch.papers.drawing.timeline import draw_timeline
from firstpitch.papers.numbering import number_kit
from firstpitch.papers.outfit_sheet import OutfitData, outfit_data, outfit_document, outfit_page
from firstpitch.papers.page import pack_page
from firstpitch.papers.pdf import pack_document, round_document
from firstpitch.papers.programme import programme
from firstpitch.papers.route import way
from firstpitch.rounds.types import Plan, Problem
from firstpitch.sheet.types import BuildSheet

__all__ = [
    "OutfitData",
    "PackData",
    "outfit_data",
    "outfit_document",
    "outfit_page",
    "pack_data",
    "pack_document",
    "pack_html",
    "pack_page",
    "pack_pdf",
    "round_document",
    "round_pdf",
    "round_svg",
    "way",
]


def pack_pdf(
    sheet: BuildSheet,
    catalogue: Catalogue,
    problem: Problem | None = None,
    plan: Plan | None = None,
    *,
    made: date | None = None,
) -> bytes:
    """The owner's pack as a tagged PDF (PDF/UA-1). With ``problem`` and ``plan`` its last page is the round; ``made`` is
    the date printed on the cover. A figure the sheet lacks is said to be missing; nothing is put in its place."""
    return pack_document(pack_data(sheet, catalogue, problem, plan, made=made))


def pack_html(
    sheet: BuildSheet,
    catalogue: Catalogue,
    problem: Problem | None = None,
    plan: Plan | None = None,
    *,
    made: date | None = None,
) -> str:
    """The owner's pack as one HTML page for tablet, phone and print that asks for nothing outside itself."""
    return pack_page(pack_data(sheet, catalogue, problem, plan, made=made))


def round_pdf(sheet: BuildSheet, catalogue: Catalogue, problem: Problem, plan: Plan) -> bytes:
    """The round as a one-page programme (PDF/UA-1): its picture in time, and every stop with its clock time."""
    numbers = {one.kit.id: one.number for one in number_kit(sheet, catalogue)}
    return round_document(programme(problem, plan, numbers), sheet.identity.name)


def round_svg(problem: Problem, plan: Plan) -> str:
    """The round in time as an SVG file of its own: steps, the walk between them, and the waits that run beside."""
    return draw_timeline(problem, plan, mode="alone")
