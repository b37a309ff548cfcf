"""What a branch may choose among guidelines: habits and good practice, never law."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Literal, cast, get_args

from firstpitch.desk.models import Branch

TowedMass = Literal["mtplm", "actual", "axle"]
TOWED_MASS: Mapping[str, str] = MappingProxyType(
    {
        "mtplm": "The plated greatest mass (MTPLM): the safe side, whatever is loaded",
        "actual": "The mass as loaded on the day",
        "axle": "The load on the caravan's own axle, as loaded on the day",
    }
)


@dataclass(frozen=True)
class Guidelines:
    """The choices. ``towed_mass``: what is held against the car's towing limit; ``newcomers``: whether the 85 % guideline is shown."""

    towed_mass: TowedMass = "mtplm"
    newcomers: bool = True

    def stored(self) -> dict[str, Any]:
        """As kept with the branch."""
        return {"towed_mass": self.towed_mass, "newcomers": self.newcomers}


def guidelines_of(branch: Branch) -> Guidelines:
    """The branch's choices; the careful ones where it has made none."""
    kept = branch.choices
    towed = kept.get("towed_mass")
    return Guidelines(
        towed_mass=cast("TowedMass", towed) if towed in get_args(TowedMass) else "mtplm",
        newcomers=bool(kept.get("newcomers", True)),
    )
