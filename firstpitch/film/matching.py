"""How well texts fit what is spoken: likeness of meaning, and the share of a text's own words that is heard."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from firstpitch.film.speech import Breath
from firstpitch.film.words import Vocabulary, concepts, heard, plain_words

Like = Callable[[Sequence[str]], NDArray[np.float32]]
Rows = NDArray[np.float32]
SPANS = (1, 2, 3)  # breaths taken together, because a recogniser's breaths are not the speaker's


@dataclass(frozen=True)
class Speech:
    """Breaths made ready for matching. ``windows`` are runs of breaths (first, how many) with a vector and concept columns each."""

    breaths: tuple[Breath, ...]
    heard: tuple[Mapping[str, tuple[float, str]], ...]
    windows: tuple[tuple[int, int], ...]
    vectors: Rows
    present: Rows

    def text(self, window: int) -> str:
        """What is spoken in a window."""
        first, many = self.windows[window]
        return " ".join(b.text for b in self.breaths[first : first + many])


def made_ready(breaths: Sequence[Breath], vocabulary: Vocabulary, like: Like) -> Speech:
    """``breaths`` with the vector (512) and the heard concepts (0 to 1) of every window. Windows of one breath come first, in order."""
    found = tuple(heard(vocabulary, plain_words(b.text)) for b in breaths)
    present = np.zeros((len(breaths), max(len(vocabulary.index), 1)), np.float32)
    for row, concepts_heard in enumerate(found):
        for name, (trust, _) in concepts_heard.items():
            present[row, vocabulary.index[name]] = trust
    alone = like([b.text for b in breaths])
    windows, vectors, columns = [], [], []
    for span in SPANS:
        many = len(breaths) - span + 1
        if many <= 0:
            continue
        windows += [(first, span) for first in range(many)]
        vectors.append(sum(alone[i : i + many] for i in range(span)))
        columns.append(np.max([present[i : i + many] for i in range(span)], axis=0))
    whole = np.concatenate(vectors) if vectors else np.zeros((0, alone.shape[1] if alone.ndim > 1 else 1), np.float32)
    whole = whole / np.maximum(np.linalg.norm(whole, axis=1, keepdims=True), 1e-6)
    held = np.concatenate(columns) if columns else np.zeros((0, present.shape[1]), np.float32)
    return Speech(tuple(breaths), found, tuple(windows), np.asarray(whole, np.float32), np.asarray(held, np.float32))


def weights_of(texts: Sequence[str], vocabulary: Vocabulary, rarity: Mapping[str, float]) -> Rows:
    """A row (V) for each text: its concepts with their share of its meaning, summing to 1 (all noughts for an empty text)."""
    rows = np.zeros((len(texts), max(len(vocabulary.index), 1)), np.float32)
    for row, text in enumerate(texts):
        for name in concepts(text):
            rows[row, vocabulary.index[name]] = rarity.get(name, 1.0)
    return np.asarray(rows / np.maximum(rows.sum(axis=1, keepdims=True), 1e-6), np.float32)


def rarities(documents: Sequence[Sequence[str]]) -> dict[str, float]:
    """How telling each concept is: high for one that few documents hold. A document is the texts of one point.

    >>> found = rarities([["flue cover off"], ["gas off"], ["lid off"]])
    >>> found["flue"] > found["off"]
    True
    """
    count: dict[str, int] = {}
    for texts in documents:
        for name in {name for text in texts for name in concepts(text)}:
            count[name] = count.get(name, 0) + 1
    return {name: float(np.log((len(documents) + 1.0) / (n + 0.5))) + 0.3 for name, n in count.items()}


def words_matched(speech: Speech, text: str, window: int) -> tuple[str, ...]:
    """Which words of ``text`` are heard in a window, as they were heard."""
    found: dict[str, None] = {}
    first, many = speech.windows[window]
    for at in range(first, first + many):
        for name in concepts(text):
            if name in speech.heard[at]:
                found.setdefault(speech.heard[at][name][1])
    return tuple(found)


def over_breaths(rows: Rows, speech: Speech, least: float) -> Rows:
    """The best of each row over the windows that hold each breath: (N, windows) to (N, breaths), not below ``least``."""
    found = np.full((len(rows), len(speech.breaths)), least, np.float32)
    for span in {many for _, many in speech.windows}:
        these = [w for w, (_, many) in enumerate(speech.windows) if many == span]
        for shift in range(span):
            kept = slice(shift, shift + len(these))
            found[:, kept] = np.maximum(found[:, kept], rows[:, these])
    return found


def others_best(rows: Rows, groups: NDArray[Any], none: float) -> Rows:
    """For each row the best of the other rows of its group, ``none`` where it is alone.

    >>> others_best(np.array([[1.0], [3.0], [2.0]], np.float32), np.array([0, 0, 1]), -1.0).ravel().tolist()
    [3.0, 1.0, -1.0]
    """
    found = np.full_like(rows, none)
    for group in np.unique(groups):
        mine = np.flatnonzero(groups == group)
        if mine.size > 1:
            two = np.sort(rows[mine], axis=0)[-2:]
            found[mine] = np.where(rows[mine] >= two[1], two[0], two[1])
    return found


def widened(rows: Rows, back: int, ahead: int) -> Rows:
    """The best of each row within so many breaths before and after."""
    found = rows.copy()
    many = rows.shape[1]
    for shift in range(1, min(back, many - 1) + 1):
        found[:, shift:] = np.maximum(found[:, shift:], rows[:, :-shift])
    for shift in range(1, min(ahead, many - 1) + 1):
        found[:, :-shift] = np.maximum(found[:, :-shift], rows[:, shift:])
    return found
