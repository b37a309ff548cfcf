"""A recording from a file: captions are read, a film or a sound is heard."""

from __future__ import annotations

from pathlib import Path

from firstpitch.film.captions import read_captions
from firstpitch.film.captions.decode import MOST_BYTES
from firstpitch.film.types import Recording
from firstpitch.media.faults import FilmFault
from firstpitch.media.recognise import Tell, recognise

FILMS = frozenset(
    {
        ".mp4",
        ".mov",
        ".m4v",
        ".mkv",
        ".webm",
        ".avi",
        ".mpg",
        ".ts",
        ".3gp",
        ".m4a",
        ".wav",
        ".ogg",
        ".oga",
        ".mp3",
        ".aac",
        ".flac",
    }
)


def is_film(path: Path) -> bool:
    """Whether the name says that this is a film or a sound, not captions."""
    return path.suffix.lower() in FILMS


def open_recording(path: Path, model: Path | None = None, tell: Tell = lambda share: True) -> Recording:  # noqa: ARG005
    """What is said in the file at ``path``: captions are read; a film or a sound is heard by the speech model in ``model``.

    Raises CaptionFault or FilmFault, one sentence each.
    """
    if path.is_dir():
        raise FilmFault(f"{path}: this is a folder; give a caption file or a film")
    if not path.exists():
        raise FilmFault(
            f"{path}: there is no such file; give a caption file (WebVTT, SRT, timed text, word-level JSON) or a film"
        )
    if is_film(path):
        return recognise(path, model, tell)
    with path.open("rb") as file:
        return read_captions(file.read(MOST_BYTES + 1), path.name)
