"""Why not everything goes in: which limit by itself keeps it out, and by how much it would have to give."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.outfit.stow.evaluate import kilos
from firstpitch.outfit.stow.program import Group, solve

if TYPE_CHECKING:
    from firstpitch.outfit.stow.problem import StowProblem

LITRES = 1000


@dataclass(frozen=True)
class WayOut:
    """One thing that would let everything go along: what sort of thing, how much of it [kg, for room m³], in a sentence."""

    sort: str
    amount: float
    sentence: str


def ways_out(problem: StowProblem, *, seconds: float = 3.0) -> tuple[tuple[WayOut, ...], tuple[str, ...]]:
    """The limits that by themselves keep the load out, each with how far it would have to give, and their names."""
    found: list[WayOut] = []
    holds_up: list[str] = []
    for group, name in _GROUPS.items():
        if not _applies(problem, group):
            continue
        solved = solve(problem, loosen=group, seconds=seconds)
        if solved.counts is not None and solved.over > 0:
            found.append(WayOut(group, solved.over, _sentence(problem, group, solved.over)))
            holds_up.append(name)
    return tuple(sorted(found, key=lambda way: (way.sort == "locker-room", way.amount))), tuple(holds_up)


_GROUPS: dict[Group, str] = {
    "mtplm": "the greatest laden mass",
    "nose-most": "the noseweight limit",
    "nose-least": "the least noseweight",
    "axle": "the axle limit",
    "locker-mass": "the lockers' limits",
    "locker-room": "the lockers' room",
    "no-limit": "lockers whose limit is unknown",
}


def _applies(problem: StowProblem, group: Group) -> bool:
    if group == "no-limit":
        return bool(problem.no_limit)
    if group == "nose-most":
        return problem.band.ruling is not None
    return bool(problem.axles) if group == "axle" else True


def _sentence(problem: StowProblem, group: Group, over: float) -> str:
    ruling = problem.band.ruling or 0.0
    part = next((one.part for one in problem.band.limits if one.limit == problem.band.ruling), "the outfit")
    rated = f"Fit parts rated for a noseweight of {kilos(ruling + over)} or more: now {part} allows {kilos(ruling)}."
    return {
        "mtplm": f"Have the greatest laden mass raised by {kilos(over)}, if the maker allows it.",
        "nose-most": rated,
        "nose-least": f"Take {kilos(over)} more weight on the ball: load or equipment further forward.",
        "axle": f"Have the axle limit raised by {kilos(over)}, if the maker allows it.",
        "locker-mass": f"Find places that bear {kilos(over)} more than the lockers do.",
        "locker-room": f"Find {over * LITRES:.0f} litres more room, or pack things smaller.",
        "no-limit": f"Find out what {', '.join(problem.no_limit)} may hold: {kilos(over)} would have to go there.",
    }[group]
