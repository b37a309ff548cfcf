"""From a figure and its limit to a verdict with a sentence an owner understands."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstpitch.figures import Figure, get
from firstpitch.outfit.verdict import Span, Standing, Verdict, Word, compare, shown, shown_span

FINEST = 3  # decimals, so that a small amount does not read as nothing
MOST_NAMED = 4  # figures named in one sentence


@dataclass(frozen=True)
class Asked:
    """What a verdict is about, in words: ``what`` ends before the figure, ``bound`` before the limit, ``advice`` is what to do.

    >>> Asked("mtplm", "Laden mass", "maker's limit", "The loaded caravan weighs", "its plated limit is").unit
    'kg'
    """

    id: str
    title: str
    standing: Standing
    what: str
    bound: str
    advice: str = ""
    unit: str = "kg"
    digits: int = 0
    least: bool = False
    figures: tuple[str, ...] = ()
    given: tuple[str, ...] = ()
    optional: bool = False


def judge(
    asked: Asked,
    number: Span | None,
    limit: float | None,
    *,
    unknown: tuple[str, ...] = (),
    assumed: tuple[str, ...] = (),
) -> Verdict:
    """The verdict on ``number`` against ``limit`` (SI, masses in kg), None when unknown.

    ``unknown`` names what keeps ``number`` from being exact, or what is missing; ``assumed`` names what ``number`` only
    assumes: then the word is never better or worse than "cannot say".
    """
    missing = tuple(dict.fromkeys(unknown))
    if number is None or limit is None or not (math.isfinite(number.low) or math.isfinite(number.high)):
        return _verdict(
            asked, "cannot say", _missing(asked, number, limit, unknown=missing), number, limit, unknown=missing
        )
    word = compare(number, limit, least=asked.least)
    if assumed and word != "cannot say":
        sentence = f"{_figures(asked, number, limit)}, but this only assumes {_and(assumed)}: measure it before you rely on it."
        return _verdict(asked, "cannot say", sentence, number, limit, unknown=(*missing, *assumed))
    if word == "cannot say":
        depends = _and(missing or assumed) or "figures nobody has given"
        sentence = f"{_figures(asked, number, limit)}: it depends on {depends}."
        return _verdict(asked, word, sentence, number, limit, unknown=missing or assumed)
    sentence = f"{_figures(asked, number, limit)}: {_room(asked, word, number, limit)}"
    return _verdict(asked, word, sentence, number, limit)


def cannot_say(asked: Asked, sentence: str, unknown: tuple[str, ...]) -> Verdict:
    """A verdict that must wait for figures; the sentence says which."""
    return _verdict(asked, "cannot say", sentence, None, None, unknown=unknown)


def stated(asked: Asked, word: Word, sentence: str, number: Span | None = None, limit: float | None = None) -> Verdict:
    """A verdict whose word was found otherwise."""
    return _verdict(asked, word, sentence, number, limit)


def _verdict(
    asked: Asked,
    word: Word,
    sentence: str,
    number: Span | None,
    limit: float | None,
    *,
    unknown: tuple[str, ...] = (),
) -> Verdict:
    return Verdict(
        id=asked.id,
        title=asked.title,
        word=word,
        standing=asked.standing,
        sentence=sentence,
        number=number,
        limit=limit,
        least=asked.least,
        unit=asked.unit,
        figures=_figures_of(asked),
        given=asked.given,
        unknown=unknown,
        optional=asked.optional,
    )


def _figures_of(asked: Asked) -> tuple[Figure, ...]:
    return tuple(get(name) for name in asked.figures)


def _figures(asked: Asked, number: Span, limit: float) -> str:
    return f"{asked.what} {shown_span(number, asked.unit, asked.digits)}; {asked.bound} {shown(limit, asked.unit, asked.digits)}"


def _room(asked: Asked, word: Word, number: Span, limit: float) -> str:
    left = number.low - limit if asked.least else limit - number.high
    if word == "does not fit":
        over = limit - number.high if asked.least else number.low - limit
        short = "too little" if asked.least else "too much"
        return f"{_amount(over, asked)} {short}.{' ' + asked.advice if asked.advice else ''}"
    only = "only " if word == "tight" else ""
    return f"{only}{_amount(left, asked)} {'above it' if asked.least else 'to spare'}."


def _amount(value: float, asked: Asked) -> str:
    """An amount that never reads as nothing when it is something."""
    finest = asked.digits
    while value > 0 and finest < FINEST and float(shown(value, asked.unit, finest).split()[0].replace(",", "")) == 0:
        finest += 1
    return shown(value, asked.unit, finest)


def _missing(asked: Asked, number: Span | None, limit: float | None, unknown: tuple[str, ...]) -> str:
    known = ""
    if number is not None and (math.isfinite(number.low) or math.isfinite(number.high)):
        known = f"{asked.what} {shown_span(number, asked.unit, asked.digits)}, but "
    elif limit is not None:
        known = f"{asked.bound[:1].upper()}{asked.bound[1:]} {shown(limit, asked.unit, asked.digits)}, but "
    start = f"{known}{_and(unknown) or 'a figure'} "
    return f"{start[:1].upper()}{start[1:]}{'are' if len(unknown) > 1 else 'is'} not known."


def _and(words: tuple[str, ...]) -> str:
    if len(words) > MOST_NAMED:
        return f"{', '.join(words[:MOST_NAMED])} and {len(words) - MOST_NAMED} more figures"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""
