"""A film comes in by pieces, and everything that is none is refused in words."""

from __future__ import annotations

import io
import re
import shutil
import uuid
import zipfile
from pathlib import Path

import pytest
from django.conf import settings as django_settings
from django.test import Client
from django.urls import reverse

from firstpitch.desk import films
from firstpitch.desk.models import Event, Film, FilmUpload, Job, Van
from firstpitch.desk.stored import workshop
from firstpitch.media.mux import run
from tests.unit.desk.film import begin, faults, film_bytes, piece, send, work


def test_an_upload_goes_on_where_it_stopped(own: Client, van: Van) -> None:
    """A piece that does not follow is refused with the place to go on from; the same file chosen again finds the same upload."""
    content = bytes(10_000_000)
    first = begin(own, van, content)
    assert first.status_code == 201
    address = first.json()["address"]
    assert piece(own, address, content[:4_000_000], 0).headers["Upload-Offset"] == "4000000"
    wrong = piece(own, address, content[8_000_000:], 8_000_000)
    assert (wrong.status_code, wrong.json()["offset"]) == (409, 4_000_000)
    again = begin(own, van, content)
    assert (again.json()["address"], again.json()["offset"]) == (address, 4_000_000)
    assert own.head(address).headers["Upload-Offset"] == "4000000"
    assert "stopped at" in own.get(reverse("van-film", args=[van.pk])).content.decode()
    assert own.delete(address).status_code == 204
    assert piece(own, address, content[4_000_000:8_000_000], 4_000_000).status_code == 410
    told = Event.objects.filter(van=van, what__startswith="film.").order_by("at").values_list("what", flat=True)
    assert list(told) == ["film.coming", "film.stopped"]


def test_what_came_is_what_was_sent(own: Client, van: Van) -> None:
    """The pieces put together are the file, byte by byte."""
    content = uuid.uuid4().bytes * 600_000
    send(own, van, content)
    film = Film.objects.get()
    assert (workshop() / f"{film.pieces}.part").read_bytes() == content


def zipped() -> bytes:
    """An archive that calls itself a film."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr("film.mp4", bytes(1000))
    return out.getvalue()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (zipped(), "zip archive"),
        (b"%PDF-1.7 ...", "PDF"),
        (b"\xff\xd8\xff\xe0 ...", "photo"),
        (b"<html>", "page"),
        (b"MZ....", "program"),
    ],
)
def test_what_is_no_film_is_refused_by_its_content(own: Client, van: Van, content: bytes, words: str) -> None:
    """Whatever its name says, an archive, a picture, a page or a program is refused at its first piece, saying what it is."""
    address = begin(own, van, content).json()["address"]
    answer = piece(own, address, content, 0)
    assert answer.status_code == 415
    assert words in answer.json()["error"]
    assert not Film.objects.exists()


def test_size_is_told_in_words(own: Client, van: Van) -> None:
    """A film that is empty or over the limit is refused before a byte is sent."""
    empty = begin(own, van, b"")
    assert empty.status_code == 400
    assert "empty" in empty.json()["error"]
    big = own.post(
        reverse("film-uploads", args=[van.pk]),
        {"name": "a.mp4", "size": films.MOST_BYTES + 1},
        headers={"Accept": "application/json"},
    )
    assert big.status_code == 413
    assert "at most 4.0 GB" in big.json()["error"]


def test_a_disk_without_room_is_told_in_words(own: Client, van: Van, monkeypatch: pytest.MonkeyPatch) -> None:
    """A film for which the disk has no room is refused with what it needs and what is free."""
    free = shutil.disk_usage(django_settings.DATA).free
    monkeypatch.setattr(films, "MOST_BYTES", free * 2)
    monkeypatch.setattr("firstpitch.desk.actions.film_uploads.MOST_BYTES", free * 2)
    answer = own.post(
        reverse("film-uploads", args=[van.pk]), {"name": "a.mp4", "size": free}, headers={"Accept": "application/json"}
    )
    assert answer.status_code == 507
    assert "no room" in answer.json()["error"]


def test_a_full_disk_loses_nothing_that_came(own: Client, van: Van) -> None:
    """When the disk is full in the middle, the piece is refused in words, and the upload stands where it stood. The disk is /dev/full."""
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    content = bytes(5_000_000)
    address = begin(own, van, content).json()["address"]
    (workshop() / f"{FilmUpload.objects.get().pk}.part").symlink_to("/dev/full")
    answer = piece(own, address, content[:4_000_000], 0)
    assert answer.status_code == 507
    assert "disk of the desk is full" in answer.json()["error"]
    assert own.head(address).headers["Upload-Offset"] == "0"


def test_a_piece_that_was_cut_short_does_not_count(own: Client, van: Van) -> None:
    """A piece longer than what is left, longer than a piece may be, or without its place is refused."""
    content = bytes(1000)
    address = begin(own, van, content).json()["address"]
    assert piece(own, address, bytes(1001), 0).status_code == 400
    assert own.patch(address, content, content_type="application/octet-stream").status_code == 400
    assert own.head(address).headers["Upload-Offset"] == "0"


def test_a_broken_film_is_told_by_the_name_its_sender_knows(own: Client, van: Van) -> None:
    """A film that cannot be read fails in words with its own name; it stays until somebody lets it go."""
    send(own, van, bytes(range(256)) * 400, name="broken round.mp4")
    work()
    assert len(faults()) == 1
    assert faults()[0].startswith("broken round.mp4: this cannot be read as a film")
    film = Film.objects.get()
    page = own.get(reverse("film", args=[van.pk, film.pk])).content.decode()
    assert "cannot be read as a film" in page
    own.post(reverse("film-remove", args=[van.pk, film.pk]))
    assert own.get(reverse("film", args=[van.pk, film.pk])).status_code == 404


def test_a_film_that_is_too_long_is_told_so(own: Client, van: Van) -> None:
    """A film of over two hours is refused with its length and the limit."""
    send(own, van, film_bytes(10_800, sound=False, rate=1), name="long.mp4")
    work()
    assert faults() == [
        "long.mp4 lasts 3 h 0 min; a film of a van may last at most 2 h 0 min. Cut it and send it again."
    ]


def test_a_silent_film_asks_for_captions(own: Client, van: Van) -> None:
    """A film without sound is kept and played; the page asks for its captions, and takes them."""
    send(own, van, film_bytes(20, sound=False), name="silent.mp4")
    work()
    film = Film.objects.get()
    assert film.file
    assert "no sound in silent.mp4" in faults()[0]
    assert "Send its captions" in own.get(reverse("film", args=[van.pk, film.pk])).content.decode()


def test_a_film_no_browser_plays_is_made_one(own: Client, van: Van) -> None:
    """MPEG-4 Part 2, which browsers do not play, becomes H.264 in an MP4 whose index stands before its pictures."""
    send(own, van, film_bytes(4, sound=False, codec="mpeg4"), name="old.avi")
    work()
    film = Film.objects.get()
    from firstpitch.desk.stored import at_hand
    from firstpitch.media.probe import probe

    with at_hand(str(film.file.name)) as path:
        assert probe(path).video == "h264"
        content = path.read_bytes()
    assert content.index(b"moov") < content.index(b"mdat")
    assert own.get(reverse("film-poster", args=[van.pk, film.pk])).status_code == 200


def test_nobody_else_sends_or_sees_films(own: Client, far: Client, van: Van) -> None:
    """People of another branch find neither the upload nor the film."""
    content = bytes(100)
    address = begin(own, van, content).json()["address"]
    assert far.head(address).status_code == 404
    assert piece(far, address, content, 0).status_code == 404
    assert begin(far, van, content).status_code == 404


def test_without_a_speech_model_the_one_command_is_told(
    own: Client, van: Van, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no speech model is, the film is kept, and the page says the one command that gets one."""
    monkeypatch.setenv("FIRSTPITCH_SPEECH_MODEL", str(tmp_path))
    send(own, van, film_bytes(20))
    work()
    assert len(faults()) == 1
    assert "pip install" in faults()[0]
    film = Film.objects.get()
    assert film.file
    assert "pip install" in own.get(reverse("film", args=[van.pk, film.pk])).content.decode()


@pytest.mark.slow
def test_a_film_is_heard_where_it_has_no_captions(own: Client, van: Van, tmp_path: Path) -> None:
    """Invented text, spoken by espeak-ng, is heard in the queue by the model of an installed package."""
    talk = Path(__file__).parents[2] / "film" / "speech" / "talk.ogg"
    made = tmp_path / "spoken.mp4"
    picture = ["-f", "lavfi", "-i", "color=c=0xfbf7ec:s=64x36:r=5", "-i", f"file:{talk}", "-shortest"]
    run([*picture, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-c:a", "aac", f"file:{made}"], "spoken.mp4")
    send(own, van, made.read_bytes(), name="spoken.mp4")
    work()
    film = Film.objects.get()
    assert not faults()
    assert film.recording
    assert film.found
    assert not film.spoken_by_hand
    heard = " ".join(cue[2] for cue in film.recording["cues"]).lower()
    spoken = (talk.parent / "talk.txt").read_text("utf-8").lower()
    words = set(re.findall(r"[a-z]{4,}", spoken))
    assert len(words & set(re.findall(r"[a-z]{4,}", heard))) > 0.7 * len(words)


def test_a_check_can_be_stopped_and_nothing_is_lost(own: Client, van: Van) -> None:
    """A check that waits is stopped from the page; the film stays, and can be checked after that."""
    send(own, van, film_bytes(20, sound=False))
    work()
    film = Film.objects.get()
    own.post(reverse("film-check", args=[van.pk, film.pk]))
    job = Job.objects.get(ended=None)
    own.post(reverse("film-stop", args=[van.pk, film.pk, job.pk]))
    assert "It was stopped" in own.get(reverse("film", args=[van.pk, film.pk])).content.decode()
    film.refresh_from_db()
    assert film.file
