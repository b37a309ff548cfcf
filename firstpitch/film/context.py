"""What the rest of the film says of a point: its step, its kit, the order of telling, and what else could explain the same words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstpitch.film.evidence import FEATURES, Weighed, Weights, summed
from firstpitch.film.matching import Rows, Speech, others_best, over_breaths, widened
from firstpitch.film.types import Point

CONTEXT = (
    "alone", "share", "odds_lead", "against_cautions", "kit_caution", "any_caution", "step_by", "step_rate", "kit_rate", "before",
    "after", "again", "must", "first", "points", "words", "kit_lead", "step_lead",
)  # fmt: skip
CANDIDATES = 5  # windows looked at for each point: those where it is likeliest by itself
LEAST = -8.0  # log odds below which it is all the same
AROUND, BEFORE = 6, 5  # breaths around, and breaths before or after, in which the rest of a step speaks for a point
NONE, NO_CAUTION, NO_NEIGHBOUR, NO_RIVAL = -4.0, -6.0, -3.0, 3.0  # stand for what a point has not
WIDEST = 2.5  # spreads from its middle beyond which an input says no more in a product
NOTHING_SAID = 0.3  # the odds that a window tells none of the points

Places = NDArray[np.int64]


def log_odds(features: Rows, weights: Weights) -> Rows:
    """The log odds (items, windows) of each item in each window by itself, not below ``LEAST``."""
    row = np.array([weights.by_feature.get(name, 0.0) for name in FEATURES], np.float32)
    return np.asarray(np.maximum(summed(features, row) + np.float32(weights.constant), LEAST), np.float32)


def candidates(alone: Rows) -> Places:
    """The windows (items, at most ``CANDIDATES``) where each item is likeliest by itself."""
    number = min(CANDIDATES, alone.shape[1])
    return np.asarray(np.argpartition(-alone, number - 1, axis=1)[:, :number], np.int64)


def chances_in_context(inputs: Rows, weights: Weights, middle: Mapping[str, tuple[float, float]]) -> Rows:
    """The chance (items, candidates) from inputs (items, candidates, C + F) in the order of ``CONTEXT`` and ``FEATURES``.

    A weight named ``one*other`` is of the product of two inputs, each reckoned from its ``middle`` in units of its spread, at most
    ``WIDEST`` of them: what one tells depends on the other.
    """
    place = {name: n for n, name in enumerate((*CONTEXT, *FEATURES))}
    row = np.array([weights.by_feature.get(name, 0.0) for name in place], np.float32)
    odds = inputs @ row + np.float32(weights.constant)
    for name, weight in weights.by_feature.items():
        if "*" in name:
            one, other = (
                np.clip((inputs[..., place[part]] - middle[part][0]) / middle[part][1], -WIDEST, WIDEST)
                for part in name.split("*")
            )
            odds = odds + np.float32(weight) * one * other
    return _chance(np.asarray(odds, np.float32))


def inputs_of(
    told: Weighed, alone: Rows, cautions: tuple[Sequence[str], Rows], points: Sequence[Point], windows: Places
) -> Rows:
    """What is weighed for each point and candidate window: (items, candidates, C + F).

    ``alone`` are the points' log odds by themselves, ``cautions`` each caution's kind and log odds.
    """
    around = _Around(told.speech, windows)
    items = np.arange(len(windows))[:, None]
    steps, kinds = _numbered([p.key.split("#")[0] for p in points]), _numbered([p.kind for p in points])
    by_breath = over_breaths(alone, told.speech, LEAST)
    own = alone[items, windows]
    columns = (
        own,
        *_shares(told, alone, by_breath, windows),
        *_against_cautions(own, cautions, points, around),
        *_of_step(alone, by_breath, steps, around),
        _of_kit(alone, steps, kinds),
        *_told_in_order(by_breath, points, around),
        _again(alone, around),
        *_of_point(points, steps),
        _words(told.speech)[windows],
        *_leads(own, by_breath, steps, kinds, around),
    )
    found = np.stack([np.broadcast_to(column, own.shape) for column in columns], axis=-1)
    return np.asarray(np.concatenate([found, told.features[items, windows]], axis=-1), np.float32)


@dataclass(frozen=True)
class _Around:
    """The candidate windows' first breath and the one after their last: (items, candidates)."""

    speech: Speech
    windows: Places

    @property
    def first(self) -> Places:
        return np.array([first for first, _ in self.speech.windows], np.int64)[self.windows]

    @property
    def after(self) -> Places:
        return np.array([first + many for first, many in self.speech.windows], np.int64)[self.windows]

    def best(self, rows: Rows) -> Rows:
        """The best of each item's row (N, breaths), or of one row for all, over the breaths of its candidates."""
        rows = np.broadcast_to(rows, (len(self.windows), rows.shape[-1]))
        last = self.after - 1
        longest = max(many for _, many in self.speech.windows)
        shifted = [np.take_along_axis(rows, np.minimum(self.first + n, last), axis=1) for n in range(longest)]
        return np.asarray(np.maximum.reduce(shifted), np.float32)


def _numbered(names: Sequence[str]) -> Places:
    return np.asarray(np.unique(np.array(names), return_inverse=True)[1], np.int64)


def _chance(odds: Rows) -> Rows:
    return np.asarray(1.0 / (1.0 + np.exp(-odds)), np.float32)


def _shares(told: Weighed, alone: Rows, by_breath: Rows, windows: Places) -> tuple[Rows, Rows]:
    """The share among all points in the same window, and the lead in the odds of the words over the likeliest other point there."""
    speech = told.speech
    best = np.stack([by_breath[:, first : first + many].max(axis=1) for first, many in speech.windows], axis=1)
    second, first = np.argsort(best, axis=0)[-2:] if len(best) > 1 else np.zeros((2, best.shape[1]), np.int64)
    items = np.arange(len(windows))[:, None]
    rival = np.where(first[windows] == items, second[windows], first[windows])
    share = alone[items, windows] - np.log(np.exp(alone).sum(axis=0) + NOTHING_SAID)[windows]
    odds = told.features[..., FEATURES.index("told")]
    return np.asarray(share, np.float32), np.asarray(odds[items, windows] - odds[rival, windows], np.float32)


def _against_cautions(
    own: Rows, cautions: tuple[Sequence[str], Rows], points: Sequence[Point], around: _Around
) -> tuple[Rows, Rows, Rows]:
    """How the cautions explain the same words: all together against the point, the best of its kit, the best of any."""
    kinds, odds = cautions
    together = np.exp(odds).sum(axis=0)[around.windows]
    by_breath = over_breaths(odds, around.speech, LEAST)
    of_kit = np.full((len(points), by_breath.shape[1]), NO_CAUTION, np.float32)
    for row, point in enumerate(points):
        mine = [n for n, kind in enumerate(kinds) if kind == point.kind]
        if mine:
            of_kit[row] = by_breath[mine].max(axis=0)
    any_kit = by_breath.max(axis=0, initial=NO_CAUTION)
    against = np.log((together + 0.1) / (np.exp(own) + 0.1))
    return np.asarray(against, np.float32), around.best(of_kit), around.best(any_kit)


def _of_step(alone: Rows, by_breath: Rows, steps: Places, around: _Around) -> tuple[Rows, Rows]:
    """The step's other points: the best near by, and how many are likely anywhere in the film."""
    near = others_best(widened(by_breath, AROUND, AROUND), steps, NONE)
    return around.best(near), _others_mean(_chance(alone.max(axis=1, keepdims=True)), steps)


def _others_mean(rows: Rows, groups: Places) -> Rows:
    """For each row the mean of the other rows of its group, 0 where it is alone."""
    count = np.bincount(groups)
    sums = np.zeros((len(count), rows.shape[1]), np.float32)
    np.add.at(sums, groups, rows)
    return np.asarray((sums[groups] - rows) / np.maximum(count[groups] - 1, 1)[:, None], np.float32)


def _of_kit(alone: Rows, steps: Places, kinds: Places) -> Rows:
    """How many points of the other steps of the same kit are likely anywhere; of all points where it has no other."""
    chance = _chance(alone.max(axis=1))
    likely = np.bincount(kinds, chance)[kinds] - np.bincount(steps, chance)[steps]
    others = np.bincount(kinds)[kinds] - np.bincount(steps)[steps]
    return np.asarray(np.where(others > 0, likely / np.maximum(others, 1), chance.mean())[:, None], np.float32)


def _other_steps(rows: Rows, steps: Places, kinds: Places, none: float) -> Rows:
    """For each point the best of the points of the other steps of its kind."""
    by_step = np.stack([rows[steps == step].max(axis=0) for step in range(steps.max() + 1)])
    kind_of = np.array([kinds[steps == step][0] for step in range(steps.max() + 1)])
    return others_best(by_step, kind_of, none)[steps]


def _told_in_order(by_breath: Rows, points: Sequence[Point], around: _Around) -> tuple[Rows, Rows]:
    """The point before it in its step just before, and the one after it just after: a step tends to be told in order."""
    place = {point.key: row for row, point in enumerate(points)}
    back, ahead = widened(by_breath, BEFORE - 1, 0), widened(by_breath, 0, BEFORE - 1)
    found = np.full((2, *by_breath.shape), NO_NEIGHBOUR, np.float32)
    for row, point in enumerate(points):
        step, number = point.key.split("#")
        for side, rows, other in ((0, back, int(number) - 1), (1, ahead, int(number) + 1)):
            near = place.get(f"{step}#{other}")
            if near is not None:
                found[side, row] = rows[near]
    before = np.take_along_axis(found[0], around.first, axis=1)
    return before, np.take_along_axis(found[1], around.after - 1, axis=1)


def _again(alone: Rows, around: _Around) -> Rows:
    """The best window that shares no breath with the candidate: it may be told twice."""
    many = len(around.speech.breaths)
    begin, end = np.full((2, len(alone), many + 1), LEAST, np.float32)
    for window, (first, span) in enumerate(around.speech.windows):
        begin[:, first] = np.maximum(begin[:, first], alone[:, window])
        end[:, first + span] = np.maximum(end[:, first + span], alone[:, window])
    sooner = np.take_along_axis(np.maximum.accumulate(end, axis=1), around.first, axis=1)
    later = np.take_along_axis(np.maximum.accumulate(begin[:, ::-1], axis=1)[:, ::-1], around.after, axis=1)
    return np.asarray(np.maximum(sooner, later), np.float32)


def _of_point(points: Sequence[Point], steps: Places) -> tuple[Rows, Rows, Rows]:
    """Whether it must be said, whether it is the first of its step, and how many its step has (log)."""
    must = np.array([[point.level == "must"] for point in points], np.float32)
    first = np.array([[point.key.endswith("#1")] for point in points], np.float32)
    return must, first, np.asarray(np.log(np.bincount(steps)[steps])[:, None], np.float32)


def _words(speech: Speech) -> Rows:
    """How many words each window holds (log)."""
    return np.asarray(np.log([max(len(speech.text(w).split()), 1) for w in range(len(speech.windows))]), np.float32)


def _leads(own: Rows, by_breath: Rows, steps: Places, kinds: Places, around: _Around) -> tuple[Rows, Rows]:
    """The lead over the best point of the kit's other steps, and of the same step, in the same breaths."""
    of_kit, of_step = _other_steps(by_breath, steps, kinds, np.nan), others_best(by_breath, steps, np.nan)
    leads = (own - around.best(of_kit), own - around.best(of_step))
    return tuple(np.where(np.isnan(lead), NO_RIVAL, lead).astype(np.float32) for lead in leads)  # type: ignore[return-value]
