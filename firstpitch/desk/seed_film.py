"""The demo's film: invented captions over a sheet of squared paper, made here where ffmpeg is installed."""

from __future__ import annotations

import tempfile
import uuid
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path

from firstpitch.desk.film_check import Checked, check
from firstpitch.desk.films import kept_recording
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Film, Person, Van
from firstpitch.desk.stored import put, workshop
from firstpitch.film.captions import read_captions

_LENGTH = 62
_PAPER = "color=c=0xfbf7ec:s=640x360:r=10,drawgrid=w=40:h=40:t=1:c=0x90866a"
_MARK = "color=c=0x5a2d82:s=24x24:r=10"


def demo_film(van: Van, speaker: Person) -> tuple[Film, Checked] | None:
    """A film of a minute, not stored yet, and what was found in it; None where ffmpeg is not installed."""
    if find_spec("imageio_ffmpeg") is None or find_spec("av") is None:
        return None
    from firstpitch.media.mux import run
    from firstpitch.media.playable import still
    from firstpitch.media.probe import probe

    spoken = read_captions((files("firstpitch.demo") / "films" / "walk-round.vtt").read_bytes(), "walk-round.vtt")
    with tempfile.TemporaryDirectory(dir=workshop(), prefix=".demo-") as folder:
        made = Path(folder) / "film.mp4"
        inputs = [
            "-f",
            "lavfi",
            "-i",
            _PAPER,
            "-f",
            "lavfi",
            "-i",
            _MARK,
            "-f",
            "lavfi",
            "-i",
            "anullsrc=r=16000:cl=mono",
        ]
        drawn = [
            "-filter_complex",
            "[0][1]overlay=x='t*9.9':y=168[v]",
            "-map",
            "[v]",
            "-map",
            "2:a",
            "-t",
            str(_LENGTH),
        ]
        sort = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p", "-c:a", "aac", "-b:a", "16k"]
        run([*inputs, *drawn, *sort, "-movflags", "+faststart", f"file:{made}"], "walk-round.mp4")
        picture = still(made, Path(folder) / "film.jpg")
        seen = probe(made)
        facts = {
            "length": seen.length,
            "size": seen.size,
            "video": seen.video,
            "audio": seen.audio,
            "width": seen.width,
            "height": seen.height,
        }
        name = f"film/demo/{uuid.uuid4()}"
        film = Film(
            van=van,
            name="walk-round.mp4",
            speaker=speaker,
            by=speaker,
            facts=facts,
            recording=kept_recording(spoken),
            spoken_by_hand=True,
        )
        film.file.name, film.poster.name = put(made, f"{name}.mp4"), put(picture, f"{name}.jpg")
    return film, check(open_van(van), van.branch, van.version, spoken)
