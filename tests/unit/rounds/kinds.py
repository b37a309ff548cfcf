"""Small kinds and a small van, built by hand, for tests of how the catalogue becomes a problem.

The van's body runs from x = 1.5 to 6.5 m and is 2.2 m wide; the door is at x = 4 on the nearside; the aisle runs from 2 to 6 m.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstpitch.catalogue.types import (
    Catalogue,
    Condition,
    Duration,
    FilmWords,
    GuardSpec,
    Kind,
    Needed,
    OwnerCard,
    Ref,
    StepSpec,
    SupplyRef,
    SupplySpec,
    WaitSpec,
)
from firstpitch.rounds import Problem, RoundOptions, build_problem
from firstpitch.sheet import BuildSheet, Kit, Quantity, resolve_links
from firstpitch.sheet.types import (
    Body,
    Door,
    FactSpec,
    FactValue,
    Identity,
    Insulation,
    LinkSpec,
    Masses,
    RunningGear,
    Tyre,
    VanPlan,
)

BOTH = ("handover", "film")


def line(text: str) -> Needed:
    """One line as the catalogue writes it: ``self.valve = open|half``, ``mover?.rollers = off`` or ``supply gas``."""
    if text.startswith("supply "):
        return SupplyRef(text.removeprefix("supply "))
    left, _, values = text.partition(" = ")
    owner, _, name = left.partition(".")
    return Ref(owner.removesuffix("?"), name, tuple(values.split("|")), optional=owner.endswith("?"))


def lines(*texts: str) -> tuple[Any, ...]:
    """Several lines."""
    return tuple(line(t) for t in texts)


def spec(name: str = "show", **parts: Any) -> StepSpec:
    """A step of a kind: five words and 8 s of handling, a must in both modes, unless told otherwise."""
    given: dict[str, Any] = {
        "title": name.capitalize(),
        "at": "self",
        "level": "must",
        "worth": 0,
        "say": "one two three four five",
        "points": (),
        "hands": 8.0,
        "owner_try": 0.0,
        "modes": BOTH,
        "per": "kit",
        "starts": (),
        "awaits": (),
    }
    asked = {"requires": lines(*parts.pop("requires", ())), "sets": lines(*parts.pop("sets", ()))}
    return StepSpec(id=name, **{**given, **asked, **parts})


def wait_spec(
    name: str, *, by: str = "fixed", sustains: tuple[str, ...] = (), sets: tuple[str, ...] = (), **terms: Any
) -> WaitSpec:
    """A wait of a kind, of 60 s unless told otherwise."""
    return WaitSpec(name, name.capitalize(), Duration(by, terms or {"seconds": 60.0}), lines(*sustains), lines(*sets))


def condition(name: str, *values: str, hook_up: str = "") -> Condition:
    """A condition that starts with its first value from store and with ``hook_up`` (or the same) on hook-up."""
    return Condition(
        name, name.replace("_", " "), values, {"from-store": values[0], "on-hook-up": hook_up or values[0]}
    )


def guard_spec(name: str, *never: str) -> GuardSpec:
    """A guard of a kind."""
    return GuardSpec(name, lines(*never), f"The {name} is harmed.", "common practice, no source")


def supply(name: str, role: str, *when: str, rank: int = 1) -> SupplySpec:
    """A source of or gate on a supply."""
    return SupplySpec(name, role, rank, lines(*when))  # type: ignore[arg-type]


def kind(key: str, *steps: StepSpec, stands: str = "outside", **parts: Any) -> Kind:
    """A kind with these steps (one plain one if none are given)."""
    given: dict[str, Any] = {
        "title": key.replace("_", " ").capitalize(),
        "about": "",
        "group": "round",
        "topic": "water",
        "max": None,
        "facts": {},
        "links": {},
        "supplies": (),
        "guards": (),
        "cautions": (),
        "inspection": (),
        "energy": (),
        "water": (),
        "start_up": (),
        "card": OwnerCard("", (), (), (), (), (), (), ()),
        "film": FilmWords((), {}),
        "file": f"{key}.toml",
    }
    named = {
        "conditions": {c.name: c for c in parts.pop("conditions", ())},
        "waits": {w.id: w for w in parts.pop("waits", ())},
        "finish": {when: lines(*parts.pop(when, ())) for when in ("always", "drained", "kept")},
    }
    return Kind(key=key, steps=steps or (spec(),), stands=stands, **{**given, **named, **parts})  # type: ignore[arg-type]


def link(name: str, *kinds: str, need: str = "must", every: bool = False) -> LinkSpec:
    """A link of a kind."""
    return LinkSpec(name, kinds, need, every)  # type: ignore[arg-type]


def fact(name: str, unit: str) -> FactSpec:
    """A quantity that a kit of this kind carries."""
    return FactSpec(name, name.replace("_", " "), "quantity", unit)


def kit(
    name: str,
    of: str,
    x: float = 2.0,
    y: float = 1.0,
    *,
    facts: Mapping[str, FactValue] | None = None,
    links: Mapping[str, str] | None = None,
) -> Kit:
    """One kit at (x, y)."""
    return Kit(name, of, name.replace("-", " ").capitalize(), x, y, None, facts or {}, links or {})


def litres(number: float) -> Quantity:
    """A volume."""
    return Quantity(number / 1000, "m**3", f"{number} l")


BODY = Body(1.5, 5.0, 2.2, 2.5, None, None, None, 4, Insulation())
TYRE = Tyre(None, None, None, None, None, None, None, None, 2)
PLAN = VanPlan(Door("nearside", 4.0, 0.6, 0.4), ((2.0, 0.0), (6.0, 0.0)), (), ())


def sheet(*kits: Kit, cold_water: float | None = None) -> BuildSheet:
    """The small van with this kit."""
    return BuildSheet(
        Identity("Sandpiper", None, None, None, None, None),
        Masses(1200.0, 1500.0, None, None, None, None),
        BODY,
        RunningGear((4.2,), None, None, TYRE),
        PLAN,
        kits,
        cold_water,
    )


def catalogue(*kinds: Kind, van: Kind | None = None) -> Catalogue:
    """These kinds and the one every van has."""
    whole = van or kind("van", spec("welcome"), links={})
    return Catalogue({k.key: k for k in (*kinds, whole)})


def problem_of(of: Catalogue, *kits: Kit, cold_water: float | None = None, **options: Any) -> Problem:
    """The problem of the small van with this kit."""
    van = sheet(*kits, cold_water=cold_water)
    return build_problem(van, of, resolve_links(van.kit, of.kinds).filled, RoundOptions(**options))
