"""The outfit as the page shows it: what is judged, the drawings, where everything lies."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.utils.safestring import SafeString, mark_safe

from firstpitch.desk.guidelines import Guidelines
from firstpitch.desk.outfits import Kept
from firstpitch.outfit import (
    Load,
    LoadItem,
    Outfit,
    OutfitCheck,
    SteadinessComparison,
    Stow,
    Verdict,
    Word,
    check_outfit,
    compare_steadiness,
    nose_scale,
)
from firstpitch.outfit.stow import Move, StowFigures, evaluate, next_move, stow_problem
from firstpitch.outfit.verdict import WORST_FIRST, worst
from firstpitch.papers.drawing.load import draw_load_plan, draw_load_side, numbered
from firstpitch.papers.drawing.scales import draw_figure_scale, draw_nose_scale, draw_steadiness
from firstpitch.papers.outfit_sheet import VerdictLine, left_out, verdict_lines
from firstpitch.sheet.units import to

NEWCOMERS = "mass-ratio"
SAMPLES = 200  # few enough to answer while somebody moves things; the printed sheet takes many more
NOW, BEFORE, EMPTY = "As it is now", "Before this", "Without load"
IN_THE_CAR = (
    "What does not ride in the caravan and goes in the car weighs there: write it into the car's people and luggage."
)
_WIDE = 640.0  # units across a drawing: its letters stay readable beside a list
_OLD_SOURCE = "build sheet: masses.measured_mass; build sheet: masses.measured_noseweight"
_READ = "load sheet: readings, as they put the empty van right"
_FEW = 4
_NOTHING = Stow()


@dataclass(frozen=True)
class ShownVerdict:
    """A verdict with its scale; ``key`` is its word as a style's name."""

    line: VerdictLine
    scale: SafeString
    key: str


@dataclass(frozen=True)
class Cell:
    """One of the figures that change at once."""

    key: str
    title: str
    figure: str
    limit: str
    word: str
    style: str


@dataclass(frozen=True)
class Thing:
    """So many of one thing in one place; ``mass`` of all of them together [kg]."""

    item: str
    name: str
    number: int
    mass: float


@dataclass(frozen=True)
class Place:
    """A locker, or where things are that lie in none (``id`` empty: not stowed yet; ``home``)."""

    id: str
    number: str
    name: str
    mass: float
    limit: float | None
    filled: float
    things: tuple[Thing, ...]


@dataclass(frozen=True)
class Judged:
    """All that depends on where things lie. ``gain`` says in few words what the last move did to steadiness."""

    word: Word
    key: str
    to_do: tuple[str, ...]
    verdicts: tuple[ShownVerdict, ...]
    others: tuple[ShownVerdict, ...]
    move: Move | None
    steady: tuple[str, ...]
    steady_caution: str
    samples: int
    gain: str
    swing: str
    departure: tuple[tuple[str, str], ...]
    pictures: dict[str, SafeString]
    note: str
    caution: str
    unknown: tuple[str, ...]


def judged(kept: Kept, guidelines: Guidelines, before: Outfit | None = None) -> Judged:
    """Everything judged. ``before``: the outfit before the last move, to compare with."""
    outfit = kept.outfit
    check, problem = check_outfit(outfit), stow_problem(outfit)
    counts = problem.counts(outfit.stow) if outfit.stow else problem.counts(_NOTHING)
    figures = evaluate(problem, counts)
    steady = _steady(outfit, before)
    shown = _verdicts(check, guidelines, put_right=kept.put_right)
    word = worst([check.word, *_stow_word(figures)])
    return Judged(
        word=word,
        key=word.replace(" ", "-"),
        to_do=(*_to_do(check, figures, outfit), *((IN_THE_CAR,) if kept.stowed.home else ())),
        verdicts=tuple(one for one in shown if one.line.word != "fits"),
        others=tuple(one for one in shown if one.line.word == "fits"),
        move=next_move(problem, counts) if outfit.load.items else None,
        steady=(*(one.sentence for one in steady.loadings), *(one.sentence for one in steady.compared)),
        steady_caution=steady.caution,
        samples=steady.samples,
        gain=_gain(steady) if before else "",
        swing="not known" if figures.not_placed else f"{figures.inertia:,.0f} kg·m²",
        departure=tuple((line.text, line.source) for line in check.departure),
        pictures=_pictures(kept, check, figures, steady),
        note=kept.note,
        caution=check.caution,
        unknown=check.unknown,
    )


def _stow_word(figures: StowFigures) -> list[Word]:
    words: list[Word] = ["does not fit"] if figures.breaches else []
    return [*words, "cannot say"] if figures.not_placed else words


def _steady(outfit: Outfit, before: Outfit | None) -> SteadinessComparison:
    empty = replace(outfit, load=Load("no load", (), outfit.load.water), stow=None)
    loadings = {BEFORE: before, NOW: outfit} if before else {NOW: outfit}
    if outfit.load.items:
        loadings[EMPTY] = empty
    return compare_steadiness({name: one for name, one in loadings.items() if one}, samples=SAMPLES)


def _gain(steady: SteadinessComparison) -> str:
    """The last move in a few words; nine of ten draws must agree before either is called the steadier."""
    found = next(one for one in steady.compared if one.name == NOW)
    gain = abs(found.gain.middle) * 3.6
    sure = 0.9
    if found.steadier >= sure:
        return f"steadier, by about {gain:.1f} km/h in the model"
    if found.gain.high < 0:
        return f"less steady, by about {gain:.1f} km/h in the model"
    return "no difference that the model could tell"


def _verdicts(check: OutfitCheck, guidelines: Guidelines, *, put_right: bool) -> tuple[ShownVerdict, ...]:
    lines = left_out(verdict_lines(check), () if guidelines.newcomers else (NEWCOMERS,))
    if put_right:
        lines = tuple(replace(line, source=line.source.replace(_OLD_SOURCE, _READ)) for line in lines)
    return tuple(ShownVerdict(line, _scale(check.verdict(line.id)), line.word.replace(" ", "-")) for line in lines)


def _scale(verdict: Verdict) -> SafeString:
    """The verdict's scale in the unit it is shown in; nothing where it has neither figure nor limit."""
    if verdict.limit is None:
        return mark_safe("")
    per = to(1.0, verdict.unit)
    number = verdict.number.times(per) if verdict.number else None
    return mark_safe(draw_figure_scale(number, verdict.limit * per, least=verdict.least))


def _to_do(check: OutfitCheck, figures: StowFigures, outfit: Outfit) -> tuple[str, ...]:
    """What does not fit, what the stow breaks, what has no place yet, what to find out."""
    wrong = [verdict.sentence for verdict in check.verdicts if verdict.binding and verdict.word == "does not fit"]
    broken = [breach.sentence for breach in figures.breaches]
    names = {item.id: item.name for item in outfit.load.items}
    loose = [f"{number} × {names[item]}" if number > 1 else names[item] for item, number in figures.not_placed]
    place = [f"Not stowed yet: {_listed(loose)}."] if loose else []
    unknown = [name for name in check.unknown if not name.startswith("where ")]
    out = [f"Find out {_listed(unknown)}: until then nobody can say whether all is well."] if unknown else []
    return tuple(dict.fromkeys([*wrong, *broken, *place, *out]))


def _listed(words: list[str]) -> str:
    if len(words) > _FEW:
        return f"{', '.join(words[:_FEW])} and {len(words) - _FEW} more"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _pictures(
    kept: Kept, check: OutfitCheck, figures: StowFigures, steady: SteadinessComparison
) -> dict[str, SafeString]:
    sheet = kept.opened.sheet
    drawn = {
        "plan": draw_load_plan(sheet, figures, width=_WIDE),
        "nearside": draw_load_side(sheet, figures, "nearside", width=_WIDE),
        "offside": draw_load_side(sheet, figures, "offside", width=_WIDE),
        "scale": draw_nose_scale(nose_scale(check.band, check.laden.nose), width=_WIDE),
        "steady": draw_steadiness(steady, width=_WIDE),
    }
    return {name: mark_safe(svg) for name, svg in drawn.items()}


def strip_of(found: Judged) -> tuple[Cell, ...]:
    """The figures that change at once, as they stand now; of several axles the one with the worst word."""
    lines = {one.line.id: one.line for one in (*found.verdicts, *found.others)}
    axles = [line for key, line in lines.items() if key.startswith("van-axle")]
    worst_axle = min(axles, key=lambda line: WORST_FIRST.index(line.word))
    cells = (
        ("nose", "Noseweight", lines["noseweight"]),
        ("axle", worst_axle.title, worst_axle),
        ("payload", "Payload", lines["payload"]),
    )
    return (
        *(
            Cell(
                key,
                title,
                line.figure or "not known",
                f"of {line.limit}" if line.limit else "",
                line.word,
                line.word.replace(" ", "-"),
            )
            for key, title, line in cells
        ),
        Cell("swing", "Steadiness: swing of the load", found.swing, "", "", ""),
    )


def places_of(kept: Kept) -> tuple[Place, ...]:
    """Where everything lies: what has no place first, then the lockers by number, then what stays at home."""
    problem = stow_problem(kept.outfit)
    stow = kept.outfit.stow
    figures = evaluate(problem, problem.counts(stow if stow else _NOTHING))
    loads = {locker.id: locker for locker in figures.lockers}
    items = {item.id: item for item in kept.full.load.items}
    lying: dict[str, list[Thing]] = {}
    for p in kept.stowed.placed:
        lying.setdefault(p.locker, []).append(_thing(items[p.item], p.number))
    loose = tuple(_thing(items[item], number) for item, number in figures.not_placed)
    home = tuple(_thing(items[item], number) for item, number in kept.stowed.home)
    return (
        _apart("", "Not stowed yet", loose),
        *(
            Place(
                one.id,
                number,
                one.name,
                loads[one.id].mass,
                one.limit,
                loads[one.id].filled,
                tuple(lying.get(one.id, ())),
            )
            for number, one in numbered(kept.opened.sheet)
        ),
        _apart("home", "Not in the caravan", home),
    )


def _thing(item: LoadItem, number: int) -> Thing:
    return Thing(item.id, item.name, number, item.mass * number)


def _apart(key: str, name: str, things: tuple[Thing, ...]) -> Place:
    return Place(key, "", name, sum(one.mass for one in things), None, 0.0, things)
