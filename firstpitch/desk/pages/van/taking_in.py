"""Taking a van in: from a file, from a workbook, or from a van like it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from firstpitch.desk.access import branch_of, member, members, the_van
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.inputs import catalogue_of, open_van
from firstpitch.desk.models import Van
from firstpitch.desk.pages.van.asking import ask, typed_of
from firstpitch.desk.pages.van.incoming import (
    Fault,
    by_field,
    is_workbook,
    read_upload,
    sheet_text,
    shown,
    similar_sheet,
)
from firstpitch.desk.pages.van.search import asked, find_vans
from firstpitch.sheet import SheetError
from firstpitch.sheet.similar import OWN
from firstpitch.sheet.source import decoded
from firstpitch.sheet.workbook import write_workbook

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_FEW = 30
_STOCK = 30
# Asked again for each van; what is weighed or moulded later is filled in on the van's page.
ASKED = OWN[: OWN.index("masses.axle_limit") + 1]


@members()
@require_GET
def ways(request: HttpRequest) -> HttpResponse:
    """The ways to take a van in."""
    person = member(request)
    search = asked(request.GET.get("q", ""))
    likes = list(find_vans(person, search)[:_FEW])
    return render(request, "desk/van/new.html", {"likes": likes, "q": search, "then": _then(request)})


def _then(request: HttpRequest) -> str:
    return "handover" if request.GET.get("then") == "handover" or request.POST.get("then") == "handover" else ""


def _done(request: HttpRequest, van: Van) -> HttpResponseBase:
    messages.success(request, f"{van.name} has been taken in.")
    if _then(request):
        answer = redirect("handover-new")
        answer["Location"] += f"?van={van.pk}"
        return answer
    return redirect("van", van.pk)


@members()
@require_http_methods(["GET", "POST"])
def from_file(request: HttpRequest) -> HttpResponseBase:
    """From a sheet file or a workbook, sent as a file or pasted. Every fault is shown, and nothing is taken in when there is one."""
    about: dict[str, Any] = {"then": _then(request), "sheet": "", "stock": request.POST.get("stock", "")[:_STOCK]}
    if request.method == "GET":
        return render(request, "desk/van/new_file.html", about)
    about["sheet"] = request.POST.get("sheet", "")
    try:
        upload = request.FILES.get("file")
        data = read_upload(upload) if upload else about["sheet"].encode()
        if upload and not is_workbook(data):
            about["sheet"] = decoded(data, "the sheet")
        person, today = member(request), timezone.localdate()
        text = sheet_text(data, catalogue_of(branch_of(person)), today)
        return _done(request, add_van(by=person, sheet=text, stock_number=about["stock"], today=today))
    except SheetError as wrong:
        about["faults"] = shown(wrong)
        return render(request, "desk/van/new_file.html", about, status=422)


@members()
@require_GET
def template(request: HttpRequest) -> HttpResponse:
    """The workbook to fill in, made for the kinds of this branch."""
    data = write_workbook(catalogue_of(branch_of(member(request))).kinds)
    return HttpResponse(
        data, content_type=XLSX, headers={"Content-Disposition": 'attachment; filename="build-sheet.xlsx"'}
    )


@members()
@require_http_methods(["GET", "POST"])
def from_similar(request: HttpRequest, pk: int) -> HttpResponseBase:
    """From a van like it: its fittings, with this van's own plate and name; the kit from a CSV file where one is sent."""
    person = member(request)
    like = the_van(person, pk)
    typed = {field: text for field, text in typed_of(request.POST.dict()).items() if field in ASKED}
    stock = request.POST.get("stock", "")[:_STOCK]
    if request.method == "GET":
        return _ask_similar(request, like, typed, stock)
    today, catalogue = timezone.localdate(), catalogue_of(branch_of(person))
    units = {one.field: one.unit for one in _asks(like, {}, {})}
    said = {field: _with_unit(text, units[field]) for field, text in typed.items()}
    try:
        upload = request.FILES.get("kit_list")
        kit_list = read_upload(upload) if upload else None
        text = similar_sheet(like, said, catalogue, today, kit_list)
        return _done(request, add_van(by=person, sheet=text, stock_number=stock, today=today))
    except SheetError as wrong:
        return _ask_similar(request, like, typed, stock, shown(wrong))


def _with_unit(text: str, unit: str) -> str:
    plain = " ".join(text.split())
    return f"{plain} {unit}" if unit and plain.replace(".", "", 1).isdecimal() else plain


def _asks(like: Van, typed: dict[str, str], faults: dict[str, str]) -> list[Any]:
    opened = open_van(like)
    return [ask(opened, field, waits=True, typed=typed.get(field, ""), fault=faults.get(field, "")) for field in ASKED]


def _ask_similar(
    request: HttpRequest, like: Van, typed: dict[str, str], stock: str, faults: tuple[Fault, ...] = ()
) -> HttpResponse:
    beside, rest = by_field(faults, ASKED)
    about = {
        "like": like,
        "asks": _asks(like, typed, beside),
        "stock": stock,
        "faults": rest,
        "then": _then(request),
    }
    return render(request, "desk/van/new_similar.html", about, status=422 if faults else 200)
