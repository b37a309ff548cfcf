"""From rows to engine inputs: the catalogue of a branch, the sheet of a van, the problem of a handover."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

from firstpitch.catalogue import Catalogue, load
from firstpitch.desk.models import Branch, Handover, Van
from firstpitch.rounds import Problem, RoundOptions, WalkRates, build_problem
from firstpitch.sheet import BuildSheet, Links, read_sheet_text, resolve_links


@dataclass(frozen=True)
class OpenVan:
    """A van's sheet, read, with its branch's catalogue and its links."""

    sheet: BuildSheet
    catalogue: Catalogue
    links: Links


def catalogue_of(branch: Branch) -> Catalogue:
    """The catalogue with this branch's own kinds on top; CatalogueError when one of those is wrong."""
    own = branch.own_kinds.order_by("key").values_list("key", "text") if branch.pk else []
    return _catalogue(tuple(own))


@lru_cache(maxsize=16)
def _catalogue(own: tuple[tuple[str, str], ...]) -> Catalogue:
    if not own:
        return load()
    with tempfile.TemporaryDirectory() as folder:
        for key, text in own:
            (Path(folder) / f"{key}.toml").write_text(text, encoding="utf-8")
        return load(Path(folder))


def open_van(van: Van) -> OpenVan:
    """Read a van's sheet. What is stored was read without fault when it was stored, unless kinds have changed since (SheetError)."""
    own = tuple(van.branch.own_kinds.order_by("key").values_list("key", "text"))
    return _open(van.sheet, own)


@lru_cache(maxsize=128)
def _open(sheet: str, own: tuple[tuple[str, str], ...]) -> OpenVan:
    catalogue = _catalogue(own)
    read = read_sheet_text(sheet, catalogue.kinds, today=date.max)
    return OpenVan(read, catalogue, resolve_links(read.kit, catalogue.kinds))


def round_options(branch: Branch, chosen: dict[str, Any]) -> RoundOptions:
    """Round options from what a page stored: mode, minutes, start, start_values, water; paces from the branch."""
    return RoundOptions(
        mode=chosen.get("mode", "handover"),
        minutes=chosen.get("minutes"),
        start=chosen.get("start", "from-store"),
        start_values=chosen.get("start_values", {}),
        water=chosen.get("water", "drained"),
        words_per_minute=float(chosen.get("words_per_minute") or branch.words_per_minute),
        rates=WalkRates(pace=branch.metres_per_second),
    )


def problem_of(handover: Handover, chosen: dict[str, Any] | None = None) -> Problem:
    """The planning problem of a handover, with its stored options or with ``chosen``."""
    van = open_van(handover.van)
    options = round_options(handover.van.branch, handover.options if chosen is None else chosen)
    return build_problem(van.sheet, van.catalogue, van.links.filled, options)
