"""Which kit is spoken of, breath by breath: a hidden chain over time in which talk tends to stay on one kit and may double back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstpitch.film.ground import OWN, SAY, WAY, Fit
from firstpitch.film.matching import Rows, Speech
from firstpitch.film.types import FilmBrief, Subject
from firstpitch.film.words import concepts

STAY = 0.55  # chance that the next breath is still about the same kit
NAME, MEANING, WORDS, SHARP = 4.0, 12.0, 3.0, 1.0  # what the name, likeness and words of a kind weigh
ODDS, SMOOTH = 0.6, 30.0  # what the odds of all words heard weigh; words of the whole mixed into a kind's own
PLAIN_MEANING, PLAIN_WORDS = 0.35, 0.35  # what any talk reaches
NOTHING = -1.0  # the weight of talk about no kit


@dataclass(frozen=True)
class Where:
    """For each breath the chance of each kind: ``kinds`` (the last is empty: none) by breath. ``named`` is how plainly each is named."""

    kinds: tuple[str, ...]
    chance: NDArray[np.float64]
    named: NDArray[np.float64]

    def in_windows(self, speech: Speech) -> Rows:
        """The best chance of each kind over the breaths of each window: (K, W)."""
        columns = [self.chance[:, first : first + many].max(axis=1) for first, many in speech.windows]
        return np.asarray(np.stack(columns, axis=1) if columns else np.zeros((len(self.kinds), 0)), np.float32)


def names_heard(subjects: Sequence[Subject], speech: Speech) -> NDArray[np.float64]:
    """How plainly each subject is named in each breath, 0 to about 2: a name of several words that nothing else shares counts most."""
    owners: dict[str, set[str]] = {}
    for subject in subjects:
        for written in subject.names:
            for concept in set(concepts(written)):
                owners.setdefault(concept, set()).add(subject.kind)
    found = np.zeros((len(subjects), len(speech.breaths)))
    for row, subject in enumerate(subjects):
        for name in {tuple(dict.fromkeys(concepts(spoken))) for spoken in subject.names} - {()}:
            rare = float(np.mean([len(owners[c]) ** -0.5 for c in name])) * (1.0 + 0.5 * (len(name) - 1))
            for at, heard in enumerate(speech.heard):
                if all(c in heard for c in name):
                    found[row, at] = max(found[row, at], rare * min(heard[c][0] for c in name))
    return found


def where_of(brief: FilmBrief, speech: Speech, fit: Fit) -> Where:
    """The chance of each fitted kind in each breath, from names, likeness and words, smoothed forwards and backwards over time."""
    subjects = [s for s in brief.subjects if s.kits]
    many = len(speech.breaths)
    named = names_heard(brief.subjects, speech)[[bool(s.kits) for s in brief.subjects]]
    weight = np.zeros((len(subjects) + 1, many))
    ground = fit.ground
    kinds = np.array([item.kind for item in ground.items])
    meaning = np.maximum.reduce([ground.best(fit.like[:, :many], sort) for sort in (OWN, SAY, WAY)])
    words = np.maximum.reduce([ground.best(fit.cover[:, :many], sort) for sort in (OWN, WAY)])
    for row, subject in enumerate(subjects):
        mine = kinds == subject.kind
        if mine.any():
            weight[row] = MEANING * (meaning[mine].max(axis=0) - PLAIN_MEANING)
            weight[row] += WORDS * (words[mine].max(axis=0) - PLAIN_WORDS)
    weight[:-1] += NAME * named + ODDS * word_odds(fit, speech, [s.kind for s in subjects])
    weight[-1] = NOTHING
    weight = np.exp(SHARP * (weight - weight.max(axis=0, keepdims=True)))
    return Where((*(s.kind for s in subjects), ""), smoothed(weight / weight.sum(axis=0, keepdims=True)), named)


def word_odds(fit: Fit, speech: Speech, subjects: Sequence[str]) -> NDArray[np.float64]:
    """How much likelier the words of each breath are in talk of each kind than in talk of the whole van [nats], -4 to 8."""
    ground, many = fit.ground, len(speech.breaths)
    kinds = np.array([item.kind for item in ground.items])[ground.item]
    counts = np.stack([(ground.weights[kinds == kind] > 0).sum(axis=0) for kind in subjects]).astype(float)
    whole = counts.sum(axis=0) + 0.5
    whole /= whole.sum()
    size = counts.sum(axis=1, keepdims=True)
    odds = np.log((counts + SMOOTH * whole) / ((size + SMOOTH) * whole))
    return np.asarray(np.clip(odds @ speech.present[:many].T, -4.0, 8.0))


def smoothed(seen: NDArray[np.float64]) -> NDArray[np.float64]:
    """The chance of each state at each time given everything seen, by the forward-backward algorithm; columns sum to 1.

    Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77 (1989), equations 19 to 27 (from memory), with a uniform start.

    >>> smoothed(np.array([[0.9, 0.5, 0.9], [0.1, 0.5, 0.1]])).round(2)[0].tolist()
    [0.9, 0.58, 0.9]
    """
    states, times = seen.shape
    if times == 0 or states == 1:
        return seen
    move = (1.0 - STAY) / (states - 1)
    forward, backward = np.empty_like(seen), np.ones_like(seen)
    forward[:, 0] = seen[:, 0] / seen[:, 0].sum()
    for t in range(1, times):
        # Moving is alike to every other state, so the sum over them is the whole less the state itself.
        before = move * (1.0 - forward[:, t - 1]) + STAY * forward[:, t - 1]
        forward[:, t] = seen[:, t] * before
        forward[:, t] /= forward[:, t].sum()
    for t in range(times - 2, -1, -1):
        after = seen[:, t + 1] * backward[:, t + 1]
        backward[:, t] = move * (after.sum() - after) + STAY * after
        backward[:, t] /= backward[:, t].sum()
    both = forward * backward
    return np.asarray(both / both.sum(axis=0, keepdims=True))
