"""Small films made on the spot, for tests."""

from __future__ import annotations

import subprocess
from pathlib import Path

from firstpitch.media.mux import ffmpeg

TALK = Path(__file__).parent / "speech" / "talk.ogg"
TALK_TEXT = TALK.with_suffix(".txt")


def ffmpeg_makes(*arguments: str) -> None:
    """Run ffmpeg, or fail the test with its words."""
    subprocess.run([ffmpeg(), "-y", "-loglevel", "error", *arguments], check=True)


def make_film(path: Path, seconds: float = 10.0, *, sound: bool = True, size: str = "320x180") -> Path:
    """An MP4 with a moving test picture and, unless silent, a tone."""
    picture = ["-f", "lavfi", "-i", f"testsrc=size={size}:rate=25:duration={seconds}"]
    tone = ["-f", "lavfi", "-i", f"sine=frequency=440:duration={seconds}"] if sound else []
    encode = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p", *(["-c:a", "aac"] if sound else [])]
    ffmpeg_makes(*picture, *tone, *encode, "-shortest", str(path))
    return path
