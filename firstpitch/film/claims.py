"""Whether talk of a kit says that this van has it: “here's your mover” does, “there's no mover” or “if you fit one” does not."""

from __future__ import annotations

import re
from typing import Final

MUCH: Final = 2
_FEW = r"(?:[\w']+ ){0,4}"  # up to four words between


def _any(*lines: str) -> str:
    """One of the words or runs of words, parted by commas."""
    return "(?:" + "|".join(part.strip() for line in lines for part in line.split(",")) + ")"


_NOT = _any(
    "don'?t, doesn'?t, didn'?t, haven'?t, hasn'?t, hadn'?t, ain'?t, isn'?t, aren'?t, wasn'?t, won'?t, wouldn'?t, not, never"
)
_GET = _any("have, has, had, got, get, come, need, want, fit, fitted, buy, put, see, find, include, there")
_NONE = _any(
    "no, any, without, lacks?, lacking, nor, neither, never a, not a, not the, not got, instead of, rather than, unlike, like a, like the",
    "than a, than the, except the, apart from, old, other, another van, bigger, dearer, smaller, brother'?s, neighbour'?s, mate'?s",
    "used to have, i'd a, i had a, we had a, ready for, wired for, wiring for, room for, space for, prepared for, prepped for",
    "provision for, place for, saving up for, order, sell you, add",
)
_WISHED = _any(
    "if, were, would, could, might, wish, fancy, suppose, one day, some day, someday, you can, you could, we can, we could, we'?d, i'?d"
)
_GOTTEN = _any(
    "had, have, fit, fits, fitted, fitting, buy, get, want, add, like, love, put in, put on, do with, need, order, see"
)
_OTHERS = (
    _any("some, most, other, many, our bigger, bigger, dearer, newer, older")
    + " "
    + _any("vans?, models?, caravans?, ones?, people, folk, owners")
)
# Words that say, before a name, that the thing is not there, only wished for, or another van's.
_ABSENT_BEFORE = re.compile(
    rf"\b(?:{_NONE} {_FEW}|{_NOT} (?:[\w']+ )?{_GET} {_FEW}|(?:is|ai|are|was)n'?t (?:a|an|the|your|one of) {_FEW}"
    rf"|{_WISHED} {_FEW}{_GOTTEN} {_FEW}|{_OTHERS} {_FEW})$"
)
_ELSEWHERE = (
    r"(?:on|in) (?:my|his|her|their)(?: own)? (?:van|caravan|one|house|place)"
    r"|(?:on|in) (?:the|a|an|our|my|his|her|their|your) (?:other|old|bigger|next|dearer|previous|last|car|brother|mate|neighbour)"
)
_EXTRA = _any(
    "not fitted, not on this, not in this, not with this, optional, an option, an optional, an extra, extra cost, not included",
    "if you (?:want|fancy|buy|fit|ever|had|like one), one day, some day, ready, bracket, prep",
    "(?<!as )(?<!like )at home, we (?:sell|could fit|can fit)",
)
# And after it: “a mover's an extra”, “the microwave on the other one”.
_ABSENT_AFTER = re.compile(
    rf"^(?:,? ?[\w']+ )?(?:isn'?t|ain'?t|aren'?t|wasn'?t|hasn'?t been) |^(?:it |you |that )?(?:would|could|might|you'd|it'd|that'd) "
    rf"|^{_FEW}(?:{_EXTRA}|{_ELSEWHERE})\b"
)
# Before a word that presents: “if you've got”, “you've not got”, “I wish you had”.
_UNREAL = re.compile(
    r"\b(?:if|unless|not|never|suppose|say|wish|imagine|whether|\w+n'?t|some|most|other|bigger|old)(?: [\w']+){0,2} $"
)
_ASKED = re.compile(
    r"\b"
    + _any("is there, are there, has it, has she, have we, have you, does it, do we, do you, did you, where'?s")
    + rf" {_FEW}$|\b(?:what about|can you|can we) {_FEW}$"
)
_ANSWER = re.compile(
    rf"^{_FEW}"
    + _any(
        "yes, yeah, aye, yep, there is, there are, it has, it does, you have, course, indeed, just here, up here, here"
    )
    + r"\b"
)
_LEAD = r"\b" + _any(
    "here'?s, here is, here are, here, this is, this here'?s, these are, that'?s, that is, up there is",
    "you'?ve(?: also| even| already| just| all)? got, you have, you'?ve, you get, you got, got, comes? with, fitted with, she has, it has",
    "has got, we'?ve (?:put|fitted|given)(?: you)?, plus, say hello to, meet",
)
_THERE = r"\b" + _any("there'?s, there is, there are")
_BESIDE = _any(
    "by, through, from, like, near, behind, under, next, beside, against, of, if, when, where, because, no, not, in, to"
)
_PRESENT = re.compile(rf"(?:{_LEAD}|{_THERE}) (?:(?!{_BESIDE}\b)[\w']+ ){{0,5}}$")
_SHOWN = re.compile(rf"{_LEAD} (?:also )?(?:a |an |your |the |our )?(?:[\w']+ )?$|{_THERE} your (?:[\w']+ )?$")
_OWN = re.compile(rf"\b(?:your|the|this|that|these|those|our) (?:(?!{_BESIDE}\b|with\b|and\b)[\w']+ ){{0,2}}$")
_YOUR = re.compile(r"^(?:(?:and|so|now|right|then|next|also) )*(?:your|this|our) (?:[\w']+ ){0,1}$")
_SITS = re.compile(
    r"^(?:(?:is|are|'s|lives|sits|works|hangs|goes|comes) )?(?:just |right |all |over |tucked )?"
    + _any(
        "here, there, up, down, under, underneath, over, in, on, behind, by, at, off, above, below, inside, outside, beside, round"
    )
    + " "
)
_OPENS = re.compile(r"^(?:(?:and|so|now|right|then|next|ok|okay|um|er|also|well|there|oh|yes) )*$")


def is_claimed(before: str, after: str, told: int, possessed: bool) -> bool:
    """Whether a name with ``before`` and ``after`` it in the same sentence (lower case, without stops) is spoken of as there.

    ``told``: 2 where this van's own texts use the name often, so that it must be plainly presented; 1 where they do at times, so
    that it must be presented somehow; else 0. ``possessed``: it was heard with “'s” or “is” run on (“microwave's in the cupboard”).

    >>> is_claimed("and here's your", "up on the roof", 0, False), is_claimed("there's no", "on this one", 0, False)
    (True, False)
    """
    before, after = f"{before} ".lstrip(), f"{after} ".lstrip()
    if possessed:
        after = f"is {after}"
    shown = _SHOWN.search(before) if told == MUCH else _PRESENT.search(before)
    lately = before[shown.start() :] if shown else before
    if _ABSENT_BEFORE.search(lately) or _ABSENT_AFTER.search(after):
        return False
    if _ASKED.search(before):
        return bool(_ANSWER.search(after))
    if shown:
        return not _UNREAL.search(before[: shown.start()])
    if told:
        return bool(_YOUR.search(before) and _SITS.search(after))
    return bool(_OWN.search(before) or _SITS.search(after) or _OPENS.search(before))
