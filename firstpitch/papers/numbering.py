"""Numbers for the kit of one van: in the order a person meets it, round the outside and then through the inside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstpitch.catalogue.types import Catalogue, Kind
from firstpitch.papers.drawing import Mark
from firstpitch.sheet.types import BuildSheet, Kit

_BAND = 0.5  # inside, things within this length of aisle [m] are met together, nearside first
_PAIR = 2  # a run longer than this is drawn together
_ROUND = ("front", "nearside", "rear", "offside")


@dataclass(frozen=True)
class NumberedKit:
    """A kit with its kind, its number on the drawing and its place in words."""

    number: int
    kit: Kit
    kind: Kind
    inside: bool
    where: str

    @property
    def mark(self) -> Mark:
        """The kit as a mark for the drawing; its link leads to its card."""
        return Mark(
            number=str(self.number),
            name=self.kit.name,
            x=self.kit.x,
            y=self.kit.y,
            z=self.kit.z,
            inside=self.inside,
            target=f"#kit-{self.number}",
        )


def number_kit(sheet: BuildSheet, catalogue: Catalogue) -> tuple[NumberedKit, ...]:
    """All kit of the sheet in walking order, numbered from 1. Outside comes first: A-frame and front, nearside from front
    to rear, rear, offside from rear to front; then inside from front to rear."""
    within = {kit.id: catalogue.kinds[kit.kind].stands == "inside" for kit in sheet.kit}
    outside = sorted((k for k in sheet.kit if not within[k.id]), key=lambda k: _round_key(sheet, k))
    inside = sorted((k for k in sheet.kit if within[k.id]), key=lambda k: (int(k.x / _BAND), -k.y, k.id))
    return tuple(
        NumberedKit(i, kit, catalogue.kinds[kit.kind], within[kit.id], _where(sheet, kit, inside=within[kit.id]))
        for i, kit in enumerate((*outside, *inside), start=1)
    )


def side_of(sheet: BuildSheet, x: float, y: float) -> str:
    """The part of the outside that a point [m] belongs to: front, nearside, rear or offside."""
    body, half = sheet.body, sheet.body.width / 2
    if x < body.front:
        return "front"
    gaps = {"nearside": half - y, "offside": half + y, "rear": body.rear - x, "front": x - body.front}
    return min(gaps, key=lambda side: gaps[side])


def _round_key(sheet: BuildSheet, kit: Kit) -> tuple[int, float, float, str]:
    side = side_of(sheet, kit.x, kit.y)
    along = {"front": kit.x, "nearside": kit.x, "rear": -kit.y, "offside": -kit.x}[side]
    return _ROUND.index(side), round(along, 3), -kit.y, kit.id


def _where(sheet: BuildSheet, kit: Kit, *, inside: bool) -> str:
    third = (kit.x - sheet.body.front) / sheet.body.length
    along = "front" if third < 1 / 3 else "middle" if third < 2 / 3 else "rear"
    if inside:
        side = "" if abs(kit.y) < sheet.body.width * 0.12 else ", nearside" if kit.y > 0 else ", offside"
        return f"inside, {along}{side}"
    side = side_of(sheet, kit.x, kit.y)
    if kit.x < sheet.body.front:
        return "outside, A-frame"
    return f"outside, {side}" if side in ("front", "rear") else f"outside, {side}, {along}"


def number_words(numbers: Sequence[int]) -> str:
    """Numbers as they read in a list, runs drawn together.

    >>> number_words([3, 4, 5, 9]), number_words([7]), number_words([1, 2])
    ('3–5, 9', '7', '1, 2')
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{r[0]}–{r[-1]}" if len(r) > _PAIR else ", ".join(map(str, r)) for r in runs)
