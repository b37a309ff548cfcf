"""What a tablet needs to run a handover for a whole day without a network: ``kit.json``."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import SupplyRef
from firstpitch.desk.inputs import OpenVan, open_van, problem_of
from firstpitch.desk.models import Event, Handover
from firstpitch.papers.drawing import draw
from firstpitch.papers.drawing.views import frame
from firstpitch.papers.numbering import number_kit
from firstpitch.papers.route import spot_of
from firstpitch.rounds import Effect, Literally, Plan, Problem, Step, quick_round
from firstpitch.rounds.ground import van_kit
from firstpitch.rounds.walking import lay_ground

LEVELS = {"stop": 0, "care": 1, "note": 2}
PICTURE = "live-plan"
EVENT_FIELDS = (
    *("device", "number", "at", "received", "what", "data"),
    *(f"by__{name}" for name in ("first_name", "last_name", "username")),
)


def kit_of(handover: Handover) -> dict[str, Any]:
    """All of it but the events of the handover so far."""
    opened, problem = open_van(handover.van), problem_of(handover)
    return {
        "handover": handover.pk,
        "van": {"id": handover.van_id, "name": handover.van.name, "stock": handover.van.stock_number},
        "owner": handover.owner_name,
        "due": handover.due.isoformat(),
        "signed": handover.signed is not None,
        "version": handover.van.version,
        "problem": problem_json(problem, _told(opened, problem)),
        "plan": plan_of(handover, problem),
        "kits": [
            {"id": n.kit.id, "name": n.kit.name, "number": n.number, "where": n.where}
            for n in number_kit(opened.sheet, opened.catalogue)
        ],
        "supplies": _supplies(opened, problem),
        "drawing": _drawing(opened),
        "ground": _ground(opened, problem),
    }


def event_json(event: Event) -> dict[str, Any]:
    """One event as tablets know it."""
    return {
        "id": str(event.pk),
        "device": event.device,
        "number": event.number,
        "at": event.at.isoformat(),
        "what": event.what,
        "data": event.data,
        "by": event.by.shown_name if event.by else "",
    }


def plan_of(handover: Handover, problem: Problem) -> dict[str, Any]:
    """The planned order with its times: the plan that was kept, as far as the van still has its steps, else one made at once."""
    known = {step.id for step in problem.steps}
    kept = handover.plan or {}
    steps = [s for s in kept.get("steps", ()) if s["id"] in known]
    if steps:
        left_out = [{"id": s["id"], "reason": s["reason"]} for s in kept.get("left_out", ()) if s["id"] in known]
        rows = [{"id": s["id"], "start": s["start_s"], "end": s["end_s"]} for s in steps]
        return {"kept": True, "steps": rows, "left_out": left_out, "total": kept.get("total_s", rows[-1]["end"])}
    made = quick_round(problem)
    if not isinstance(made, Plan):
        return {"kept": False, "steps": [], "left_out": [], "total": 0}
    return {
        "kept": False,
        "steps": [{"id": t.step, "start": t.start, "end": t.end} for t in made.steps],
        "left_out": [{"id": one.step, "reason": one.reason} for one in made.left_out],
        "total": made.total,
    }


def problem_json(problem: Problem, told: dict[str, list[dict[str, str]]] | None = None) -> dict[str, Any]:
    """A problem as the tablet's ``state.js`` reads it; ``told`` are the cautions of each step."""
    return {
        "start": dict(problem.start),
        "finish": _literals(problem.finish),
        "places": {p.id: {"x": p.x, "y": p.y, "inside": p.inside, "words": p.words} for p in problem.places},
        "walks": {here: dict(there) for here, there in problem.walks.items()},
        "start_place": problem.start_place,
        "steps": [{**_step(step), "cautions": (told or {}).get(step.id, [])} for step in problem.steps],
        "waits": [
            {
                "id": w.id,
                "title": w.title,
                "seconds": w.seconds,
                "sustains": _literals(w.sustains),
                "sets": _sets(w.sets),
            }
            for w in problem.waits
        ],
        "guards": [{"id": g.id, "never": _literals(g.never), "harm": g.harm} for g in problem.guards],
        "missing": [{"step": m.step, "what": m.what} for m in problem.missing],
        "minutes": problem.minutes,
        "labels": dict(problem.labels),
    }


def _step(step: Step) -> dict[str, Any]:
    plain = ("id", "kit", "kit_name", "topic", "title", "place", "seconds", "level", "worth", "say", "owner_try")
    return {
        **{name: getattr(step, name) for name in plain},
        "points": list(step.points),
        "requires": _literals(step.requires),
        "sets": _sets(step.sets),
        "starts": list(step.starts),
        "awaits": list(step.awaits),
    }


def _literals(literals: Iterable[Literally]) -> list[dict[str, Any]]:
    return [{"condition": one.condition, "values": sorted(one.values)} for one in literals]


def _sets(effects: Iterable[Effect]) -> list[dict[str, str]]:
    return [{"condition": one.condition, "value": one.value} for one in effects]


@lru_cache(maxsize=32)
def _drawing(opened: OpenVan) -> str:
    """The plan with all marks and room for the walk round it."""
    marks = [n.mark for n in number_kit(opened.sheet, opened.catalogue)]
    return draw(opened.sheet, marks=marks, route=((0.0, 0.0),), key=PICTURE)


def _ground(opened: OpenVan, problem: Problem) -> dict[str, Any]:
    """Where people walk [m], how far along those lines each place is, and where a metre is on the drawing."""
    sheet = opened.sheet
    ground, paper = lay_ground(sheet.body, sheet.plan), frame(sheet, "plan", walking=True)
    return {
        "outline": ground.outline,
        "aisle": ground.aisle,
        "door_outside": ground.door_outside,
        "door_inside": ground.door_inside,
        "along": {place.id: spot_of(ground, place).along for place in problem.places},
        "paper": {"scale": paper.scale, "low": paper.low, "top": paper.top, "size": paper.size},
    }


def _told(opened: OpenVan, problem: Problem) -> dict[str, list[dict[str, str]]]:
    """The cautions to be read before each step, the gravest first: those that name it, and those to stop for that stand for all."""
    kits = {kit.id: kit for kit in (van_kit(opened.sheet), *opened.sheet.kit)}
    told: dict[str, list[dict[str, str]]] = {}
    for step in problem.steps:
        kit, name = kits[step.kit], step.id.rpartition(".")[2]
        kind = opened.catalogue.kinds[kit.kind]
        own = [c for c in kind.cautions if name in c.steps or (not c.steps and c.level == "stop")]
        own.sort(key=lambda c: LEVELS[c.level])
        told[step.id] = [{"level": c.level, "sign": c.sign, "text": fill(c.text, kit.facts, kind.facts)} for c in own]
    return told


def _supplies(opened: OpenVan, problem: Problem) -> dict[str, list[str]]:
    """For each supply, the steps that need it."""
    kits = {kit.id: kit for kit in (van_kit(opened.sheet), *opened.sheet.kit)}
    found: dict[str, list[str]] = {}
    for step in problem.steps:
        kind, name = opened.catalogue.kinds[kits[step.kit].kind], step.id.rpartition(".")[2]
        needs = next((spec.requires for spec in kind.steps if spec.id == name), ())
        for need in needs:
            if isinstance(need, SupplyRef):
                found.setdefault(need.supply, []).append(step.id)
    return found


def steps_on(handover: Handover, supplies: Sequence[str]) -> frozenset[str]:
    """The steps that fall away without these supplies."""
    found = _supplies(open_van(handover.van), problem_of(handover))
    return frozenset(step for supply in supplies for step in found.get(supply, ()))
