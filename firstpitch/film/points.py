"""Which points are said, where, and why that is thought."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstpitch.film.evidence import FEATURES, Weighed
from firstpitch.film.ground import OWN, WAY
from firstpitch.film.matching import Rows, Speech, words_matched
from firstpitch.film.types import PointFound, PointState

SAID, PARTLY = 0.14, 0.1  # chances from which a point counts as said, as partly said; chosen on the tuning films


def points_found(told: Weighed) -> tuple[PointFound, ...]:
    """Every point of the brief, in its order, with its state, place, quote and evidence."""
    return tuple(_found(told, number) for number in range(len(told.fit.ground.items)))


def _found(told: Weighed, number: int) -> PointFound:
    key, speech = told.fit.ground.items[number].key, told.speech
    if not speech.windows:
        return PointFound(key, "missing", None, "", 1.0, ("nothing is spoken",))
    window = best_window(speech, told.chance[number])
    sure = float(told.chance[number, window])
    state: PointState = "said" if sure >= SAID else "partly" if sure >= PARTLY else "missing"
    why = evidence_in_words(told, number, window)
    if state == "missing":
        return PointFound(key, state, None, "", round(1.0 - sure, 2), (f"nearest: “{speech.text(window)}”", *why))
    first, _ = speech.windows[window]
    return PointFound(key, state, speech.breaths[first].start, speech.text(window), round(sure, 2), why)


def best_window(speech: Speech, chance: Rows) -> int:
    """The window where the chance is highest; of nearly equal ones the first, and then the shortest."""
    best = float(chance.max())
    near = np.flatnonzero(chance >= best - 0.02)
    return int(min(near, key=lambda w: (speech.windows[w][0], speech.windows[w][1])))


def evidence_in_words(told: Weighed, number: int, window: int) -> tuple[str, ...]:
    """Why: the wording that fits best, the words heard of it, how alike they are, and whether the talk is on this kit."""
    fit, ground = told.fit, told.fit.ground
    mine = np.flatnonzero((ground.item == number) & ((ground.sort == OWN) | (ground.sort == WAY)))
    row = int(mine[np.argmax(fit.like[mine, window] + 0.5 * fit.cover[mine, window])])
    words = words_matched(told.speech, ground.texts[row], window)
    why = [f"alike to “{ground.texts[row]}”: {float(fit.like[row, window]):.2f}"]
    if words:
        why.append(f"words heard: {', '.join(words)}")
    why.append(f"talk is on this kit: {float(told.features[number, window, FEATURES.index('kit')]):.0%}")
    return tuple(why)


def said_in(
    found: Sequence[PointFound], states: frozenset[str] = frozenset({"said", "partly"})
) -> dict[str, PointFound]:
    """The points that are said at all, by key."""
    return {point.point: point for point in found if point.state in states}
