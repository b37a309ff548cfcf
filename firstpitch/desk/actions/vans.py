"""Writes about vans."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db import IntegrityError, transaction

from firstpitch.desk.access import branch_of
from firstpitch.desk.actions.history import write
from firstpitch.desk.inputs import catalogue_of, lacks_of
from firstpitch.desk.models import Branch, Person, SheetBefore, Van
from firstpitch.sheet import BuildSheet, SheetError, read_sheet_text

_LONGEST_NAME = 120
_MOST_LINES = 60


class ChangedMeanwhileError(ValueError):
    """Somebody else changed the sheet after it was shown."""


@dataclass(frozen=True)
class _Taken:
    """A sheet that was read without fault, and what is kept beside it."""

    read: BuildSheet
    kept: dict[str, Any]


def _take(branch: Branch, sheet: str, today: date) -> _Taken:
    catalogue = catalogue_of(branch)
    read = read_sheet_text(sheet, catalogue.kinds, today=today)
    kinds = " ".join(sorted({kit.kind for kit in read.kit}))
    kept = {
        "name": read.identity.name[:_LONGEST_NAME],
        "chassis_number": read.identity.chassis_number or "",
        "kinds": f" {kinds} ",
        "lacks": lacks_of(read, catalogue).stored(),
        "sheet": sheet,
    }
    return _Taken(read, kept)


def _refuse_twin(branch: Branch, chassis_number: str, but: int | None = None) -> None:
    alike = Van.objects.filter(branch=branch, chassis_number=chassis_number) if chassis_number else Van.objects.none()
    twin = (alike if but is None else alike.exclude(pk=but)).first()
    if twin:
        raise SheetError(
            f"the sheet, van.chassis_number: {twin.name} has the chassis number {chassis_number} already; "
            "check the number, or open that van."
        )


@transaction.atomic
def add_van(*, by: Person, sheet: str, stock_number: str = "", today: date) -> Van:
    """Take a van in from its build sheet. SheetError, and nothing added, when the sheet has a fault."""
    branch = branch_of(by)
    taken = _take(branch, sheet, today)
    _refuse_twin(branch, taken.kept["chassis_number"])
    try:
        with transaction.atomic():
            van = Van.objects.create(branch=branch, stock_number=stock_number, **taken.kept)
    except IntegrityError:  # somebody took the same van in at the same moment
        _refuse_twin(branch, taken.kept["chassis_number"])
        raise
    write(by=by, van=van, what="van.added", data={"name": van.name, "version": van.version})
    return van


def change_sheet(
    *, by: Person, van: Van, sheet: str, today: date, why: str = "", seen_version: int | None = None
) -> BuildSheet:
    """Replace a van's build sheet; the sheet before is kept. SheetError, and nothing changed, when it has a fault.

    ``seen_version``: the version the new text was made from; ChangedMeanwhileError when the sheet is at another by now.
    """
    return edit_sheet(by=by, van=van, edit=lambda _: sheet, today=today, why=why, seen_version=seen_version)


@transaction.atomic
def edit_sheet(
    *,
    by: Person,
    van: Van,
    edit: Callable[[str], str],
    today: date,
    why: str = "",
    seen_version: int | None = None,
    data: dict[str, Any] | None = None,
) -> BuildSheet:
    """Change a van's sheet by ``edit``, which gets the text as it stands now; otherwise as ``change_sheet``."""
    van = Van.objects.select_for_update(of=("self",)).select_related("branch").get(pk=van.pk)
    if seen_version is not None and seen_version != van.version:
        raise ChangedMeanwhileError("Somebody changed this sheet while you were writing; look at it again.")
    before = van.sheet
    taken = _take(van.branch, edit(before), today)
    if taken.kept["sheet"] == before:
        return taken.read
    _refuse_twin(van.branch, taken.kept["chassis_number"], but=van.pk)
    SheetBefore.objects.create(van=van, version=van.version, text=before)
    for name, value in taken.kept.items():
        setattr(van, name, value)
    van.version += 1
    van.save()
    said = {"version": van.version, "why": why, "lines": _changed_lines(before, van.sheet), **(data or {})}
    write(by=by, van=van, what="van.sheet_changed", data=said)
    return taken.read


def _changed_lines(before: str, after: str) -> list[str]:
    """The lines that went (``- …``) and came (``+ …``), for the history."""
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    changed = [f"{line[0]} {line[1:].strip()}" for line in lines if line[:3] not in ("---", "+++") and line[0] in "+-"]
    left = len(changed) - _MOST_LINES
    return [*changed[:_MOST_LINES], f"and {left} more lines"] if left > 0 else changed
