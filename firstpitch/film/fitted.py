"""Kit spoken of as if it were there, which the sheet does not list."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstpitch.film.claims import MUCH, is_claimed
from firstpitch.film.matching import Speech
from firstpitch.film.types import FilmBrief, NotFitted, Subject
from firstpitch.film.words import plain_words

PLAIN = 0.9  # how plainly a kit must be named
BEFORE, AFTER = 10, 9  # words round the name that say whether it is there
USUAL = 5  # times that the van's own texts may use a name before it is taken for an everyday word
TAKEN_BACK = 25  # words within which “no, there's none” takes it back
PAUSE = 1.2  # [s] of silence that parts sentences where no stop is written


@dataclass(frozen=True)
class Claim:
    """A kind named that the sheet lacks: the word at which its name ends, its breath, and whether it is said to be there."""

    subject: Subject
    word: int
    breath: int
    there: bool


@dataclass(frozen=True)
class _Heard:
    """A plain word: the word of the recording it is in, its breath, and whether a sentence ends after it.

    A question does not end one: its answer counts.
    """

    text: str
    word: int
    breath: int
    ends: bool


def not_fitted_in(claims: Sequence[Claim], speech: Speech) -> tuple[NotFitted, ...]:
    """The kinds of kit that are shown or described as present although the sheet has none; each once, where first named.

    “There's no mover on this one” and “if you ever fit a mover” are not claims that there is one.
    """
    denied = [(claim.subject.kind, claim.word) for claim in claims if not claim.there]
    found: dict[str, NotFitted] = {}
    for claim in claims:
        if not claim.there or any(
            kind == claim.subject.kind and 0 < word - claim.word <= TAKEN_BACK for kind, word in denied
        ):
            continue
        breath = speech.breaths[claim.breath]
        why = (f"named: “{breath.text}”", "the sheet lists none")
        found.setdefault(
            claim.subject.kind, NotFitted(claim.subject.kind, claim.subject.title, breath.start, breath.text, why)
        )
    return tuple(sorted(found.values(), key=lambda one: one.at))


def claims_in(names: Names, speech: Speech) -> tuple[Claim, ...]:
    """Every time that kit is spoken of which the sheet lacks, as there or not.

    A name that a fitted kit has too, or that is part of a longer one that was said, is none. A name that the van's own texts use
    (“window” in a caution of the hob) must be plainly presented.
    """
    heard = tuple(_plain(speech))
    found = []
    for first, after, subject, usual in names.in_words(heard):
        before = _sentence(heard, range(first - 1, max(first - BEFORE, 0) - 1, -1))
        later = _sentence(heard, range(after, min(after + AFTER, len(heard)))) if not heard[after - 1].ends else []
        owns = heard[after - 1].text.endswith("'s")
        there = is_claimed(" ".join(reversed(before)), " ".join(later), usual, owns)
        found.append(Claim(subject, heard[after - 1].word, heard[after - 1].breath, there))
    return tuple(found)


def _sentence(heard: Sequence[_Heard], places: range) -> list[str]:
    """The words of the same sentence, outwards."""
    found = []
    for at in places:
        if places.step < 0 and heard[at].ends:
            break
        found.append(heard[at].text)
        if places.step > 0 and heard[at].ends:
            break
    return found


def _plain(speech: Speech) -> Iterator[_Heard]:
    number = 0
    for at, breath in enumerate(speech.breaths):
        after = speech.breaths[at + 1].start if at + 1 < len(speech.breaths) else breath.end
        for place, word in enumerate(breath.words):
            parts = plain_words(word.text)
            last = place == len(breath.words) - 1 and after - breath.end > PAUSE
            ends = last or bool(re.search(r"[.!;]+[\"')\]]*$", word.text))
            for part in parts:
                yield _Heard(part, number, at, ends and part is parts[-1])
            number += 1


class Names:
    """The names of a brief's kit, run together, so that “break away cable” and “breakawaycable” are one."""

    def __init__(self, brief: FilmBrief) -> None:
        fitted = {_joined(plain_words(name)) for subject in brief.subjects if subject.kits for name in subject.names}
        parts = {
            word for subject in brief.subjects if subject.kits for name in subject.names for word in plain_words(name)
        }
        texts = [t for p in brief.points for t in (p.text, p.say, *p.ways)] + [
            t for c in brief.cautions for t in (c.text, *c.ways)
        ]
        own = _run_on(texts)
        self.fitted = fitted
        self.owners: dict[str, tuple[Subject, int]] = {}
        for subject in brief.subjects:
            for name in () if subject.kits else subject.names:
                words = plain_words(name)
                joined = _joined(words)
                if joined in fitted or (len(words) == 1 and words[0] in parts):
                    continue
                times = own.count(f" {' '.join(map(_single, words))} ")
                self.owners[joined] = (subject, MUCH if times > USUAL else int(times > 0 and len(words) == 1))
        self.longest = max((len(plain_words(n)) for s in brief.subjects for n in s.names), default=1) + 2

    def in_words(self, heard: Sequence[_Heard]) -> Iterator[tuple[int, int, Subject, int]]:
        """First word, the word after, whose name, and how everyday it is; the longest name at each place."""
        at = 0
        while at < len(heard):
            for many in range(min(self.longest, len(heard) - at), 0, -1):
                name = _joined([one.text for one in heard[at : at + many]])
                if any(one.ends for one in heard[at : at + many - 1]):
                    continue
                if name in self.fitted:
                    at += many - 1
                    break
                owner = self.owners.get(name)
                if owner:
                    yield at, at + many, *owner
                    at += many - 1
                    break
            at += 1


def _run_on(texts: Sequence[str]) -> str:
    """All words of the texts in the singular, as ``plain_words`` and ``_single`` would give them, with a space before and after each."""
    words = re.sub(r"(?<=[^\W\d_])[-‐‑](?=[^\W\d_])", "", " ".join(texts).lower().replace("’", "'"))
    words = re.sub(r"[^\w']+", " ", words)
    return " " + re.sub(r"('s|(?<!s)s)(?= |$)", "", words) + " "


def _joined(words: Sequence[str]) -> str:
    """The words run together, the last one in the singular."""
    return _single("".join(words))


def _single(word: str) -> str:
    word = word.removesuffix("'s")
    return word.removesuffix("s") if not word.endswith("ss") else word
