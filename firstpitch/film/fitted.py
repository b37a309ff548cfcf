"""Kit spoken of as if it were there, which the sheet does not list."""

from __future__ import annotations

import re

import numpy as np

from firstpitch.film.matching import Speech
from firstpitch.film.types import FilmBrief, NotFitted, Subject
from firstpitch.film.where import names_heard
from firstpitch.film.words import concept, concepts, plain_words

PLAIN = 0.9  # how plainly a kit must be named
BEFORE, AFTER = 7, 5  # words round the name that say whether it is there
_ABSENT = re.compile(
    r"\b(no|not|isn'?t|aren'?t|hasn'?t|haven'?t|without|if you|were you|could fit|fit one|don'?t have|doesn'?t have|lacks?|instead of"
    r"|nor|other van|bigger van|any)\b"
)
_PRESENT = re.compile(
    r"\b(your|you'?ve|you have|there'?s|there is|there are|here'?s|here is|this is|that'?s|that is|got|fitted|comes with|has a|we'?ve|also"
    r"|tested|up top)\b"
)


def not_fitted_in(brief: FilmBrief, speech: Speech) -> tuple[NotFitted, ...]:
    """The kinds of kit that are shown or described as present although the sheet has none; each once, where first named.

    “There's no mover on this one” and “if you ever fit a mover” are not claims that there is one.
    """
    named = names_heard(brief.subjects, speech)
    found: list[NotFitted] = []
    for row, subject in enumerate(brief.subjects):
        if subject.kits:
            continue
        for at in map(int, np.flatnonzero(named[row] >= PLAIN)):
            breath = speech.breaths[at]
            if _claimed(subject, speech, at):
                why = (f"named: “{breath.text}”", "the sheet lists none")
                found.append(NotFitted(subject.kind, subject.title, breath.start, breath.text, why))
                break
    return tuple(sorted(found, key=lambda one: one.at))


def _claimed(subject: Subject, speech: Speech, at: int) -> bool:
    """Whether the words round the name say that the thing is there."""
    around = [word for breath in speech.breaths[max(at - 1, 0) : at + 2] for word in plain_words(breath.text)]
    first = len(plain_words(speech.breaths[at - 1].text)) if at else 0
    names = {concept for name in subject.names for concept in concepts(name)}
    places = [n for n in range(first, len(around)) if concept(around[n]) in names]
    if not places:
        return False
    near = " ".join(around[max(places[0] - BEFORE, 0) : places[0] + AFTER])
    return bool(_PRESENT.search(near)) and not _ABSENT.search(near)
