"""Sentence rows kept between runs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from firstpitch.media.sentences import KeptSentences, Like


def counted(asked: list[str]) -> Like:
    def like(texts: Sequence[str]) -> NDArray[np.float32]:
        asked.extend(texts)
        rows = np.array([[len(text), *range(511)] for text in texts], np.float32)
        return rows / np.linalg.norm(rows, axis=1, keepdims=True)

    return like


def test_a_sentence_is_reckoned_once_and_kept(tmp_path: Path) -> None:
    """What was reckoned in one run is read from the file in the next, with exactly the same rows."""
    asked: list[str] = []
    first = KeptSentences(tmp_path, counted(asked))
    one = first(["gas off", "hitch", "gas off"])
    first.keep()
    again = KeptSentences(tmp_path, counted(asked))
    assert np.array_equal(again(["gas off", "hitch", "gas off"]), one)
    assert asked == ["gas off", "hitch"]


@pytest.mark.parametrize("data", [b"", b"not a file of rows", b"PK\x03\x04broken"])
def test_a_broken_file_is_made_anew(tmp_path: Path, data: bytes) -> None:
    """A file cut off or overwritten costs time, never a fault."""
    asked: list[str] = []
    kept = KeptSentences(tmp_path, counted(asked))
    kept(["a"])
    kept.keep()
    next(tmp_path.iterdir()).write_bytes(data)
    again = KeptSentences(tmp_path, counted(asked))
    again(["a"])
    again.keep()
    assert asked == ["a", "a"]
    KeptSentences(tmp_path, counted(asked))(["a"])
    assert asked == ["a", "a"]


def test_a_folder_that_cannot_be_written_is_no_fault(tmp_path: Path) -> None:
    """Where nothing can be kept the answer is the same, only slower."""
    (tmp_path / "file").write_text("x")
    kept = KeptSentences(tmp_path / "file" / "below", counted([]))
    assert kept(["a"]).shape == (1, 512)
    kept.keep()
