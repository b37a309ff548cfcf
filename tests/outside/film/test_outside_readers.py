"""What we write about a film is read by others."""

from __future__ import annotations

import io
from pathlib import Path

import av
import pysubs2
import pytest
import webvtt

from firstpitch.film.captions import vtt_text
from firstpitch.film.captions.write import chapters_vtt, stamp
from firstpitch.film.types import Chapter, Cue
from firstpitch.media.mux import mux
from firstpitch.media.probe import probe
from tests.film.making import ffmpeg_makes, make_film

CHAPTERS = (
    Chapter("Hitch & jockey wheel", ("hitch",), 0.0, 3.25),
    Chapter("Gas; valve = off #1", ("valve",), 3.25, 10.0),
)
CUES = (Cue(0.5, 2.0, "This is the hitch.\nIt locks by itself."), Cue(4.0, 6.5, "Valve <shut> & bottle strapped."))


@pytest.fixture(scope="module")
def muxed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("film")
    film = make_film(folder / "raw.mp4")
    return mux(film, folder / "out.mp4", chapters=CHAPTERS, captions=CUES, title="Walk-round")


def test_chapters_are_read_by_another_library(muxed: Path) -> None:
    """The chapters in the MP4 have the titles and times that were given."""
    with av.open(str(muxed)) as film:
        found = [
            (c["metadata"]["title"], float(c["start"] * c["time_base"]), float(c["end"] * c["time_base"]))
            for c in film.chapters()
        ]
    assert [title for title, _, _ in found] == [c.title for c in CHAPTERS]
    for (_, start, end), chapter in zip(found, CHAPTERS, strict=True):
        assert start == pytest.approx(chapter.start, abs=0.001)
        assert end == pytest.approx(chapter.end, abs=0.1)


def test_captions_come_back_out_of_the_film(muxed: Path, tmp_path: Path) -> None:
    """The caption track taken out by ffmpeg has the same words at the same times, and is marked English."""
    ffmpeg_makes("-i", str(muxed), "-map", "0:s:0", str(tmp_path / "back.srt"))
    back = pysubs2.load(str(tmp_path / "back.srt"), keep_html_tags=True)
    assert [event.text.replace("\\N", "\n") for event in back] == [cue.text for cue in CUES]
    for event, cue in zip(back, CUES, strict=True):
        assert event.start / 1000 == pytest.approx(cue.start, abs=0.04)
        assert event.end / 1000 == pytest.approx(cue.end, abs=0.04)
    with av.open(str(muxed)) as film:
        assert film.streams.subtitles[0].language == "eng"


def test_picture_and_sound_are_copied_untouched(muxed: Path) -> None:
    """Putting chapters and captions in re-encodes nothing: every packet of picture and sound is the same."""

    def packets(path: Path, kind: str) -> list[bytes]:
        with av.open(str(path)) as film:
            stream = film.streams.video[0] if kind == "video" else film.streams.audio[0]
            return [bytes(p) for p in film.demux(stream) if p.size]

    raw = muxed.with_name("raw.mp4")
    assert packets(raw, "video") == packets(muxed, "video")
    assert packets(raw, "audio") == packets(muxed, "audio")
    assert probe(raw).length == pytest.approx(probe(muxed).length, abs=0.1)


def test_webvtt_of_captions_and_chapters_is_read_by_another_library() -> None:
    """Both WebVTT files are read with the same times and, unescaped, the same words."""
    captions = webvtt.from_buffer(io.StringIO(vtt_text(CUES)))
    assert [(c.start, c.end) for c in captions] == [(stamp(c.start), stamp(c.end)) for c in CUES]
    chapters = webvtt.from_buffer(io.StringIO(chapters_vtt(CHAPTERS)))
    assert [c.start for c in chapters] == [stamp(c.start) for c in CHAPTERS]
    assert chapters[0].raw_text == "Hitch &amp; jockey wheel"
