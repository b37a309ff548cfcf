"""Kit spoken of as if it were there, which the sheet does not list."""

from __future__ import annotations

import re

from firstpitch.film.matching import Speech
from firstpitch.film.types import FilmBrief, NotFitted
from firstpitch.film.where import names_heard

PLAIN = 0.9  # how plainly a kit must be named
_ABSENT = re.compile(
    r"\b(no|not|isn'?t|hasn'?t|haven'?t|without|never|if you|were you|could fit|fit one|don'?t have|doesn'?t have|there'?s no|lacks?"
    r"|instead of|nor|other van|bigger van)\b"
)
_PRESENT = re.compile(
    r"\b(your|you'?ve|you have|there'?s|there is|here'?s|here is|this is|that'?s|got|fitted|comes with|has a|we'?ve|also|it'?s got|the)\b"
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
        for at, breath in enumerate(speech.breaths):
            if named[row, at] < PLAIN:
                continue
            around = " ".join(b.text for b in speech.breaths[max(at - 1, 0) : at + 2]).lower().replace("’", "'")
            if _ABSENT.search(around) or not _PRESENT.search(around):
                continue
            why = (f"named: “{breath.text}”", "the sheet lists none")
            found.append(NotFitted(subject.kind, subject.title, breath.start, breath.text, why))
            break
    return tuple(sorted(found, key=lambda one: one.at))
