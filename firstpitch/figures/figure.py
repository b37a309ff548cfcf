"""Reading the figure files."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Literal

from firstpitch.sheet.units import parse

Status = Literal["read", "second-hand", "memory", "common practice", "computed"]
_STATUSES = ("read", "second-hand", "memory", "common practice", "computed")


@dataclass(frozen=True)
class Source:
    """A text a figure was taken from."""

    key: str
    title: str
    by: str
    edition: str


@dataclass(frozen=True)
class Figure:
    """One published figure: ``si`` in SI (a pure number has unit ``1``), ``written`` as printed, and its source."""

    id: str
    what: str
    si: float
    unit: str
    written: str
    source: Source
    clause: str
    status: Status
    note: str = ""
    rows: str = ""

    @property
    def credit(self) -> str:
        """Source, clause and standing in one line, for page, paper and command line."""
        where = ", ".join(part for part in (self.source.title, self.clause, self.source.edition) if part)
        return f"{where} ({self.status})"


@cache
def _sources() -> Mapping[str, Source]:
    raw = tomllib.loads((files(__package__) / "sources.toml").read_text("utf-8"))
    return MappingProxyType(
        {key: Source(key, s["title"], s.get("by", ""), str(s.get("edition", ""))) for key, s in raw.items()}
    )


def _figure(topic: str, key: str, raw: Mapping[str, Any]) -> Figure:
    written = str(raw.get("value", "1"))
    number, _, unit = written.partition(" ")
    if unit:
        held = parse(written, unit)
        si, si_unit = held.si, held.unit
    else:
        si, si_unit = float(number), "1"
    if raw["status"] not in _STATUSES:
        raise ValueError(f"figures/{topic}.toml, {key}: status {raw['status']!r} is not one of {', '.join(_STATUSES)}")
    return Figure(
        id=f"{topic}.{key}",
        what=raw["what"],
        si=si,
        unit=si_unit,
        written=written,
        source=_sources()[raw["source"]],
        clause=raw.get("clause", ""),
        status=raw["status"],
        note=raw.get("note", ""),
        rows=raw.get("rows", ""),
    )


@cache
def all_figures() -> Mapping[str, Figure]:
    """Every figure by its id ``topic.key``."""
    found: dict[str, Figure] = {}
    for entry in sorted(files(__package__).iterdir(), key=lambda e: e.name):
        if entry.name.endswith(".toml") and entry.name != "sources.toml":
            topic = entry.name.removesuffix(".toml")
            for key, raw in tomllib.loads(entry.read_text("utf-8")).items():
                found[f"{topic}.{key}"] = _figure(topic, key, raw)
    return MappingProxyType(found)


def get(figure_id: str) -> Figure:
    """The figure with this id; KeyError when there is none.

    >>> get("water.specific_heat").written
    '4.186 kJ/(kg*K)'
    """
    return all_figures()[figure_id]


@cache
def rows(figure_id: str) -> tuple[Mapping[str, str], ...]:
    """The rows of a figure that is a table, as printed."""
    name = get(figure_id).rows
    text = (files(__package__) / "tables" / name).read_text("utf-8")
    return tuple(MappingProxyType(row) for row in csv.DictReader(text.splitlines()))
