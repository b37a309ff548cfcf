"""What stands on the van's page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Q
from django.http import Http404, HttpRequest, HttpResponseBase
from django.shortcuts import redirect, render

from firstpitch.desk.access import branch_of, events, handovers, member
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.models import Event, Person, Van
from firstpitch.desk.pages.van.asking import ask, asks
from firstpitch.desk.pages.van.forms import PhotoForm, SnagForm
from firstpitch.desk.pages.van.panel import KitPanel, kit_panel, kit_waiting, van_unknown
from firstpitch.desk.pages.van.plan import (
    VIEW_WORDS,
    VanDrawing,
    drawing_of,
    number_of,
    picture_of,
    view_of,
    with_snags,
)
from firstpitch.desk.snags import SNAG_EVENTS, Snag, snags_of
from firstpitch.desk.told import PHOTOS, step_titles, told
from firstpitch.sheet import SheetError

_LATEST = 8
_PHOTOS = 24


@dataclass(frozen=True)
class Sent:
    """What a form sent that could not be kept: texts by dotted field, faults beside them, a form that was not right."""

    typed: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)
    snag: SnagForm | None = None
    photo: PhotoForm | None = None

    @property
    def status(self) -> int:
        """422 where something was wrong."""
        return 422 if self.faults or self.snag or self.photo else 200


@dataclass(frozen=True)
class Showing:
    """A van with what is picked on it, for whom, and what came back from a form."""

    person: Person
    van: Van
    opened: OpenVan
    drawing: VanDrawing
    kit: str
    sent: Sent
    snags: tuple[Snag, ...]


def van_page(request: HttpRequest, one: Van, kit: str = "", sent: Sent | None = None) -> HttpResponseBase:
    """The page of a van with ``kit`` picked; its panel alone with ``?part=panel``."""
    person, sent = member(request), sent or Sent()
    one.branch = branch_of(person)  # it is in this branch, and that is at hand
    try:
        opened = open_van(one)
    except SheetError:  # the branch's kinds have changed under it
        return redirect("van-sheet", one.pk)
    drawing = drawing_of(opened)
    if kit and not number_of(drawing, kit):
        raise Http404("this van has no such kit")
    found = list(events(person).filter(van=one, what__in=(*SNAG_EVENTS, *PHOTOS)))
    showing = Showing(person, one, opened, drawing, kit, sent, snags_of(found))
    about = {"van": one, "sheet": opened.sheet, "view": view_of(request.GET.get("view", "")), **_panel(showing)}
    about |= {"photos": _photos(found, kit), "photo_form": sent.photo or PhotoForm()}
    if request.GET.get("part") == "panel":
        return render(request, "desk/van/panel.html", about, status=sent.status)
    about |= _whole(showing, about["view"])
    return render(request, "desk/van/van.html", about, status=sent.status)


def _whole(showing: Showing, view: Any) -> dict[str, Any]:
    """What stands round the panel."""
    one, drawing = showing.van, showing.drawing
    titles = step_titles(showing.opened)
    kits = [snag.kit for snag in showing.snags if snag.open]
    due = list(
        handovers(showing.person).filter(van=one).defer("van__sheet", "plan", "record", "car", "load", "options")
    )
    return {
        "views": VIEW_WORDS.items(),
        "picture": picture_of(showing.opened, one.pk, view, number_of(drawing, showing.kit)),
        "listed": with_snags(drawing.listed, kits),
        "handovers": due,
        "next": next((handover for handover in due if not (handover.signed or handover.called_off)), None),
        "snags": showing.snags,
        "history": [told(event, titles) for event in events(showing.person).filter(van=one).order_by("-at")[:_LATEST]],
        "lacking": any(kit.lacks for kit in drawing.listed),
    }


def _panel(showing: Showing) -> dict[str, Any]:
    kits = tuple((k.id, f"{k.number} {k.name}") for k in showing.drawing.listed)
    form = showing.sent.snag or SnagForm(kits=kits, initial={"kit": showing.kit, "severity": "care"})
    panel = kit_panel(showing.opened, showing.drawing, showing.kit) if showing.kit else None
    held = _of_kit(showing, panel) if panel else _of_van(showing)
    shown = {asked.field for asked in held["asks"]} | {fact.field for fact, _ in held.get("facts", ())}
    rest = [fault for field, fault in showing.sent.faults.items() if field not in shown]
    return {"fault": " ".join(rest), "snag_form": form, **held}


def _of_van(showing: Showing) -> dict[str, Any]:
    sent, drawing = showing.sent, showing.drawing
    return {
        "picked": None,
        "asks": asks(showing.opened, van_unknown(drawing), sent.typed, sent.faults),
        "waiting_kit": kit_waiting(drawing),
        "open_snags": [snag for snag in showing.snags if snag.open],
    }


def _of_kit(showing: Showing, panel: KitPanel) -> dict[str, Any]:
    sent, opened = showing.sent, showing.opened
    about = Q(data__kit=panel.id) | Q(data__step__startswith=f"{panel.id}.")
    mine = events(showing.person).filter(about, van=showing.van).order_by("-at")
    titles = step_titles(opened)
    facts = [
        (
            fact,
            ask(
                opened,
                fact.field,
                typed=sent.typed.get(fact.field, fact.written),
                fault=sent.faults.get(fact.field, ""),
            ),
        )
        for fact in panel.facts
    ]
    return {
        "picked": panel,
        "asks": asks(opened, panel.unknown, sent.typed, sent.faults, inside=True),
        "facts": facts,
        "correcting": any(asked.fault for _, asked in facts),
        "open_snags": [snag for snag in showing.snags if snag.open and snag.kit == panel.id],
        "kit_history": [told(event, titles) for event in mine[:_LATEST]],
    }


def _photos(found: list[Event], kit: str) -> list[dict[str, Any]]:
    """The latest photos, of one kit where one is picked."""
    taken = [event for event in found if event.what in PHOTOS]
    chosen = [event for event in taken if not kit or kit == (event.data.get("kit") or _kit_of_step(event))]
    return [
        {"id": e.data["media"], "words": e.data.get("words", ""), "at": e.at, "by": e.by}
        for e in chosen[-_PHOTOS:][::-1]
    ]


def _kit_of_step(event: Event) -> str:
    return str(event.data.get("step", "")).rpartition(".")[0]
