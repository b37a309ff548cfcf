"""A small good sheet, a few invented kinds, and a way to change one thing and see what the reader says."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date

import pytest

from firstpitch.sheet import BuildSheet, SheetError, read_sheet_text
from firstpitch.sheet.types import FactSpec, LinkSpec

TODAY = date(2026, 5, 1)


@dataclass(frozen=True)
class FakeKind:
    """As much of a kind as the sheet looks at."""

    title: str
    facts: Mapping[str, FactSpec] = field(default_factory=dict)
    links: Mapping[str, LinkSpec] = field(default_factory=dict)
    max: int | None = None


KINDS: Mapping[str, FakeKind] = {
    "urn": FakeKind(
        "Tea urn",
        {
            "capacity": FactSpec("capacity", "water it holds", "quantity", "l", "must", (), 2, 60),
            "power": FactSpec("power", "mains power", "quantity", "W"),
            "fuel": FactSpec("fuel", "what it burns", "choice", "", "may", ("butane", "propane")),
            "taps": FactSpec("taps", "number of taps", "count", "", "may", (), 1, 4),
            "checked": FactSpec("checked", "day it was checked", "date", "", "may", (), None, 0),
            "lit": FactSpec("lit", "whether it has a lamp", "yes-no", "", "may"),
            "badge": FactSpec("badge", "what its badge says", "text", "", "may"),
            "chill": FactSpec("chill", "coldest setting", "quantity", "degC", "may"),
        },
        {
            "chimney": LinkSpec("chimney", ("chimney",)),
            "stand": LinkSpec("stand", ("tripod", "shelf"), "may"),
            "hooks": LinkSpec("hooks", ("hook",), "may", every=True),
        },
        max=1,
    ),
    "chimney": FakeKind("Chimney"),
    "tripod": FakeKind("Tripod"),
    "shelf": FakeKind("Shelf"),
    "hook": FakeKind("Hook"),
    "van": FakeKind("The whole van"),
}

GOOD = """\
firstpitch: 1
van:
  name: Fernhill Two
  chassis_number: XXF24BN2026000117
  model_year: 2026
  built: 2026-02-17
  dealer: Hollowbridge Caravans
  contact: Workshop desk, 01632 960117
cold_water: 10 °C
masses:
  miro: 1065 kg
  mtplm: 1250 kg
  noseweight_limit: 100 kg
  axle_limit: 1300 kg
  measured_mass: 1082 kg
  measured_noseweight: 71 kg
body:
  front: 1.25 m
  length: 4.60 m
  width: 2.20 m
  height: 2.60 m
  headroom: 1.95 m
  floor_area: 9.2 m2
  window_area: 2.1 m²
  berths: 2
  insulation: {wall: 1.1 W/m2K, roof: 0.9 W/m2K, floor: 0.9 W/m2K, window: 2.8 W/m²K}
running_gear:
  axles: [3.85 m]
  equalised: no
  track: 2.00 m
  tyre:
    per_axle: 2
    size: 185/65 R14
    load_index: 93
    speed_symbol: N
    date_code: "3525"
    pressure: 44 psi
    reference_pressure: 3.4 bar
    wheel_torque: 88 N·m
    wheel_material: steel
plan:
  door: {side: nearside, at: 4.70 m, width: 0.60 m, step_up: 0.40 m}
  aisle:
    - [2.60 m, 0 m]
    - [4.70 m, 0 m]
  lockers:
    - id: front-locker
      name: Front locker
      at: [1.50 m, 0 m]
      height: 0.45 m
      size: [0.45 m, 1.50 m, 0.60 m]
      limit: 40 kg
      inside: no
    - id: bed-box
      name: Box under the bed
      at: [3.00 m, 0.60 m]
      height: 0.50 m
      size: [1.50 m, 0.60 m, 0.40 m]
      limit: 50 kg
      inside: yes
  furniture:
    - name: Front lounge
      from: [1.80 m, -1.05 m]
      to: [3.20 m, 1.05 m]
kit:
  - id: urn
    kind: urn
    name: Tea urn
    at: [3.10 m, -0.85 m]
    height: 0.55 m
    facts:
      capacity: 10 l
      power: 850 W
      fuel: propane
      taps: 2
      checked: 2026-04-30
      lit: yes
      badge: "No. 7"
      chill: -5 °C
    note: The switch is inside the wardrobe.
  - id: chimney
    kind: chimney
    name: Chimney
    at: [3.10 m, -1.10 m]
    height: 1.20 m
"""

Read = Callable[..., BuildSheet]


@pytest.fixture(name="read")
def reading() -> Read:
    """Read the good sheet with texts replaced: ``read(("old", "new"), ...)``."""

    def read(*changes: tuple[str, str]) -> BuildSheet:
        return read_sheet_text(changed(*changes), KINDS, today=TODAY, file="van.yaml")

    return read


@pytest.fixture(name="faults")
def finding() -> Callable[..., list[str]]:
    """The sentences the reader gives for the good sheet with texts replaced; none when it is still good."""

    def faults(*changes: tuple[str, str]) -> list[str]:
        return faults_of(changed(*changes))

    return faults


def changed(*changes: tuple[str, str]) -> str:
    """The good sheet with each ``old`` replaced by ``new``; ``old`` must stand in it exactly once."""
    text = GOOD
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def faults_of(text: str) -> list[str]:
    """The sentences the reader gives for a text."""
    try:
        read_sheet_text(text, KINDS, today=TODAY, file="van.yaml")
    except SheetError as fault:
        return fault.faults
    return []
