"""The kinds in the groups a person walks past them in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from firstpitch.catalogue import Catalogue, Kind

GROUPS: Mapping[str, str] = MappingProxyType(
    {"front": "A-frame and front", "round": "Round the outside", "inside": "Inside"}
)


def grouped(catalogue: Catalogue, search: str = "") -> list[tuple[str, list[Kind]]]:
    """Group titles with their kinds by title; ``search`` keeps those whose title, text or film names hold it."""
    wanted = search.lower()
    kinds = sorted(catalogue.kinds.values(), key=lambda kind: kind.title.lower())
    found = [kind for kind in kinds if wanted in _words(kind)]
    groups = [(title, [kind for kind in found if kind.group == key]) for key, title in GROUPS.items()]
    return [(title, kinds) for title, kinds in groups if kinds]


def _words(kind: Kind) -> str:
    return " ".join((kind.key, kind.title, kind.about, *kind.film.names)).lower()
