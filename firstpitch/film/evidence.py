"""What speaks for each point or caution being said in each window, as named numbers, and how they are weighed into one chance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firstpitch.film.ground import OWN, SAY, WAY, Fit
from firstpitch.film.matching import Rows, Speech, others_best, over_breaths, widened
from firstpitch.film.pure import share_of, unit
from firstpitch.film.where import Where

FEATURES = (
    "kit", "kit_log", "own_like", "say_like", "way_like", "own_cover", "say_cover", "way_cover", "stands_out", "against_all",
    "against_kin", "length", "joint", "second", "mass", "step_near", "kit_named", "kit_share", "kit_joint", "told", "told_mean",
    "told_kin", "pure_mean", "pure_share", "words_share", "both_share", "share_in_kind",
    "share_in_group", "share_with_kit",
)  # fmt: skip
LIKE_SHARP, WORDS_SHARP = 15.0, 20.0  # how sharply likeness, and the likeness of words alone, part the items
NEAR = 8  # breaths on either side within which the other points of a step speak for one
THIRD = -3  # a window may say two things; the third best rival is what an item must beat


@dataclass(frozen=True)
class Weights:
    """A logistic weighing: one weight a feature and a constant. Fitted on the tuning half of the labelled films; see docs/film.md."""

    constant: float
    by_feature: Mapping[str, float]


def features_of(fit: Fit, speech: Speech, where: Where) -> Rows:
    """The features (items, windows, F), in the order of ``FEATURES``."""
    ground = fit.ground
    if not ground.items or not speech.windows:
        return np.zeros((len(ground.items), len(speech.windows), len(FEATURES)), np.float32)
    rows = [where.kinds.index(item.kind) for item in ground.items]
    kit = where.in_windows(speech)[rows]
    like = {sort: ground.best(fit.like, sort) for sort in (OWN, SAY, WAY)}
    cover = {sort: ground.best(fit.cover, sort) for sort in (OWN, SAY, WAY)}
    best = np.maximum(like[OWN], like[WAY])
    out = (best - best.mean(axis=1, keepdims=True)) / np.maximum(best.std(axis=1, keepdims=True), 1e-3)
    joint = best + 0.4 * np.maximum(cover[OWN], cover[WAY]) + 0.2 * like[SAY]
    lead = joint - np.sort(joint, axis=0)[max(THIRD, -len(joint))]
    named = where.named.max(axis=1)[rows][:, None] if where.named.size else np.zeros((len(rows), 1))
    share = np.log1p(where.chance.sum(axis=1))[rows][:, None]
    length = np.array([many for _, many in speech.windows], np.float32)
    columns = (
        kit, np.log(kit + 1e-3), like[OWN], like[SAY], like[WAY], cover[OWN], cover[SAY], cover[WAY], out, lead,
        _against_kin(fit, joint), length, joint, _second(fit), _mass(fit), _near(fit, speech, lead + 0.3 * kit),
        np.minimum(named, 1.5), share, kit * joint, *_told(fit, speech), *_pure(fit, speech, kit),
    )  # fmt: skip
    whole = np.empty((len(columns), *joint.shape), np.float32)
    for place, column in zip(whole, columns, strict=True):
        place[:] = column
    return np.moveaxis(whole, 0, -1)


def _told(fit: Fit, speech: Speech) -> tuple[Rows, Rows, Rows]:
    """How much likelier the words heard are in talk of the item than in any talk [nats]: in all, a word, against its kind."""
    ground = fit.ground
    heard = speech.present
    number = np.maximum(heard.sum(axis=1), 1.0)
    whole = ground.told @ heard.T
    return (
        np.asarray(np.clip(whole, -6.0, 10.0), np.float32),
        np.asarray(np.clip(whole / number, -2.0, 4.0), np.float32),
        np.asarray(np.clip(ground.kin @ heard.T, -6.0, 8.0), np.float32),
    )


def _pure(fit: Fit, speech: Speech, kit: Rows) -> tuple[Rows, ...]:
    """Likeness with the manner of speaking taken out, and the share of it that falls to each item among all, its kind, its group."""
    pure = fit.ground.pure
    mean = pure.centres @ pure.of(speech.vectors).T
    words = pure.word_centres @ unit(speech.present * pure.rarity).T
    both = np.asarray(LIKE_SHARP * (mean + words), np.float32)
    kinds, groups = (
        np.unique([str(getattr(item, name)) for item in fit.ground.items], return_inverse=True)[1]
        for name in ("kind", "group")
    )
    return (
        mean, share_of(LIKE_SHARP * mean), share_of(WORDS_SHARP * words), share_of(both), share_of(both, kinds),
        share_of(both, groups), share_of(np.asarray(both + np.log(kit + 0.01), np.float32)),
    )  # fmt: skip


def _second(fit: Fit) -> Rows:
    """The likeness of the second best wording: one wording may be alike by chance, two seldom are."""
    ground = fit.ground
    found = np.zeros((len(ground.items), fit.like.shape[1]), np.float32)
    bounds = [*np.flatnonzero(np.diff(ground.item, prepend=-1)), len(ground.item)]
    for number, (first, after) in enumerate(pairwise(bounds)):
        mine = fit.like[first:after]
        found[number] = np.partition(mine, -2, axis=0)[-2] if len(mine) > 1 else mine[0]
    return found


def _mass(fit: Fit) -> Rows:
    """How much meaning is heard in all: the rarity of the words of the best wording that are heard, not their share."""
    ground = fit.ground
    rows = fit.cover * ground.mass[:, None]
    return np.asarray(np.maximum(ground.best(rows, OWN), ground.best(rows, WAY)), np.float32)


def _near(fit: Fit, speech: Speech, lead: Rows) -> Rows:
    """The best lead of the other items of the same group within a few breaths."""
    wide = widened(over_breaths(lead, speech, -1.0), NEAR, NEAR)
    groups = np.array([item.group for item in fit.ground.items])
    return others_best(wide, groups, -0.5)[:, [first for first, _ in speech.windows]]


def _against_kin(fit: Fit, joint: Rows) -> Rows:
    """How far each item leads the best other item of its kind; 0 where it is alone."""
    others = others_best(joint, np.array([item.kind for item in fit.ground.items]), np.nan)
    return np.asarray(np.where(np.isnan(others), 0.0, joint - others), np.float32)


@dataclass(frozen=True)
class Weighed:
    """Items weighed against a film: how each wording fits, the features, and the chance (items, windows) that each is said."""

    fit: Fit
    speech: Speech
    features: Rows
    chance: Rows


def weighed(fit: Fit, speech: Speech, where: Where, weights: Weights) -> Weighed:
    """The chance of each item in each window, with all that led to it."""
    features = features_of(fit, speech, where)
    return Weighed(fit, speech, features, chances(features, weights))


def chances(features: Rows, weights: Weights) -> Rows:
    """The chance (items, windows) that each item is said in each window."""
    row = np.array([weights.by_feature.get(name, 0.0) for name in FEATURES], np.float32)
    return np.asarray(1.0 / (1.0 + np.exp(-(summed(features, row) + weights.constant))), np.float32)


def summed(features: Rows, row: Rows) -> Rows:
    """The weighed sum of the features (items, windows, F); in memory each feature lies by itself, so this is the quick way round."""
    return np.asarray(np.tensordot(row, np.moveaxis(features, -1, 0), axes=1), np.float32)
