"""What to look at before driving off, each line with its source. A list to work through, not a verdict."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.figures import Figure, get
from firstpitch.outfit.tyres import pressure
from firstpitch.outfit.verdict import shown

if TYPE_CHECKING:
    from firstpitch.outfit.masses import Laden
    from firstpitch.outfit.types import Outfit


@dataclass(frozen=True)
class DepartureCheck:
    """One line of the list with the published figures in it."""

    id: str
    text: str
    figures: tuple[Figure, ...]

    @property
    def source(self) -> str:
        """Where it comes from."""
        return "; ".join(dict.fromkeys(figure.credit for figure in self.figures))


def departure_checks(outfit: Outfit, laden: Laden) -> tuple[DepartureCheck, ...]:
    """The list for this outfit."""
    torque = outfit.van.gear.tyre.wheel_torque
    nuts = (
        f"tightened to {shown(torque, 'N·m')}"
        if torque is not None
        else "tightened to the plate's or handbook's figure"
    )
    return (
        _check(
            "hitch",
            "Hitch locked on the ball, its marker says so, and it does not lift off when you try.",
            "practice_hitch",
        ),
        _check("breakaway", _BREAKAWAY, "breakaway"),
        _check(
            "electrics",
            "13-pin plug pushed home and turned; indicators, brake, tail and number-plate lights tried.",
            "electrics",
        ),
        _check("mirrors", _mirrors(), "mirror_out", "mirror_behind", "mirror_reach", "mirror_reach_unmarked"),
        _check("plate", "The car's registration is on the back of the caravan.", "number_plate"),
        _check("level", "The outfit stands level or slightly nose-down.", "level"),
        _check("load", "Heavy things low and by the axle, nothing loose, lockers and doors shut.", "loading"),
        DepartureCheck("tyres", _tyres(outfit, laden), (get("tyres.tread"),)),
        DepartureCheck(
            "wheels",
            f"Wheel fixings {nuts}; check again after {get('wheels.recheck').written}s.",
            (get("wheels.recheck"),),
        ),
        _check("brake", "Jockey wheel up and clamped, steadies up, handbrake off.", "practice_hitch"),
    )


_BREAKAWAY = (
    "Breakaway cable on its designated point; if the car has none, one loop round the neck of a fixed ball, and for a "
    "detachable ball ask the towbar's maker. Slack enough to turn, never dragging."
)


def _check(key: str, text: str, *figures: str) -> DepartureCheck:
    return DepartureCheck(key, text, tuple(get(f"towing.{figure}") for figure in figures))


def _mirrors() -> str:
    out, behind = get("towing.mirror_out").written, get("towing.mirror_behind").written
    marked, unmarked = get("towing.mirror_reach").written, get("towing.mirror_reach_unmarked").written
    return (
        f"Mirrors show both sides of the caravan and {out} out on each side, {behind} behind the driver. They reach no more than "
        f"{marked} beyond the widest part ({unmarked} without the E mark)."
    )


def _tyres(outfit: Outfit, laden: Laden) -> str:
    tread = get("tyres.tread").written
    return f"{pressure(outfit, laden).sentence} Tread at least {tread} over the middle three quarters all round; no cuts or bulges."
