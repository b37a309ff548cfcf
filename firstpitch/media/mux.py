"""Chapters and captions put into a film without re-encoding, and a part of a film replaced.

The work is done by the ffmpeg binary of imageio-ffmpeg, as a process of its own.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from firstpitch.film.captions import vtt_text
from firstpitch.film.types import Chapter, Cue
from firstpitch.media.faults import FilmFault
from firstpitch.media.probe import probe

_SPARE = 50_000_000


def mux(
    film: Path, out: Path, *, chapters: Sequence[Chapter] = (), captions: Sequence[Cue] = (), title: str = ""
) -> Path:
    """Write ``out`` (MP4): the film's picture and sound copied as they are, with chapters and an English caption track.

    ``out`` appears whole or not at all. Raises FilmFault when the film cannot be read, the folder is full, or the film's picture or
    sound cannot stand in an MP4.
    """
    seen = probe(film)
    if out.resolve() == film.resolve():
        raise FilmFault(f"{out.name}: this is the film itself; write to another file")
    room_for(out, seen.size)
    with tempfile.TemporaryDirectory(dir=out.parent, prefix=".film-") as folder:
        within = Path(folder)
        made = within / "film.mp4"
        inputs = ["-i", f"file:{film}"]
        maps = ["-map", "0:v:0?", "-map", "0:a:0?"]
        if captions:
            (within / "captions.vtt").write_text(vtt_text(captions), encoding="utf-8")
            maps += ["-map", f"{inputs.count('-i')}:s:0", "-c:s", "mov_text", "-metadata:s:s:0", "language=eng"]
            inputs += ["-f", "webvtt", "-i", f"file:{within / 'captions.vtt'}"]
        (within / "chapters.txt").write_text(chapter_metadata(chapters, title), encoding="utf-8")
        number = inputs.count("-i")
        inputs += ["-f", "ffmetadata", "-i", f"file:{within / 'chapters.txt'}"]
        maps += ["-map_metadata", str(number), "-map_chapters", str(number)]
        run([*inputs, *maps, "-c:v", "copy", "-c:a", "copy", "-movflags", "+faststart", f"file:{made}"], film.name)
        made.replace(out)
    return out


def chapter_metadata(chapters: Sequence[Chapter], title: str) -> str:
    r"""The chapters in the text form that ffmpeg reads. Source: FFmpeg documentation, "Metadata".

    >>> print(chapter_metadata([Chapter("Gas; valve", (), 0.0, 2.5)], ""))
    ;FFMETADATA1
    [CHAPTER]
    TIMEBASE=1/1000
    START=0
    END=2500
    title=Gas\; valve
    <BLANKLINE>
    """
    lines = [";FFMETADATA1"]
    if title:
        lines.append(f"title={_escaped(title)}")
    for chapter in chapters:
        lines += [
            "[CHAPTER]",
            "TIMEBASE=1/1000",
            f"START={round(chapter.start * 1000)}",
            f"END={round(chapter.end * 1000)}",
            f"title={_escaped(chapter.title)}",
        ]
    return "\n".join([*lines, ""])


def _escaped(text: str) -> str:
    return "".join(f"\\{c}" if c in "=;#\\" else c for c in " ".join(text.split()))


def room_for(out: Path, size: int) -> None:
    """Raises FilmFault when the folder of ``out`` is missing or has no room for ``size`` bytes more."""
    if not out.parent.is_dir():
        raise FilmFault(f"{out}: there is no folder {out.parent}; make it first")
    free = shutil.disk_usage(out.parent).free
    if free < size + _SPARE:
        raise FilmFault(
            f"{out.name}: {free / 1e6:,.0f} MB free, {(size + _SPARE) / 1e6:,.0f} MB needed; make room, nothing was written"
        )


def run(arguments: Sequence[str], name: str) -> None:
    """Run ffmpeg; FilmFault with its last words when it fails."""
    binary = ffmpeg()
    done = subprocess.run(
        [binary, "-hide_banner", "-nostdin", "-loglevel", "error", "-y", *arguments], capture_output=True, check=False
    )
    if done.returncode:
        words = [line.strip() for line in done.stderr.decode("utf-8", "replace").splitlines() if line.strip()]
        last = words[-1] if words else "no reason given"
        raise FilmFault(f"{name}: the film could not be written ({last}); export it as MP4 and try again")


def ffmpeg() -> str:
    """Where the ffmpeg binary is; FilmFault when it is not installed."""
    try:
        import imageio_ffmpeg
    except ImportError:
        raise FilmFault("Film files need one more package: pip install 'firstpitch[video]'") from None
    return str(imageio_ffmpeg.get_ffmpeg_exe())


def replace_part(film: Path, part: Path, out: Path, *, start: float, end: float) -> Path:
    """Write ``out``: the film with what is between ``start`` and ``end`` [s] replaced by ``part``.

    Joins at any second need the picture made anew, so this one re-encodes, at the size of the film. Raises FilmFault when times lie
    outside the film or a file cannot be read.
    """
    seen, new = probe(film), probe(part)
    if not 0 <= start < end or start > seen.length:
        raise FilmFault(f"{film.name}: {start:g} s to {end:g} s is not within its {seen.length:.0f} s")
    if not (seen.video and seen.audio and new.video and new.audio):
        raise FilmFault(f"{part.name}: film and new part both need picture and sound")
    room_for(out, seen.size + new.size)
    size = f"scale={seen.width}:{seen.height}:force_original_aspect_ratio=decrease,pad={seen.width}:{seen.height}:-1:-1,setsar=1,fps=25"
    pieces = []
    if start > 0:
        pieces.append((0, f"trim=0:{start}", f"atrim=0:{start}"))
    pieces.append((1, "null", "anull"))
    if end < seen.length:
        pieces.append((0, f"trim={end}", f"atrim={end}"))
    graph = []
    for number, (source, cut, sound) in enumerate(pieces):
        graph.append(f"[{source}:v:0]{cut},setpts=PTS-STARTPTS,{size}[v{number}]")
        graph.append(
            f"[{source}:a:0]{sound},asetpts=PTS-STARTPTS,aresample=48000,aformat=channel_layouts=stereo[a{number}]"
        )
    joined = "".join(f"[v{n}][a{n}]" for n in range(len(pieces)))
    graph.append(f"{joined}concat=n={len(pieces)}:v=1:a=1[v][a]")
    with tempfile.TemporaryDirectory(dir=out.parent, prefix=".film-") as folder:
        made = Path(folder) / "film.mp4"
        encode = ["-c:v", "libx264", "-preset", "veryfast", "-crf", "21", "-c:a", "aac", "-movflags", "+faststart"]
        inputs = ["-i", f"file:{film}", "-i", f"file:{part}"]
        run(
            [*inputs, "-filter_complex", ";".join(graph), "-map", "[v]", "-map", "[a]", *encode, f"file:{made}"],
            film.name,
        )
        made.replace(out)
    return out
