"""Film files: how fast speech is heard, how much memory a long film takes, how long chapters and captions take to put in."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from firstpitch.film.types import Chapter, Cue
from firstpitch.media.mux import ffmpeg, mux
from firstpitch.media.probe import probe

TITLE = "Film: hearing speech, long films, chapters and captions put in"
NOTES = (
    "Hearing: the small English model of the tests, int8, two cores; the talk is forty seconds of a synthetic voice. Real time is by the "
    "clock. The long film is the talk and then silence, so it shows how memory goes with length, not how long three hours of talk take. "
    "Peak MiB is of a process of its own, the model and its libraries in it. Putting in: picture and sound are copied, not made anew."
)
TALK = Path(__file__).parents[1] / "tests" / "film" / "speech" / "talk.ogg"
_HEAR = (
    "import resource, sys, time; from pathlib import Path; from firstpitch.media.recognise import recognise; "
    "t = time.perf_counter(); r = recognise(Path(sys.argv[1])); "
    "print(time.perf_counter() - t, r.length, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)"
)
_GB = 0.3


def rows() -> list[dict[str, Any]]:
    """One row for each measurement."""
    with tempfile.TemporaryDirectory() as folder:
        within = Path(folder)
        found = [_heard("talk of 40 s", TALK)]
        for name, hours in (("10 minutes", 1 / 6), ("3 hours", 3.0)):
            found.append(_heard(f"talk, then silence: {name}", _long(within / f"{hours:.1f}.mp4", hours)))
        found.append(_put_in(within))
    return found


def _heard(what: str, film: Path) -> dict[str, Any]:
    done = subprocess.run([sys.executable, "-c", _HEAR, str(film)], capture_output=True, text=True, check=True)
    seconds, length, peak = map(float, done.stdout.split())
    return {
        "what": f"hearing, {what}",
        "seconds": f"{seconds:.1f}",
        "times real time": f"{length / seconds:.1f}",
        "peak MiB": f"{peak:.0f}",
    }


def _long(path: Path, hours: float) -> Path:
    _run("-i", str(TALK), "-af", f"apad=whole_dur={hours * 3600:.0f}", "-c:a", "aac", "-b:a", "32k", str(path))
    return path


def _put_in(folder: Path) -> dict[str, Any]:
    """A film of about a third of a gigabyte: one clip over and over."""
    clip, film = folder / "clip.mp4", folder / "film.mp4"
    picture = ["-f", "lavfi", "-i", "testsrc2=size=1280x720:rate=25:duration=4", "-f", "lavfi", "-i", "sine=duration=4"]
    _run(*picture, "-c:v", "libx264", "-preset", "ultrafast", "-crf", "1", "-c:a", "aac", "-shortest", str(clip))
    times = max(1, round(_GB * 1e9 / clip.stat().st_size))
    _run("-stream_loop", str(times), "-i", str(clip), "-c", "copy", str(film))
    seen = probe(film)
    chapters = [Chapter(f"Part {n}", (), n * seen.length / 20, (n + 1) * seen.length / 20) for n in range(20)]
    captions = [Cue(n * 3.0, n * 3.0 + 2.5, "Said here.") for n in range(int(seen.length // 3))]
    begun = time.perf_counter()
    mux(film, folder / "out.mp4", chapters=chapters, captions=captions)
    took = time.perf_counter() - begun
    what = f"chapters and captions put in, {seen.size / 1e9:.2f} GB, {seen.length / 60:.0f} minutes"
    return {"what": what, "seconds": f"{took:.1f}", "seconds a GB": f"{took / seen.size * 1e9:.1f}"}


def _run(*arguments: str) -> None:
    subprocess.run([ffmpeg(), "-y", "-loglevel", "error", *arguments], check=True)
