"""Film files: probing, bad ones, replacing a part, hearing."""

from __future__ import annotations

import shutil
from collections import namedtuple
from pathlib import Path

import av
import pytest
from rapidfuzz.distance import Levenshtein

from firstpitch.film.types import Chapter
from firstpitch.media.faults import FilmFault
from firstpitch.media.mux import mux, replace_part
from firstpitch.media.probe import probe
from firstpitch.media.recognise import model_folder, recognise
from tests.film.making import TALK, TALK_TEXT, ffmpeg_makes, make_film


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_film(tmp_path_factory.mktemp("film") / "walk.mp4", 6)


def test_a_film_is_probed(film: Path) -> None:
    """Length, size of the picture and both tracks are told from the file's headers."""
    seen = probe(film)
    assert seen.length == pytest.approx(6, abs=0.1)
    assert (seen.video, seen.audio, seen.width, seen.height, seen.silent) == ("h264", "aac", 320, 180, False)


def test_a_film_without_sound_is_silent(tmp_path: Path) -> None:
    """A film with no sound track can be kept but not heard: the reason is one sentence."""
    quiet = make_film(tmp_path / "quiet.mp4", 1, sound=False)
    assert probe(quiet).silent
    with pytest.raises(FilmFault, match="no sound in it"):
        recognise(quiet)


def test_broken_files_are_refused_in_one_sentence(film: Path, tmp_path: Path) -> None:
    """Nothing, an empty file, text, and a film cut off in the middle are refused by name."""
    bad = {
        "none.mp4": None,
        "empty.mp4": b"",
        "text.mp4": b"hello, this is a list of things to buy",
        "cut.mp4": film.read_bytes()[:2000],
    }
    for name, data in bad.items():
        if data is not None:
            (tmp_path / name).write_bytes(data)
        with pytest.raises(FilmFault) as fault:
            probe(tmp_path / name)
        assert str(fault.value).startswith(name)
        assert "\n" not in str(fault.value)


def test_a_list_of_other_addresses_is_not_followed(tmp_path: Path) -> None:
    """A playlist that points at other files or addresses is no film: nothing it names is opened."""
    (tmp_path / "list.mp4").write_text("#EXTM3U\n#EXTINF:1,\nfile:///etc/hostname\n", encoding="utf-8")
    with pytest.raises(FilmFault):
        probe(tmp_path / "list.mp4")


def test_nothing_is_half_written(film: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk is full nothing is written, and the sentence says how much room is needed."""
    usage = namedtuple("usage", "total used free")
    monkeypatch.setattr(shutil, "disk_usage", lambda path: usage(10, 9, 1000))  # noqa: ARG005
    with pytest.raises(FilmFault, match="make room, nothing was written"):
        mux(film, tmp_path / "out.mp4")
    assert list(tmp_path.iterdir()) == []


def test_the_film_itself_is_never_written_over(film: Path) -> None:
    """The result goes to another file, never over the film that was given."""
    with pytest.raises(FilmFault, match="the film itself"):
        mux(film, film)


def test_a_name_with_odd_signs_is_only_a_name(tmp_path: Path) -> None:
    """A file name with a colon, a blank or a percent sign is taken as it stands."""
    odd = make_film(tmp_path / "concat:a b%20.mp4", 1)
    assert probe(mux(odd, tmp_path / "out -y.mp4", chapters=[Chapter("A", (), 0, 1)])).length == pytest.approx(
        1, abs=0.2
    )


def test_a_part_filmed_again_takes_its_place(film: Path, tmp_path: Path) -> None:
    """Two of six seconds replaced by four make eight, with picture and sound all through."""
    part = make_film(tmp_path / "part.mp4", 4, size="640x480")
    out = replace_part(film, part, tmp_path / "new.mp4", start=2.0, end=4.0)
    seen = probe(out)
    assert seen.length == pytest.approx(8, abs=0.2)
    assert (seen.width, seen.height) == (320, 180)
    with av.open(str(out)) as made:
        assert made.streams.audio[0].duration * made.streams.audio[0].time_base == pytest.approx(8, abs=0.2)


def test_a_part_outside_the_film_is_refused(film: Path, tmp_path: Path) -> None:
    """A part that would lie beyond the film's end, or end before it begins, is refused."""
    with pytest.raises(FilmFault, match="not within"):
        replace_part(film, film, tmp_path / "x.mp4", start=9, end=10)
    with pytest.raises(FilmFault, match="not within"):
        replace_part(film, film, tmp_path / "x.mp4", start=3, end=2)


def test_without_a_model_one_command_is_named(tmp_path: Path) -> None:
    """An empty folder is no model: the sentence names what is missing and the one command that gets one."""
    with pytest.raises(FilmFault, match=r"model\.bin and config\.json missing.*pip install"):
        model_folder(tmp_path)


def words(text: str) -> list[str]:
    return "".join(c.lower() if c.isalnum() else " " for c in text).split()


@pytest.mark.slow
def test_spoken_words_are_heard_with_their_times() -> None:
    """Of an invented talk by a synthetic voice at least three words in four are heard, in order and within the film (see ORIGIN.toml)."""
    told: list[float] = []
    heard = recognise(TALK, tell=lambda share: told.append(share) is None)
    spoken = words(TALK_TEXT.read_text("utf-8"))
    got = words(" ".join(cue.text for cue in heard.cues))
    assert Levenshtein.distance(spoken, got) <= len(spoken) / 4
    times = [w.start for cue in heard.cues for w in cue.words]
    assert times == sorted(times)
    assert times[-1] < heard.length
    assert told == [1.0]


@pytest.mark.slow
def test_hearing_can_be_stopped(tmp_path: Path) -> None:
    """When asked to stop, hearing stops at the next part and keeps nothing."""
    ffmpeg_makes(
        "-f", "lavfi", "-i", "anullsrc=r=16000:cl=mono", "-t", "700", "-c:a", "aac", str(tmp_path / "long.mp4")
    )
    with pytest.raises(FilmFault, match="stopped"):
        recognise(tmp_path / "long.mp4", tell=lambda share: share < 0.3)


@pytest.mark.slow
def test_a_silent_room_has_no_words(tmp_path: Path) -> None:
    """A sound track on which nobody speaks gives no words, not invented ones."""
    ffmpeg_makes(
        "-f", "lavfi", "-i", "anullsrc=r=16000:cl=mono", "-t", "20", "-c:a", "aac", str(tmp_path / "quiet.mp4")
    )
    assert recognise(tmp_path / "quiet.mp4").cues == ()
