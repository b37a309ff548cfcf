"""Every figure that is spoken with a meaning for this van, held against the sheet."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from firstpitch.film.agreeing import agrees, doublings_off, may_be_misheard, same_sort
from firstpitch.film.amounts import COUNTED, Spoken, spoken_figures
from firstpitch.film.brief import VAN
from firstpitch.film.figure_cues import (
    CLOSE_ONLY,
    COUNTED_AFTER,
    COUNTED_AS,
    DULL,
    FACT_CUES,
    MODE_WORDS,
    MODES,
    SELDOM,
)
from firstpitch.film.fitted import Claim
from firstpitch.film.matching import Speech
from firstpitch.film.mentions import Mention, mentions_of, named_near
from firstpitch.film.numerals import Token, tokens_of
from firstpitch.film.types import FigureHeard, FigureState, FilmBrief, KnownFigure
from firstpitch.film.where import Where
from firstpitch.film.words import concepts, plain_words
from firstpitch.sheet import units
from firstpitch.sheet.types import Quantity

# What the kit in context, its name close by, the words round it and an equal value weigh; a value that may be misheard; how far off
# it is, for each doubling squared; a figure the sheet does not know; one of a kit nobody spoke of; one that few people tell.
KIT, NAMED, WORDS, SAME, MISHEARD, OFF, UNKNOWN, UNNAMED, RARELY = 1.5, 2.0, 2.0, 2.5, 1.2, 0.7, -0.4, -1.0, -0.7
ROUNDED, EXACT = (
    1.6,
    0.03,
)  # for one equal only as it was rounded: “two metres” for 2.05 m; doublings up to which it is no rounding
NEARLY = 0.4  # for a value that differs but is close: people misread more often than they invent
COUNT = 1.2  # for a count with the thing counted beside it
ALONE = 0.8  # for the only figure of the sheet that has the unit said
STRANGE = -1.5  # when kit that the van lacks was named closer by
MODE = 1.5  # when the words round it tell of another supply: gas, mains, battery
FURTHEST = 6.0  # doublings squared beyond which it makes no difference
# What a figure must reach to be the one spoken of; more where no unit was said, most where the number is round or small.
BOUND, BOUND_PRECISE, BOUND_BARE = 0.95, 1.6, 2.4
MOST_TOLD = 1.0  # what the words round it can reach in all, half as much again for the van's own figures, which have no kit to go by
BARE_OFF = 0.5  # doublings beyond which a number without a unit is not taken for the figure
AGAIN = 2.0  # against taking one figure for two values told close together
REPEATED = 15  # words within which the same bare number is only said again
BOTH = 14  # words before a figure in which “both” gives it to two kits
TOGETHER = 40  # words that count as close together
BEFORE, AFTER = 16, 10  # words of context
FAR, ACROSS, PAST = 0.93, 0.6, 0.8  # what a word's distance, a full stop and another figure between leave of its weight
HARDLY, TOLD, SPOKEN_OF = 0.1, 0.3, 0.5  # from which a kit, a word, a kit for a number without a unit counts at all
_SUPPLIES = {supply: frozenset(concepts(words)) for supply, words in MODE_WORDS.items()}
_ELSEWHERE = re.compile(
    r"\b(old|older|other|last|previous|bigger|smaller|next) (van|vans|caravan|model|one you had|one we had)\b|\bmy brother'?s\b|\bused to\b"
)


@dataclass(frozen=True)
class Guess:
    """A figure that an amount may be, with what speaks for it."""

    figure: KnownFigure
    score: float
    why: tuple[str, ...]


@dataclass(frozen=True)
class Cued:
    """A figure with the words that speak for it: ``cues`` all of them, ``own`` those of its sort."""

    figure: KnownFigure
    name: str
    cues: frozenset[str]
    own: frozenset[str]


@dataclass(frozen=True)
class Near:
    """What is round an amount: concepts and supplies by weight, the namings that count, how plainly kit the van lacks was named."""

    first: int
    last: int
    around: Mapping[str, float]
    supplies: Mapping[str, float]
    mentions: Sequence[Mention]
    strange: float
    alone: bool


def figures_of(brief: FilmBrief, speech: Speech, where: Where, claims: Sequence[Claim]) -> tuple[FigureHeard, ...]:
    """The figures heard, in order. Numbers that count something else, clock times and the like are left out.

    ``claims`` are the namings of kit that the van lacks: a figure told of such kit is none of the fitted kit's.
    """
    words = [word for breath in speech.breaths for word in breath.words]
    tokens = tokens_of([word.text for word in words])
    ear = _Ear(brief, speech, where, tokens, claims)
    found: list[FigureHeard] = []
    for spoken, heard in ear.held_against_the_sheet():
        first, last = tokens[spoken.first].word, tokens[spoken.after - 1].word
        text = " ".join(w.text for w in words[max(first - 6, 0) : last + 4])
        found.append(replace(heard, at=words[first].start, quote=text))
    return tuple(found)


class _Ear:
    """Holds spoken figures against a brief's."""

    def __init__(
        self, brief: FilmBrief, speech: Speech, where: Where, tokens: Sequence[Token], claims: Sequence[Claim]
    ) -> None:
        self.where, self.tokens = where, tokens
        self.breath_of = [n for n, breath in enumerate(speech.breaths) for _ in breath.words]
        self.mentions = mentions_of(brief, speech, claims)
        self.said = said = list(spoken_figures(tokens, plain_words(brief.van)))
        self.texts = [token.text for token in tokens]
        self.amount = {place for one in said if one.units for place in range(one.first, one.after)}
        self.figures = [cued(figure) for figure in brief.figures]
        count = Counter(cue for one in self.figures for cue in one.cues)
        self.rare = {cue: 1.0 / many**0.5 for cue, many in count.items()}

    def held_against_the_sheet(self) -> list[tuple[Spoken, FigureHeard]]:
        """Each figure with what was found, in the order spoken; the surest are settled first, so that one figure is not two values."""
        guesses = [self._guesses(spoken) for spoken in self.said]
        settled = self._settled(guesses)
        found: list[tuple[Spoken, FigureHeard]] = []
        for n in range(len(self.said)):
            spoken, guess = settled[n]
            heard = self._heard(spoken, guess)
            if heard is None or self._repeats(spoken, heard, found):
                continue
            found.append((spoken, heard))
            found += [(spoken, other) for other in self._both(spoken, guess, guesses[n])]
        return found

    def _settled(self, guesses: Sequence[Sequence[tuple[Spoken, Guess]]]) -> dict[int, tuple[Spoken, Guess | None]]:
        """The best guess of each, where there is one."""
        settled: dict[int, tuple[Spoken, Guess | None]] = {}
        taken: list[tuple[str, Spoken]] = []
        order = sorted(range(len(self.said)), key=lambda n: -max((g.score for _, g in guesses[n]), default=-9.0))
        for n in order:
            best: tuple[Spoken, Guess | None] = (self.said[n], None)
            most = -9.0
            for spoken, guess in guesses[n]:
                score = guess.score - AGAIN * self._taken(spoken, guess.figure, taken)
                if score > most:
                    best, most = (spoken, replace(guess, score=score)), score
            settled[n] = best
            if best[1] is not None:
                taken.append((best[1].figure.key, best[0]))
        return settled

    def _repeats(self, spoken: Spoken, heard: FigureHeard, found: Sequence[tuple[Spoken, FigureHeard]]) -> bool:
        """Whether a bare number only says again what was told a breath ago: “you'd be amazed how fast a hundred and ninety goes”."""
        return self.texts[spoken.after - 1 : spoken.after] == self.texts[
            spoken.number.after - 1 : spoken.number.after
        ] and any(
            other.figure == heard.figure and other.value == heard.value and spoken.first - one.after <= REPEATED
            for one, other in found
        )

    def _both(self, spoken: Spoken, guess: Guess | None, guesses: Sequence[tuple[Spoken, Guess]]) -> list[FigureHeard]:
        """The same figure of another kit, where “both” was said: “both alarms want replacing in June 2034”."""
        if guess is None or "both" not in self.texts[max(spoken.first - BOTH, 0) : spoken.after + 3]:
            return []
        name = guess.figure.key.split("=", 1)[1]
        others = [
            g
            for one, g in guesses
            if g.figure.key.split("=", 1)[1] == name and g.figure.kind != guess.figure.kind and agrees(one, g.figure)
        ]
        heard = [self._heard(spoken, g) for g in others[:1]]
        return [one for one in heard if one is not None]

    def _taken(self, spoken: Spoken, figure: KnownFigure, taken: Sequence[tuple[str, Spoken]]) -> bool:
        """Whether the figure was taken close by for another value, and this is not its own."""
        return not agrees(spoken, figure) and any(
            key == figure.key
            and abs(other.first - spoken.first) <= TOGETHER
            and other.number.value != spoken.number.value
            for key, other in taken
        )

    def _guesses(self, spoken: Spoken) -> list[tuple[Spoken, Guess]]:
        """What it may be, in its own unit or in one lent by the figure before."""
        found = []
        for one in (spoken, *self._lent(spoken)):
            fitting = [cued for cued in self.figures if same_sort(one, cued.figure)]
            near = self._near(spoken, fitting)
            small = not one.units and one.number.value < COUNTED and not one.number.value % 1 and one.number.step >= 1.0
            for cued in fitting:
                unit, same = cued.figure.unit, agrees(one, cued.figure)
                if (small and unit) or (not unit and not self._counts(one, cued)):
                    continue
                if not one.units and not same and doublings_off(one, cued.figure) > BARE_OFF:
                    continue
                guess = self._weighed(one, cued, near, same)
                if guess is not None and (not one.weak or (same and guess.score >= BOUND_BARE)):
                    found.append((one, guess))
        return found

    def _near(self, spoken: Spoken, fitting: Sequence[Cued]) -> Near:
        first, last = self.tokens[spoken.first].word, self.tokens[spoken.after - 1].word
        around = self._around(spoken)
        kinds = {cued.figure.kind for cued in fitting}
        mentions = [m for m in self.mentions if not m.kind or m.kind in kinds]
        supplies = {
            supply: max((around.get(c, 0.0) for c in words), default=0.0) for supply, words in _SUPPLIES.items()
        }
        strange = named_near(self.mentions, "", first, last)
        return Near(first, last, around, supplies, mentions, strange, bool(spoken.units) and len(fitting) == 1)

    def _lent(self, spoken: Spoken) -> list[Spoken]:
        """It in the unit of the figure before; where it may count something instead it must be the sheet's figure to the digit."""
        if not spoken.lent:
            return []
        number = spoken.number if spoken.handed else replace(spoken.number, step=0.0)
        return [replace(spoken, number=number, units=spoken.lent, weak=not spoken.handed)]

    def _counts(self, spoken: Spoken, cued: Cued) -> bool:
        """Whether what the figure counts is said with a bare number: “four rings”, “sleeps six”. Dates count nothing."""
        figure, name = cued.figure, cued.name
        if not isinstance(figure.value, int):
            return True
        nouns = COUNTED_AS.get(name, frozenset(plain_words(figure.what)))
        if spoken.number.value == 1 and figure.value != 1:
            return False
        ahead, follows = (
            self.texts[max(spoken.first - 4, 0) : spoken.first],
            self.texts[spoken.after : spoken.after + 1],
        )
        if COUNTED_AFTER.get(name, frozenset()) & set(ahead[-3:]):
            return True
        if name == "berths" and ahead[-1:] == ["for"] and (follows in (["people"], ["persons"]) or "beds" in ahead):
            return True
        for at in range(spoken.after, min(spoken.after + 3, len(self.tokens))):
            if self.tokens[at - 1].stop:
                return False
            if (self.texts[at] in nouns and (at == spoken.after or self.texts[at] not in CLOSE_ONLY)) or (
                self.texts[at - 1 : at + 1] == ["of", "them"] and self._just_named(spoken, figure)
            ):
                return True
        return False

    def _just_named(self, spoken: Spoken, figure: KnownFigure) -> bool:
        word = self.tokens[spoken.first].word
        return named_near(self.mentions, figure.kind, word, word) >= 0.5

    def _weighed(self, spoken: Spoken, cued: Cued, near: Near, same: bool) -> Guess | None:
        figure, around = cued.figure, near.around
        named = named_near(near.mentions, figure.kind, near.first, near.last)
        strange = max(near.strange - named, 0.0)
        kit = self._kit(figure.kind, self.breath_of[near.first]) * max(1.0 - strange, 0.0)
        words = {cue: self.rare[cue] * around[cue] for cue in cued.cues if cue in around}
        told = min(sum(words.values()), MOST_TOLD * (1.5 if figure.kind == VAN else 1.0))
        own = max((around.get(cue, 0.0) for cue in cued.own), default=0.0)
        counted = isinstance(figure.value, int)
        if not (spoken.units or counted or same) and own < TOLD and kit < SPOKEN_OF:
            return None
        score = KIT * kit + NAMED * min(named, 1.0) + WORDS * told + _by_value(spoken, figure, same)
        score += STRANGE * strange * (0.5 if same else 1.0) - MODE * other_supply(cued.name, near.supplies)
        score += (COUNT if counted else 0.0) + (ALONE if near.alone else 0.0)
        if cued.name in SELDOM:
            score += RARELY if own < TOLD else -RARELY if own > SPOKEN_OF and named >= TOLD else 0.0
        if not counted and kit < HARDLY and named < TOLD and (told < TOLD or figure.kind != VAN):
            score += UNNAMED
        why = [f"spoken while on this kit ({kit:.0%})"] if kit >= TOLD else []
        why += ["its kit is named close by"] if named >= TOLD else []
        why += [f"words near it: {', '.join(sorted(words))}"] if words else []
        return Guess(figure, score, tuple(why) or ("nothing else on the sheet is like it",))

    def _kit(self, kind: str, breath: int) -> float:
        """The chance that the kit is spoken of in, just before or just after the breath."""
        if kind not in self.where.kinds:
            return 0.0
        row = self.where.chance[self.where.kinds.index(kind)]
        near = ((breath, 1.0), (breath - 1, 0.8), (breath + 1, 0.6))
        return float(max(row[at] * weight for at, weight in near if 0 <= at < len(row)))

    def _around(self, spoken: Spoken) -> dict[str, float]:
        """The concepts heard round the number, nearer ones counting more, those past a stop or another figure less."""
        found: dict[str, float] = {}
        for step, places in (
            (-1, range(spoken.first - 1, max(spoken.first - BEFORE, 0) - 1, -1)),
            (1, range(spoken.after, min(spoken.after + AFTER, len(self.tokens)))),
        ):
            weight, amount = 1.0, False
            for at in places:
                token = self.tokens[at]
                weight *= FAR
                weight *= ACROSS if (token.stop if step < 0 else self.tokens[at - 1].stop) else 1.0
                if at in self.amount and not amount:
                    weight *= PAST
                amount = at in self.amount
                for name in concepts(token.text):
                    found[name] = max(found.get(name, 0.0), weight)
        return found

    def _heard(self, spoken: Spoken, guess: Guess | None) -> FigureHeard | None:
        """What is told of an amount; None when it is no figure of this van."""
        bare = not spoken.units
        if guess is None or guess.score < _bound(spoken, guess.figure):
            if (
                spoken.weak
                or spoken.units in (("date",), ("lb", "psi"))
                or (bare and not spoken.number.value % 1)
                or self._elsewhere(spoken)
            ):
                return None
            return self._told(spoken, None, "not on the sheet", 0.6, ("the sheet has no such figure",))
        if guess.figure.value is None:
            why = (*guess.why, "the sheet does not know this figure")
            return self._told(spoken, guess.figure, "not on the sheet", 0.6, why)
        if agrees(spoken, guess.figure):
            return self._told(spoken, guess.figure, "agrees", 0.95, guess.why)
        if self._elsewhere(spoken):
            return None
        if may_be_misheard(spoken, guess.figure):
            why = (*guess.why, f"may be {spoken.number.other:g} misheard: listen")
            return self._told(spoken, guess.figure, "differs", 0.4, why)
        return self._told(spoken, guess.figure, "differs", 0.75, guess.why)

    def _elsewhere(self, spoken: Spoken) -> bool:
        """Whether it is told of another van: “a hundred and ten in the old van”."""
        return bool(_ELSEWHERE.search(" ".join(self.texts[max(spoken.first - 6, 0) : spoken.after + 7])))

    def _told(
        self, spoken: Spoken, figure: KnownFigure | None, state: FigureState, sure: float, why: tuple[str, ...]
    ) -> FigureHeard:
        number = spoken.number
        said = " ".join(self.texts[spoken.first : spoken.after])
        sheet = "" if figure is None or figure.value is None else _written(figure)
        key = figure.key if figure else ""
        return FigureHeard(
            0.0, "", said, number.value, number.most, _unit_for(spoken, figure), key, state, sheet, sure, why
        )


def _bound(spoken: Spoken, figure: KnownFigure) -> float:
    """What a guess must reach: the less the number looks like a figure by itself, the more."""
    if spoken.units or isinstance(figure.value, int):
        return BOUND
    value = spoken.number.value
    return BOUND_PRECISE if value >= 1000 or (value > 100 and value % 100) else BOUND_BARE


def cued(figure: KnownFigure) -> Cued:
    """A figure with the words that speak for it: its description's, those people say of such figures, and its kit's own."""
    kit, name = figure.key.split("=", 1)
    text = f"{figure.what} {name.replace('_', ' ')} {' '.join(figure.kits) if kit != VAN else ''}"
    own = frozenset(concepts(FACT_CUES.get(name, "")))
    return Cued(figure, name, (frozenset(concepts(text.replace("-", " "))) | own) - DULL, own)


def _by_value(spoken: Spoken, figure: KnownFigure, same: bool) -> float:
    """What the value itself says: people tell right figures far more often than wrong ones, and wrong ones are seldom far off."""
    if figure.value is None:
        return UNKNOWN
    if same:
        return SAME if doublings_off(spoken, figure) <= EXACT else ROUNDED
    if may_be_misheard(spoken, figure):
        return MISHEARD
    return NEARLY - OFF * min(doublings_off(spoken, figure) ** 2, FURTHEST)


def other_supply(name: str, told: Mapping[str, float]) -> float:
    """How much plainer another supply than that of the fact is spoken of, 0 to 1; 0 for a fact of none.

    >>> other_supply("gas_power", {"gas": 0.0, "mains": 0.5, "battery": 0.0}), other_supply("volume", {"gas": 1.0})
    (0.5, 0.0)
    """
    own = MODES.get(name)
    return max(max(weight for supply, weight in told.items() if supply != own) - told[own], 0.0) if own else 0.0


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
