"""The build sheet itself: to read, to change as text, to take away as a file."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from firstpitch.desk.access import member, members, the_van
from firstpitch.desk.actions.vans import ChangedMeanwhileError, change_sheet
from firstpitch.desk.inputs import catalogue_of, open_van
from firstpitch.desk.models import Van
from firstpitch.desk.pages.van.incoming import is_workbook, read_upload, sheet_text, shown
from firstpitch.desk.pages.van.taking_in import XLSX
from firstpitch.sheet import SheetError
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.fill_tables import filled_tables
from firstpitch.sheet.kit_list import write_kit_list
from firstpitch.sheet.source import decoded, tree
from firstpitch.sheet.workbook import write_workbook

_WHY = 200


@members()
@require_http_methods(["GET", "POST"])
def sheet(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The sheet as text; what is wrong with a changed one is said above it, and what was typed stays."""
    person = member(request)
    van = the_van(person, pk)
    about: dict[str, Any] = {"van": van, "sheet": van.sheet, "version": van.version, "faults": _standing(van)}
    if request.method == "GET":
        return render(request, "desk/van/sheet.html", about)
    about |= {"sheet": request.POST.get("sheet", ""), "why": request.POST.get("why", "")[:_WHY]}
    seen = request.POST.get("version", "")
    try:
        upload = request.FILES.get("file")
        data = read_upload(upload) if upload else about["sheet"].replace("\r\n", "\n").encode()
        if upload and not is_workbook(data):
            about["sheet"] = decoded(data, "the sheet")
        today = timezone.localdate()
        text = sheet_text(data, catalogue_of(van.branch), today)
        version = int(seen) if seen.isdecimal() else None
        change_sheet(by=person, van=van, sheet=text, today=today, why=about["why"], seen_version=version)
    except SheetError as wrong:
        about["faults"] = shown(wrong)
        return render(request, "desk/van/sheet.html", about, status=422)
    except ChangedMeanwhileError as wrong:
        about |= {"meanwhile": str(wrong), "faults": (), "now": van.sheet}
        return render(request, "desk/van/sheet.html", about, status=409)
    messages.success(request, "The build sheet is kept.")
    return redirect("van", pk)


def _standing(van: Van) -> Any:
    """Faults of the sheet as it stands: none, unless the branch's kinds have changed under it."""
    try:
        open_van(van)
    except SheetError as wrong:
        return shown(wrong)
    return ()


def _file(data: bytes | str, name: str, sort: str) -> HttpResponse:
    return HttpResponse(data, content_type=sort, headers={"Content-Disposition": f'attachment; filename="{name}"'})


@members()
@require_GET
def sheet_file(request: HttpRequest, pk: int) -> HttpResponse:
    """The sheet as a file."""
    van = the_van(member(request), pk)
    return _file(van.sheet, f"van-{van.pk}.yaml", "application/yaml; charset=utf-8")


@members()
@require_GET
def workbook(request: HttpRequest, pk: int) -> HttpResponse:
    """The sheet as a workbook, open figures as empty cells."""
    van = the_van(member(request), pk)
    kinds = catalogue_of(van.branch).kinds
    filled = filled_tables(tree(van.sheet, Faults("the sheet")), kinds)
    return _file(write_workbook(kinds, filled), f"van-{van.pk}.xlsx", XLSX)


@members()
@require_GET
def kit_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The kit as a CSV file."""
    van = the_van(member(request), pk)
    text = write_kit_list(tree(van.sheet, Faults("the sheet")), catalogue_of(van.branch).kinds)
    return _file(text, f"van-{van.pk}-kit.csv", "text/csv; charset=utf-8")
