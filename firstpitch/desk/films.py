"""Films of a van: what may come in, and what stands in the database read back."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any

from firstpitch.desk.uploads import UploadError
from firstpitch.film.types import Chapter, Cue, Recording, Word

PIECE = 4 * 1024 * 1024
MOST_BYTES = int(float(os.environ.get("FIRSTPITCH_FILM_GB", "4")) * 1e9)
LONGEST_S = 2 * 3600.0
MOST_CAPTIONS = 8 * 1024 * 1024
MEDIA_TYPE = "video/mp4"
NO_FILM = 415
_NO_FILMS = (
    (b"PK\x03\x04", "a zip archive. Unpack it and send the film in it"),
    (b"PK\x05\x06", "a zip archive. Send the film itself"),
    (b"\x1f\x8b", "a packed archive. Unpack it and send the film in it"),
    (b"7z\xbc\xaf", "a packed archive. Unpack it and send the film in it"),
    (b"Rar!", "a packed archive. Unpack it and send the film in it"),
    (b"%PDF", "a PDF file. Send the film"),
    (b"\xff\xd8\xff", "a photo. Send the film"),
    (b"\x89PNG", "a picture. Send the film"),
    (b"GIF8", "a picture. Send the film"),
    (b"MZ", "a program. Send the film"),
    (b"\x7fELF", "a program. Send the film"),
    (b"<", "a page or text. Send the film"),
    (b"WEBVTT", "captions. Send the film first, then its captions on the film's page"),
)


def no_film(start: bytes) -> None:
    """UploadError where the first bytes of a file say that it is something other than a film, whatever its name."""
    for sign, words in _NO_FILMS:
        if start.startswith(sign):
            raise UploadError(f"This is {words}, for example as MP4.", NO_FILM)


def kept_recording(recording: Recording) -> dict[str, Any]:
    """A recording as it is kept."""
    cues = [
        [cue.start, cue.end, cue.text, [[word.text, word.start, word.end, word.sure] for word in cue.words]]
        for cue in recording.cues
    ]
    return {"cues": cues, "length": recording.length, "mended": list(recording.mended)}


def read_recording(kept: Mapping[str, Any]) -> Recording:
    """A kept recording read back."""
    cues = tuple(
        Cue(start, end, text, tuple(Word(*word) for word in words)) for start, end, text, words in kept["cues"]
    )
    return Recording(cues, kept["length"], tuple(kept.get("mended", ())))


def kept_chapters(chapters: tuple[Chapter, ...]) -> list[dict[str, Any]]:
    """Chapters as they are kept."""
    return [{"title": c.title, "kits": list(c.kits), "start": c.start, "end": c.end} for c in chapters]


def read_chapters(kept: list[dict[str, Any]]) -> tuple[Chapter, ...]:
    """Kept chapters read back."""
    return tuple(Chapter(one["title"], tuple(one["kits"]), one["start"], one["end"]) for one in kept)


def lasting(seconds: float) -> str:
    """A film's length in words.

    >>> lasting(42), lasting(845), lasting(10_920)
    ('42 s', '14 min 5 s', '3 h 2 min')
    """
    minutes, rest = divmod(round(seconds), 60)
    if minutes >= 60:  # noqa: PLR2004  (an hour)
        return f"{minutes // 60} h {minutes % 60} min"
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"
