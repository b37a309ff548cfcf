"""Results as plain objects for JSON: SI figures, no infinities, every figure with its source."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from firstpitch.outfit.check import OutfitCheck
    from firstpitch.outfit.steadiness import SteadinessComparison
    from firstpitch.outfit.steadiness.compare import Band
    from firstpitch.outfit.stow import Move, StowFigures, StowJudgement, StowPlan
    from firstpitch.outfit.verdict import Span, Verdict

Object = dict[str, Any]


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _span(span: Span | None) -> list[float | None] | None:
    return [_number(span.low), _number(span.high)] if span is not None else None


def _band(band: Band) -> Object:
    return {"p10": band.low, "p50": band.middle, "p90": band.high}


def verdict_object(verdict: Verdict) -> Object:
    """One verdict; ``number`` is [low, high] and all figures are SI with masses in kg."""
    return {
        "id": verdict.id,
        "title": verdict.title,
        "word": verdict.word,
        "standing": verdict.standing,
        "binds": verdict.binding,
        "number": _span(verdict.number),
        "limit": verdict.limit,
        "limit_is": "least" if verdict.least else "most",
        "band": list(verdict.band) if verdict.band else None,
        "margin": verdict.margin,
        "shown_in": verdict.unit,
        "sentence": verdict.sentence,
        "source": verdict.source,
        "figures": [
            {"id": figure.id, "written": figure.written, "credit": figure.credit, "status": figure.status}
            for figure in verdict.figures
        ],
        "unknown": list(verdict.unknown),
    }


def outfit_object(check: OutfitCheck) -> Object:
    """The whole check."""
    van, band = check.laden, check.band
    return {
        "word": check.word,
        "caution": check.caution,
        "verdicts": [verdict_object(verdict) for verdict in check.verdicts],
        "unknown": list(check.unknown),
        "masses": {
            "mass": _span(van.mass),
            "noseweight": _span(van.nose),
            "axles": _span(van.axles),
            "empty": {
                "mass": _span(van.empty.mass),
                "noseweight": _span(van.empty.nose),
                "x": van.empty.x,
                "source": van.empty.source,
            },
            "correction": van.correction.sentence if van.correction else None,
            "lines": [
                {
                    "name": line.name,
                    "sort": line.sort,
                    "mass": _span(line.mass),
                    "x": _span(line.x),
                    "source": line.source,
                }
                for line in van.lines
            ],
        },
        "noseweight": {
            "limits": [{"part": one.part, "limit": one.limit, "source": one.source} for one in band.limits],
            "ruling": band.ruling,
            "least": band.least,
            "guideline": list(band.guideline),
            "preferred": list(band.preferred),
        },
        "speeds": [
            {
                "country": s.country,
                "road": s.road,
                "limit": s.written,
                "m_s": s.limit,
                "when": s.when,
                "source": s.source,
                "status": s.status,
            }
            for s in check.speeds
        ],
        "departure": [{"id": line.id, "text": line.text, "source": line.source} for line in check.departure],
    }


def figures_object(figures: StowFigures) -> Object:
    """What a stow does."""
    return {
        "mass": figures.mass,
        "noseweight": _span(figures.nose),
        "side": figures.side,
        "inertia": figures.inertia,
        "height": figures.height,
        "moved": figures.moved,
        "lockers": [
            {
                "id": locker.id,
                "name": locker.name,
                "mass": locker.mass,
                "limit": locker.limit,
                "filled": locker.filled,
                "pieces": [{"name": name, "number": number} for name, number in locker.pieces],
            }
            for locker in figures.lockers
        ],
        "breaches": [
            {"rule": breach.rule, "over": breach.over, "sentence": breach.sentence} for breach in figures.breaches
        ],
        "not_placed": [{"item": item, "number": number} for item, number in figures.not_placed],
    }


def move_object(move: Move) -> Object:
    """One move and what it does."""
    return {
        "item": move.item,
        "number": move.number,
        "from": move.origin or None,
        "to": move.to,
        "noseweight": move.nose,
        "inertia": move.inertia,
        "side": move.side,
        "sentence": move.sentence,
    }


def judgement_object(judgement: StowJudgement, moves: tuple[Move, ...]) -> Object:
    """A stow as judged, with the moves that make it better one after another."""
    return {
        "word": judgement.word,
        "sentence": judgement.sentence,
        "figures": figures_object(judgement.figures),
        "next_move": move_object(judgement.next_move) if judgement.next_move else None,
        "moves": [move_object(move) for move in moves],
        "unknown": list(judgement.unknown),
    }


def plan_object(plan: StowPlan) -> Object:
    """A planned stow."""
    return {
        "word": plan.word,
        "sentence": plan.sentence,
        "caution": plan.caution,
        "stow": [{"item": p.item, "locker": p.locker, "number": p.number} for p in plan.stow.placed],
        "figures": figures_object(plan.figures),
        "points": plan.points,
        "bound": plan.bound,
        "proven": plan.proven,
        "left": [{"item": item, "number": number} for item, number in plan.left],
        "moves": [{"item": c.item, "number": c.number, "from": c.origin or None, "to": c.to} for c in plan.carried],
        "near": list(plan.near),
        "holds_up": list(plan.holds_up),
        "ways": [{"sort": way.sort, "amount": way.amount, "sentence": way.sentence} for way in plan.ways],
        "unknown": list(plan.unknown),
    }


def steadiness_object(found: SteadinessComparison) -> Object:
    """The comparison, with the curve of damping over speed for each loading."""
    return {
        "caution": found.caution,
        "loadings": [
            {
                "name": one.name,
                "mass": one.mass,
                "noseweight": one.nose,
                "inertia": one.inertia,
                "critical_speed": _band(one.critical),
                "loss": vars(one.loss),
                "speed": one.speed,
                "damping": _band(one.damping),
                "frequency": _band(one.frequency),
                "curve": [
                    {"speed": at, "damping": _band(band)} for at, band in zip(one.speeds, one.curve, strict=True)
                ],
                "sentence": one.sentence,
            }
            for one in found.loadings
        ],
        "compared": [
            {
                "name": one.name,
                "steadier_in": one.steadier,
                "less_steady_in": one.worse,
                "both_above_in": one.both,
                "gain": _band(one.gain),
                "sentence": one.sentence,
            }
            for one in found.compared
        ],
        "drawn": [
            {"id": one.id, "what": one.what, "low": one.low, "likely": one.likely, "high": one.high}
            for one in found.drawn
        ],
        "unknown": list(found.unknown),
        "sources": [figure.credit for figure in found.figures],
        "samples": found.samples,
        "seed": found.seed,
    }
