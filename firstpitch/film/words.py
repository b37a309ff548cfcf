"""Words as heard against words as written: stems, homophones, split and joined compounds, near misses."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from rapidfuzz import process
from rapidfuzz.distance import JaroWinkler

from firstpitch.film.alike import EMPTY, EVERYDAY, GROUPS

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_ENDINGS = ("ations", "ation", "ings", "ing", "edly", "ies", "ied", "ers", "ed", "es", "er", "ly", "s")
HEARD_LIKE, NEAR_MISS, JOINED = 0.75, 0.7, 0.95  # how far a homophone, a near spelling, a compound is trusted
NEAR = 0.91  # Jaro-Winkler likeness from which a long word passes for another


def plain_words(text: str) -> list[str]:
    """The words of ``text`` in lower case; a hyphen joins what it stands between into one word.

    >>> plain_words("The hook-up lead, don’t coil it!")
    ['the', 'hookup', 'lead', "don't", 'coil', 'it']
    """
    joined = re.sub(r"(?<=[^\W\d_])[-‐‑](?=[^\W\d_])", "", text.lower().replace("’", "'"))
    return _WORD.findall(joined)


@cache
def stem(word: str) -> str:
    """A word without the ending that grammar gives it: enough that forms of one word meet.

    >>> stem("batteries"), stem("winding"), stem("winds"), stem("shutting"), stem("gas")
    ('batteri', 'wind', 'wind', 'shut', 'gas')
    """
    word = word.removesuffix("'s").replace("'", "")
    for ending in _ENDINGS:
        rest = word.removesuffix(ending)
        if rest != word and len(rest) >= 3 and not (ending == "s" and rest.endswith(("s", "u", "a"))):
            if len(rest) > 3 and rest[-1] == rest[-2] and rest[-1] not in "ls" and ending in ("ing", "ed", "er", "ers"):
                rest = rest[:-1]
            return rest + "i" if ending in ("ies", "ied") else rest.removesuffix("e") if len(rest) > 4 else rest
    if word.endswith("y") and len(word) > 4:
        return word[:-1] + "i"
    return word.removesuffix("e") if len(word) > 4 else word


@cache
def _groups() -> dict[str, str]:
    found: dict[str, str] = {}
    for group in GROUPS:
        first, *others = (stem(word.replace("-", "")) for word in group.split())
        for word in (first, *others):
            found.setdefault(word, first)
    return found


@cache
def concept(word: str) -> str:
    """What a word stands for here: the first word of its group, else its stem.

    >>> concept("closing") == concept("shut"), concept("steadies") == concept("legs")
    (True, True)
    """
    bare = stem(word)
    return _groups().get(bare, bare)


def concepts(text: str) -> list[str]:
    """The concepts of a text, in order, without empty words."""
    return [concept(word) for word in plain_words(text) if word not in EMPTY]


_SOUNDS = (
    (r"[^a-z]", ""), (r"^kn|^gn", "n"), (r"^wr", "r"), (r"^wh", "w"), (r"mb$", "m"), (r"ck", "k"), (r"ph", "f"), (r"tch|ch", "x"),
    (r"sh", "x"), (r"tion|sion", "xn"), (r"dge?(?=$|[^aou])|j", "j"), (r"ough|augh|igh", "a"), (r"gh", ""), (r"c(?=[eiy])", "s"),
    (r"[cq]", "k"), (r"th", "t"), (r"z", "s"), (r"v", "f"), (r"[dt]", "t"), (r"[bp]", "p"), (r"[gk]", "k"), (r"(.)\1+", r"\1"),
)  # fmt: skip


@cache
def sound(word: str) -> str:
    """How a word sounds, roughly: consonants in classes, vowels only at the start.

    >>> sound("brake") == sound("break"), sound("flue") == sound("flew"), sound("gas") == sound("guess")
    (True, True, True)
    """
    for pattern, put in _SOUNDS:
        word = re.sub(pattern, put, word)
    return word[:1].translate(str.maketrans("eiouy", "aaaaa")) + re.sub(r"[aeiouyhw]", "", word[1:])


@dataclass(frozen=True)
class Vocabulary:
    """The words that matter for one van: ``index`` gives each concept its column; the others find it when it is misheard."""

    index: dict[str, int]
    written: tuple[str, ...]
    by_sound: dict[str, str]
    compounds: dict[str, tuple[str, ...]]

    def hear(self, word: str) -> tuple[tuple[str, float, str], ...]:
        """The concepts a heard word can stand for, each with how far it is trusted and the written word where that differs."""
        return _hear(self, word)

    def __hash__(self) -> int:
        return id(self)


@cache
def _hear(vocabulary: Vocabulary, word: str) -> tuple[tuple[str, float, str], ...]:
    own = concept(word)
    if own in vocabulary.index:
        return ((own, 1.0, ""),)
    joined = vocabulary.compounds.get(word)
    if joined:
        return tuple((part, JOINED, word) for part in joined)
    if word in EVERYDAY or word in EMPTY or len(word) < 3 or not word.isalpha():
        return ()
    alike = vocabulary.by_sound.get(sound(word))
    if alike and JaroWinkler.similarity(word, alike) >= 0.6:
        return ((concept(alike), HEARD_LIKE, alike),)
    if len(word) < 6:
        return ()
    best = process.extractOne(word, vocabulary.written, scorer=JaroWinkler.similarity, score_cutoff=NEAR)
    return ((concept(best[0]), NEAR_MISS, best[0]),) if best else ()


def vocabulary_of(texts: Iterable[str]) -> Vocabulary:
    """The vocabulary of ``texts``: their words, and neighbours run together (“jockeywheel”) or apart (“hook up”)."""
    index: dict[str, int] = {}
    written: dict[str, None] = {}
    compounds: dict[str, tuple[str, ...]] = {}
    for text in texts:
        words = plain_words(text)
        for word in words:
            if word not in EMPTY:
                index.setdefault(concept(word), len(index))
                written.setdefault(word)
        for first, second in pairwise(words):
            if first not in EMPTY and second not in EMPTY:
                compounds.setdefault(first + second, (concept(first), concept(second)))
    long = tuple(word for word in written if len(word) >= 5 and word.isalpha())
    by_sound = {
        sound(word): word for word in reversed(written) if len(word) >= 3 and word.isalpha() and len(sound(word)) >= 2
    }
    return Vocabulary(index, long, by_sound, compounds)


def heard(vocabulary: Vocabulary, words: Sequence[str]) -> dict[str, tuple[float, str]]:
    """The concepts in a run of heard words, each with its trust and how it was heard; two words may be one compound."""
    found: dict[str, tuple[float, str]] = {}

    def keep(name: str, trust: float, how: str) -> None:
        if name not in found or found[name][0] < trust:
            found[name] = (trust, how)

    for number, word in enumerate(words):
        if word not in EMPTY:
            for name, trust, alike in vocabulary.hear(word):
                keep(name, trust, f"{word} for {alike}" if alike and alike != word else word)
        if number + 1 < len(words):
            pair = concept(word + words[number + 1])
            if pair in vocabulary.index and len(word) > 1:
                keep(pair, JOINED, f"{word} {words[number + 1]}")
    return found
