"""The build sheet as the engines see it: frozen, SI inside, unknown is ``None``.

Axes: x runs rearwards from the towball [m], y from the centre line towards the nearside (the kerb side in
Britain, where the door is) [m], z up from the ground [m].
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Literal

FactType = Literal["quantity", "count", "text", "choice", "date", "yes-no"]
Side = Literal["nearside", "offside"]
Need = Literal["must", "may"]


@dataclass(frozen=True)
class Quantity:
    """A measured figure: ``si`` in ``unit`` (an SI unit, temperatures in kelvin), ``written`` as the sheet has it."""

    si: float
    unit: str
    written: str


FactValue = Quantity | int | str | date | bool


@dataclass(frozen=True)
class FactSpec:
    """What a kind says about one figure its kit carries.

    ``unit`` is the unit people write it in (for quantities); ``least`` and ``most`` bound it in that unit (for dates: in
    days from today, so ``most`` 0 refuses a date in the future). A quantity without ``least`` is never negative, save a temperature.
    ``need`` "must": when unknown it is reported together with what it blocks.
    """

    name: str
    what: str
    type: FactType
    unit: str = ""
    need: Need = "must"
    choices: tuple[str, ...] = ()
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True)
class LinkSpec:
    """A kit's tie to other kit on the same van, filled from the sheet or, where only one candidate exists, by itself.

    ``every`` means the link stands for all kit of those kinds (``four corner steadies``).
    """

    name: str
    kinds: tuple[str, ...]
    need: Need = "must"
    every: bool = False


@dataclass(frozen=True)
class LinkGap:
    """A link of a kit that nothing on the van fills. With ``need`` "must", what uses the link cannot be done on this van."""

    kit: str
    link: str
    kinds: tuple[str, ...]
    need: Need


@dataclass(frozen=True)
class Links:
    """Every kit's links: ``filled`` is kit id -> link -> ids of the kit that fills it, ``gaps`` the links that nothing fills."""

    filled: Mapping[str, Mapping[str, tuple[str, ...]]]
    gaps: tuple[LinkGap, ...]

    @property
    def must_gaps(self) -> tuple[LinkGap, ...]:
        """The gaps that keep steps from being done."""
        return tuple(gap for gap in self.gaps if gap.need == "must")


@dataclass(frozen=True)
class Kit:
    """One thing fitted to the van: its middle at ``x``, ``y``, ``z`` [m]. ``links`` holds only what the sheet says itself."""

    id: str
    kind: str
    name: str
    x: float
    y: float
    z: float | None
    facts: Mapping[str, FactValue]
    links: Mapping[str, str]
    note: str = ""


@dataclass(frozen=True)
class Insulation:
    """Heat transmission U of each surface [W/m²K]; None is unknown."""

    wall: float | None = None
    roof: float | None = None
    floor: float | None = None
    window: float | None = None


@dataclass(frozen=True)
class Body:
    """The body shell [m]: ``front`` is the towball-to-front-wall distance, ``length`` the body without the A-frame."""

    front: float
    length: float
    width: float
    height: float
    headroom: float | None
    floor_area: float | None
    window_area: float | None
    berths: int
    insulation: Insulation

    @property
    def rear(self) -> float:
        """x of the rear wall [m]."""
        return self.front + self.length


@dataclass(frozen=True)
class Masses:
    """Plated masses and limits [kg]; ``axle_limit`` is per axle."""

    miro: float
    mtplm: float
    noseweight_limit: float | None
    axle_limit: float | None
    measured_mass: float | None
    measured_noseweight: float | None


@dataclass(frozen=True)
class Tyre:
    """The tyres as plated: pressures [Pa], torque [N·m], ``date_code`` WWYY as moulded on the tyre."""

    size: str | None
    load_index: int | None
    speed_symbol: str | None
    date_code: str | None
    pressure: float | None
    reference_pressure: float | None
    wheel_torque: float | None
    wheel_material: Literal["steel", "alloy"] | None
    per_axle: int


@dataclass(frozen=True)
class RunningGear:
    """Axle positions (x, [m]) front to rear, suspension and tyres."""

    axles: tuple[float, ...]
    equalised: bool | None
    track: float | None
    tyre: Tyre


@dataclass(frozen=True)
class Door:
    """The entrance: ``at`` is the x of its middle [m], ``step_up`` the height to climb [m]."""

    side: Side
    at: float
    width: float
    step_up: float


@dataclass(frozen=True)
class Locker:
    """A place for load: ``x``, ``y`` is its middle seen from above and ``z`` the height of its floor [m].

    ``size`` is along x, along y, up [m]; ``limit`` [kg] None is unknown; ``inside`` whether it is reached from inside the van.
    """

    id: str
    name: str
    x: float
    y: float
    z: float
    size: tuple[float, float, float]
    limit: float | None
    inside: bool


@dataclass(frozen=True)
class Furniture:
    """A rectangle on the floor plan, for drawing: two opposite corners (x0, y0, x1, y1) [m]."""

    name: str
    corners: tuple[float, float, float, float]


@dataclass(frozen=True)
class VanPlan:
    """Floor plan: the door, the line a person walks inside, lockers and furniture."""

    door: Door
    aisle: tuple[tuple[float, float], ...]
    lockers: tuple[Locker, ...]
    furniture: tuple[Furniture, ...]


@dataclass(frozen=True)
class Identity:
    """Free text, the 17-character chassis number and dates."""

    name: str
    chassis_number: str | None
    model_year: int | None
    built: date | None
    dealer: str | None
    contact: str | None


@dataclass(frozen=True)
class BuildSheet:
    """One van as sold. ``unknown`` names each figure that is missing, as a dotted field."""

    identity: Identity
    masses: Masses
    body: Body
    gear: RunningGear
    plan: VanPlan
    kit: tuple[Kit, ...]
    cold_water: float | None = None
    unknown: tuple[str, ...] = ()

    def by_kind(self, *kinds: str) -> tuple[Kit, ...]:
        """Kit of any of these kinds, in sheet order."""
        return tuple(k for k in self.kit if k.kind in kinds)

    def kit_by_id(self) -> Mapping[str, Kit]:
        """Kit by its id."""
        return MappingProxyType({k.id: k for k in self.kit})
