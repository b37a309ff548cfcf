"""A brief made ready for matching: each point and caution with every wording of it, its vectors and its words' weights."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstpitch.film.matching import Like, Rows, Speech, rarities, weights_of
from firstpitch.film.pure import Pure, pure_of
from firstpitch.film.types import FilmBrief
from firstpitch.film.words import Vocabulary, concepts, vocabulary_of

_SENTENCE = re.compile(r"(?<=[.;:?!])\s+")
# Values by which a step is only told or looked at; every other value is something the hands do.
TOLD = frozenset({"yes", "no", "begun", "over", "told", "given", "checked", "finished"})
SMOOTH = 12.0  # words of the whole mixed into an item's own when its odds are reckoned
OWN, SAY, WAY = 0, 1, 2  # sorts of wording: its own text, the sentences of the step's script, other ways to say it


@dataclass(frozen=True)
class Item:
    """A point or a caution. ``wordings`` are its texts with their sort; items of one ``group`` are told together."""

    key: str
    kind: str
    group: str
    wordings: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Ground:
    """Items with their wordings in one list: ``item`` and ``sort`` say whose and what sort each row is.

    ``bound`` 0 to 1 is how much a sentence of the script has to do with the item; 1 for the other sorts. ``mass`` is the meaning of each
    wording's words in all; ``told`` and ``kin`` (items, concepts) are the log odds of each concept against all items and its kind's.
    ``pure`` is the space of the wordings other than the script's in which their manner is taken out.
    """

    items: tuple[Item, ...]
    texts: tuple[str, ...]
    item: NDArray[np.int64]
    sort: NDArray[np.int64]
    vectors: Rows
    weights: Rows
    bound: Rows
    mass: Rows
    told: Rows
    kin: Rows
    pure: Pure

    def best(self, rows: Rows, sort: int) -> Rows:
        """The best row of each item among its wordings of ``sort``: (wordings, W) to (items, W); 0 where it has none."""
        found = np.zeros((len(self.items), rows.shape[1]), np.float32)
        mine = np.flatnonzero(self.sort == sort)
        if mine.size:
            starts = np.flatnonzero(np.diff(self.item[mine], prepend=-1))
            found[self.item[mine[starts]]] = np.maximum.reduceat(rows[mine], starts, axis=0)
        return found


def sentences(text: str) -> list[str]:
    """The sentences of a text, cut at semicolons and colons too.

    >>> sentences("Gas off. Then wait; try again.")
    ['Gas off.', 'Then wait;', 'try again.']
    """
    return [part for part in _SENTENCE.split(text) if part.strip()]


def items_of(brief: FilmBrief) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """The brief's points and cautions as items."""
    points = tuple(
        Item(
            p.key,
            p.kind,
            p.key.split("#")[0],
            ((p.text, OWN), *((s, SAY) for s in sentences(p.say)), *((w, WAY) for w in p.ways)),
        )
        for p in brief.points
    )
    cautions = tuple(
        Item(
            c.key,
            c.kind,
            c.key.split("!")[0],
            ((c.text, OWN), *((s, SAY) for s in _parts(c.text)), *((w, WAY) for w in c.ways)),
        )
        for c in brief.cautions
    )
    return points, cautions


def acts_as_items(brief: FilmBrief) -> tuple[Item, ...]:
    """The steps that the hands do, as items: worded by their title, by what people say while they do them, and by what they bring about."""
    kinds = {kit: subject.kind for subject in brief.subjects for kit in subject.kits}
    found = []
    for step in brief.problem.steps:
        changes = [e for e in step.sets if e.value not in TOLD]
        if changes and step.kit in kinds:
            told = [
                f"{brief.problem.labels.get(e.condition, e.condition)} {e.value.replace('-', ' ')}" for e in changes
            ]
            doing = brief.doing.get(step.id, ())
            wordings = ((step.title, OWN), *((text, SAY) for text in told), *((text, WAY) for text in doing))
            found.append(Item(step.id, kinds[step.kit], step.kit, wordings))
    return tuple(found)


def _parts(text: str) -> list[str]:
    parts = sentences(text)
    return parts if len(parts) > 1 else []


def vocabulary_for(brief: FilmBrief) -> Vocabulary:
    """Every word of the brief that could be spoken."""
    texts = [t for p in brief.points for t in (p.text, p.say, *p.ways, *p.words)]
    texts += [t for c in brief.cautions for t in (c.text, *c.ways)]
    texts += [text for item in acts_as_items(brief) for text, _ in item.wordings]
    texts += [name for s in brief.subjects for name in s.names] + [f.what for f in brief.figures]
    return vocabulary_of(texts)


def ground_of(items: Sequence[Item], vocabulary: Vocabulary, like: Like) -> Ground:
    """The items' wordings with vectors and weights."""
    rows = [(number, text, sort) for number, item in enumerate(items) for text, sort in item.wordings]
    texts = [text for _, text, _ in rows]
    rarity = rarities([[text for text, sort in item.wordings if sort != SAY] for item in items])
    vectors = like(texts)
    item = np.array([number for number, _, _ in rows], np.int64)
    sort = np.array([sort for _, _, sort in rows], np.int64)
    bound = np.ones(len(rows), np.float32)
    for row in np.flatnonzero(sort == SAY):
        others = np.flatnonzero((item == item[row]) & (sort != SAY))
        bound[row] = float(np.clip((vectors[others] @ vectors[row]).max(), 0.0, 1.0)) if others.size else 0.0
    mass = np.array([sum(rarity.get(c, 1.0) for c in set(concepts(text))) for text in texts], np.float32)
    weights = weights_of(texts, vocabulary, rarity)
    told, kin = _odds(items, item, sort, bound, weights)
    own = sort != SAY
    pure = pure_of(vectors[own], item[own], np.asarray(weights[own] > 0, np.float32), len(items))
    return Ground(tuple(items), tuple(texts), item, sort, vectors, weights, bound, mass, told, kin, pure)


def _odds(
    items: Sequence[Item], item: NDArray[np.int64], sort: NDArray[np.int64], bound: Rows, weights: Rows
) -> tuple[Rows, Rows]:
    """For each item and concept the log of how much likelier it is in the item's wordings than in all, and than in those of its kind.

    A unigram model smoothed towards the whole by ``SMOOTH`` words (Dirichlet smoothing; Zhai and Lafferty 2004, from memory).
    """
    counts = np.zeros((len(items), weights.shape[1]))
    np.add.at(counts, item, np.where(sort == SAY, 0.5 * bound, 1.0)[:, None] * (weights > 0))
    kinds = np.array([one.kind for one in items])
    whole = counts.sum(axis=0) + 0.5
    whole /= whole.sum()
    size = counts.sum(axis=1, keepdims=True)
    told = np.log((counts + SMOOTH * whole) / ((size + SMOOTH) * whole))
    kin = np.zeros_like(told)
    for kind in np.unique(kinds):
        mine = kinds == kind
        own = counts[mine].sum(axis=0) + SMOOTH * whole
        own /= own.sum()
        kin[mine] = np.log((counts[mine] + SMOOTH * own) / ((size[mine] + SMOOTH) * own))
    return np.asarray(told, np.float32), np.asarray(kin, np.float32)


@dataclass(frozen=True)
class Fit:
    """How each wording fits each window: ``like`` (T, W) by meaning, ``cover`` (T, W) the share of its words heard."""

    ground: Ground
    like: Rows
    cover: Rows


def fit_of(ground: Ground, speech: Speech) -> Fit:
    """How the wordings of ``ground`` fit the windows of ``speech``."""
    return Fit(ground, ground.vectors @ speech.vectors.T, ground.weights @ speech.present.T)
