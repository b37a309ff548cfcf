"""A verdict: the word, the figure with its limit, the margin, where both come from, one sentence for the owner."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Literal

from firstpitch.figures import Figure, get
from firstpitch.sheet.units import to

Word = Literal["fits", "tight", "does not fit", "cannot say"]
Standing = Literal["law", "maker's limit", "practice", "guideline"]
WORST_FIRST: tuple[Word, ...] = ("does not fit", "cannot say", "tight", "fits")
ALMOST_NOTHING = 1e-9


@dataclass(frozen=True)
class Span:
    """A figure that lies from ``low`` to ``high``: both the same when it is known, infinite where nothing bounds it."""

    low: float
    high: float

    def __add__(self, other: Span) -> Span:
        return Span(self.low + other.low, self.high + other.high)

    def times(self, factor: float) -> Span:
        """Both ends times a factor; a negative one swaps them.

        >>> Span(1.0, 2.0).times(-2.0)
        Span(low=-4.0, high=-2.0)
        """
        ends = [0.0 if factor == 0 else end * factor for end in (self.low, self.high)]
        return Span(min(ends), max(ends))

    @property
    def exact(self) -> bool:
        """Whether it is one figure."""
        return self.high - self.low <= ALMOST_NOTHING * max(1.0, abs(self.low))

    @property
    def bounded(self) -> bool:
        """Whether both ends are finite."""
        return math.isfinite(self.low) and math.isfinite(self.high)

    @property
    def middle(self) -> float:
        """Half way between the ends."""
        return (self.low + self.high) / 2


def exactly(value: float) -> Span:
    """A known figure as a span."""
    return Span(value, value)


UNBOUNDED = Span(-math.inf, math.inf)


@dataclass(frozen=True)
class Verdict:
    """One answer. ``number`` and ``limit`` are in SI (masses in kg), shown in ``unit``; ``least`` means the limit is a lower one.

    ``band``: where a guideline wants the figure, from and to; ``limit`` is then the end of it that is nearer or passed.
    ``given`` are the sheet's figures it rests on, ``figures`` the published ones, ``unknown`` what must be found out first.
    """

    id: str
    title: str
    word: Word
    standing: Standing
    sentence: str
    number: Span | None = None
    limit: float | None = None
    least: bool = False
    unit: str = "kg"
    figures: tuple[Figure, ...] = ()
    given: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    optional: bool = False
    band: tuple[float, float] | None = None

    @property
    def margin(self) -> float | None:
        """Room left (negative: too much by so much), counted from the worse end of ``number``; None when that is not known."""
        if self.number is None or self.limit is None:
            return None
        left = self.number.low - self.limit if self.least else self.limit - self.number.high
        return left if math.isfinite(left) else None

    @property
    def source(self) -> str:
        """Where the figures come from, each with its standing."""
        credits_once = dict.fromkeys(figure.credit for figure in self.figures)
        return "; ".join([*credits_once, *self.given]) or "no source"

    @property
    def binding(self) -> bool:
        """Whether the outfit as a whole depends on it: guidelines and what the owner may do without never bind."""
        return self.standing != "guideline" and not self.optional


def tight_share() -> float:
    """The share of a limit below which a margin is called tight."""
    return get("towing.tight_share").si


def compare(number: Span, limit: float, *, least: bool = False, tight: float | None = None) -> Word:
    """The word for a figure against a limit that is known.

    ``number`` may be a span: it fits only if all of it does, and does not only if none of it does. ``tight`` is a share of
    the limit; None takes ``figures/towing.toml, tight_share``.

    >>> compare(exactly(90.0), 100.0), compare(exactly(99.0), 100.0), compare(exactly(100.5), 100.0)
    ('fits', 'tight', 'does not fit')
    >>> compare(Span(90.0, 110.0), 100.0), compare(exactly(24.0), 25.0, least=True)
    ('cannot say', 'does not fit')
    """
    share = tight_share() if tight is None else tight
    slack = ALMOST_NOTHING * max(1.0, abs(limit))
    best, worst = (number.high - limit, number.low - limit) if least else (limit - number.low, limit - number.high)
    if best < -slack:
        return "does not fit"
    if worst < -slack or math.isnan(worst):
        return "cannot say"
    return "tight" if worst < share * abs(limit) - slack else "fits"


def worst(words: list[Word]) -> Word:
    """The worst of several words; nothing at all cannot be said to fit.

    >>> worst(["fits", "tight"]), worst(["cannot say", "does not fit"]), worst([])
    ('tight', 'does not fit', 'cannot say')
    """
    return next((word for word in WORST_FIRST if word in words), "cannot say")


def shown(value: float, unit: str, digits: int = 0) -> str:
    """An SI figure (masses in kg) as text in ``unit``.

    >>> shown(89.2857, "kg"), shown(9917.4, "kN", 1)
    ('89 kg', '9.9 kN')
    """
    return f"{round(value * _per_si(unit), digits) + 0.0:,.{digits}f} {unit}"


@cache
def _per_si(unit: str) -> float:
    return to(1.0, unit)


def shown_span(span: Span, unit: str, digits: int = 0) -> str:
    """A span as text: one figure, ``from … to …``, or that nothing bounds it.

    >>> shown_span(Span(1200.0, 1240.0), "kg"), shown_span(Span(1200.0, math.inf), "kg")
    ('1,200 kg to 1,240 kg', 'at least 1,200 kg')
    """
    if span.bounded:
        low, high = shown(span.low, unit, digits), shown(span.high, unit, digits)
        return low if low == high else f"{low} to {high}"
    if math.isfinite(span.low):
        return f"at least {shown(span.low, unit, digits)}"
    return f"at most {shown(span.high, unit, digits)}" if math.isfinite(span.high) else "unknown"
