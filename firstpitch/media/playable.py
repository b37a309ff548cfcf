"""A film as every browser plays it, and a still picture of it."""

from __future__ import annotations

from pathlib import Path

from firstpitch.media.mux import mux, room_for, run
from firstpitch.media.probe import FilmFile, probe

_PICTURE = frozenset({"h264"})
_SOUND = frozenset({"aac", "mp3", ""})
_WIDEST = 1920
_STILL = 960


def plays_anywhere(seen: FilmFile) -> bool:
    """Whether picture and sound are of the sorts that every browser plays."""
    return seen.video in _PICTURE and seen.audio in _SOUND


def playable(film: Path, out: Path) -> Path:
    """Write ``out``: the film as an MP4 that plays from its first byte, copied where every browser plays it as it is, else encoded anew
    (H.264, AAC, at most 1920 pixels wide). Raises FilmFault.
    """
    seen = probe(film)
    if plays_anywhere(seen):
        return mux(film, out)
    room_for(out, seen.size)
    size = f"scale='min({_WIDEST},iw)':-2,format=yuv420p"
    picture = ["-map", "0:v:0", "-vf", size, "-c:v", "libx264", "-preset", "veryfast", "-crf", "22"]
    sound = ["-map", "0:a:0?", "-c:a", "aac", "-ac", "2"]
    run(
        ["-i", f"file:{film}", *picture, *sound, "-map_metadata", "-1", "-movflags", "+faststart", f"file:{out}"],
        film.name,
    )
    return out


def still(film: Path, out: Path) -> Path:
    """Write ``out``: a JPEG of the film a little after its beginning, 960 pixels wide. Raises FilmFault."""
    at = min(2.0, probe(film).length / 4)
    picture = ["-frames:v", "1", "-vf", f"scale={_STILL}:-2", "-q:v", "6", "-f", "image2", "-update", "1"]
    run(["-ss", f"{at:.2f}", "-i", f"file:{film}", *picture, f"file:{out}"], film.name)
    return out
