"""What is said apart from how it is said: meaning without what varies between ways of saying the same thing."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstpitch.film.matching import Rows

SHRINK = (
    0.3  # how far the scatter within items is drawn towards a round one; there are fewer wordings than it has numbers
)


@dataclass(frozen=True)
class Pure:
    """A space in which wordings of one item lie close together whatever their manner.

    ``mean`` (D) is taken off a vector and ``turn`` (D, D) applied. ``centres`` (N, D) are the unit means of each item's wordings in it.
    ``rarity`` (V) and ``word_centres`` (N, V) are the same for words: their rarity, and unit means.
    """

    mean: Rows
    turn: Rows
    centres: Rows
    rarity: Rows
    word_centres: Rows

    def of(self, vectors: Rows) -> Rows:
        """Vectors (W, D) in this space, as unit rows."""
        return unit(np.asarray((vectors - self.mean) @ self.turn, np.float32))


def pure_of(vectors: Rows, item: NDArray[np.int64], present: Rows, many: int) -> Pure:
    """The space for ``many`` items from wordings' vectors (T, D), their item (T, rising) and the words present in each (T, V).

    The scatter within items is whitened away (within-class covariance normalisation: Hatch, Kajarekar and Stolcke, Interspeech 2006,
    from memory), shrunk towards a round one.
    """
    count = np.maximum(np.bincount(item, minlength=many), 1)[:, None].astype(np.float32)
    mean = np.asarray(_sums(vectors, item, many) / count, np.float32)
    apart = vectors - mean[item]
    size = vectors.shape[1]
    scatter = apart.T @ apart / max(len(vectors) - many, 1)
    level = max(float(np.trace(scatter)) / size, 1e-6)
    scatter = (1.0 - SHRINK) * scatter + SHRINK * level * np.eye(size)
    turn = np.asarray(np.linalg.cholesky(np.linalg.inv(scatter)), np.float32)
    middle = np.asarray(mean.sum(axis=0) / max(many, 1), np.float32)
    rows = unit(np.asarray((vectors - middle) @ turn, np.float32))
    known = (_sums(present, item, many) > 0).sum(axis=0)
    rarity = np.where(known > 0, np.log((many + 1.0) / (known + 0.5)), 0.0).astype(np.float32)
    words = _sums(unit(np.asarray(present * rarity, np.float32)), item, many)
    return Pure(middle, turn, unit(_sums(rows, item, many)), rarity, unit(words))


def unit(rows: Rows) -> Rows:
    """Rows of length 1; a row of noughts stays so.

    >>> unit(np.array([[3.0, 4.0], [0.0, 0.0]], np.float32)).round(1).tolist()
    [[0.6000000238418579, 0.800000011920929], [0.0, 0.0]]
    """
    return np.asarray(rows / np.maximum(np.linalg.norm(rows, axis=1, keepdims=True), 1e-6), np.float32)


def share_of(scores: Rows, groups: NDArray[np.int64] | None = None) -> Rows:
    """The log of each item's share of exp(score) in each window: (N, W), among all items or those of its group.

    >>> np.exp(share_of(np.zeros((4, 1), np.float32))).round(2).ravel().tolist()
    [0.25, 0.25, 0.25, 0.25]
    """
    if groups is None:
        top = scores.max(axis=0, keepdims=True)
        return np.asarray(scores - top - np.log(np.exp(scores - top).sum(axis=0, keepdims=True)), np.float32)
    found = np.zeros_like(scores)
    for group in np.unique(groups):
        mine = groups == group
        found[mine] = share_of(scores[mine])
    return found


def _sums(rows: Rows, item: NDArray[np.int64], many: int) -> Rows:
    found = np.zeros((many, rows.shape[1]), np.float32)
    np.add.at(found, item, rows)
    return found
