"""What a film file holds, before anything is done with it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from firstpitch.media.faults import FilmFault

LONGEST = 4 * 3600.0
MOST_BYTES = 20_000_000_000


@dataclass(frozen=True)
class FilmFile:
    """``length`` [s]; ``width`` and ``height`` in pixels, 0 without a picture; codec names empty where there is no such track."""

    length: float
    size: int
    video: str
    audio: str
    width: int
    height: int

    @property
    def silent(self) -> bool:
        """Whether it has no sound track at all."""
        return not self.audio


def probe(path: Path) -> FilmFile:
    """What the film at ``path`` holds. Reads its headers only, so that a long film takes no more memory than a short one.

    Raises FilmFault when it is no film, is broken, is over 20 GB or longer than 4 hours.
    """
    if not path.is_file():
        raise FilmFault(f"{path.name}: there is no such file; give a film, e.g. an MP4")
    size = path.stat().st_size
    if size == 0:
        raise FilmFault(f"{path.name}: the file is empty; copy it from the camera again")
    if size > MOST_BYTES:
        raise FilmFault(f"{path.name}: {size / 1e9:.0f} GB; a film may have at most {MOST_BYTES / 1e9:.0f} GB")
    film = _headers(path, size)
    if not film.video and not film.audio:
        raise FilmFault(f"{path.name}: neither picture nor sound in it; give a film, e.g. an MP4")
    if film.length > LONGEST:
        raise FilmFault(
            f"{path.name}: {film.length / 3600:.1f} hours; a film may last at most {LONGEST / 3600:.0f} hours"
        )
    return film


def _headers(path: Path, size: int) -> FilmFile:
    import av
    from av.error import FFmpegError

    try:
        # `file:` keeps a name with a colon in it from being taken for an address.
        with av.open(f"file:{path}", metadata_errors="ignore") as film:
            video = next(iter(film.streams.video), None)
            audio = next(iter(film.streams.audio), None)
            length = film.duration / 1_000_000 if film.duration else 0.0
            for stream in (video, audio):
                if not length and stream is not None and stream.duration and stream.time_base:
                    length = float(stream.duration * stream.time_base)
            return FilmFile(
                length=length,
                size=size,
                video=video.codec_context.name if video is not None else "",
                audio=audio.codec_context.name if audio is not None else "",
                width=video.codec_context.width if video is not None else 0,
                height=video.codec_context.height if video is not None else 0,
            )
    except (FFmpegError, ValueError):
        raise FilmFault(
            f"{path.name}: this cannot be read as a film; copy it from the camera again, or export it as MP4"
        ) from None
