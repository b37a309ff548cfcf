"""Which cautions are spoken, and whether in time: before the act they warn of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstpitch.film.evidence import Weighed
from firstpitch.film.matching import Speech
from firstpitch.film.order import SURE, Act
from firstpitch.film.points import best_window, evidence_in_words
from firstpitch.film.types import CautionDue, CautionHeard, CautionState, FilmBrief

SPOKEN = 0.6  # the chance from which a caution counts as spoken; chosen on labelled films left out of the fit
NEARLY = (
    0.6  # of the best chance: where a caution is as good as spoken, so that the first of these is in time or none is
)
SAME_BREATH = 3.0  # [s]: a caution in the same breath as the act is in time


def cautions_heard(brief: FilmBrief, told: Weighed, acts: Sequence[Act]) -> tuple[CautionHeard, ...]:
    """Every caution of the brief, in its order: said, late or missing, with the act it should have come before."""
    return tuple(_heard(due, number, told, acts) for number, due in enumerate(brief.cautions))


def _heard(due: CautionDue, number: int, told: Weighed, acts: Sequence[Act]) -> CautionHeard:
    speech, chance = told.speech, told.chance[number]
    act = min((a.at for a in acts if a.sure >= SURE and _warned_of(a, due)), default=None)
    top = float(chance.max()) if speech.windows else 0.0
    if top < SPOKEN:
        return CautionHeard(due.key, "missing", None, act, "", round(1.0 - top, 2), ("nothing like it is spoken",))
    window = best_window(speech, chance)
    early = [int(w) for w in np.flatnonzero(chance >= max(SPOKEN, top * NEARLY)) if _in_time(speech, int(w), act)]
    if early and not _in_time(speech, window, act):
        window = early[0]
    state: CautionState = "said" if _in_time(speech, window, act) else "late"
    why = evidence_in_words(told, number, window)
    sure = round(float(chance[window]), 2)
    return CautionHeard(due.key, state, _start(speech, window), act, speech.text(window), sure, why)


def _in_time(speech: Speech, window: int, act: float | None) -> bool:
    return act is None or _start(speech, window) <= act + SAME_BREATH


def _start(speech: Speech, window: int) -> float:
    return speech.breaths[speech.windows[window][0]].start


def _warned_of(act: Act, due: CautionDue) -> bool:
    return act.step in due.steps if due.steps else act.step.split(".", 1)[0] in due.kits
