"""Where each kit is named, word by word: a figure belongs to what was named just before it more often than not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstpitch.film.fitted import Claim
from firstpitch.film.matching import Speech
from firstpitch.film.types import FilmBrief, Subject
from firstpitch.film.words import concept, concepts, plain_words

LASTING, SOON, RIVAL = (
    0.95,
    0.85,
    0.6,
)  # what a word further back, a word further on, and another kit named between leave of a naming
SHARED = -0.25  # what each word of a name that other names share leaves of it, as a power of how many do
AHEAD = 5  # words after a figure in which its kit may still be named: “an eleven kilo propane bottle”


@dataclass(frozen=True)
class Mention:
    """A kind of kit named at a word of the recording; ``plain`` 0 to 1.5 is how plainly. No kind: one that the van lacks."""

    word: int
    kind: str
    plain: float


_Named = tuple[tuple[str, ...], Subject, int]  # the words of a name, whose it is, its last word in the breath


def mentions_of(brief: FilmBrief, speech: Speech, claims: Sequence[Claim]) -> tuple[Mention, ...]:
    """Every naming of every kind that is fitted, and of kit spoken of as fitted that is not, in order.

    A name within a longer one is none (“wheel” in “spare wheel”).
    """
    fitted = [subject for subject in brief.subjects if subject.kits]
    names = {subject.kind: _names(subject) for subject in fitted}
    owners = Counter(c for subject in fitted for c in {c for name in names[subject.kind] for c in name})
    same = Counter(name for subject in fitted for name in names[subject.kind])
    found = [Mention(claim.word, "", 1.0) for claim in claims if claim.there]
    start = 0
    for breath, heard in zip(speech.breaths, speech.heard, strict=True):
        places = _places(breath.text, heard)
        heard_names: list[_Named] = []
        for subject in fitted:
            for name in names[subject.kind]:
                place = _together(places, name) if places.keys() >= set(name) else None
                if place is not None:
                    heard_names.append((name, subject, place))
        for name, subject, place in _longest(heard_names):
            rare = (
                sum(max(owners[c], 1) ** SHARED for c in name)
                / len(name)
                * (1.0 + 0.25 * (len(name) - 1))
                / max(same[name], 1)
            )
            trust = min(heard[c][0] for c in name if c in heard)
            found.append(Mention(start + place, subject.kind, min(rare * trust, 1.5)))
        start += len(breath.words)
    return tuple(sorted(found, key=lambda m: m.word))


def _names(subject: Subject) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(sorted(set(concepts(name)))) for name in subject.names) - {()}


def _places(text: str, heard: Mapping[str, tuple[float, str]]) -> dict[str, list[int]]:
    """The words of the breath at which each concept was heard."""
    by_word: dict[str, list[str]] = {}
    for name, (_, how) in heard.items():
        by_word.setdefault(how.split(" ", 1)[0], []).append(name)
    found: dict[str, list[int]] = {}
    for number, word in enumerate(text.split()):
        for one in plain_words(word):
            for name in {concept(one), *by_word.get(one, ())} & heard.keys():
                found.setdefault(name, []).append(number)
    return found


def _together(places: Mapping[str, Sequence[int]], name: Sequence[str]) -> int | None:
    """The last word of a name whose words, all of them heard, stand close together; None when they do not."""
    for first in places[name[0]]:
        nearest = [min(places[c], key=lambda place: abs(place - first)) for c in name]
        if max(nearest) - min(nearest) <= len(name):
            return max(nearest)
    return None


def _longest(names: Sequence[_Named]) -> Iterator[_Named]:
    for name, subject, place in names:
        if not any(set(name) < set(longer) and abs(place - at) <= len(longer) for longer, _, at in names):
            yield name, subject, place


def named_near(mentions: Sequence[Mention], kind: str, first: int, last: int) -> float:
    """How plainly a kind was named round the words ``first`` to ``last``, 0 to 1.5: less far off, less with another kit named between."""
    best = 0.0
    before = [m for m in mentions if m.word <= last]
    for back, mention in enumerate(reversed(before)):
        if mention.kind == kind:
            others = {m.kind for m in before[len(before) - back :]} - {kind, "van"}
            best = mention.plain * LASTING ** max(first - mention.word, 0) * RIVAL ** len(others)
            break
    for mention in mentions[len(before) :]:
        if mention.word > last + AHEAD:
            break
        if mention.kind == kind:
            best = max(best, mention.plain * SOON ** (mention.word - last))
    return best
