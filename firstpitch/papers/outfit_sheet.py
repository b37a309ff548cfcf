"""The outfit and stow sheet: what is judged, where the load goes and what to do about it, put together once for PDF and page."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import Any

from firstpitch.outfit import (
    Load,
    Outfit,
    OutfitCheck,
    Placed,
    Scale,
    SteadinessComparison,
    Stow,
    Verdict,
    Word,
    check_outfit,
    compare_steadiness,
    judge_stow,
    nose_scale,
    plan_stow,
)
from firstpitch.outfit.stow import Move, StowFigures, StowJudgement, StowPlan, improve, stow_problem
from firstpitch.outfit.verdict import WORST_FIRST, Span, shown, shown_span, worst
from firstpitch.papers import look
from firstpitch.papers.data import day
from firstpitch.papers.drawing.ink import InkMode
from firstpitch.papers.drawing.load import draw_load_plan, draw_load_side, numbered
from firstpitch.papers.drawing.scales import draw_nose_scale, draw_steadiness, spoken
from firstpitch.papers.page import templates
from firstpitch.papers.pdf import plain, typeset
from firstpitch.papers.words import words
from firstpitch.sheet.types import BuildSheet

_DIGITS = {"kN": 2, "m": 2, "bar": 2, "year": 1}  # decimals shown; all other units are shown whole
_FINEST = 3
_ALMOST_FULL = 0.97
_HOME = "home"
_SCREEN = (780.0, 780.0, 700.0)  # units across: van, scale, plot
_PAPER = (500.0, 900.0, 560.0)


@dataclass(frozen=True)
class VerdictLine:
    """One verdict: ``number`` leads to its ``sentence`` and ``source``; an empty ``figure``, ``limit`` or ``margin`` has none.

    ``known`` is false where the figure must be found out first; ``standing`` is empty where the outfit depends on it.
    """

    number: int
    title: str
    word: Word
    standing: str
    figure: str
    limit: str
    margin: str
    known: bool
    sentence: str
    source: str
    id: str


@dataclass(frozen=True)
class LockerLine:
    """One locker of the drawing: its load, its limit and what lies in it."""

    number: str
    name: str
    load: str
    limit: str
    limit_known: bool
    full: bool
    holds: str


@dataclass(frozen=True)
class SpeedLine:
    """One speed limit with a caravan."""

    country: str
    road: str
    limit: str
    source: str


@dataclass(frozen=True)
class OutfitData:
    """The sheet of one outfit. ``to_do`` is what to do first, ``moves`` the load to move; ``figures``, ``scale`` and
    ``steadiness`` are what the drawings are made from."""

    van: str
    car: str
    load: str
    made: str
    journey: str
    word: Word
    stowed: str
    to_do: tuple[str, ...]
    moves: tuple[str, ...]
    verdicts: tuple[VerdictLine, ...]
    lockers: tuple[LockerLine, ...]
    steady: tuple[str, ...]
    steady_caution: str
    departure: tuple[str, ...]
    speeds: tuple[SpeedLine, ...]
    caution: str
    sheet: BuildSheet
    figures: StowFigures
    scale: Scale
    steadiness: SteadinessComparison


def outfit_data(
    outfit: Outfit, *, made: date | None = None, seconds: float = 10.0, without: Collection[str] = ()
) -> OutfitData:
    """The sheet of ``outfit``. With a stow that stow is judged and bettered move by move; without one a stow is planned, in
    at most ``seconds`` of search. ``made`` is the date printed on it. What the sheets lack is said to be unknown. ``without``:
    ids of guidelines that are not to stand on it; any other verdict stays."""
    found = _judged(outfit, made) if outfit.stow is not None else _stowed(outfit, made, seconds)
    return replace(found, verdicts=left_out(found.verdicts, without))


def left_out(lines: Sequence[VerdictLine], without: Collection[str]) -> tuple[VerdictLine, ...]:
    """The lines without those guidelines, numbered anew."""
    kept = (line for line in lines if line.id not in without or line.standing != "guideline")
    return tuple(replace(line, number=number) for number, line in enumerate(kept, 1))


def _stowed(outfit: Outfit, made: date | None, seconds: float) -> OutfitData:
    plan = plan_stow(outfit, seconds=seconds)
    aboard = replace(outfit, load=plan.aboard, stow=plan.stow)
    name = "As planned" if not plan.left else "As planned, the rest left at home"
    return _data(
        aboard,
        check_outfit(aboard),
        plan.figures,
        plan.word,
        made=made,
        stowed=f"{name}. {plan.caution}",
        stow_says=_planned(plan),
        moves=(),
        loadings={"Without load": _empty(outfit), name: aboard},
    )


def _judged(outfit: Outfit, made: date | None) -> OutfitData:
    judgement = judge_stow(outfit)
    problem = stow_problem(outfit)
    assert outfit.stow is not None
    moves = improve(problem, problem.counts(outfit.stow))
    loadings = {"Without load": _empty(outfit), "As it is now": outfit}
    if moves:
        loadings["After these moves"] = _moved(outfit, outfit.stow, moves)
    return _data(
        outfit,
        check_outfit(outfit),
        judgement.figures,
        judgement.word,
        made=made,
        stowed="As it is stowed now.",
        stow_says=_faults(judgement),
        moves=tuple(move.sentence for move in moves) or ("No single move makes it better.",),
        loadings=loadings,
    )


def _empty(outfit: Outfit) -> Outfit:
    return replace(outfit, load=Load("no load", (), outfit.load.water), stow=None)


def _moved(outfit: Outfit, stow: Stow, moves: Sequence[Move]) -> Outfit:
    """The outfit when the moves are done; what is left at home is no longer in the load."""
    there = {(p.item, p.locker): stow.number(p.item, p.locker) for p in stow.placed}
    items = {item.id: item for item in outfit.load.items}
    for move in moves:
        if move.origin:
            there[move.item, move.origin] = there.get((move.item, move.origin), 0) - move.number
        if move.to == _HOME:
            item = items[move.item]
            items[move.item] = replace(item, number=item.number - move.number)
        else:
            there[move.item, move.to] = there.get((move.item, move.to), 0) + move.number
    load = replace(outfit.load, items=tuple(item for item in items.values() if item.number > 0))
    placed = tuple(Placed(item, locker, n) for (item, locker), n in there.items() if n > 0)
    return replace(outfit, load=load, stow=Stow(placed))


def _planned(plan: StowPlan) -> tuple[str, ...]:
    ways = (way.sentence for way in plan.ways if way.sentence not in plan.sentence)
    return (plan.sentence, *ways)


def _faults(judgement: StowJudgement) -> tuple[str, ...]:
    return tuple(breach.sentence for breach in judgement.figures.breaches) or (judgement.sentence,)


def _data(
    outfit: Outfit,
    check: OutfitCheck,
    figures: StowFigures,
    stow_word: Word,
    *,
    made: date | None,
    stowed: str,
    stow_says: tuple[str, ...],
    moves: tuple[str, ...],
    loadings: dict[str, Outfit],
) -> OutfitData:
    found = compare_steadiness(loadings)
    return OutfitData(
        van=outfit.van.identity.name,
        car=outfit.car.name,
        load=outfit.load.name,
        made=day(made) if made else "",
        journey=_journey(outfit),
        word=worst([check.word, stow_word]),
        stowed=stowed,
        to_do=_to_do(check, stow_says),
        moves=moves,
        verdicts=verdict_lines(check),
        lockers=_lockers(outfit.van, figures),
        steady=(*(one.sentence for one in found.loadings), *(one.sentence for one in found.compared)),
        steady_caution=found.caution,
        departure=tuple(line.text for line in check.departure),
        speeds=tuple(
            SpeedLine(s.country, f"{s.road}{f' ({s.when})' if s.when else ''}", s.written, f"{s.source}, {s.status}")
            for s in check.speeds
        ),
        caution=check.caution,
        sheet=outfit.van,
        figures=figures,
        scale=nose_scale(check.band, check.laden.nose),
        steadiness=found,
    )


def _journey(outfit: Outfit) -> str:
    on, country = outfit.journey.on, outfit.journey.country
    return ", ".join(part for part in (day(on) if on else "", country or "") if part)


def _to_do(check: OutfitCheck, stow_says: tuple[str, ...]) -> tuple[str, ...]:
    """What does not fit, then what the stow asks for, then what must be found out."""
    wrong = [verdict.sentence for verdict in check.verdicts if verdict.binding and verdict.word == "does not fit"]
    binding = dict.fromkeys(name for verdict in check.verdicts if verdict.binding for name in verdict.unknown)
    rest = [name for name in check.unknown if name not in binding]
    out = [f"Find out {_listed([*binding])}: until then nobody can say whether all is well."] if binding else []
    out += [f"Not known, though nothing above hangs on it: {_listed(rest)}."] if rest else []
    return tuple(dict.fromkeys([*wrong, *stow_says, *out]))


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def verdict_lines(check: OutfitCheck) -> tuple[VerdictLine, ...]:
    """Every verdict as a line, those that bind first, the worst of them before the others."""
    ordered = sorted(check.verdicts, key=lambda v: (not v.binding, WORST_FIRST.index(v.word)))
    return tuple(_line(number, verdict) for number, verdict in enumerate(ordered, 1))


def _line(number: int, verdict: Verdict) -> VerdictLine:
    digits = _DIGITS.get(verdict.unit, 0)
    known = verdict.number is not None and (math.isfinite(verdict.number.low) or math.isfinite(verdict.number.high))
    return VerdictLine(
        number=number,
        title=verdict.title,
        word=verdict.word,
        standing="" if verdict.binding else "guideline" if verdict.standing == "guideline" else "not binding",
        figure=shown_span(verdict.number, verdict.unit, digits) if verdict.number and known else "",
        limit=_limit(verdict, digits),
        margin=_margin(verdict, digits),
        known=verdict.word != "cannot say" or known,
        sentence=verdict.sentence,
        source=f"{verdict.standing}; {verdict.source}",
        id=verdict.id,
    )


def _limit(verdict: Verdict, digits: int) -> str:
    """The limit, or the band of a guideline from end to end."""
    if verdict.band:
        return shown_span(Span(*verdict.band), verdict.unit, digits)
    if verdict.limit is None:
        return ""
    return f"{'least ' if verdict.least else ''}{shown(verdict.limit, verdict.unit, digits)}"


def _margin(verdict: Verdict, digits: int) -> str:
    """The room left or what is too much, with as many decimals as it takes not to read as nothing."""
    margin = verdict.margin
    if margin is None or verdict.word == "cannot say":
        return ""
    finest = digits
    while (
        margin
        and finest < _FINEST
        and round(float(shown(abs(margin), verdict.unit, finest).split()[0].replace(",", "")), finest) == 0
    ):
        finest += 1
    amount = shown(abs(margin), verdict.unit, finest)
    if margin < 0:
        return f"{amount} too {'little' if verdict.least else 'much'}"
    return f"{amount} {'above' if verdict.least else 'to spare'}"


def _lockers(sheet: BuildSheet, figures: StowFigures) -> tuple[LockerLine, ...]:
    loads = {locker.id: locker for locker in figures.lockers}
    lines = []
    for number, locker in numbered(sheet):
        load = loads[locker.id]
        holds = ", ".join(f"{n} × {name}" if n > 1 else name for name, n in load.pieces)
        lines.append(
            LockerLine(
                number,
                load.name,
                f"{load.mass:.1f} kg",
                f"{load.limit:g} kg" if load.limit is not None else "limit unknown",
                limit_known=load.limit is not None,
                full=bool(load.limit) and load.mass >= _ALMOST_FULL * (load.limit or 0.0),
                holds=holds or "nothing",
            )
        )
    return tuple(lines)


def outfit_drawings(data: OutfitData, *, mode: InkMode, narrow: bool = False) -> dict[str, str]:
    """The drawings by name; ``narrow`` for a column of paper, where letters must stay large beside the lines."""
    van, scale, plot = _PAPER if narrow else _SCREEN
    return {
        "load-plan": draw_load_plan(data.sheet, data.figures, mode=mode, width=van),
        "load-nearside": draw_load_side(data.sheet, data.figures, "nearside", mode=mode, width=van),
        "load-offside": draw_load_side(data.sheet, data.figures, "offside", mode=mode, width=van),
        "nose-scale": draw_nose_scale(data.scale, mode=mode, width=scale),
        "steadiness": draw_steadiness(data.steadiness, mode=mode, width=plot),
    }


def outfit_values(data: OutfitData) -> dict[str, Any]:
    """What the typesetter prints of the sheet, as plain values."""
    drawn = ("sheet", "figures", "scale", "steadiness")
    printed = {f.name: plain(getattr(data, f.name)) for f in fields(data) if f.name not in drawn}
    return {**printed, "words": words()["outfit"], "alt": _alternatives(data)}


def _alternatives(data: OutfitData) -> dict[str, str]:
    """What each drawing says, for those who cannot see it."""
    listed = "The list “Where everything is” says the same in words."
    return {
        "load-plan": f"{data.van} from above with its lockers numbered, towball on the left, nearside at the bottom. {listed}",
        "load-nearside": f"Lockers of the nearside half, each filled as far as its limit is used. {listed}",
        "load-offside": f"Lockers of the offside half, each filled as far as its limit is used. {listed}",
        "nose-scale": spoken(data.scale),
        "steadiness": f"Damping over speed for each loading. {' '.join(data.steady)} {data.steady_caution}",
    }


def outfit_document(data: OutfitData) -> bytes:
    """The sheet as a PDF file (PDF/UA-1): the first page is the sheet, what stands behind its figures follows."""
    values = {
        "van": data.van,
        "title": f"{data.van}: {words()['outfit']['title'].lower()}",
        "outfit": outfit_values(data),
    }
    return typeset("outfit.typ", values, outfit_drawings(data, mode="fixed", narrow=True))


def outfit_page(data: OutfitData) -> str:
    """The sheet as one HTML page for tablet, phone and print that asks for nothing outside itself."""
    from markupsafe import Markup

    return (
        templates()
        .get_template("outfit.html")
        .render(
            outfit=data,
            outfit_words=words()["outfit"],
            style=Markup(look.style_sheet()),  # our own file, never a user's text
            # Escaped where it is written.
            svg={name: Markup(svg) for name, svg in outfit_drawings(data, mode="page").items()},
        )
    )
