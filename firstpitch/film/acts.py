"""Which steps are done in the film, told from the talk: doing a thing, against warning of it, putting it off or supposing it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

import numpy as np

from firstpitch.film.evidence import Weighed
from firstpitch.film.matching import Rows, Speech
from firstpitch.film.order import Act
from firstpitch.film.types import FilmBrief
from firstpitch.rounds.types import Step

TALKED = 0.2  # the chance of a point from which its step is talked of
APART = 25.0  # [s] without a word of a step that part two talks about it
# Values by which a step is only told or looked at; every other value is something the hands do.
TOLD = frozenset({"yes", "no", "begun", "over", "told", "given", "checked", "finished"})
_OTHER_TIME = re.compile(
    r"\b(later|next time|when you (come|go|get|leave|pack)|if you (ever|were|want)|you('d| would)|we('ll| will|'d| would) not"
    r"|won'?t|not today|never|don'?t|do not|mustn'?t|before you|not going to|didn'?t|haven'?t|isn'?t|i'?d)\b"
)
_NOW = re.compile(
    r"\b(i'?m|i'?ll|we'?ll|let'?s|let me|i'?ve|there( we go| you go)?|like (so|that|this)|now|done|hear that|see that"
    r"|that'?s (on|off|it|in|out|up|down)|in it goes|off she goes|up she goes|here we go|look|hang on)\b"
)


def acts_of(brief: FilmBrief, told: Weighed) -> tuple[Act, ...]:
    """The steps taken as done, in spoken order: those whose points are talked of in a way that does them.

    A step that the hands do begins where it is first talked of as done now; one that only shows or explains is done when the talk
    of it ends.
    """
    talks = _talks(brief, told)
    found = []
    for step in brief.problem.steps:
        heard = talks.get(step.id)
        if heard:
            act = _act(step, heard, told.speech)
            if act is not None:
                found.append(act)
    return tuple(sorted(found, key=lambda act: act.at))


def _talks(brief: FilmBrief, told: Weighed) -> Mapping[str, list[tuple[int, float]]]:
    """For each step the windows where its points are said, with their chance, in time order."""
    speech = told.speech
    place = {item.key: number for number, item in enumerate(told.fit.ground.items)}
    found: dict[str, list[tuple[int, float]]] = {}
    for point in brief.points:
        row = told.chance[place[point.key]]
        windows = _peaks(speech, row)
        for step in point.steps:
            found.setdefault(step, []).extend(windows)
    return {step: sorted(windows, key=lambda w: speech.windows[w[0]][0]) for step, windows in found.items() if windows}


def _peaks(speech: Speech, row: Rows) -> list[tuple[int, float]]:
    """The windows where a point is said: the best, and any other high one that does not overlap it."""
    found: list[tuple[int, float]] = []
    taken: set[int] = set()
    for window in np.argsort(-row):
        if row[window] < TALKED:
            break
        first, many = speech.windows[int(window)]
        if not taken & set(range(first - 1, first + many + 1)):
            found.append((int(window), float(row[window])))
            taken |= set(range(first, first + many))
        if len(found) >= 4:  # noqa: PLR2004
            break
    return found


def _act(step: Step, heard: Sequence[tuple[int, float]], speech: Speech) -> Act | None:
    by_hand = any(effect.value not in TOLD for effect in step.sets)
    if by_hand:
        doing = [(window, sure) for window, sure in heard if not _put_off(speech.text(window))]
        if not doing:
            return None
        window, sure = doing[0]
        first = speech.windows[window][0]
        return Act(step.id, speech.breaths[first].start, speech.text(window), sure, (_manner(speech.text(window)),))
    last = heard[0]
    for other in heard[1:]:
        if speech.breaths[speech.windows[other[0]][0]].start - _end(speech, last[0]) > APART:
            break
        last = other
    return Act(step.id, _end(speech, last[0]), speech.text(last[0]), last[1], ("shown or explained",))


def _end(speech: Speech, window: int) -> float:
    first, many = speech.windows[window]
    return speech.breaths[first + many - 1].start


def _put_off(text: str) -> bool:
    """Whether the words only speak of the act: another time, a warning, a supposition; words of doing it now overrule that."""
    plain = text.lower().replace("’", "'")
    return bool(_OTHER_TIME.search(plain)) and not _NOW.search(plain)


def _manner(text: str) -> str:
    now = _NOW.search(text.lower().replace("’", "'"))
    return f"done now: “{now[0]}”" if now else "told as it is done"
