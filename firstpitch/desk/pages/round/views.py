"""Planning a round: its page, a better order looked for in peace, wishes and what they cost, print."""

from __future__ import annotations

import json
from collections.abc import Iterator
from queue import SimpleQueue
from threading import Thread
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, JsonResponse, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import member, members, the_handover, the_round
from firstpitch.desk.actions.handovers import SignedError, keep_plan
from firstpitch.desk.inputs import open_van, problem_of
from firstpitch.desk.kept_kits import make_ready
from firstpitch.desk.models import Handover, Person
from firstpitch.desk.pages.round.forms import PlanForm, started
from firstpitch.desk.pages.round.show import in_short, left_out_of, parts_of, timeline_of
from firstpitch.desk.planning import WISHES, at_once, is_better, kept_round, lasting, price, problem_with, to_keep
from firstpitch.papers import round_pdf
from firstpitch.rounds import Clash, Plan, plan_round

_UNCLEAR = 422
WISH_WORDS = {"first": "first", "last": "last", "without": "left out"}


@members()
@require_GET
@gzip_page
def round_page(request: HttpRequest, handover: int) -> HttpResponse:
    """The kept round, or the form for the first one."""
    found = the_handover(member(request), handover)
    return _page(request, found, PlanForm(initial=started(found.options)))


def _page(
    request: HttpRequest,
    found: Handover,
    form: PlanForm,
    *,
    clash: Clash | None = None,
    asked: str = "",
    status: int = 200,
) -> HttpResponse:
    kept, opened = kept_round(found), open_van(found.van)
    more: dict[str, Any] = {}
    if kept:
        more = {
            "short": in_short(kept),
            "parts": parts_of(opened, kept, found.options),
            "timeline": timeline_of(kept),
            "left_out": left_out_of(kept, found.options.get("without", ())),
            "sound": kept.sound,
        }
    given = {"handover": found, "form": form, "clash": clash, "asked": asked, "wishes": _wishes(found), **more}
    given["look"] = bool(kept and kept.sound and request.GET.get("look") and not found.signed)
    return render(request, "desk/round/round.html", given, status=status)


def _wishes(found: Handover) -> list[tuple[str, str, str]]:
    """The wishes as they stand: step, its title, what is wished."""
    titles = {step.id: step.title for step in problem_of(found).steps}
    return [(s, titles[s], WISH_WORDS[n]) for n in WISHES for s in found.options.get(n, ()) if s in titles]


@members()
@require_POST
def plan(request: HttpRequest, handover: int) -> HttpResponse:
    """Plan anew at once, with what the form says and the wishes there are."""
    person = member(request)
    found = the_handover(person, handover)
    form = PlanForm(request.POST)
    if not form.is_valid():
        return _page(request, found, form, status=_UNCLEAR)
    return _planned(request, person, found, form.options(found.options), form)


def _planned(
    request: HttpRequest, person: Person, found: Handover, options: dict[str, Any], form: PlanForm, *, asked: str = ""
) -> HttpResponse:
    answer = at_once(found, options)
    if isinstance(answer, Clash):
        return _page(request, found, form, clash=answer, asked=asked, status=_UNCLEAR)
    try:
        _keep(person, found, answer, options)
    except SignedError as signed:
        messages.warning(request, str(signed))
        return redirect("round", found.pk)
    return redirect(f"/round/{found.pk}/?look=better")


def _keep(person: Person, found: Handover, plan: Plan, options: dict[str, Any]) -> None:
    """Keep the round, and make ready what tablets fetch for it."""
    keep_plan(by=person, handover=found, plan=to_keep(found, options, plan), options=options)
    make_ready(the_round(person, found.pk))


def wished(options: dict[str, Any], step: str, wish: str) -> dict[str, Any]:
    """The options with another wish for one step; an unknown wish takes the wishes for it away."""
    lists = {name: [s for s in options.get(name, ()) if s != step] for name in WISHES}
    if wish in lists:
        lists[wish].append(step)
    return {**options, **lists}


@members()
@require_POST
def wish(request: HttpRequest, handover: int) -> HttpResponse:
    """Wish something for a step, or (``only=price``) hear what that would cost."""
    person = member(request)
    found = the_handover(person, handover)
    step, asked = request.POST.get("step", ""), request.POST.get("wish", "")
    titles = {one.id: one.title for one in problem_of(found).steps}
    if step not in titles:
        return JsonResponse({"words": "This van has no such step."}, status=_UNCLEAR)
    after = wished(found.options, step, asked)
    if request.POST.get("only") == "price":
        cost = price(found, found.options, after)
        return JsonResponse({"words": cost.words, "facts": cost.facts})
    said = f"“{titles[step]}” {WISH_WORDS.get(asked, 'as it comes')}"
    return _planned(request, person, found, after, PlanForm(initial=started(found.options)), asked=said)


@members()
@require_GET
def step(request: HttpRequest, handover: int, step: str) -> HttpResponse:
    """One step: why it stands where it stands, its words, and what may be wished of it."""
    found = the_handover(member(request), handover)
    one = next((s for s in problem_of(found).steps if s.id == step), None)
    if one is None:
        raise Http404
    row = next((s for s in (found.plan or {}).get("steps", ()) if s["id"] == step), None)
    reason = next((s["reason"] for s in (found.plan or {}).get("left_out", ()) if s["id"] == step), "")
    wish_now = next((name for name in WISHES if step in found.options.get(name, ())), "")
    given = {"handover": found, "step": one, "why": row["why"] if row else [], "reason": reason, "wish": wish_now}
    page = "step_panel" if request.GET.get("part") == "panel" else "step"
    return render(request, f"desk/round/{page}.html", given)


@members()
@require_POST
def better(request: HttpRequest, handover: int) -> HttpResponseBase:
    """Look for a better order in peace; a line of JSON tells each step forward, the last one what came of it."""
    person = member(request)
    found = the_handover(person, handover)
    if not found.plan or found.signed:
        return JsonResponse({"over": True, "words": ""})
    answer = StreamingHttpResponse(_looking(person, found), content_type="application/x-ndjson")
    answer.headers["Cache-Control"] = "no-store"
    return answer


def _looking(person: Person, found: Handover) -> Iterator[str]:
    lines: SimpleQueue[dict[str, Any] | Plan | Clash | None] = SimpleQueue()
    problem = problem_with(found, found.options)

    def tell(stage: str, total: int | None, bound: int | None) -> None:
        lines.put({"stage": stage, "total": total, "bound": bound})

    def work() -> None:
        outcome: Plan | Clash | None = None
        try:
            outcome = plan_round(problem, tell=tell)
        finally:
            lines.put(outcome)

    Thread(target=work, daemon=True).start()
    line = lines.get()
    while isinstance(line, dict):
        yield json.dumps(line) + "\n"
        line = lines.get()
    yield json.dumps({"over": True, **_kept_if_better(person, found, line)}) + "\n"


def _kept_if_better(person: Person, found: Handover, outcome: Plan | Clash | None) -> dict[str, Any]:
    """Keep what was found where it is better and nobody has planned anew meanwhile; what came of it, in words."""
    now = the_handover(person, found.pk)
    if not isinstance(outcome, Plan) or now.plan != found.plan or now.options != found.options:
        return {"better": False, "words": ""}
    kept = found.plan or {}
    if not is_better(problem_of(found), outcome, kept):
        return {"better": False, "words": "No better order was found."}
    try:
        _keep(person, found, outcome, found.options)
    except SignedError:
        return {"better": False, "words": ""}
    saved = kept["total_s"] - outcome.total
    if saved > 0:
        return {
            "better": True,
            "words": f"A better order was found: it is {lasting(saved)} shorter.",
        }
    if saved < 0 or len(outcome.steps) != len(kept["steps"]):
        return {"better": True, "words": f"A better round was found: it shows {len(outcome.steps)} steps."}
    return {"better": True, "words": "This order is as good as was found; how good is now known better."}


@members()
@require_GET
def pdf(request: HttpRequest, handover: int) -> HttpResponse:
    """The round as one printed page."""
    found = the_handover(member(request), handover)
    kept, opened = kept_round(found), open_van(found.van)
    if kept is None:
        messages.info(request, "Plan the round first, then it can be printed.")
        return redirect("round", found.pk)
    content = round_pdf(opened.sheet, opened.catalogue, kept.problem, kept.plan)
    name = slugify(f"round {found.van.name} {found.owner_name}") or "round"
    return HttpResponse(content, "application/pdf", headers={"Content-Disposition": f'inline; filename="{name}.pdf"'})
