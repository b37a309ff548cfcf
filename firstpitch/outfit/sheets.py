"""Reading car, load and stow sheets, with every fault named by file, line and field."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, cast

from firstpitch.outfit.forms import CAR_SHEET, LOAD_SHEET, MOST_PIECES, SIZE_CLASSES, STOW_SHEET
from firstpitch.outfit.types import Car, CarAxle, Driver, Journey, Load, LoadItem, Placed, Reach, Readings, Stow, Towbar
from firstpitch.sheet.errors import quoted
from firstpitch.sheet.faults import either, nearest
from firstpitch.sheet.reading import Draft, Reading, read_file, read_text, sure
from firstpitch.sheet.types import Quantity

if TYPE_CHECKING:
    from firstpitch.catalogue.types import Kind
    from firstpitch.sheet.types import BuildSheet

Kinds = Mapping[str, "Kind"]


@dataclass(frozen=True)
class CarSheet:
    """A car with its driver and journey; ``unknown`` names each figure that is missing, as a dotted field."""

    car: Car
    driver: Driver
    journey: Journey
    unknown: tuple[str, ...]


def read_car(path: Path | str, *, today: date) -> CarSheet:
    """The car sheet in a file. Raises SheetError with one sentence for each fault; a missing figure is None."""
    return _car_sheet(read_file(path, CAR_SHEET, today))


def read_car_text(text: str, *, today: date, file: str = "the car sheet") -> CarSheet:
    """The car sheet in a text; otherwise as ``read_car``."""
    return _car_sheet(read_text(text, CAR_SHEET, today, file))


def _car_sheet(draft: Draft) -> CarSheet:
    _check_car(draft)
    draft.stop()
    top = draft.top
    car, towbar = top.section("car"), top.section("towbar")
    driver, journey = top.section("driver"), top.section("journey")
    return CarSheet(
        Car(
            name=sure(car.text("name")),
            kerb_mass=car.si("kerb_mass"),
            kerb_includes=car.text("kerb_includes"),
            aboard=car.si("aboard"),
            laden_mass=car.si("laden_mass"),
            gross_vehicle_mass=car.si("gross_vehicle_mass"),
            gross_train_mass=car.si("gross_train_mass"),
            towing_limit=car.si("towing_limit"),
            noseweight_limit=car.si("noseweight_limit"),
            towbar=Towbar(towbar.si("noseweight_limit"), towbar.si("d_value")),
            wheelbase=car.si("wheelbase"),
            overhang=car.si("overhang"),
            front=_axle(top.section("front_axle")),
            rear=_axle(top.section("rear_axle")),
            rear_allowance=car.si("rear_allowance"),
            anti_lock=car.yes("anti_lock"),
        ),
        Driver(driver.text("licence"), driver.text("issued_in"), driver.day("test_passed")),
        Journey(
            journey.day("date"),
            journey.text("country"),
            journey.yes("stabiliser"),
            journey.yes("dampers"),
            journey.si("ball_raise"),
            journey.si("axle_stiffness"),
        ),
        tuple(draft.unknown),
    )


def _axle(axle: Reading) -> CarAxle:
    return CarAxle(axle.si("load"), axle.si("limit"), axle.count("load_index"))


def _check_car(draft: Draft) -> None:
    """Masses that cannot all be true."""
    car = draft.top.section("car")
    for low, high, sentence in (
        ("kerb_mass", "gross_vehicle_mass", "the gross vehicle mass {high} is below the kerb mass {low}"),
        ("gross_vehicle_mass", "gross_train_mass", "the gross train mass {high} is below the gross vehicle mass {low}"),
        ("kerb_mass", "laden_mass", "the laden mass {high} is below the kerb mass {low}"),
    ):
        least, most = car.quantity(low), car.quantity(high)
        if least and most and most.si < least.si:
            words = sentence.format(high=quoted(most.written), low=quoted(least.written))
            draft.faults.add(car.line(high), car.field(high), f"{words} (car.{low}); check both")


def read_load(path: Path | str, van: BuildSheet, kinds: Kinds, *, today: date) -> Load:
    """The load sheet in a file, checked against a van's lockers and tanks. Raises SheetError with every fault."""
    return _load(read_file(path, LOAD_SHEET, today), van, kinds)


def read_load_text(text: str, van: BuildSheet, kinds: Kinds, *, today: date, file: str = "the load sheet") -> Load:
    """The load sheet in a text; otherwise as ``read_load``."""
    return _load(read_text(text, LOAD_SHEET, today, file), van, kinds)


def _load(draft: Draft, van: BuildSheet, kinds: Kinds) -> Load:
    top = draft.top
    lockers = tuple(locker.id for locker in van.plan.lockers)
    items = tuple(_item(draft, reading, lockers) for reading in top.sections("items"))
    water = _water(draft, van, kinds)
    _unique(draft, top.sections("items"), "id", "thing")
    pieces = sum(item.number for item in items if item)
    if pieces > MOST_PIECES:
        sentence = (
            f"{pieces:,} pieces stand here, but a load has at most {MOST_PIECES:,}; put small things together in boxes"
        )
        draft.faults.add(top.line("items"), "items", sentence)
    readings = top.section("readings")
    axles = readings.row("axles") or ()
    if axles and len(axles) != len(van.gear.axles):
        sentence = (
            f"{len(axles)} axle loads stand here, but this van has {len(van.gear.axles)}; write one for each axle"
        )
        draft.faults.add(readings.line("axles"), readings.field("axles"), sentence)
    draft.stop()
    return Load(
        name=sure(top.section("load").text("name")),
        items=tuple(item for item in items if item),
        water=MappingProxyType(water),
        readings=Readings(readings.si("mass"), readings.si("noseweight"), axles, readings.si("brake_force")),
    )


def _item(draft: Draft, reading: Reading, lockers: tuple[str, ...]) -> LoadItem | None:
    size, named = reading.row("size"), reading.text("size_class")
    sized, classed = "size" in reading.lines, "size_class" in reading.lines
    if sized == classed and reading.lines:
        sentence = (
            "size and size class are both given; keep one of them"
            if sized
            else "neither size nor size class is given; write one of them, for example “size_class: medium”"
        )
        draft.faults.add(reading.begins, reading.at, sentence)
    places = {name: _ids(reading.text(name)) for name in ("only_in", "never_in", "fixed")}
    for name, found in places.items():
        for unknown in (locker for locker in found if locker not in lockers):
            known = either(lockers, 20) if lockers else "none: the van has no lockers"
            sentence = f"the van has no locker {quoted(unknown)}{nearest(unknown, lockers)}; its lockers are {known}"
            draft.faults.add(reading.line(name), reading.field(name), sentence)
    both = set(places["fixed"] or places["only_in"]) & set(places["never_in"])
    for locker in sorted(both):
        sentence = f"{quoted(locker)} is both wanted and forbidden for this thing; keep one of the two"
        draft.faults.add(reading.line("never_in"), reading.field("never_in"), sentence)
    mass = reading.si("mass")
    if mass is None or (size is None and named is None):
        return None
    return LoadItem(
        id=reading.text("id") or "",
        name=reading.text("name") or "",
        mass=mass,
        size=cast("tuple[float, float, float]", size) if size else SIZE_CLASSES[named or "medium"],
        number=reading.count("number") or 1,
        reach=cast("Reach", reading.text("reach") or "any"),
        upright=bool(reading.yes("upright")),
        needed=bool(reading.yes("needed")),
        only_in=places["only_in"],
        never_in=places["never_in"],
        fixed=places["fixed"][0] if places["fixed"] else None,
    )


def _ids(text: str | None) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",")) if text else ()


def _unique(draft: Draft, readings: tuple[Reading, ...], key: str, what: str) -> None:
    seen: dict[str, int] = {}
    for reading in readings:
        found = reading.text(key)
        if found and found in seen:
            sentence = (
                f"the {key} {quoted(found)} is taken by the {what} on line {seen[found]}; give each an {key} of its own"
            )
            draft.faults.add(reading.line(key), reading.field(key), sentence)
        elif found:
            seen[found] = reading.line(key)


def _water(draft: Draft, van: BuildSheet, kinds: Kinds) -> dict[str, float]:
    """Water by kit id; a tank must hold water by its kind, and no more than its figure says."""
    capacity = {kit.id: facts for kit in van.kit if (facts := _holds(kit.facts, kinds.get(kit.kind))) is not None}
    found: dict[str, float] = {}
    for reading in draft.top.sections("water"):
        kit, volume = reading.text("kit"), reading.quantity("volume")
        if kit and kit not in capacity:
            known = either(capacity, 20) if capacity else "none on this van"
            sentence = f"no kit {quoted(kit)} of this van holds water on the road{nearest(kit, capacity)}; those that do are {known}"
            draft.faults.add(reading.line("kit"), reading.field("kit"), sentence)
        elif kit and volume:
            most = capacity[kit]
            if isinstance(most, Quantity) and volume.si > most.si * (1 + 1e-9):
                sentence = f"{quoted(volume.written)} is more than it holds ({most.written} on the build sheet)"
                draft.faults.add(reading.line("volume"), reading.field("volume"), f"{sentence}; write at most that")
            found[kit] = volume.si
    _unique(draft, draft.top.sections("water"), "kit", "water")
    return found


def _holds(facts: Mapping[str, object], kind: Kind | None) -> object | None:
    """The capacity of kit that holds water: the fact, ``unknown`` where the sheet lacks it, None where it holds none."""
    holding = [use.fact for use in kind.water if use.role == "holds"] if kind else []
    return (facts.get(holding[0]) or "unknown") if holding else None


def read_stow(path: Path | str, load: Load, van: BuildSheet, *, today: date) -> Stow:
    """The stow sheet in a file: today's stow of ``load`` in ``van``. Raises SheetError with every fault."""
    return _stow(read_file(path, STOW_SHEET, today), load, van)


def read_stow_text(text: str, load: Load, van: BuildSheet, *, today: date, file: str = "the stow sheet") -> Stow:
    """The stow sheet in a text; otherwise as ``read_stow``."""
    return _stow(read_text(text, STOW_SHEET, today, file), load, van)


def _stow(draft: Draft, load: Load, van: BuildSheet) -> Stow:
    numbers = {item.id: item.number for item in load.items}
    lockers = [locker.id for locker in van.plan.lockers]
    placed: list[Placed] = []
    used: Counter[str] = Counter()
    for reading in draft.top.sections("stow"):
        item, locker, number = reading.text("item"), reading.text("locker"), reading.count("number") or 1
        if item and item not in numbers:
            sentence = f"the load has no item {quoted(item)}{nearest(item, numbers)}; use an id of the load sheet"
            draft.faults.add(reading.line("item"), reading.field("item"), sentence)
            continue
        if locker and locker not in lockers:
            sentence = f"the van has no locker {quoted(locker)}{nearest(locker, lockers)}; its lockers are {either(lockers, 20)}"
            draft.faults.add(reading.line("locker"), reading.field("locker"), sentence)
            continue
        if item and locker:
            used[item] += number
            placed.append(Placed(item, locker, number))
            if used[item] > numbers[item]:
                sentence = (
                    f"{used[item]} of {quoted(item)} are stowed, but the load has {numbers[item]}; check the numbers"
                )
                draft.faults.add(reading.line("number"), reading.field("number"), sentence)
    draft.stop()
    return Stow(tuple(placed))


def stow_text(stow: Stow) -> str:
    """A stow as the text of a stow sheet, to be read again by ``read_stow``."""
    rows = [f"  - {{ item: {p.item}, locker: {p.locker}, number: {p.number} }}" for p in stow.placed]
    return "\n".join(["firstpitch: 1", "stow:" if rows else "stow: []", *rows, ""])
