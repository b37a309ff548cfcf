"""Which steps are done in the film: those of the hands as their own acts are told, the others as their points are."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import numpy as np

from firstpitch.film.act_weights import SURETY, surety
from firstpitch.film.evidence import Weighed
from firstpitch.film.ground import TOLD
from firstpitch.film.matching import Rows, Speech
from firstpitch.film.order import Act
from firstpitch.film.types import FilmBrief
from firstpitch.rounds.types import Step

TALKED = 0.18  # the chance of a point from which its step is talked of
FAINTEST = 0.2  # the chance below which a step of the hands is not thought of as done
AS_CLEAR, HINTED = (
    1.55,
    6.0,
)  # times the odds of the clearest telling: what is as clear and earlier is the act; a hint of it
APART = 25.0  # [s] without a word of a step that part two talks about it
NOW = re.compile(
    r"\b(i'?m|i'?ll|we'?ll|let'?s|let me|i'?ve|there( we go| you go)?|like (so|that|this)|now|done|hear that|see that"
    r"|that'?s (on|off|it|in|out|up|down)|in it goes|off she goes|up she goes|here we go|look|hang on)\b"
)


def acts_of(brief: FilmBrief, told: Weighed, done: Weighed) -> tuple[Act, ...]:
    """The steps that may have been done, in spoken order, each with how sure it is (0 to 1, from ``FAINTEST`` for steps of the hands).

    ``told`` weighs the points, ``done`` the steps of the hands. Such a step is done where it is told most plainly, or earlier where it is
    told as plainly; one that only shows or explains is done when the talk of it ends.
    """
    rows = {item.key: row for row, item in enumerate(done.fit.ground.items)}
    talks = _talks(brief, told)
    found: list[Act] = []
    for step in brief.problem.steps:
        if step.id in rows:
            found += _done(step.id, told.speech, done.chance[rows[step.id]])
        elif step.id in talks and not by_hand(step):
            points, heard = talks[step.id]
            found.append(_explained(step.id, told, points, heard))
    return tuple(sorted(found, key=lambda act: act.at))


def by_hand(step: Step) -> bool:
    """Whether the hands do this step, not only words."""
    return any(effect.value not in TOLD for effect in step.sets)


def plain(text: str) -> str:
    """Lower case, with straight apostrophes."""
    return text.lower().replace("’", "'")


def _done(step: str, speech: Speech, chance: Rows) -> Iterator[Act]:
    """The act of a step of the hands, if any window tells of it."""
    sure = float(chance.max(initial=0.0))
    if sure < FAINTEST:
        return
    odds = chance / np.maximum(1.0 - chance, 1e-6)
    starts = np.array([speech.breaths[first].start for first, _ in speech.windows])
    clear = np.flatnonzero(odds >= odds.max() / AS_CLEAR)
    window = int(clear[np.argmin(starts[clear])])
    begins = float(starts[odds >= odds.max() / HINTED].min())
    text = speech.text(window)
    yield Act(step, float(starts[window]), text, sure, (_manner(text),), begins)


def _talks(brief: FilmBrief, told: Weighed) -> dict[str, tuple[list[int], list[int]]]:
    """For each step that is talked of the rows of its points, and the windows where they are told in time order."""
    place = {item.key: number for number, item in enumerate(told.fit.ground.items)}
    found: dict[str, tuple[list[int], list[int]]] = {}
    for point in brief.points:
        row = place[point.key]
        windows = _peaks(told.speech, told.chance[row])
        for step in point.steps:
            rows, heard = found.setdefault(step, ([], []))
            rows.append(row)
            heard += windows
    starts = told.speech.windows
    return {
        step: (rows, sorted(heard, key=lambda window: starts[window][0]))
        for step, (rows, heard) in found.items()
        if heard
    }


def _peaks(speech: Speech, row: Rows) -> list[int]:
    """The windows where a point is said: the best, and any other high one that does not overlap it."""
    found: list[int] = []
    taken: set[int] = set()
    for window in np.argsort(-row):
        if row[window] < TALKED:
            break
        first, many = speech.windows[int(window)]
        if not taken & set(range(first - 1, first + many + 1)):
            found.append(int(window))
            taken |= set(range(first, first + many))
        if len(found) >= 4:  # noqa: PLR2004
            break
    return found


def _explained(step: str, told: Weighed, points: Sequence[int], heard: Sequence[int]) -> Act:
    """The act of a step that only shows or explains: its talk, to where nothing more of it follows for a while."""
    speech = told.speech
    begins, last = speech.breaths[speech.windows[heard[0]][0]].start, heard[0]
    for other in heard[1:]:
        if speech.breaths[speech.windows[other][0]].start - _end(speech, last) > APART:
            break
        last = other
    sure = _surety(speech, heard, told.chance[points].max(axis=1))
    return Act(step, _end(speech, last), speech.text(last), sure, ("shown or explained",), begins)


def _surety(speech: Speech, heard: Sequence[int], best: Rows) -> float:
    """How sure it is that a step is shown or explained, 0 to 1, from the best chances of its points: a fitted logistic weighing."""
    values = {
        "constant": 1.0,
        "best": float(np.log(best.max() + 1e-3)),
        "mean": float(best.mean()),
        "share": float((best >= TALKED).mean()),
        "many": float(np.log(len(best))),
        "now": float(any(NOW.search(plain(speech.text(window))) for window in heard)),
    }
    return surety(SURETY, values)


def _end(speech: Speech, window: int) -> float:
    first, many = speech.windows[window]
    return speech.breaths[first + many - 1].start


def _manner(text: str) -> str:
    now = NOW.search(plain(text))
    return f"done now: “{now[0]}”" if now else "told as it is done"
