"""The drawing of a van as the way in: its marks lead to its kit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from firstpitch.desk.inputs import OpenVan, unknown_of
from firstpitch.papers.drawing import VIEWS, View, draw
from firstpitch.papers.numbering import NumberedKit, number_kit
from firstpitch.sheet import Unknown

VIEW_WORDS: Mapping[View, str] = {
    "plan": "Plan",
    "nearside": "Nearside",
    "offside": "Offside",
    "front": "Front",
    "rear": "Rear",
}


@dataclass(frozen=True)
class ListedKit:
    """A line of the list beside the drawing. ``lacks``: figures that results wait for."""

    number: int
    id: str
    name: str
    where: str
    inside: bool
    lacks: int
    snags: int = 0


@dataclass(frozen=True)
class VanDrawing:
    """What is shown of a van before anything is picked; the same for the same sheet."""

    numbered: tuple[NumberedKit, ...]
    listed: tuple[ListedKit, ...]
    unknown: tuple[Unknown, ...]


def view_of(text: str) -> View:
    """A view by its name; the plan for anything else."""
    return next((view for view in VIEWS if view == text), "plan")


def number_of(drawing: VanDrawing, kit: str) -> str:
    """The number of a kit, nothing for none."""
    return next((str(n.number) for n in drawing.numbered if n.kit.id == kit), "")


@lru_cache(maxsize=64)
def drawing_of(opened: OpenVan) -> VanDrawing:
    """Numbers, list and unknown figures of a van."""
    numbered = number_kit(opened.sheet, opened.catalogue)
    unknown = unknown_of(opened)
    lacks = [u.kit for u in unknown if u.need == "must" and u.kit]
    listed = tuple(
        ListedKit(n.number, n.kit.id, n.kit.name, n.where, n.inside, lacks.count(n.kit.id)) for n in numbered
    )
    return VanDrawing(numbered, listed, unknown)


@lru_cache(maxsize=128)
def picture_of(opened: OpenVan, pk: int, view: View, picked: str) -> SafeString:
    """The drawing in one view, each mark a link to its kit; ``picked`` is the number of the one filled mark."""
    drawing = drawing_of(opened)
    lacking = {kit.id for kit in drawing.listed if kit.lacks}
    ask = "" if view == "plan" else f"?view={view}"
    marks = [
        replace(n.mark, target=reverse("van-kit", args=[pk, n.kit.id]) + ask, lacking=n.kit.id in lacking)
        for n in drawing.numbered
    ]
    return mark_safe(draw(opened.sheet, view, marks=marks, linked=True, next_mark=picked))


def with_snags(listed: Sequence[ListedKit], kits: Sequence[str]) -> tuple[ListedKit, ...]:
    """The list with the number of open snags of each kit (``kits``: the kit of every open snag)."""
    return tuple(replace(kit, snags=kits.count(kit.id)) for kit in listed)
