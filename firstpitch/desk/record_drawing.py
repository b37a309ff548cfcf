"""The van's own drawing at the head of its record: each numbered kit, and struck through what was not shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from firstpitch.desk.inputs import OpenVan, open_text
from firstpitch.desk.models import Handover
from firstpitch.papers.drawing import InkMode, Mark, Struck, draw
from firstpitch.papers.numbering import number_kit
from firstpitch.sheet.errors import CatalogueError, SheetError


def record_drawing(handover: Handover, record: Mapping[str, Any], mode: InkMode = "page") -> str:
    """The plan from the sheet as it was, as SVG; nothing where that sheet cannot be read any more.

    A kit of which nothing was shown is struck through; one of which something was left out has half the stroke.
    """
    try:
        opened = open_text(handover.van.branch, _sheet(handover, int(record["sheet_version"])))
    except (SheetError, CatalogueError):
        return ""
    shown = {_kit(row) for row in record["shown"]}
    lost = {_kit(row) for row in (*record["left_out"], *record["not_shown"])}
    struck: dict[str, Struck] = {kit: "half" if kit in shown else "whole" for kit in lost}
    return _drawing(opened, tuple(sorted(struck.items())), mode)


def _kit(row: Mapping[str, Any]) -> str:
    """The kit of a step's id."""
    return str(row["id"]).rpartition(".")[0]


def _sheet(handover: Handover, version: int) -> str:
    van = handover.van
    before = None if van.version == version else van.sheets_before.filter(version=version).first()
    return before.text if before else van.sheet


@lru_cache(maxsize=32)
def _drawing(opened: OpenVan, struck: tuple[tuple[str, Struck], ...], mode: InkMode) -> str:
    of = dict(struck)
    numbered = number_kit(opened.sheet, opened.catalogue)
    marks: list[Mark] = [replace(n.mark, target="", lacking=False, struck=of.get(n.kit.id, "")) for n in numbered]
    return draw(opened.sheet, "plan", marks=marks, mode=mode, key="record")
