"""From a file to a ``BuildSheet``, or to every fault in it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Literal, cast

from firstpitch.sheet.checks import check
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.kit import Kinds, read_kit
from firstpitch.sheet.layout import BUILD_SHEET
from firstpitch.sheet.reading import Draft, Reading, read_file, read_text, read_tree, sure
from firstpitch.sheet.source import MapNode
from firstpitch.sheet.types import (
    Body,
    BuildSheet,
    Door,
    Furniture,
    Identity,
    Insulation,
    Kit,
    Locker,
    Masses,
    RunningGear,
    Side,
    Tyre,
    VanPlan,
)


def read_sheet(path: Path | str, kinds: Kinds, *, today: date) -> BuildSheet:
    """The build sheet in a file. ``kinds`` is what the catalogue knows; ``today`` bounds dates.

    Raises SheetError with one sentence for each fault: file, line, field, what was found, what is allowed, what to do.
    A figure the file lacks is None and named in ``unknown``.
    """
    return _finish(read_file(path, BUILD_SHEET, today), kinds)


def read_sheet_text(text: str, kinds: Kinds, *, today: date, file: str = "the sheet") -> BuildSheet:
    """The build sheet in a text; ``file`` is what messages call it. Otherwise as ``read_sheet``."""
    return _finish(read_text(text, BUILD_SHEET, today, file), kinds)


def read_sheet_tree(top: MapNode, kinds: Kinds, *, today: date, faults: Faults) -> BuildSheet:
    """The build sheet in a tree that was made from something else than YAML; ``faults`` may hold what was wrong with that.

    The line numbers of the tree come back in the faults. Otherwise as ``read_sheet``.
    """
    return _finish(read_tree(top, BUILD_SHEET, today, faults), kinds)


def _finish(draft: Draft, kinds: Kinds) -> BuildSheet:
    kit = read_kit(draft, kinds)
    check(draft)
    draft.stop()
    return _sheet(draft, kit)


def _sheet(draft: Draft, kit: tuple[Kit, ...]) -> BuildSheet:
    top = draft.top
    gear = _gear(top.section("running_gear"))
    single = {"running_gear.equalised"} if len(gear.axles) == 1 else set()
    return BuildSheet(
        identity=_identity(top.section("van")),
        masses=_masses(top.section("masses")),
        body=_body(top.section("body")),
        gear=gear,
        plan=_plan(top.section("plan")),
        kit=kit,
        cold_water=top.si("cold_water"),
        unknown=tuple(field for field in draft.unknown if field not in single),
    )


def _identity(van: Reading) -> Identity:
    chassis = van.text("chassis_number")
    return Identity(
        name=sure(van.text("name")),
        chassis_number=chassis.upper() if chassis else None,
        model_year=van.count("model_year"),
        built=van.day("built"),
        dealer=van.text("dealer"),
        contact=van.text("contact"),
    )


def _masses(masses: Reading) -> Masses:
    return Masses(
        miro=sure(masses.si("miro")),
        mtplm=sure(masses.si("mtplm")),
        noseweight_limit=masses.si("noseweight_limit"),
        axle_limit=masses.si("axle_limit"),
        measured_mass=masses.si("measured_mass"),
        measured_noseweight=masses.si("measured_noseweight"),
    )


def _body(body: Reading) -> Body:
    cover = body.section("insulation")
    return Body(
        front=sure(body.si("front")),
        length=sure(body.si("length")),
        width=sure(body.si("width")),
        height=sure(body.si("height")),
        headroom=body.si("headroom"),
        floor_area=body.si("floor_area"),
        window_area=body.si("window_area"),
        berths=sure(body.count("berths")),
        insulation=Insulation(cover.si("wall"), cover.si("roof"), cover.si("floor"), cover.si("window")),
    )


def _gear(gear: Reading) -> RunningGear:
    tyre = gear.section("tyre")
    return RunningGear(
        axles=sure(gear.row("axles")),
        equalised=gear.yes("equalised"),
        track=gear.si("track"),
        tyre=Tyre(
            size=tyre.text("size"),
            load_index=tyre.count("load_index"),
            speed_symbol=tyre.text("speed_symbol"),
            date_code=tyre.text("date_code"),
            pressure=tyre.si("pressure"),
            reference_pressure=tyre.si("reference_pressure"),
            wheel_torque=tyre.si("wheel_torque"),
            wheel_material=cast("Literal['steel', 'alloy'] | None", tyre.text("wheel_material")),
            per_axle=sure(tyre.count("per_axle")),
        ),
    )


def _plan(plan: Reading) -> VanPlan:
    door = plan.section("door")
    return VanPlan(
        door=Door(
            side=cast("Side", sure(door.text("side"))),
            at=sure(door.si("at")),
            width=sure(door.si("width")),
            step_up=sure(door.si("step_up")),
        ),
        aisle=tuple((point.si[0], point.si[1]) for point in plan.rows("aisle")),
        lockers=tuple(_locker(locker) for locker in plan.sections("lockers")),
        furniture=tuple(_piece(piece) for piece in plan.sections("furniture")),
    )


def _locker(locker: Reading) -> Locker:
    x, y = sure(locker.row("at"))
    along, across, up = sure(locker.row("size"))
    return Locker(
        id=sure(locker.text("id")),
        name=sure(locker.text("name")),
        x=x,
        y=y,
        z=sure(locker.si("height")),
        size=(along, across, up),
        limit=locker.si("limit"),
        inside=sure(locker.yes("inside")),
    )


def _piece(piece: Reading) -> Furniture:
    (x0, y0), (x1, y1) = sure(piece.row("from")), sure(piece.row("to"))
    return Furniture(sure(piece.text("name")), (x0, y0, x1, y1))
