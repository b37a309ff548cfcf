"""Talk that tells the owner nothing, and what is said twice."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstpitch.film.matching import Rows, Speech, over_breaths
from firstpitch.film.types import FigureHeard, Padding

NOTHING = 0.2  # the best chance of any point or caution below which a breath tells nothing
IDLE = 0.3  # and the best chance of any act of the hands, below which nothing is done in it
PADDED = 8  # words: less is a breath between, not padding
AGAIN = 0.82  # likeness from which a breath says an earlier one again
APART = 20.0  # [s] at least between a thing and its repeat


def padding_of(
    speech: Speech, chances: Sequence[Rows], done: Rows, figures: Sequence[FigureHeard]
) -> tuple[Padding, ...]:
    """Runs of breaths in which no point, caution or figure is told and nothing is done, and breaths that say again what was said before.

    ``chances`` are those of points and of cautions, ``done`` of acts (items, windows).
    """
    many = len(speech.breaths)
    if not many:
        return ()
    best = np.zeros(many)
    for chance in (*chances, done * (NOTHING / IDLE)):
        if not chance.size:
            continue
        best = np.maximum(best, over_breaths(chance.max(axis=0, keepdims=True), speech, 0.0)[0])
    for figure in figures:
        for at, breath in enumerate(speech.breaths):
            if breath.start <= figure.at <= breath.end:
                best[at] = 1.0
    return tuple(sorted([*_empty(speech, best), *_again(speech, best)], key=lambda p: p.at))


def _empty(speech: Speech, best: np.ndarray[tuple[int], np.dtype[np.float64]]) -> list[Padding]:
    found: list[Padding] = []
    run: list[int] = []
    for at in range(len(speech.breaths) + 1):
        if at < len(speech.breaths) and best[at] < NOTHING:
            run.append(at)
            continue
        words = sum(len(speech.breaths[n].words) for n in run)
        if words >= PADDED:
            text = " ".join(speech.breaths[n].text for n in run)
            found.append(Padding(speech.breaths[run[0]].start, speech.breaths[run[-1]].end, text, None))
        run = []
    return found


def _again(speech: Speech, best: np.ndarray[tuple[int], np.dtype[np.float64]]) -> list[Padding]:
    found = []
    many = len(speech.breaths)
    alone = speech.vectors[:many]
    starts = np.array([breath.start for breath in speech.breaths])
    for at in range(many):
        if best[at] < NOTHING or len(speech.breaths[at].words) < 5:  # noqa: PLR2004
            continue
        before = int(np.searchsorted(starts, starts[at] - APART))
        if before:
            alike = alone[:before] @ alone[at]
            if float(alike.max()) >= AGAIN:
                breath = speech.breaths[at]
                found.append(Padding(breath.start, breath.end, breath.text, float(starts[int(alike.argmax())])))
    return found
