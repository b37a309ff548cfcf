"""The outfit of a handover: its page, moving things, the best stow, the printed sheet."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from queue import Empty, SimpleQueue
from threading import Thread
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import handovers, member, members, the_handover, the_van
from firstpitch.desk.actions.handovers import SignedError
from firstpitch.desk.actions.outfit import keep_stow
from firstpitch.desk.actions.vans import ChangedMeanwhileError
from firstpitch.desk.guidelines import guidelines_of
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.outfits import Kept, Stowed, StowError, kept_outfit, mark_of, moved_words, stowed_of
from firstpitch.desk.pages.outfit.numbers import numbers_of
from firstpitch.desk.pages.outfit.show import NEWCOMERS, judged, places_of, strip_of
from firstpitch.desk.pages.van.incoming import shown
from firstpitch.desk.trouble import wants_json
from firstpitch.outfit import Outfit, Placed, Readings, Stow, StowPlan, plan_stow
from firstpitch.papers.outfit_sheet import outfit_data, outfit_document
from firstpitch.sheet import SheetError

_UNCLEAR, _CONFLICT = 422, 409
_SECONDS = 8.0
_BEAT_S = 0.4
PARTS = ("drawn", "scale", "better", "verdicts", "steady", "departure")


@members()
@require_GET
def outfit(request: HttpRequest, handover: int) -> HttpResponse:
    """The page of an outfit."""
    found = the_handover(member(request), handover)
    given: dict[str, Any] = {"handover": found}
    try:
        kept = kept_outfit(found)
    except SheetError as wrong:
        return render(request, "desk/outfit/unread.html", {**given, "faults": shown(wrong)})
    now = judged(kept, guidelines_of(found.van.branch))
    given |= {"kept": kept, "places": places_of(kept), "judged": now, "strip": strip_of(now)}
    given |= {"load_mass": kept.outfit.load.mass, "stowable": bool(kept.load and kept.load.items)}
    given["figures"] = {"numbers": numbers_of(kept), "stow": kept.stowed.stored(), "mark": kept.mark}
    return render(request, "desk/outfit/outfit.html", given)


@members()
@require_GET
def of_van(request: HttpRequest, pk: int) -> HttpResponse:
    """From a van to the outfit of the handover that comes next, or that came last."""
    person = member(request)
    van = the_van(person, pk)
    mine = handovers(person).filter(van=van)
    one = mine.filter(signed=None).order_by("due").first() or mine.order_by("-due").first()
    if one is None:
        messages.info(request, "Car and load belong to a handover. Add one for this van first.")
        return redirect("van", van.pk)
    return redirect("outfit", one.pk)


@members()
@require_POST
def stow(request: HttpRequest, handover: int) -> HttpResponse:
    """Keep where things lie, as the page sends it, and answer with everything judged anew. 409 when somebody else moved things
    meanwhile, with theirs; 422 when it cannot be.
    """
    person = member(request)
    found = the_handover(person, handover)
    try:
        sent = json.loads(request.body or b"{}")
        wanted = stowed_of(sent.get("stow"))
        before = kept_outfit(found)
        seen = None if sent.get("force") is True else str(sent.get("seen", ""))
        kept = keep_stow(by=person, handover=found, stowed=wanted, seen=seen, best=sent.get("best") is True)
    except (ValueError, AttributeError, SheetError) as wrong:
        return _refused(found, wrong)
    after = kept_outfit(kept)
    return JsonResponse(_answer(request, kept, after, before.outfit))


def _refused(found: Handover, wrong: Exception) -> JsonResponse:
    if isinstance(wrong, ChangedMeanwhileError):
        found.refresh_from_db()
        theirs = {"stow": found.stow, "mark": mark_of(found)}
        return JsonResponse({"words": str(wrong), "changed": True, **theirs}, status=_CONFLICT)
    if isinstance(wrong, SignedError):
        return JsonResponse({"words": str(wrong)}, status=_CONFLICT)
    words = str(wrong) if isinstance(wrong, StowError | SheetError) else "This is no stow. Load the page again."
    return JsonResponse({"words": words}, status=_UNCLEAR)


def _answer(request: HttpRequest, handover: Handover, after: Kept, before: Outfit) -> dict[str, Any]:
    """The parts of the page that the move changed, and the mark that the next move is made from."""
    found = judged(after, guidelines_of(handover.van.branch), before)
    given = {"handover": handover, "kept": after, "judged": found, "stowable": True}
    return {
        "mark": after.mark,
        # Only readings that ceased to hold change what the page reckons with.
        "numbers": None if after.full.load.readings == Readings() and not after.put_right else numbers_of(after),
        "word": found.word,
        "gain": found.gain,
        "parts": {part: render_to_string(f"desk/outfit/parts/{part}.html", given, request) for part in PARTS},
    }


@members()
@require_POST
def move(request: HttpRequest, handover: int) -> HttpResponse:
    """Move something by a form: ``thing`` is item and place with a bar between, ``to`` a place, ``number`` how many (all if empty)."""
    person = member(request)
    found = the_handover(person, handover)
    item, _, origin = request.POST.get("thing", "").partition("|")
    number = request.POST.get("number", "")
    try:
        kept = kept_outfit(found)
        wanted = moved(kept, item, origin, request.POST.get("to", ""), int(number) if number.isdecimal() else None)
        keep_stow(by=person, handover=found, stowed=wanted)
    except (SignedError, StowError, ChangedMeanwhileError, SheetError) as wrong:
        messages.warning(request, str(wrong))
    return redirect(f"/outfit/{found.pk}/#stow")


def moved(kept: Kept, item: str, origin: str, to: str, number: int | None) -> Stowed:
    """The stow after one move; StowError when there is nothing to move."""
    there = {(p.item, p.locker): p.number for p in kept.stowed.placed}
    there |= {(one, "home"): n for one, n in kept.stowed.home}
    whole = next((one.number for one in kept.full.load.items if one.id == item), 0)
    loose = whole - sum(n for (one, _), n in there.items() if one == item)
    lying = there.get((item, origin), 0) if origin else loose
    pieces = min(number or lying, lying)
    if not pieces:
        raise StowError("There is no such thing there any more. Choose it again.")
    if origin:
        there[item, origin] = lying - pieces
    if to:
        there[item, to] = there.get((item, to), 0) + pieces
    return _stowed(there)


def _stowed(there: dict[tuple[str, str], int]) -> Stowed:
    lying = {key: n for key, n in there.items() if n}
    placed = tuple(Placed(item, place, n) for (item, place), n in lying.items() if place != "home")
    return Stowed(placed, tuple((item, n) for (item, place), n in lying.items() if place == "home"))


@members()
@require_POST
def best(request: HttpRequest, handover: int) -> HttpResponseBase:
    """The best stow. A script gets lines of JSON: how long it has been looked for, last the stow and what it moves, kept only when
    somebody says so. A form keeps it at once.
    """
    person = member(request)
    found = the_handover(person, handover)
    try:
        kept = kept_outfit(found)
    except SheetError as wrong:
        messages.warning(request, wrong.faults[0])
        return redirect("outfit", found.pk)
    if found.signed or kept.load is None or not kept.load.items:
        words = "The record is signed; nothing can be moved any more." if found.signed else "There is no load list yet."
        if wants_json(request):
            return JsonResponse({"over": True, "words": words, "stow": None})
        messages.warning(request, words)
        return redirect("outfit", found.pk)
    if wants_json(request):
        answer = StreamingHttpResponse(_looking(kept), content_type="application/x-ndjson")
        answer.headers["Cache-Control"] = "no-store"
        return answer
    return _keep_best(request, person, found, kept)


def _keep_best(request: HttpRequest, person: Person, found: Handover, kept: Kept) -> HttpResponse:
    plan = _planned(kept)
    try:
        keep_stow(by=person, handover=found, stowed=_of_plan(plan), seen=kept.mark, best=True)
        messages.success(request, plan.sentence)
    except (SignedError, ChangedMeanwhileError, StowError) as wrong:
        messages.warning(request, str(wrong))
    return redirect(f"/outfit/{found.pk}/#stow")


def _planned(kept: Kept) -> StowPlan:
    """The best stow of the whole load, from where things lie now; what was left at home may come along again."""
    return plan_stow(replace(kept.full, stow=Stow(kept.stowed.placed)), seconds=_SECONDS)


def _of_plan(plan: StowPlan) -> Stowed:
    return Stowed(plan.stow.placed, plan.left)


def _looking(kept: Kept) -> Iterator[str]:
    """Lines of JSON while the planner works, and its answer."""
    done: SimpleQueue[StowPlan | Exception] = SimpleQueue()

    def work() -> None:
        try:
            done.put(_planned(kept))
        except Exception as broke:
            done.put(broke)

    Thread(target=work, daemon=True).start()
    waited = 0.0
    while True:
        try:
            plan = done.get(timeout=_BEAT_S)
            break
        except Empty:
            waited += _BEAT_S
            yield _line({"seconds": round(waited, 1), "most": _SECONDS})
    if isinstance(plan, Exception):
        yield _line({"over": True, "words": "Something broke at our end. The stow is as it was.", "stow": None})
        raise plan
    yield _line(_told(kept, plan))


def _told(kept: Kept, plan: StowPlan) -> dict[str, Any]:
    wanted = _of_plan(plan)
    moves = moved_words(kept.stowed, wanted, kept.full.load, kept.opened)
    proof = "No stow is better by more than a hair." if plan.proven else "The best found in the time there was."
    ways = [way.sentence for way in plan.ways if way.sentence not in plan.sentence]
    return {
        "over": True,
        "stow": wanted.stored(),
        "words": plan.sentence,
        "moves": moves,
        "more": [*ways, *(f"{near[:1].upper()}{near[1:]}." for near in plan.near), proof],
        "same": not moves,
    }


def _line(said: dict[str, Any]) -> str:
    return json.dumps(said) + "\n"


@members()
@require_GET
def pdf(request: HttpRequest, handover: int) -> HttpResponse:
    """The outfit and stow sheet as PDF."""
    found = the_handover(member(request), handover)
    try:
        kept = kept_outfit(found)
    except SheetError:
        return redirect("outfit", found.pk)
    guidelines = guidelines_of(found.van.branch)
    without = () if guidelines.newcomers else (NEWCOMERS,)
    content = outfit_document(outfit_data(kept.outfit, made=timezone.localdate(), without=without))
    name = slugify(f"outfit {found.van.name} {found.owner_name}") or "outfit"
    return HttpResponse(content, "application/pdf", headers={"Content-Disposition": f'inline; filename="{name}.pdf"'})
