"""Small films for tests, made by ffmpeg: a few seconds of one colour with a tone."""

from __future__ import annotations

import os
import threading
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from firstpitch.desk.films import PIECE
from firstpitch.desk.jobs import work_once
from firstpitch.desk.models import Film, Job, Van
from firstpitch.media.mux import run

HOME = threading.Event()
SAID = (
    "WEBVTT\n\n00:00.500 --> 00:08.500\nThis is the hitch. Lift the handle and the hitch head lets go of the ball.\n\n"
    "00:09.000 --> 00:19.000\nAnd in here is the gas hob. Press the knob of the hob in, light the burner, and hold the knob.\n"
)


@cache
def film_bytes(seconds: float = 20, *, sound: bool = True, codec: str = "libx264", rate: int = 5) -> bytes:
    """A film of ``seconds``."""
    path = Path(os.environ["FIRSTPITCH_DATA"]) / f"made-{seconds}-{sound}-{codec}.mkv"
    path.parent.mkdir(parents=True, exist_ok=True)
    arguments = ["-f", "lavfi", "-i", f"color=c=0x5a2d82:s=64x36:r={rate}"]
    arguments += ["-f", "lavfi", "-i", "sine=frequency=200:sample_rate=16000"] if sound else []
    arguments += [
        "-t",
        str(seconds),
        "-c:v",
        codec,
        "-pix_fmt",
        "yuv420p",
        *(["-c:a", "aac", "-b:a", "16k"] if sound else []),
    ]
    run([*arguments, f"file:{path}"], "film")
    return path.read_bytes()


def begin(client: Client, van: Van, content: bytes, name: str = "round.mp4", **more: Any) -> Any:
    """Begin an upload as the page does."""
    about = {"name": name, "size": len(content), "modified": 1, **more}
    return client.post(reverse("film-uploads", args=[van.pk]), about, headers={"Accept": "application/json"})


def piece(client: Client, address: str, content: bytes, offset: int) -> Any:
    """Send one piece."""
    headers = {"Upload-Offset": str(offset), "Accept": "application/json"}
    return client.patch(address, content, content_type="application/offset+octet-stream", headers=headers)


def send(client: Client, van: Van, content: bytes, name: str = "round.mp4", **more: Any) -> None:
    """Send a whole film in pieces."""
    address = begin(client, van, content, name, **more).json()["address"]
    for offset in range(0, len(content), PIECE):
        assert piece(client, address, content[offset : offset + PIECE], offset).status_code == 204


def work() -> None:
    """Do all that waits in the queue."""
    while work_once("w", HOME):
        pass


def faults() -> list[str]:
    """What went wrong in the queue."""
    return list(Job.objects.exclude(fault="").order_by("id").values_list("fault", flat=True))


def give(client: Client, film: Film, said: str = SAID, name: str = "round.vtt") -> Any:
    """Give a film its captions by the form."""
    data: Mapping[str, Any] = {"captions": SimpleUploadedFile(name, said.encode())}
    return client.post(reverse("film-give-captions", args=[film.van_id, film.pk]), data)
