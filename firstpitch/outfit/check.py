"""Is this van legal and sound behind this car with this load? Every verdict, and what they rest on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstpitch.outfit.coupling import NoseBand, coupling_verdicts, nose_band
from firstpitch.outfit.departure import DepartureCheck, departure_checks
from firstpitch.outfit.law import SpeedLimit, law_verdicts, speed_limits
from firstpitch.outfit.limits import mass_verdicts
from firstpitch.outfit.masses import Laden, laden
from firstpitch.outfit.tyres import Pressure, pressure, tyre_verdicts
from firstpitch.outfit.verdict import Verdict, Word, worst
from firstpitch.outfit.wheels import Clamp, brake_verdict, clamps, wheel_verdict

if TYPE_CHECKING:
    from firstpitch.outfit.types import Outfit

CAUTION = (
    "These figures check what the sheets say. They replace neither the plates, the handbooks and the law of the road you "
    "drive on, nor a weighbridge, nor a qualified person's look at the outfit."
)


@dataclass(frozen=True)
class OutfitCheck:
    """The whole answer. ``word`` is the worst of the verdicts that bind; ``laden`` what the van weighs and where.

    ``band`` holds all that bears on the noseweight, ``speeds`` at home (first) and in the country of the journey.
    """

    word: Word
    verdicts: tuple[Verdict, ...]
    laden: Laden
    band: NoseBand
    speeds: tuple[SpeedLimit, ...]
    tyre_pressure: Pressure
    clamps: tuple[Clamp, ...]
    departure: tuple[DepartureCheck, ...]
    caution: str = CAUTION

    def verdict(self, key: str) -> Verdict:
        """The verdict with this id; KeyError when there is none."""
        for verdict in self.verdicts:
            if verdict.id == key:
                return verdict
        raise KeyError(key)

    @property
    def unknown(self) -> tuple[str, ...]:
        """Everything that keeps some verdict from being given, each once."""
        return tuple(dict.fromkeys(name for verdict in self.verdicts for name in verdict.unknown))


def check_outfit(outfit: Outfit) -> OutfitCheck:
    """Every verdict on an outfit. What the sheets lack is unknown, and a verdict that needs it cannot be given."""
    van = laden(outfit)
    verdicts = (
        *mass_verdicts(outfit, van),
        *coupling_verdicts(outfit, van),
        *law_verdicts(outfit),
        *tyre_verdicts(outfit, van),
        wheel_verdict(outfit),
        brake_verdict(outfit),
    )
    torque = outfit.van.gear.tyre.wheel_torque
    countries = dict.fromkeys(("GB", outfit.journey.country))
    return OutfitCheck(
        word=worst([verdict.word for verdict in verdicts if verdict.binding]),
        verdicts=verdicts,
        laden=van,
        band=nose_band(outfit, van.mass.middle if van.mass.bounded else van.mass.low),
        speeds=tuple(limit for country in countries for limit in speed_limits(country)),
        tyre_pressure=pressure(outfit, van),
        clamps=clamps(torque) if torque is not None else (),
        departure=departure_checks(outfit, van),
    )
