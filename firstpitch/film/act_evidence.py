"""What speaks for each step of the hands being done in each window, as named numbers."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstpitch.film.evidence import Weighed, Weights
from firstpitch.film.ground import OWN, TOLD, WAY, Fit, Ground, Item
from firstpitch.film.matching import Rows, Speech
from firstpitch.film.types import FilmBrief
from firstpitch.film.where import Where
from firstpitch.rounds import Problem

ACT_FEATURES = (
    "kit_log",  # how likely the talk is on this kit (log)
    "own_like",  # likeness to the step's title
    "way_like",  # likeness to what people say while their hands do it
    "way_cover",  # the share heard of the words of that
    "second",  # the second best of those likenesses: one may be by chance
    "length",  # breaths in the window
    "kit_share",  # how much of the film is on this kit (log)
    "told",  # how much likelier the words heard are in this step than in any
    "points",  # the chance of the likeliest point of the step (log)
    "caution",  # the chance of the likeliest caution: a warning is no act
    "against_opposite",  # how much likelier the words are in this step than in the one that undoes it
    "against_talk",  # how far the step's points lead those of steps that only show or explain
    "puts_back",  # whether the step sets everything back as the film found it
    "puts_back_late",  # the same, by how far on the film is: people put back at the end
)
SMOOTH = 0.08  # share of wordings put to every word when a step is held against its opposite
FAINT = 1e-3  # keeps the log of a chance finite


def acts_weighed(brief: FilmBrief, fit: Fit, heard: tuple[Weighed, Weighed], where: Where, weights: Weights) -> Weighed:
    """The chance (steps, windows) that each step of ``fit`` is done in each window; ``heard`` are points and cautions, weighed."""
    told, warned = heard
    features = act_features(brief, fit, told, warned, where)
    row = np.array([weights.by_feature[name] for name in ACT_FEATURES], np.float32)
    chance = 1.0 / (1.0 + np.exp(-(features @ row + weights.constant)))
    return Weighed(fit, told.speech, features, np.asarray(chance, np.float32))


def act_features(brief: FilmBrief, fit: Fit, told: Weighed, warned: Weighed, where: Where) -> Rows:
    """The features (steps, windows, F), in the order of ``ACT_FEATURES``."""
    ground, speech = fit.ground, told.speech
    shape = (len(ground.items), len(speech.windows))
    if not all(shape):
        return np.zeros((*shape, len(ACT_FEATURES)), np.float32)
    rows = [where.kinds.index(item.kind) for item in ground.items]
    points, talk = _points(brief, ground.items, told)
    caution = warned.chance.max(axis=0) if warned.chance.size else np.zeros(shape[1], np.float32)
    back = puts_back(brief.problem, ground.items)[:, None]
    starts = np.array([speech.breaths[first].start for first, _ in speech.windows])
    columns = (
        np.log(where.in_windows(speech)[rows] + FAINT),
        ground.best(fit.like, OWN),
        ground.best(fit.like, WAY),
        ground.best(fit.cover, WAY),
        _second(fit),
        np.array([many for _, many in speech.windows]),
        np.log1p(where.chance.sum(axis=1))[rows][:, None],
        np.clip(ground.told @ speech.present.T, -6.0, 10.0),
        points,
        caution,
        against_opposite(ground, opposites(brief.problem, ground.items), speech),
        points - talk,
        back,
        back * starts / max(speech.breaths[-1].end, 1.0),
    )
    return np.asarray(np.stack([np.broadcast_to(column, shape) for column in columns], axis=-1), np.float32)


def puts_back(problem: Problem, items: Sequence[Item]) -> Rows:
    """For each step 1 where all it sets is set to what it was at the start, else 0."""
    steps = {step.id: step for step in problem.steps}
    return np.array(
        [
            float(all(problem.start.get(e.condition) == e.value for e in steps[item.key].sets if e.value not in TOLD))
            for item in items
        ],
        np.float32,
    )


def opposites(problem: Problem, items: Sequence[Item]) -> list[list[int]]:
    """For each step the rows of those that undo it: that set one of its conditions otherwise, by themselves or by a wait they start."""
    steps = {step.id: step for step in problem.steps}
    waits = {wait.id: wait for wait in problem.waits}
    sets = []
    for item in items:
        step = steps[item.key]
        slow = {e.condition: e.value for name in step.starts if name in waits for e in waits[name].sets}
        sets.append({**slow, **{e.condition: e.value for e in step.sets if e.value not in TOLD}})
    return [
        [row for row, other in enumerate(sets) if any(c in own and own[c] != value for c, value in other.items())]
        for own in sets
    ]


def against_opposite(ground: Ground, others: Sequence[Sequence[int]], speech: Speech) -> Rows:
    """How much likelier the words heard are in a step than in the likeliest of those that undo it [nats], -4 to 4; 0 where none does.

    On and off, in and out: the words that part such a pair are few, and lost among all the others.
    """
    counts = np.zeros((len(ground.items), ground.weights.shape[1]), np.float32)
    np.add.at(counts, ground.item, (ground.weights > 0).astype(np.float32))
    share = counts / np.maximum(np.bincount(ground.item, minlength=len(counts))[:, None], 1)
    odds = np.zeros_like(share)
    for row, those in enumerate(others):
        if those:
            odds[row] = np.log((share[row] + SMOOTH) / (share[list(those)].max(axis=0) + SMOOTH))
    return np.asarray(np.clip(odds @ speech.present.T, -4.0, 4.0), np.float32)


def _points(brief: FilmBrief, items: Sequence[Item], told: Weighed) -> tuple[Rows, Rows]:
    """The chance (log) of the likeliest point of each step, and of the likeliest point of all steps that the hands do not do."""
    place = {item.key: row for row, item in enumerate(told.fit.ground.items)}
    rows: dict[str, list[int]] = {}
    for point in brief.points:
        for step in point.steps:
            rows.setdefault(step, []).append(place[point.key])
    none = np.zeros(told.chance.shape[1], np.float32)
    mine = [told.chance[rows[item.key]].max(axis=0) if item.key in rows else none for item in items]
    hands = {item.key for item in items}
    others = sorted({row for step, those in rows.items() if step not in hands for row in those})
    talk = told.chance[others].max(axis=0) if others else none
    return np.asarray(np.log(np.stack(mine) + FAINT), np.float32), np.asarray(np.log(talk + FAINT), np.float32)


def _second(fit: Fit) -> Rows:
    """The likeness of the second best of what people say while they do it; 0 where there are not two."""
    ground = fit.ground
    found = np.zeros((len(ground.items), fit.like.shape[1]), np.float32)
    for number in range(len(ground.items)):
        mine = np.flatnonzero((ground.item == number) & (ground.sort == WAY))
        if mine.size > 1:
            found[number] = np.partition(fit.like[mine], -2, axis=0)[-2]
    return found
