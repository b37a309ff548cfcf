"""Which points are said, where, and why that is thought."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstpitch.film.context import CONTEXT, LEAST, Places, candidates, chances_in_context, inputs_of, log_odds
from firstpitch.film.evidence import FEATURES, Weighed
from firstpitch.film.ground import OWN, WAY
from firstpitch.film.matching import Rows, Speech, words_matched
from firstpitch.film.point_weights import ALONE_WEIGHTS, CONTEXT_WEIGHTS, MIDDLE
from firstpitch.film.types import FilmBrief, Point, PointFound, PointState

SAID, PARTLY = 0.6, 0.5  # chances from which a point counts as said, as partly said; chosen on films left out
NEAR = 0.02  # chances this close are alike, and the earlier window is taken
LIKELY = 0.5  # the chance from which another point is named as evidence


def points_found(brief: FilmBrief, told: Weighed, warned: Weighed) -> tuple[PointFound, ...]:
    """Every point of the brief, in its order, with its state, place, quote and evidence.

    ``told`` and ``warned`` weigh the brief's points and cautions. Each point is weighed by itself first, and then where it is likeliest
    once more together with what is found around it.
    """
    if not told.speech.windows:
        return tuple(PointFound(point.key, "missing", None, "", 1.0, ("nothing is spoken",)) for point in brief.points)
    if not brief.points:
        return ()
    windows, inputs = in_context(brief, told, warned)
    chance = chances_in_context(inputs, CONTEXT_WEIGHTS, MIDDLE)
    return tuple(
        _found(point, told, number, (windows[number], chance[number], inputs[number]))
        for number, point in enumerate(brief.points)
    )


def in_context(brief: FilmBrief, told: Weighed, warned: Weighed) -> tuple[Places, Rows]:
    """The windows where each point is likeliest by itself (items, candidates), and what is weighed of it there."""
    alone = log_odds(told.features, ALONE_WEIGHTS)
    kinds = [item.kind for item in warned.fit.ground.items]
    chance = np.clip(warned.chance, 1e-6, 1.0 - 1e-6)
    odds = np.asarray(np.maximum(np.log(chance / (1.0 - chance)), LEAST), np.float32)
    windows = candidates(alone)
    return windows, inputs_of(told, alone, (kinds, odds), brief.points, windows)


def _found(point: Point, told: Weighed, number: int, weighed: tuple[Places, Rows, Rows]) -> PointFound:
    """One point, from its candidate windows, the chance of each, and what led to it."""
    speech, (windows, chance, inputs) = told.speech, weighed
    close = np.flatnonzero(chance >= chance.max() - NEAR)
    best = int(min(close, key=lambda n: speech.windows[windows[n]]))
    window, sure = int(windows[best]), float(chance.max())
    state: PointState = "said" if sure >= SAID else "partly" if sure >= PARTLY else "missing"
    why = (*evidence_in_words(told, number, window), *_context_in_words(inputs[best]))
    if state == "missing":
        return PointFound(point.key, state, None, "", round(1.0 - sure, 2), (f"nearest: “{speech.text(window)}”", *why))
    first, _ = speech.windows[window]
    return PointFound(point.key, state, speech.breaths[first].start, speech.text(window), round(sure, 2), why)


def _context_in_words(inputs: Rows) -> tuple[str, ...]:
    """What the rest of the film says of a point, as far as it weighs: the rest of its step, and other points the words tell of."""
    value = dict(zip(CONTEXT, map(float, inputs), strict=False))
    told = []
    if value["step_rate"] >= LIKELY:
        told.append(f"other points of its step are told: about {value['step_rate']:.0%}")
    if value["share"] < float(np.log(0.5)) and value["alone"] > 0.0:
        told.append("the same words may be meant for another point")
    return tuple(told)


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
