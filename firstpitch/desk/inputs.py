"""From rows to engine inputs: the catalogue of a branch, the sheet of a van, the problem of a handover."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal

from firstpitch.catalogue import Catalogue, load
from firstpitch.catalogue.types import StartName
from firstpitch.desk.models import Branch, Handover, Van
from firstpitch.rounds import Mode, Problem, RoundOptions, WalkRates, build_problem
from firstpitch.sheet import BuildSheet, Links, Unknown, read_sheet_text, resolve_links, unknowns
from firstpitch.sheet.errors import CatalogueError

_FIRST = 3


@dataclass(frozen=True, eq=False)
class OpenVan:
    """A van's sheet, read, with its branch's catalogue and its links. The same text gives the same object while it is kept, so
    that what is made from it can be kept by it.
    """

    sheet: BuildSheet
    catalogue: Catalogue
    links: Links


OwnTexts = tuple[tuple[str, str], ...]


def own_of(branch: Branch) -> OwnTexts:
    """Key and text of each of the branch's own kinds."""
    return tuple(branch.own_kinds.order_by("key").values_list("key", "text"))


def catalogue_of(branch: Branch) -> Catalogue:
    """The catalogue with this branch's own kinds on top; CatalogueError when one of those is wrong."""
    return catalogue_with(own_of(branch))


def catalogue_with(own: OwnTexts) -> Catalogue:
    """The catalogue with these kinds on top; CatalogueError when one of them is wrong."""
    return _catalogue(own)


@lru_cache(maxsize=32)
def _catalogue(own: OwnTexts) -> Catalogue:
    if not own:
        return load()
    with tempfile.TemporaryDirectory() as folder:
        for key, text in own:
            (Path(folder) / f"{key}.toml").write_text(text, encoding="utf-8")
        try:
            return load(Path(folder))
        except CatalogueError as wrong:
            raise CatalogueError(str(wrong).replace(f"{folder}/", "")) from None


def open_van(van: Van) -> OpenVan:
    """Read a van's sheet. What is stored was read without fault when it was stored, unless kinds have changed since (SheetError)."""
    return _open(van.sheet, own_of(van.branch))


def open_text(branch: Branch, text: str) -> OpenVan:
    """Read any text as the sheet of a van of this branch (SheetError)."""
    return _open(text, own_of(branch))


@lru_cache(maxsize=128)
def _open(sheet: str, own: OwnTexts) -> OpenVan:
    catalogue = _catalogue(own)
    read = read_sheet_text(sheet, catalogue.kinds, today=date.max)
    return OpenVan(read, catalogue, resolve_links(read.kit, catalogue.kinds))


@dataclass(frozen=True)
class Lacks:
    """What a sheet leaves unknown, in short: how many figures that results wait for, the first of them in words, how many others."""

    must: int
    first: tuple[str, ...]
    may: int

    def stored(self) -> dict[str, Any]:
        """As it is kept beside the sheet."""
        return {"must": self.must, "first": list(self.first), "may": self.may}


def lacks_of(sheet: BuildSheet, catalogue: Catalogue) -> Lacks:
    """What ``sheet`` lacks, in short."""
    found = unknowns(sheet, catalogue.kinds)
    must = [unknown for unknown in found if unknown.need == "must"]
    return Lacks(len(must), tuple(unknown.words for unknown in must[:_FIRST]), len(found) - len(must))


def kept_lacks(kept: Mapping[str, Any]) -> Lacks:
    """What a van lacks (its ``lacks``), as counted when its sheet or the branch's kinds last changed; lists go by it."""
    return Lacks(kept.get("must", 0), tuple(kept.get("first", ())), kept.get("may", 0))


def unknown_of(opened: OpenVan) -> tuple[Unknown, ...]:
    """Every unknown figure of an open van, those that results wait for first."""
    return unknowns(opened.sheet, opened.catalogue.kinds)


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
    o = round_options(handover.van.branch, handover.options if chosen is None else chosen)
    values = tuple(sorted(o.start_values.items()))
    return _problem(open_van(handover.van), o.mode, o.minutes, o.start, values, o.water, o.words_per_minute, o.rates)


@lru_cache(maxsize=64)
def _problem(  # noqa: PLR0917  (the key of a cache)
    opened: OpenVan,
    mode: Mode,
    minutes: float | None,
    start: StartName,
    values: tuple[tuple[str, str], ...],
    water: Literal["drained", "kept"],
    words_per_minute: float,
    rates: WalkRates,
) -> Problem:
    options = RoundOptions(mode, minutes, start, dict(values), water, words_per_minute, rates)
    return build_problem(opened.sheet, opened.catalogue, opened.links.filled, options)
