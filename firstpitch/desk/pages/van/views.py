"""The van's page: the drawing is the page."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import events, member, members, the_van
from firstpitch.desk.actions.figures import FieldFaults, fill_in
from firstpitch.desk.actions.photos import add_photo
from firstpitch.desk.actions.snags import SnagError, mend_snag, raise_snag
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Van
from firstpitch.desk.pages.van.asking import typed_of
from firstpitch.desk.pages.van.forms import PhotoForm, SnagForm
from firstpitch.desk.pages.van.plan import drawing_of
from firstpitch.desk.pages.van.show import Sent, van_page
from firstpitch.desk.told import step_titles, told
from firstpitch.desk.uploads import UploadError
from firstpitch.sheet import SheetError

_HISTORY = 100


@members()
@require_GET
def van(request: HttpRequest, pk: int) -> HttpResponseBase:
    """One van, nothing picked."""
    return van_page(request, the_van(member(request), pk))


@members()
@require_GET
def kit(request: HttpRequest, pk: int, kit: str) -> HttpResponseBase:
    """One van with a kit picked; ``?part=panel`` gives the panel alone."""
    return van_page(request, the_van(member(request), pk), kit)


def _back(pk: int, kit: str, part: str = "panel") -> HttpResponseBase:
    address = redirect("van-kit", pk, kit) if kit else redirect("van", pk)
    address["Location"] += f"#{part}"
    return address


def _kits(one: Van) -> tuple[tuple[str, str], ...]:
    """Id and numbered name of the van's kit; none where its sheet no longer fits the branch's kinds."""
    try:
        return tuple((kit.id, f"{kit.number} {kit.name}") for kit in drawing_of(open_van(one)).listed)
    except SheetError:
        return ()


def _kit_of(request: HttpRequest, one: Van) -> str:
    """The kit that a form was sent from, where the van has it."""
    kit = request.POST.get("from", "")
    return kit if kit in dict(_kits(one)) else ""


@members()
@require_POST
def figures(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Keep the figures that were filled in or corrected."""
    one = the_van(member(request), pk)
    kit = _kit_of(request, one)
    typed = typed_of(request.POST.dict())
    try:
        fill_in(by=member(request), van=one, values=typed, today=timezone.localdate(), kit=kit)
    except FieldFaults as wrong:
        return van_page(request, one, kit, Sent(typed=typed, faults=wrong.faults))
    if any(text.strip() for text in typed.values()):
        messages.success(request, "Written into the build sheet.")
    return _back(pk, kit)


@members()
@require_POST
def snag(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Raise a snag, with a photo where there is one."""
    one = the_van(member(request), pk)
    origin = _kit_of(request, one)
    form = SnagForm(request.POST, request.FILES, kits=_kits(one))
    if not form.is_valid():
        return van_page(request, one, origin, Sent(snag=form))
    said = form.cleaned_data
    try:
        raised = raise_snag(
            by=member(request), van=one, words=said["words"], severity=said["severity"], kit=said["kit"]
        )
        if said["photo"]:
            add_photo(
                by=member(request),
                van=one,
                data=said["photo"].read(),
                kit=said["kit"],
                snag=str(raised.pk),
                words=said["words"],
            )
    except SnagError as wrong:
        form.add_error("words", str(wrong))
        return van_page(request, one, origin, Sent(snag=form))
    except UploadError as wrong:
        messages.warning(request, f"The snag is kept, its photo is not. {wrong}")
        return _back(pk, origin)
    messages.success(request, "The snag is kept.")
    return _back(pk, origin)


@members()
@require_POST
def mended(request: HttpRequest, pk: int, snag: uuid.UUID) -> HttpResponseBase:
    """A snag has been mended."""
    one = the_van(member(request), pk)
    kit = _kit_of(request, one)
    try:
        mend_snag(by=member(request), van=one, snag=snag, words=request.POST.get("words", ""))
        messages.success(request, "Mended.")
    except SnagError as wrong:
        messages.warning(request, str(wrong))
    return _back(pk, kit, "snags")


@members()
@require_POST
def photo(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Keep a photo of the van or of one kit."""
    one = the_van(member(request), pk)
    kit = _kit_of(request, one)
    form = PhotoForm(request.POST, request.FILES)
    if not form.is_valid():
        return van_page(request, one, kit, Sent(photo=form))
    try:
        add_photo(
            by=member(request),
            van=one,
            data=form.cleaned_data["photo"].read(),
            kit=kit,
            words=form.cleaned_data["words"],
        )
    except UploadError as wrong:
        form.add_error("photo", str(wrong))
        return van_page(request, one, kit, Sent(photo=form))
    messages.success(request, "The photo is kept.")
    return _back(pk, kit, "photos")


@members()
@require_GET
def history(request: HttpRequest, pk: int) -> HttpResponse:
    """Everything that happened to a van, latest first, a hundred at a time."""
    one = the_van(member(request), pk)
    start = int(request.GET["from"]) if request.GET.get("from", "").isdecimal() else 0
    found = list(
        events(member(request)).filter(van=one).order_by("-at", "-received", "-number")[start : start + _HISTORY + 1]
    )
    more = start + _HISTORY if len(found) > _HISTORY else None
    titles = _titles(one)
    lines = [told(event, titles) for event in found[:_HISTORY]]
    return render(request, "desk/van/history.html", {"van": one, "lines": lines, "more": more})


def _titles(one: Van) -> dict[str, str]:
    try:
        return step_titles(open_van(one))
    except SheetError:
        return {}
