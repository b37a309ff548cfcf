"""Numbers in talk with what they are numbers of: their unit, or that they only count, name, price or tell the time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from firstpitch.film.numbers import read_numbers
from firstpitch.film.numerals import PARTS, Number, Token
from firstpitch.film.spoken_units import MONEY, TIMES, unit_at

COUNTED = 30  # bare whole numbers below this count something; they are figures only where a kit's own parts are counted
LISTED = 10  # from which a bare number in a list takes the unit after it
BATTERY = 40  # amps from which a battery may be meant: “a ninety-five amp battery”
NEAR = 14  # words over which a unit is handed on to a bare number


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# What a number counts, or what it is the name of, by the word after it.
AFTER_DECOY = _words(
    "o'clock oclock past pm pin pins way star stars times time ago things points thing point more other others or step steps card cards "
    "seater door doors wheel wheels drive legs corner corners phase stage speed lads"
)
BEFORE_DECOY = _words(
    "page number room bay plot junction chapter model mark aged turned doing channel route option part"
)
SIDES = _words(
    "side system stuff socket sockets circuit circuits bits things lights plug plugs appliances gear kit"
)  # “the 230-volt side”
# Round a time that is the speaker's own, not the van's.
OWN_BEFORE = _words("i i'll i've i'm i'd me my we'll we've we're us gimme back been he's she's late lad")
OWN_AFTER = _words("ago later late old i've i away")
MOMENTS = frozenset(
    {("one", "s"), ("one", "min"), ("two", "s"), ("two", "min"), ("half", "s")}
)  # “one second”, “two minutes”
WAITED = _words("wait leave for about takes hold least give")
POINTING = _words("this that the which each every any another")
ACROSS = _words("long wide high tall deep across width length")
HANDED_BEFORE = _words("for is you and on in when at if to but or empty full so")
RATES = _words("kg l bar")  # what one can be meant by “a”: “it's a kilo”
HUNDREDTHS, TWELFTHS = range(10, 100), range(1, 12)  # what may follow whole metres, and whole feet


@dataclass(frozen=True)
class Spoken:
    """A number with what it stands for: the units it can be in (none: bare), and the tokens it spans.

    ``weak``: “a kilo” may or may not be meant as one kilogram. ``lent``: the units of the figure before, for a bare number that may count
    something instead; ``handed`` says that nothing after it is counted.
    """

    number: Number
    first: int
    after: int
    units: tuple[str, ...]
    weak: bool = False
    lent: tuple[str, ...] = ()
    handed: bool = False


def spoken_figures(tokens: Sequence[Token], name: Sequence[str] = ()) -> Iterator[Spoken]:
    """The numbers of the tokens with their units, decoys left out; “by” and lists hand a unit on. ``name`` is the van's, in words.

    >>> from firstpitch.film.numerals import tokens_of
    >>> [(s.number.value, s.units) for s in spoken_figures(tokens_of("a metre ninety by one thirty".split()))]
    [(1.9, ('m',)), (1.3, ('m',))]
    """
    found = list(_forwards(tokens, name))
    for at in range(len(found) - 2, -1, -1):
        found[at] = _lent_back(tokens, found[at], found[at + 1])
    yield from found


def _lent_back(tokens: Sequence[Token], spoken: Spoken, after: Spoken) -> Spoken:
    """“500, 1000 and 1800 watts”: the unit of a list comes after its last number."""
    between = [token.text for token in tokens[spoken.after : after.first]]
    listed = between in (["and"], ["or"]) or (not between and tokens[spoken.after - 1].comma)
    units = after.units or after.lent
    if not listed or spoken.units or spoken.lent or not units or units == ("date",) or spoken.number.value < LISTED:
        return spoken
    return replace(spoken, lent=units, handed=True)


def _forwards(tokens: Sequence[Token], name: Sequence[str]) -> Iterator[Spoken]:
    texts = [token.text for token in tokens]
    before: Spoken | None = None
    skip = -1
    for number in _with_articles(_joined(read_numbers(tokens), texts), texts):
        if number.first < skip or _is_name(texts, number, name):
            continue
        spoken = _spoken(tokens, texts, number, before)
        if spoken is None:
            continue
        skip = spoken.after
        if (spoken.units and not spoken.weak) or spoken.handed:
            before = replace(spoken, units=spoken.units or spoken.lent)
        yield spoken


def _joined(numbers: Sequence[Number], texts: Sequence[str]) -> list[Number]:
    """“12 50 kilos”: digits written in two halves before a unit are one number."""
    found: list[Number] = []
    for number in numbers:
        last = found[-1] if found else None
        if (
            last
            and last.after == number.first
            and number.after - number.first == last.after - last.first == 1
            and texts[last.first].isdecimal()
            and len(texts[last.first]) <= 2
            and texts[number.first].isdecimal()
            and len(texts[number.first]) == 2
            and unit_at(texts, number.after)[0]
        ):
            found[-1] = replace(number, first=last.first, value=last.value * 100 + number.value, other=None)
        else:
            found.append(number)
    return found


def _with_articles(numbers: Sequence[Number], texts: Sequence[str]) -> list[Number]:
    """The numbers, and the ones that “a” stands for before a unit: “a kilo”, “an hour and a half”."""
    taken = {place for number in numbers for place in range(number.first, number.after)}
    ones = [
        Number(at, at + 1, 1.0)
        for at, text in enumerate(texts)
        if text in ("a", "an")
        and at not in taken
        and at - 1 not in taken
        and at + 1 < len(texts)
        and unit_at(texts, at + 1)[0]
    ]
    return sorted([*numbers, *ones], key=lambda number: number.first)


def _is_name(texts: Sequence[str], number: Number, name: Sequence[str]) -> bool:
    """Whether the number is the one in the van's name, with a word of the name before it."""
    said = texts[number.first : number.after]
    return any(
        list(said) == [word] and first in texts[max(number.first - 2, 0) : number.first]
        for first, word in pairwise(name)
    )


def _spoken(tokens: Sequence[Token], texts: Sequence[str], number: Number, before: Spoken | None) -> Spoken | None:
    end, at = number.after, number.first
    if number.date:
        return Spoken(number, at, end, ("date",))
    if ":" in "".join(texts[at:end]) or texts[at:end] == ["24/7"]:
        return None
    stopped = tokens[end - 1].stop or tokens[end - 1].comma
    if texts[at] in ("a", "an") and end == at + 1:
        return _of_article(texts, number)
    found, after = _unit(tokens, texts, number) if not stopped else ((), end)
    if _is_decoy(texts, number, found, after, stopped):
        return None
    if found:
        return _measured(tokens, texts, number, found, after)
    return _bare(tokens, texts, number, before)


def _unit(tokens: Sequence[Token], texts: Sequence[str], number: Number) -> tuple[tuple[str, ...], int]:
    """The units after a number, past “of a” where it is a part: “half of a litre”."""
    end = number.after
    if (
        end < len(texts)
        and tokens[end].word == tokens[end - 1].word
        and texts[end] in ("a", "c")
        and texts[end - 1][-1:].isdecimal()
    ):
        return (("A",) if texts[end] == "a" else ("degC",)), end + 1
    start = end
    if number.step < 1.0:
        start += texts[start : start + 1] == ["of"]
        start += texts[start : start + 1] in (["a"], ["an"])
    ends = next((at + 1 for at in range(end, len(tokens)) if tokens[at].stop or tokens[at].comma), len(texts))
    found, after = unit_at(texts[:ends], start)
    if found and found[0] == "W" and texts[start].startswith(("wh", "wo")) and number.value < COUNTED:
        return (), end  # “two what's”
    if found == ("A",) and number.value >= BATTERY:
        return ("A", "Ah"), after
    return (found, after) if found else ((), end)


def _is_decoy(texts: Sequence[str], number: Number, found: tuple[str, ...], after: int, stopped: bool) -> bool:
    """Whether the number is a name, a price, a clock time, a moment or the speaker's own time."""
    at, end = number.first, number.after
    follows = texts[after] if after < len(texts) and not (stopped and after == end) else ""
    if (at and texts[at - 1] in ("£", "$", "€")) or (not found and follows in MONEY):
        return True
    if not found:
        named = at > 0 and texts[at - 1] in BEFORE_DECOY
        part = number.step == 0.0 and number.value < 1
        return named or part or follows in AFTER_DECOY or follows == "%"
    if set(found) & TIMES:
        return _own_time(texts, number, found, follows)
    if texts[at] == "one" and at and texts[at - 1] in POINTING and found in (("",), ("in",), ("m",)):
        return True  # “I know this one. Turn …”
    if found == ("V",):
        return number.value == 12 or follows in SIDES  # the low-voltage side is called by it
    return (
        (found == ("%",) and number.value == 100)
        or (found == ("in",) and number.value == 1)
        or follows in ("ago", "old")
    )


def _own_time(texts: Sequence[str], number: Number, found: tuple[str, ...], follows: str) -> bool:
    at = number.first
    before = texts[max(at - 6, 0) : at]
    moment = number.most is None and any((texts[at], unit) in MOMENTS for unit in found)
    if follows in OWN_AFTER or (moment and not set(before) & WAITED):
        return True
    if texts[at] == "one" and texts[at - 1 : at] and texts[at - 1] in POINTING:
        return True
    if found[0] == "year" and not set(before) & {"every", "each", "after", "within", "lasts", "last", "than"}:
        return bool(set(before) & OWN_BEFORE) or follows in ("in", "and", "of", "now", "we've") or "this" in before
    return bool(set(before) & OWN_BEFORE) or texts[max(at - 2, 0) : at] == ["hang", "on"]


def _of_article(texts: Sequence[str], number: Number) -> Spoken | None:
    """“a kilo”, “a metre ninety”, “an hour and a half”."""
    found, after = unit_at(texts, number.after)
    whole = _with_more(texts, number, found, after)
    if whole:
        return whole
    return Spoken(number, number.first, after, found, weak=True) if set(found) & RATES else None


def _measured(
    tokens: Sequence[Token], texts: Sequence[str], number: Number, found: tuple[str, ...], after: int
) -> Spoken:
    ends = tokens[after - 1].stop or tokens[after - 1].comma
    more = None if ends else _with_more(texts, number, found, after)
    return more or Spoken(number, number.first, after, found)


def _with_more(texts: Sequence[str], number: Number, found: tuple[str, ...], after: int) -> Spoken | None:
    """What follows a unit and belongs to the amount: “and a half”, “and a bit”, the hundredths of metres, the inches of feet."""
    tail = texts[after : after + 3]
    if number.value % 1 or number.most is not None:
        return None
    if len(tail) == 3 and tail[0] == "and" and tail[1] in ("a", "one") and tail[2] in (*PARTS, "bit"):
        more = replace(number, most=number.value + 1.0, other=None)
        if tail[2] in PARTS:
            more = replace(number, value=number.value + PARTS[tail[2]], step=0.0, other=None)
        return Spoken(more, number.first, after + 3, found)
    if found not in (("m",), ("ft",)):
        return None
    many, parts, small = (100, HUNDREDTHS, ("cm",)) if found == ("m",) else (12, TWELFTHS, ("in",))
    rest = read_numbers([Token(text, 0) for text in tail])
    if not rest or rest[0].first or rest[0].most is not None or rest[0].value not in parts:
        return None
    unit, end = unit_at(texts, after + rest[0].after)
    if unit and unit != small:
        return None
    last = end if unit else after + rest[0].after
    if texts[last : last + 1] in (["berth"], ["berths"], ["ring"], ["burner"]):
        return None
    more = replace(number, value=number.value + rest[0].value / many, step=1.0 / many, other=None)
    return Spoken(more, number.first, last, found)


def _bare(tokens: Sequence[Token], texts: Sequence[str], number: Number, before: Spoken | None) -> Spoken:
    """A number without a unit of its own: degrees by its sign, metres by “long” or “by”, or the unit of the figure before it."""
    at, end = number.first, number.after
    ahead = texts[at - 1] if at else ""
    follows = texts[end] if end < len(texts) and not tokens[end - 1].stop else ""
    if number.value < 0 or (number.value == 0 and ahead in ("below", "under", "above", "near")):
        return Spoken(number, at, end, ("degC",))
    near = before is not None and at - before.after <= NEAR
    if before and near and ahead == "by":
        return Spoken(_in_metres(number) if "m" in before.units else number, at, end, before.units)
    if follows in ACROSS and (number.value >= COUNTED or number.value % 1):
        return Spoken(_in_metres(number), at, end, ("m",))
    if follows == "by" and _sizes(texts, number):
        return Spoken(_in_metres(number), at, end, ("m",))
    if before and near and number.value != 1 and "date" not in before.units:
        handed = not follows or follows in HANDED_BEFORE or tokens[end - 1].comma
        if handed and (number.value >= COUNTED or number.value % 1):
            return Spoken(number, at, end, before.units)
        return Spoken(number, at, end, (), lent=before.units, handed=handed)
    return Spoken(number, at, end, ())


def _sizes(texts: Sequence[str], number: Number) -> bool:
    """Whether “by” stands between two sizes, not two people or a four by four."""
    after = read_numbers([Token(text, 0) for text in texts[number.after + 1 : number.after + 6]])
    small = number.value < 10 and not number.value % 1
    return (
        bool(after)
        and not after[0].first
        and not (small and after[0].value == number.value)
        and not (small and number.value == 1)
    )


def _in_metres(number: Number) -> Number:
    """A bare size: “one thirty” is 1.30 m, “nineteen hundred” 1,900 mm."""
    if number.value >= 1000:
        return replace(number, value=number.value / 1000, step=number.step / 1000)
    return replace(number, value=number.value / 100, step=0.01) if number.value >= COUNTED else number
