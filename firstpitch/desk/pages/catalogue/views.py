"""The catalogue: every kind, one kind whole, and a branch's own texts."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from firstpitch.catalogue import Kind, fill
from firstpitch.desk.access import branch_events, branch_of, member, members, vans
from firstpitch.desk.actions.own_kinds import drop_own_kind, keep_own_kind, shipped_text
from firstpitch.desk.inputs import catalogue_with, own_of
from firstpitch.desk.models import Role
from firstpitch.desk.pages.catalogue.groups import GROUPS, grouped
from firstpitch.papers.cautions import kit_cautions
from firstpitch.sheet.errors import CatalogueError
from firstpitch.sheet.tables import unit_or_choices

_VANS = 40
_HISTORY = 20
_WHOLE_VAN = "van"


@members()
@require_GET
def catalogue(request: HttpRequest) -> HttpResponse:
    """Every kind, by group."""
    search = " ".join(request.GET.get("q", "").split())[:60]
    own = own_of(branch_of(member(request)))
    about = {
        "groups": grouped(catalogue_with(own), search),
        "own": {key for key, _ in own},
        "q": search,
        "may_change": member(request).role == Role.MANAGER,
    }
    return render(request, "desk/catalogue/catalogue.html", about)


@members()
@require_GET
def kind(request: HttpRequest, key: str) -> HttpResponse:
    """One kind whole, and the vans of the branch that have it."""
    person = member(request)
    own = own_of(branch_of(person))
    found = catalogue_with(own).kinds.get(key)
    if found is None:
        raise Http404("there is no such kind")
    mine = vans(person).only("pk", "name", "stock_number").order_by("-id")
    if key != _WHOLE_VAN:  # that one every van has
        mine = mine.filter(kinds__contains=f" {key} ")
    having = list(mine[: _VANS + 1])
    about = {
        "kind": found,
        "texts": _texts(found),
        "group": GROUPS[found.group],
        "own": key in dict(own),
        "vans": having[:_VANS],
        "more": len(having) > _VANS,
        "may_change": person.role == Role.MANAGER,
    }
    return render(request, "desk/catalogue/kind.html", about)


def _texts(found: Kind) -> dict[str, Any]:
    """The kind's texts with its facts said to be on the plate, since there is no kit here to take them from."""

    def put(text: str) -> str:
        return fill(text, {}, found.facts)

    return {
        "about": put(found.about),
        "facts": [(spec, unit_or_choices(spec)) for spec in found.facts.values()],
        "cautions": kit_cautions(found, {}),
        "steps": [(step, put(step.say), [put(point) for point in step.points]) for step in found.steps],
        "harms": [put(guard.harm) for guard in found.guards],
        "what": put(found.card.what),
        "use": [put(line) for line in found.card.use],
        "trouble": [(put(seen), put(do)) for seen, do in found.card.trouble],
        "trips": [
            (words, [put(line.text) for line in getattr(found.card, name)])
            for name, words in (
                ("arriving", "Arriving"),
                ("leaving", "Leaving"),
                ("towing", "Before towing"),
                ("winter", "Winter"),
            )
            if getattr(found.card, name)
        ],
    }


@members(Role.MANAGER)
@require_http_methods(["GET", "POST"])
def own_text(request: HttpRequest, key: str = "") -> HttpResponseBase:
    """A branch's own text for a kind, as the kind file; what is wrong is said beside it, and what was typed stays."""
    person = member(request)
    key = key or request.POST.get("key", "").strip()
    own = dict(own_of(branch_of(person)))
    text = request.POST.get("text") if request.method == "POST" else own.get(key) or shipped_text(key)
    about: dict[str, Any] = {"key": key, "text": text or "", "shipped": bool(shipped_text(key)), "own": key in own}
    about["new"] = not about["shipped"] and not about["own"]
    if request.method == "POST":
        try:
            keep_own_kind(by=person, key=key, text=about["text"])
            messages.success(request, "Kept. It is used from now on.")
            return redirect("kind", key)
        except CatalogueError as wrong:
            about["fault"] = str(wrong)
    about["history"] = branch_events(person).filter(what__startswith="kind.", data__key=key).order_by("-at")[:_HISTORY]
    return render(request, "desk/catalogue/own.html", about, status=422 if "fault" in about else 200)


@members(Role.MANAGER)
@require_POST
def drop(request: HttpRequest, key: str) -> HttpResponseBase:
    """Go back to the catalogue's own text."""
    try:
        drop_own_kind(by=member(request), key=key)
        messages.success(request, "The catalogue's own text is used again.")
    except CatalogueError as wrong:
        messages.warning(request, str(wrong))
        return redirect("kind-own", key)
    return redirect("kind", key) if shipped_text(key) else redirect("catalogue")
