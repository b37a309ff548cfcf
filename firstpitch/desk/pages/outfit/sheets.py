"""Writing down car and load: by forms, or as a sheet that is pasted or sent."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from firstpitch.desk.access import member, members, the_handover
from firstpitch.desk.actions.handovers import SignedError
from firstpitch.desk.actions.outfit import keep_car, keep_load
from firstpitch.desk.actions.vans import ChangedMeanwhileError
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.outfits import mark_of
from firstpitch.desk.pages.outfit import things
from firstpitch.desk.pages.outfit.fields import COUNTRIES, beside, car_groups, car_tree, typed_of
from firstpitch.desk.pages.van.incoming import Fault, shown
from firstpitch.desk.uploads import UploadError, take_text
from firstpitch.sheet import SheetError
from firstpitch.sheet.source import MapNode
from firstpitch.sheet.write import write_tree

_UNCLEAR = 422
_LONGEST = 5_000_000


@members()
@require_http_methods(["GET", "POST"])
def car(request: HttpRequest, handover: int) -> HttpResponse:
    """The car, its driver and the journey."""
    person = member(request)
    found = the_handover(person, handover)
    typed: dict[str, str] | None = None
    fields: dict[str, str] = {}
    rest: tuple[str, ...] = ()
    if request.method == "POST":
        typed = typed_of(request.POST)
        try:
            text = write_tree(car_tree(typed))
            read = keep_car(by=person, handover=found, car=text, today=timezone.localdate())
        except SheetError as wrong:
            fields, rest = beside(wrong)
        except SignedError as signed:
            return _signed(request, found, signed)
        else:
            messages.success(request, f"{read.car.name} is written down.")
            return redirect("outfit", found.pk)
    groups = car_groups(found.car, typed, fields)
    known = {field.ask.field for group in groups for field in group.fields}
    rest = (*rest, *(words for at, words in fields.items() if at not in known))
    given = {
        "handover": found,
        "groups": groups,
        "rest": rest,
        "countries": COUNTRIES.items(),
        "wrong": bool(fields or rest),
    }
    return render(request, "desk/outfit/car.html", given, status=_UNCLEAR if given["wrong"] else 200)


def _signed(request: HttpRequest, found: Handover, words: SignedError) -> HttpResponse:
    messages.warning(request, str(words))
    return redirect("outfit", found.pk)


@dataclass(frozen=True)
class _Sent:
    """What a form of the load page sent: the new sheet, and what was typed where."""

    top: MapNode
    thing: dict[str, str] | None
    figures: dict[str, str] | None
    at: str
    said: str


@members()
@require_http_methods(["GET", "POST"])
def load(request: HttpRequest, handover: int) -> HttpResponse:
    """The load list: a thing at a time, the water on the road, what was measured. ``?thing=`` opens one thing."""
    person = member(request)
    found = the_handover(person, handover)
    try:
        opened = open_van(found.van)
    except SheetError:  # its own page says what is wrong
        return redirect("outfit", found.pk)
    top = things.load_tree(found.load)
    if request.method != "POST":
        return _load_page(request, found, opened, top)
    sent = _sent(request, opened, top)
    try:
        keep_load(
            by=person,
            handover=found,
            load=write_tree(sent.top),
            today=timezone.localdate(),
            seen=request.POST.get("seen") or None,
        )
    except SheetError as wrong:
        return _load_page(request, found, opened, top, sent=sent, faults=beside(wrong))
    except ChangedMeanwhileError as changed:
        found.refresh_from_db()
        return _load_page(request, found, opened, things.load_tree(found.load), sent=sent, faults=({}, (str(changed),)))
    except SignedError as signed:
        return _signed(request, found, signed)
    messages.success(request, sent.said)
    return redirect(f"/outfit/{found.pk}/load/#{'figures' if sent.figures else 'things'}")


def _sent(request: HttpRequest, opened: OpenVan, top: MapNode) -> _Sent:
    do = request.POST.get("do", "")
    if do == "remove":
        key = request.POST.get("id", "")
        return _Sent(things.without_thing(top, key), None, None, "", "It is off the list.")
    if do == "figures":
        typed = {name: str(text).strip()[:400] for name, text in request.POST.items() if name not in ("do", "seen")}
        new = things.with_figures(top, typed, len(opened.sheet.gear.axles))
        return _Sent(new, None, typed, "", "That is written down.")
    lists = {name: request.POST.getlist(name) for name in ("only_in", "never_in")}
    typed = things.thing_typed(request.POST, lists)
    taken = [things.text_at(item, "id") for item in things.things_of(top)]
    node = things.thing_node(typed, taken)
    at = f"items.{things.text_at(node, 'id')}"
    return _Sent(things.with_thing(top, node), typed, None, at, f"{typed['name']} is on the list.")


def _load_page(
    request: HttpRequest,
    found: Handover,
    opened: OpenVan,
    top: MapNode,
    *,
    sent: _Sent | None = None,
    faults: tuple[dict[str, str], tuple[str, ...]] = ({}, ()),
) -> HttpResponse:
    fields, rest = faults
    items = [things.thing_values(item) for item in things.things_of(top)]
    picked = sent.thing if sent else next((one for one in items if one["id"] == request.GET.get("thing")), None)
    mine, others = _sorted(fields, sent.at if sent else "")
    rest = (*rest, *others)
    axles = range(1, len(opened.sheet.gear.axles) + 1)
    reading = sent.figures if sent and sent.figures else things.reading_values(top)
    given: dict[str, Any] = {
        "handover": found,
        "mark": mark_of(found),
        "items": items,
        "thing": picked or {},
        "editing": bool(picked and picked.get("id")),
        "only_in": _ids(picked, "only_in"),
        "never_in": _ids(picked, "never_in"),
        "faults": mine,
        "rest": rest,
        "lockers": opened.sheet.plan.lockers,
        "sizes": things.size_words(),
        "reaches": things.REACH.items(),
        "water": things.water_fields(opened, top, sent.figures if sent else None),
        "reading": reading,
        "axles": [(n, f"axle-{n}", reading.get(f"axle-{n}", "")) for n in axles],
    }
    return render(request, "desk/outfit/load.html", given, status=_UNCLEAR if fields or rest else 200)


def _sorted(fields: dict[str, str], at: str) -> tuple[dict[str, str], list[str]]:
    """Faults of the thing in hand by the field of its form (``all``: of no single one), and the others."""
    mine: dict[str, str] = {}
    others = []
    for field, words in fields.items():
        if at and (field == at or field.startswith(f"{at}.")):
            name = field.removeprefix(at).lstrip(".").split(".")[0] or "all"
            mine[name] = f"{mine.get(name, '')} {words}".strip()
        else:
            others.append(words)
    return mine, others


def _ids(picked: dict[str, str] | None, name: str) -> list[str]:
    return [part.strip() for part in picked[name].split(",") if part.strip()] if picked and picked.get(name) else []


@members()
@require_http_methods(["GET", "POST"])
def car_text(request: HttpRequest, handover: int) -> HttpResponse:
    """The car sheet as text, to paste or to send."""
    return _as_text(request, handover, "car")


@members()
@require_http_methods(["GET", "POST"])
def load_text(request: HttpRequest, handover: int) -> HttpResponse:
    """The load sheet as text, to paste or to send."""
    return _as_text(request, handover, "load")


def _as_text(request: HttpRequest, handover: int, sort: str) -> HttpResponse:
    person = member(request)
    found = the_handover(person, handover)
    text: str = getattr(found, sort)
    faults: tuple[Fault, ...] = ()
    if request.method == "POST":
        text = request.POST.get("sheet", "")[:_LONGEST].replace("\r\n", "\n")
        try:
            upload = request.FILES.get("file")
            text = take_text(upload) if upload else text
            _keep_text(person, found, sort, text)
        except UploadError as wrong:
            faults = (Fault("the file", str(wrong)),)
        except SheetError as wrong:
            faults = shown(wrong)
        except SignedError as signed:
            return _signed(request, found, signed)
        else:
            messages.success(request, f"The {sort} sheet was taken in.")
            return redirect("outfit", found.pk)
    given = {"handover": found, "sort": sort, "sheet": text, "faults": faults}
    return render(request, "desk/outfit/sheet.html", given, status=_UNCLEAR if faults else 200)


def _keep_text(person: Person, found: Handover, sort: str, text: str) -> None:
    today = timezone.localdate()
    if sort == "car":
        keep_car(by=person, handover=found, car=text, today=today)
    else:
        keep_load(by=person, handover=found, load=text, today=today)
