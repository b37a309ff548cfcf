"""Every figure that is spoken with a meaning for this van, held against the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import log2

import numpy as np

from firstpitch.film.matching import Speech
from firstpitch.film.numbers import Number, Token, read_numbers, tokens_of
from firstpitch.film.spoken_units import TIMES, si_of, unit_at
from firstpitch.film.types import FigureHeard, FigureState, FilmBrief, KnownFigure
from firstpitch.film.where import Where
from firstpitch.film.words import concepts
from firstpitch.sheet import units
from firstpitch.sheet.types import Quantity

CLOSE = 0.02  # people round: within this share of the sheet's figure
KIT, NAMED, WORDS, SAME, UNNAMED = (
    1.5,
    1.0,
    2.0,
    2.0,
    -1.0,
)  # what the kit in context, its name, the words round it and an equal value weigh
UNLIKELY = 1.0  # for each doubling beyond threefold by which what was said is off
BOUND, BOUND_BARE = 0.95, 2.4  # what a figure must reach to be the one spoken of; more where no unit was said
BEFORE, AFTER = 16, 10  # words of context
# What people say round the figures of the van itself. Common usage, no source.
VAN_CUES = {
    "miro": "running order unladen empty factory works nothing weighs bare",
    "mtplm": "plate max maximum laden loaded all up allowed limit gross most go",
    "payload": "payload pack load clobber leaves yourselves play spare put carry gear stuff",
    "noseweight_limit": "nose noseweight front hitch ball",
    "axle_limit": "axle",
    "length": "long length body",
    "shipping_length": "overall shipping length end hitch back",
    "width": "wide width across",
    "height": "high height tall bridge",
    "headroom": "headroom head stand inside",
    "tyre_pressure": "tyre tyres pressure cold psi pump wheels",
    "wheel_torque": "torque nut nuts bolts wrench wheel",
    "berths": "berth berths sleeps sleep birth people",
}
_AFTER_DECOY = frozenset(
    (
        *(
            "o'clock",
            "oclock",
            "past",
            "pin",
            "pins",
            "way",
            "star",
            "stars",
            "times",
            "time",
            "people",
            "ago",
            "things",
            "points",
            "thing",
        ),
        *(
            "point",
            "more",
            "other",
            "others",
            "or",
            "step",
            "steps",
            "card",
            "cards",
            "seater",
            "door",
            "wheel",
            "wheels",
            "drive",
            "legs",
        ),
        *("corner", "corners"),
    )
)
_IDLE = frozenset(
    {("one", "second"), ("one", "minute"), ("one", "sec"), ("two", "minutes"), ("two", "seconds"), ("two", "secs")}
)
COUNTED = (
    30  # bare whole numbers below this are counts of something, not figures, unless the thing counted is on the sheet
)


@dataclass(frozen=True)
class Spoken:
    """A number with what it stands for: the units it can be in (none: bare), and the tokens it spans."""

    number: Number
    first: int
    after: int
    units: tuple[str, ...]
    idle: bool = False


def figures_of(brief: FilmBrief, speech: Speech, where: Where) -> tuple[FigureHeard, ...]:
    """The figures heard, in order. Numbers that count something else, clock times and the like are left out."""
    words = [word for breath in speech.breaths for word in breath.words]
    breath_of = [n for n, breath in enumerate(speech.breaths) for _ in breath.words]
    tokens = tokens_of([word.text for word in words])
    ear = _Ear(brief, where, tokens, breath_of)
    found: list[FigureHeard] = []
    for spoken in spoken_figures(tokens):
        heard = ear.held_against_the_sheet(spoken)
        if heard is not None:
            first, last = tokens[spoken.first].word, tokens[spoken.after - 1].word
            text = " ".join(w.text for w in words[max(first - 6, 0) : last + 4])
            found.append(replace(heard, at=words[first].start, quote=text))
    return tuple(found)


def spoken_figures(tokens: Sequence[Token]) -> Iterator[Spoken]:
    """The numbers of the tokens with their units, decoys left out; “by” and lists hand a unit on.

    >>> [(s.number.value, s.units) for s in spoken_figures(tokens_of("a metre ninety by one thirty".split()))]
    [(1.9, ('m',)), (1.3, ('m',))]
    """
    texts = [token.text for token in tokens]
    numbers = read_numbers(tokens)
    before: Spoken | None = None
    skip = -1
    for number in numbers:
        if number.first < skip:
            continue
        spoken = _spoken(tokens, texts, number, before)
        if spoken is None:
            continue
        skip = spoken.after
        if spoken.units and not spoken.idle:
            before = spoken
        yield spoken


def _spoken(tokens: Sequence[Token], texts: Sequence[str], number: Number, before: Spoken | None) -> Spoken | None:
    end, at = number.after, number.first
    if number.date:
        return Spoken(number, at, end, ("date",))
    if ":" in "".join(texts[at:end]):
        return None
    stopped = tokens[end - 1].stop or tokens[end - 1].comma
    start = end + 2 if texts[end : end + 2] in (["of", "a"], ["of", "an"]) else end
    found, after = unit_at(texts, start) if not stopped else ((), end)
    metres = _metres(texts, number, at) or _hundredths(texts, number, found, after)
    if metres:
        return metres
    if not found and number.step == 0.0 and not number.date and number.value < 1:
        return None
    if found == ("",) and texts[start] in ("pounds", "£"):
        found = ("lb", "psi")
    if not found and after < len(texts) and texts[after] in _AFTER_DECOY and not stopped:
        return None
    if found and (after < len(texts) and texts[after] == "ago"):
        return None
    if set(found) & TIMES and (texts[at], texts[end] if end < len(texts) else "") in _IDLE:
        return None
    if found == ("V",) and number.value == 12:  # the low-voltage side is called by it
        return None
    if found:
        return Spoken(number, at, after, found)
    near = before is not None and at - before.after <= 14
    if before and near and at and texts[at - 1] == "by" and "m" in before.units:
        return Spoken(_in_metres(number), at, end, before.units)
    if before and near and number.value != 1 and _hands_on(tokens, texts, number):
        return Spoken(number, at, end, before.units)
    if at + 1 < len(texts) and end < len(texts) and texts[end] == "by":
        return Spoken(_in_metres(number), at, end, ("m",))
    return Spoken(number, at, end, ())


def _in_metres(number: Number) -> Number:
    return replace(number, value=number.value / 100, step=0.01) if number.value >= COUNTED else number


def _metres(texts: Sequence[str], number: Number, at: int) -> Spoken | None:
    """“six metre ten”, “a metre ninety”: metres, then hundredths."""
    if (
        at >= 1
        and texts[at - 1] in ("metre", "meter", "metres", "meters")
        and 10 <= number.value < 100
        and not number.value % 1
    ):
        whole = {"a": 1.0, "one": 1.0, "two": 2.0}.get(texts[at - 2] if at > 1 else "")
        if whole is not None:
            return Spoken(
                replace(number, value=whole + number.value / 100, step=0.01, other=None), at - 2, number.after, ("m",)
            )
    return None


def _hundredths(texts: Sequence[str], number: Number, found: tuple[str, ...], after: int) -> Spoken | None:
    """“nine metres sixty”: the hundredths that follow whole metres."""
    if found != ("m",) or number.value % 1 or after >= len(texts):
        return None
    more = read_numbers([Token(text, 0) for text in texts[after : after + 3]])
    if not more or more[0].first or not 10 <= more[0].value < 100 or more[0].value % 1:
        return None
    end = after + more[0].after
    if end < len(texts) and unit_at(texts, end)[0]:
        return None
    return Spoken(
        replace(number, value=number.value + more[0].value / 100, step=0.01, other=None), number.first, end, ("m",)
    )


def _hands_on(tokens: Sequence[Token], texts: Sequence[str], number: Number) -> bool:
    """Whether a bare number takes the unit of the figure before it: nothing is counted by the word after it."""
    end = number.after
    if end >= len(texts) or tokens[end - 1].stop or tokens[end - 1].comma:
        return True
    return texts[end] in ("for", "is", "you", "and", "on", "in", "when", "at", "if", "to", "but")


class _Ear:
    """Holds spoken figures against a brief's."""

    def __init__(self, brief: FilmBrief, where: Where, tokens: Sequence[Token], breath_of: Sequence[int]) -> None:
        self.figures, self.where, self.tokens, self.breath_of = brief.figures, where, tokens, breath_of
        self.texts = [token.text for token in tokens]
        self.cues = [self._cues_of(figure) for figure in brief.figures]
        count: dict[str, int] = {}
        for cues in self.cues:
            for cue in cues:
                count[cue] = count.get(cue, 0) + 1
        self.rare = {cue: 1.0 / many**0.5 for cue, many in count.items()}

    def _cues_of(self, figure: KnownFigure) -> frozenset[str]:
        name = figure.key.split("=", 1)[1]
        own = VAN_CUES.get(name, "") if figure.key.startswith("van=") else ""
        return frozenset(concepts(f"{figure.what} {own} {name.replace('_', ' ')}"))

    def held_against_the_sheet(self, spoken: Spoken) -> FigureHeard | None:
        """The figure spoken of, with what was found; None when the number is no figure of this van."""
        best, score, why = self._best(spoken)
        bare = not spoken.units
        if best is None or score < (BOUND_BARE if bare else BOUND):
            if spoken.units == ("date",) or (bare and not spoken.number.value % 1):
                return None
            return self._heard(spoken, None, "not on the sheet", 0.6, ("the sheet has no such figure",))
        if best.value is None:
            return self._heard(spoken, best, "not on the sheet", 0.6, (*why, "the sheet does not know this figure"))
        state: FigureState = "agrees" if agrees(spoken, best) else "differs"
        sure = 0.95 if state == "agrees" else 0.75
        if state == "differs" and spoken.number.other is not None:
            other = replace(spoken, number=replace(spoken.number, value=spoken.number.other))
            if agrees(other, best):
                sure, why = 0.4, (*why, f"may be {spoken.number.other:g} misheard: listen")
        return self._heard(spoken, best, state, sure, why)

    def _best(self, spoken: Spoken) -> tuple[KnownFigure | None, float, tuple[str, ...]]:
        best: tuple[KnownFigure | None, float, tuple[str, ...]] = (None, -1.0, ())
        breath = self.breath_of[self.tokens[spoken.first].word]
        around = self._around(spoken)
        small = not spoken.units and spoken.number.value < COUNTED and not spoken.number.value % 1
        for figure, cues in zip(self.figures, self.cues, strict=True):
            if not _same_sort(spoken, figure) or (small and figure.unit):
                continue
            score, why = self._score(spoken, figure, cues, breath, around)
            if score > best[1]:
                best = (figure, score, why)
        return best

    def _score(
        self, spoken: Spoken, figure: KnownFigure, cues: frozenset[str], breath: int, around: dict[str, float]
    ) -> tuple[float, tuple[str, ...]]:
        kit = self._kit(figure.kind, breath)
        words = {cue: self.rare[cue] * around[cue] for cue in cues if cue in around}
        told = min(sum(words.values()), 1.5)
        same = figure.value is not None and agrees(spoken, figure)
        named = self._named(figure.kind, breath)
        score = KIT * kit + NAMED * named + WORDS * told + SAME * same - UNLIKELY * _off(spoken, figure)
        score += UNNAMED if kit < 0.1 and told < 0.3 and named < 0.3 else 0.0
        why = [f"spoken while on this kit ({kit:.0%})"] if kit >= 0.3 else []
        why += [f"words near it: {', '.join(sorted(words))}"] if words else []
        return score, tuple(why)

    def _kit(self, kind: str, breath: int) -> float:
        if kind not in self.where.kinds or kind == "":
            return 0.0
        row = self.where.chance[self.where.kinds.index(kind)]
        return float(
            np.max(
                row[max(breath - 1, 0) : breath + 2]
                * np.array([0.8, 1.0, 0.6])[: len(row[max(breath - 1, 0) : breath + 2])]
            )
        )

    def _named(self, kind: str, breath: int) -> float:
        """How plainly the kit was named just before, in, or just after the breath."""
        if kind not in self.where.kinds or kind == "":
            return 0.0
        row = self.where.named[self.where.kinds.index(kind)]
        lately = [
            row[at] * weight
            for at, weight in ((breath, 1.0), (breath - 1, 0.9), (breath - 2, 0.6), (breath - 3, 0.4))
            if at >= 0
        ]
        soon = [0.6 * row[breath + 1]] if breath + 1 < len(row) else []
        return float(min(max([*lately, *soon]), 1.0))

    def _around(self, spoken: Spoken) -> dict[str, float]:
        """The concepts heard round the number, nearer ones counting more."""
        first, last = self.tokens[spoken.first].word, self.tokens[spoken.after - 1].word
        found: dict[str, float] = {}
        for token in self.tokens[max(spoken.first - BEFORE, 0) : spoken.after + AFTER]:
            if first <= token.word <= last and token.text in self.texts[spoken.first : spoken.number.after]:
                continue
            far = max(first - token.word, token.word - last, 0)
            for name in concepts(token.text):
                found[name] = max(found.get(name, 0.0), 0.93**far)
        return found

    def _heard(
        self, spoken: Spoken, figure: KnownFigure | None, state: FigureState, sure: float, why: tuple[str, ...]
    ) -> FigureHeard:
        number = spoken.number
        said = " ".join(self.texts[spoken.first : spoken.after])
        unit = _unit_for(spoken, figure)
        sheet = "" if figure is None or figure.value is None else _written(figure)
        key = figure.key if figure else ""
        return FigureHeard(0.0, "", said, number.value, number.most, unit, key, state, sheet, sure, why)


def _written(figure: KnownFigure) -> str:
    value = figure.value
    if isinstance(value, Quantity):
        return units.show(value.si, figure.unit, 4) if figure.unit else value.written
    return str(value)


def _unit_for(spoken: Spoken, figure: KnownFigure | None) -> str:
    if figure is not None and figure.unit:
        for unit in spoken.units:
            if unit and unit != "date" and units.sort_of(unit) == units.sort_of(figure.unit):
                return unit
        return spoken.units[0] if spoken.units else figure.unit
    return spoken.units[0] if spoken.units else ""


def _same_sort(spoken: Spoken, figure: KnownFigure) -> bool:
    """Whether the spoken figure can be this one at all, by its unit."""
    if isinstance(figure.value, date) or (figure.value is None and not figure.unit):
        return spoken.units == ("date",) or (not spoken.units and 2000 < spoken.number.value < 2100)
    if spoken.units == ("date",):
        return False
    if not figure.unit:
        return not spoken.units
    return not spoken.units or any(u and units.sort_of(u) == units.sort_of(figure.unit) for u in spoken.units)


def agrees(spoken: Spoken, figure: KnownFigure) -> bool:
    """Whether what was said is the sheet's figure as people speak: within 2 %, or within half of the last digit spoken."""
    number, value = spoken.number, figure.value
    if isinstance(value, date):
        if number.date is None:
            return value.year == int(number.value)
        year, month, day = number.date
        return (value.year, value.month) == (year, month) and day in (0, value.day)
    if isinstance(value, int) and not isinstance(value, bool):
        return number.value == value
    if not isinstance(value, Quantity):
        return False
    return any(_within(number, unit, value.si) for unit in _tried(spoken, figure))


def _off(spoken: Spoken, figure: KnownFigure) -> float:
    """How many doublings beyond threefold what was said lies from the sheet's figure; people misspeak, but seldom by that much."""
    if not isinstance(figure.value, Quantity) or figure.value.si <= 0 or units.sort_of(figure.unit) == "temperature":
        return 0.0
    said = [si_of(abs(spoken.number.value), unit) for unit in _tried(spoken, figure)]
    ratios = [abs(log2(si / figure.value.si)) for si in said if si > 0]
    return max(min(ratios) - log2(3.0), 0.0) if ratios else 0.0


def _tried(spoken: Spoken, figure: KnownFigure) -> list[str]:
    if not spoken.units:
        return [figure.unit, *(("psi",) if units.sort_of(figure.unit) == "pressure" else ())]
    return [u for u in spoken.units if u and units.sort_of(u) == units.sort_of(figure.unit)]


def _within(number: Number, unit: str, si: float) -> bool:
    low, high = si_of(number.value, unit), si_of(number.most if number.most is not None else number.value, unit)
    nil = si_of(0.0, unit)  # temperatures do not start at nought
    half = abs(si_of(number.step, unit) - nil) / 2
    slack = max(CLOSE * abs(si - nil), half) * (1.0 + 1e-9)
    return low - slack <= si <= high + slack
