"""Which thing may go into which locker, and why not."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from firstpitch.outfit.types import LoadItem
    from firstpitch.sheet.types import Locker

PACKING = 0.8
"""Share of a locker's space that things of many shapes can fill: our choice, common practice without a source."""

GRACE = 0.001  # m: a tape is not read finer

Box = tuple[float, float, float]


def fits_in(item: Box, space: Box, *, upright: bool = False) -> bool:
    """Whether a box (long, wide, high) [m] goes into a space square-on; ``upright`` forbids tipping it.

    >>> fits_in((1.2, 0.2, 0.2), (0.4, 0.4, 1.3)), fits_in((1.2, 0.2, 0.2), (0.4, 0.4, 1.3), upright=True)
    (True, False)
    """
    if upright:
        pairs = [*zip(sorted(item[:2]), sorted(space[:2]), strict=True), (item[2], space[2])]
    else:
        pairs = list(zip(sorted(item), sorted(space), strict=True))
    return all(need <= room + GRACE for need, room in pairs)


def usable_volume(locker: Locker) -> float:
    """The space of a locker that can be filled [m³]."""
    along, across, up = locker.size
    return along * across * up * PACKING


def why_not(item: LoadItem, locker: Locker) -> str:
    """Why an item may not be in a locker, as the end of a sentence; nothing when it may.

    A locker whose limit is unknown is refused: nobody can say what it bears.
    """
    if item.fixed is not None and item.fixed != locker.id:
        return "it has a fixed place elsewhere"
    if item.only_in and locker.id not in item.only_in:
        return "it belongs in another locker"
    if locker.id in item.never_in:
        return "it must never be there"
    if item.reach == "outside" and locker.inside:
        return "it must be reached from outside"
    if item.reach == "inside" and not locker.inside:
        return "it must be reached from inside"
    if not fits_in(item.size, locker.size, upright=item.upright):
        return "it is too big for that locker" + (" standing upright" if item.upright else "")
    if item.volume > usable_volume(locker):
        return "it needs more room than that locker has"
    if locker.limit is None:
        return "that locker's limit is not on the build sheet"
    if item.mass > locker.limit:
        return f"it is heavier than that locker's limit of {locker.limit:g} kg"
    return ""


def lockers_for(item: LoadItem, lockers: tuple[Locker, ...]) -> tuple[Locker, ...]:
    """The lockers an item may be in."""
    return tuple(locker for locker in lockers if not why_not(item, locker))
