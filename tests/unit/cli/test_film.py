"""``firstpitch film``: script, check, chapters, captions, mux."""

from __future__ import annotations

import io
import json
from itertools import pairwise
from pathlib import Path

import av
import pysubs2
import pytest
import webvtt
from click.testing import CliRunner, Result

from firstpitch.cli.main import main
from firstpitch.demo import sheets
from tests.film.making import make_film

WREN = str(sheets()["wren"])
TALK = """[0:01] Good morning, this is your new caravan and we start at the front with the gas locker.
[0:09] Never smoke or have a flame at the gas locker when it is open. Lift the lid and see that it stays up.
[0:20] Here are two cylinders, butane and propane. Strap each of them upright before you drive.
[0:31] Now the water. Put the pump right under the water and push the plug home.
[0:44] And this is your motor mover here, the rollers go on to the tyres.
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["film", *arguments])


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    path = tmp_path / "talk.txt"
    path.write_text(TALK, encoding="utf-8")
    return path


def test_script_is_in_the_order_of_the_round() -> None:
    """The script's JSON has one shot a step, each beginning when the one before and the walk between them are over."""
    done = run("script", WREN, "--json", "--pace", "130")
    assert done.exit_code == 0, done.output
    script = json.loads(done.stdout)
    shots = script["shots"]
    assert script["words_per_minute"] == 130
    assert all(b["start"] == a["start"] + a["seconds"] + b["walk"] for a, b in pairwise(shots))


def test_script_writes_its_papers_and_learns_the_pace(tmp_path: Path) -> None:
    """From captions of an earlier film at 120 words a minute the script is timed at 120, and page and PDF are written."""
    old = tmp_path / "old.srt"
    old.write_text("1\n00:00:00,000 --> 00:02:00,000\n" + "word " * 240 + "\n", encoding="utf-8")
    done = run("script", WREN, "--learn-from", str(old), "--out", str(tmp_path / "film"))
    assert done.exit_code == 0, done.output
    assert "120 words a minute" in " ".join(done.output.split())
    assert (tmp_path / "film" / "wren-shots.pdf").read_bytes().startswith(b"%PDF")
    assert "<!doctype html>" in (tmp_path / "film" / "wren-script.html").read_text("utf-8")


def test_a_film_too_short_for_its_musts_is_a_no() -> None:
    """Where the musts do not fit the minutes, the answer is no, with how long they take."""
    done = run("script", WREN, "--minutes", "5")
    assert done.exit_code == 1
    assert "no such film" in done.output


def test_check_tells_what_is_grave_and_says_no(talk: Path) -> None:
    """A film that leaves stop cautions out gets exit code 1, a score, and a mover that this van lacks is named."""
    done = run("check", WREN, str(talk), "--json")
    assert done.exit_code == 1, done.output
    found = json.loads(done.stdout)
    assert found["blocking"]
    assert "motor_mover" in {n["kind"] for n in found["not_fitted"]}
    words = run("check", WREN, str(talk))
    assert words.exit_code == 1
    assert "of 100" in words.output
    assert "Stop cautions missing or late" in words.output
    assert "certifies nothing" in " ".join(words.output.split())


def test_chapters_are_a_webvtt_track(talk: Path) -> None:
    """The chapters are read by an outside reader, begin at nought and follow each other without a hole."""
    done = run("chapters", WREN, str(talk))
    assert done.exit_code == 0, done.output
    cues = list(webvtt.from_buffer(io.StringIO(done.stdout)))
    assert cues[0].start == "00:00:00.000"
    assert all(a.end == b.start for a, b in pairwise(cues))
    assert len(cues) >= 2


@pytest.mark.parametrize("form", ["vtt", "srt", "txt"])
def test_captions_in_every_form(talk: Path, form: str) -> None:
    """Clean captions come as WebVTT, SRT or a transcript, each with the words that were said."""
    done = run("captions", str(talk), "--as", form)
    assert done.exit_code == 0, done.output
    assert "gas locker" in " ".join(done.stdout.split())
    if form != "txt":
        assert pysubs2.SSAFile.from_string(done.stdout).events


def test_mux_writes_a_film_with_chapters(talk: Path, tmp_path: Path) -> None:
    """The film written has the chapters and a caption track, its picture and sound untouched."""
    film = make_film(tmp_path / "walk.mp4", 50, size="160x90")
    done = run("mux", WREN, str(film), "--captions", str(talk), "--out", str(tmp_path / "out.mp4"))
    assert done.exit_code == 0, done.output
    with av.open(str(tmp_path / "out.mp4")) as made:
        assert len(made.chapters()) >= 2
        assert len(made.streams.subtitles) == 1


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["check", WREN, "none.vtt"], "no such file"),
        (["check", WREN, "."], "folder"),
        (["check", "none.yaml", "none.vtt"], "none.yaml"),
        (["captions", WREN], "no times found"),
        (["mux", WREN, "none.mp4", "--out", "out.mp4"], "no such file"),
        (["script", WREN, "--learn-from", "none.srt"], "no such file"),
        (["script", WREN, "--minutes", "nan"], "not a number"),
        (["script", WREN, "--pace", "nan"], "not a number"),
    ],
)
def test_bad_input_is_one_sentence_and_exit_code_2(arguments: list[str], words: str) -> None:
    """A missing file, a folder, a sheet given as captions: one sentence, exit code 2, no traceback."""
    done = run(*arguments)
    assert done.exit_code == 2
    assert words in done.output
    assert "Traceback" not in done.output


def test_a_film_without_sound_is_told(tmp_path: Path) -> None:
    """A silent film cannot be checked: exit code 2 and what to do."""
    silent = make_film(tmp_path / "quiet.mp4", 2, sound=False)
    done = run("check", WREN, str(silent))
    assert done.exit_code == 2
    assert "microphone" in done.output
