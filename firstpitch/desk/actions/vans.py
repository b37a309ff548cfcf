"""Writes about vans."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from firstpitch.desk.access import branch_of
from firstpitch.desk.actions.history import write
from firstpitch.desk.inputs import catalogue_of
from firstpitch.desk.models import Person, Van
from firstpitch.sheet import BuildSheet, read_sheet_text


@transaction.atomic
def add_van(*, by: Person, sheet: str, stock_number: str = "", today: date) -> Van:
    """Take a van in from its build sheet. SheetError, and nothing added, when the sheet has a fault."""
    branch = branch_of(by)
    read = read_sheet_text(sheet, catalogue_of(branch).kinds, today=today)
    van = Van.objects.create(
        branch=branch,
        name=read.identity.name,
        chassis_number=read.identity.chassis_number or "",
        stock_number=stock_number,
        sheet=sheet,
    )
    write(by=by, van=van, what="van.added", data={"name": van.name, "version": van.version})
    return van


@transaction.atomic
def change_sheet(*, by: Person, van: Van, sheet: str, today: date, why: str = "") -> BuildSheet:
    """Replace a van's build sheet; the sheet before stays in the history. SheetError, and nothing changed, when it has a fault."""
    van = Van.objects.select_for_update().get(pk=van.pk)
    read = read_sheet_text(sheet, catalogue_of(van.branch).kinds, today=today)
    before = van.sheet
    van.sheet, van.name = sheet, read.identity.name
    van.chassis_number = read.identity.chassis_number or ""
    van.version += 1
    van.save()
    write(by=by, van=van, what="van.sheet_changed", data={"version": van.version, "before": before, "why": why})
    return read
