"""Captions of every usual form, whole and broken."""

from __future__ import annotations

import io
import json
import string
from itertools import pairwise

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.film.captions import CaptionFault, read_captions, srt_text, vtt_text
from firstpitch.film.captions.tidy import timed_words
from firstpitch.film.types import Cue

SRT = """1
00:00:01,000 --> 00:00:02,500
This is the hitch.

2
00:00:03,000 --> 00:00:05,000
Handbrake on
<i>first</i>.
"""
BLANK = " "
ROLLING = f"""WEBVTT
Kind: captions

00:00:00.000 --> 00:00:02.000 align:start position:0%
{BLANK}
so<00:00:00.400><c> this</c><00:00:00.900><c> is</c><00:00:01.300><c> the</c>

00:00:02.000 --> 00:00:02.010 align:start position:0%
so this is the
{BLANK}

00:00:02.010 --> 00:00:04.000 align:start position:0%
so this is the
gas<00:00:02.500><c> locker</c><00:00:03.000><c> door</c>

00:00:04.000 --> 00:00:04.010 align:start position:0%
gas locker door
{BLANK}

00:00:04.010 --> 00:00:06.000 align:start position:0%
gas locker door
strap<00:00:05.000><c> it</c>
"""


def said(text: str | bytes, name: str = "x") -> list[tuple[float, float, str]]:
    data = text.encode() if isinstance(text, str) else text
    return [(cue.start, cue.end, cue.text) for cue in read_captions(data, name).cues]


def test_srt_gives_its_cues_without_markup() -> None:
    """Two cues of SRT are two things said, their slanted type taken off."""
    assert said(SRT) == [(1.0, 2.5, "This is the hitch."), (3.0, 5.0, "Handbrake on first.")]


def test_rolling_captions_say_each_word_once() -> None:
    """Live captions show each line twice and more; what is said is each word once, at its own time."""
    recording = read_captions(ROLLING.encode())
    words = timed_words(recording)
    assert " ".join(word.text for word in words) == "so this is the gas locker door strap it"
    assert [word.start for word in words][:6] == [0.0, 0.4, 0.9, 1.3, 2.01, 2.5]
    assert any("Rolling" in note for note in recording.mended)


def test_what_a_speaker_says_twice_is_kept_where_nothing_rolls() -> None:
    """A speaker who repeats a sentence has said it twice."""
    text = "[0:01] Gas off.\n[0:05] Gas off.\n[0:09] Now the hitch.\n[0:12] And the lamp.\n[0:15] Then the step.\n[0:20] Home."
    assert [words for _, _, words in said(text)].count("Gas off.") == 2


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[0:05] One.\n[0:10] Two.", [(5.0, "One."), (10.0, "Two.")]),
        ("(1:00:05) One.\n(1:00:10) Two.", [(3605.0, "One."), (3610.0, "Two.")]),
        ("0:05 One.\n0:10 Two\nmore.", [(5.0, "One."), (10.0, "Two more.")]),
        ("0:05\nOne.\n0:10\nTwo.", [(5.0, "One."), (10.0, "Two.")]),
        ("[0:05] One. [0:10] Two.", [(5.0, "One."), (10.0, "Two.")]),
        ("[75:05] One.\n[75:10] Two.", [(4505.0, "One."), (4510.0, "Two.")]),
    ],
)
def test_timed_text_in_its_usual_forms(text: str, expected: list[tuple[float, str]]) -> None:
    """A time in square or round brackets or bare, before a line or on one of its own, begins what is said after it."""
    assert [(start, words) for start, _, words in said(text)] == expected


SECONDS = [
    {"word": " gas", "start": 1.0, "end": 1.4, "probability": 0.9},
    {"word": " off", "start": 1.4, "end": 2, "probability": 0.8},
]
STARTS = [
    {"startTime": "1s", "endTime": "1.4s", "word": "gas", "confidence": 0.9},
    {"startTime": "1.400s", "endTime": "2s", "word": "off", "confidence": 0.8},
]
MILLIS = [
    {"text": "gas", "start": 1000, "end": 1400, "confidence": 0.9},
    {"text": "off", "start": 1400, "end": 2000, "confidence": 0.8},
]
CLOCKS = [
    {"text": "gas", "start": "00:00:01,000", "end": "00:00:01,400", "score": "0.9"},
    {"text": "off", "start": "00:00:01,400", "end": "00:00:02,000", "score": "0.8"},
]


@pytest.mark.parametrize(
    "tree",
    [
        {"segments": [{"start": 1.0, "end": 2.0, "text": " gas off", "words": SECONDS}]},
        {"result": SECONDS},
        {"results": [{"alternatives": [{"transcript": "gas off", "words": STARTS}]}]},
        {"words": MILLIS},
        CLOCKS,
    ],
)
def test_word_level_json_of_several_shapes(tree: object) -> None:
    """Whatever the entries around them are called, each word comes with its start, its end and how sure it is."""
    words = timed_words(read_captions(json.dumps(tree).encode()))
    assert [(w.text, w.start, w.end, w.sure) for w in words] == [("gas", 1.0, 1.4, 0.9), ("off", 1.4, 2.0, 0.8)]


def test_a_missing_end_is_where_the_next_begins_or_by_reading_speed() -> None:
    """A cue without an end lasts to the next one, and the last as long as its words take."""
    text = "WEBVTT\n\n00:01.000 -->\nThis is the hitch and this is its handle\n\n00:03.000 -->\nDone"
    first, last = said(text)
    assert first[:2] == (1.0, 3.0)
    assert 3.5 <= last[1] < 4.0


def test_overlapping_cues_are_cut_and_named() -> None:
    """Where one cue runs into the next it ends there, and the reader says so."""
    recording = read_captions(b"1\n00:00:01,000 --> 00:00:05,000\nOne\n\n2\n00:00:03,000 --> 00:00:06,000\nTwo\n")
    assert [(cue.start, cue.end) for cue in recording.cues] == [(1.0, 3.0), (3.0, 6.0)]
    assert any("overlapped" in note for note in recording.mended)


def test_cues_out_of_order_are_sorted() -> None:
    """What is said first comes first, whatever the order in the file."""
    assert [w for _, _, w in said("1\n00:00:09,000 --> 00:00:10,000\nB\n\n2\n00:00:01,000 --> 00:00:02,000\nA\n")] == [
        "A",
        "B",
    ]


def test_an_srt_without_blank_lines_keeps_its_numbers_out_of_the_words() -> None:
    """Where the blank line between cues is lost, the next cue's number is not spoken."""
    text = "1\n00:00:01,000 --> 00:00:02,000\nA\n2\n00:00:03,000 --> 00:00:04,000\nB"
    assert [w for _, _, w in said(text)] == ["A", "B"]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings(encoding: str) -> None:
    """A degree sign and a curly quote survive the encodings that captions come in."""
    assert said("[0:01] It\u2019s 60\u00b0 hot".encode(encoding))[0][2] == "It\u2019s 60\u00b0 hot"


def test_noises_in_brackets_are_not_words() -> None:
    """Music and laughter in brackets are not spoken."""
    assert said("[0:01] [Music] right then\n[0:03] (laughs)") == [(1.0, 3.0, "right then")]


def test_markup_and_scripts_stay_text() -> None:
    """What looks like a script in captions is only text, and escaped when written again."""
    cues = read_captions(b"[0:01] say &lt;script&gt;alert(1)&lt;/script&gt; or 3 < 4").cues
    written = vtt_text(cues)
    assert "<script>" not in written
    assert webvtt.from_buffer(io.StringIO(written))[0].start == "00:00:01.000"


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", "empty"),
        (b"   \n", "empty"),
        (b"MZ\x00\x00\x01", "no text"),
        (b"Just some prose without any times.", "no times"),
        (b'{"words": [', "not whole JSON"),
        (b'{"words": []}', "no entry"),
        (b'{"words": [{"word": "x", "start": NaN, "end": NaN}]}', "no entry"),
        (b"[" * 100_000, "not whole JSON"),
        (b"1\n99:00:00,000 --> 99:00:01,000\nlate\n", "12 hours"),
        (b"x" * 50_000_001, "50 MB"),
    ],
)
def test_what_is_no_caption_file_is_told_in_one_sentence(data: bytes, word: str) -> None:
    """A file that is no captions is refused with its name and what to do."""
    with pytest.raises(CaptionFault, match=word) as fault:
        read_captions(data, "film.srt")
    assert str(fault.value).startswith("film.srt")
    assert "\n" not in str(fault.value)


def test_an_empty_webvtt_is_silence() -> None:
    """A WebVTT file without cues is a film in which nobody speaks, not a fault."""
    assert read_captions(b"WEBVTT\n\nNOTE nothing\n").cues == ()


def test_a_hundred_thousand_cues_are_read() -> None:
    """A long file of many short cues is read whole."""
    text = "\n".join(f"[{n // 60}:{n % 60:02d}] a{n}{letter}" for n in range(20_000) for letter in "vwxyz")
    assert len(timed_words(read_captions(text.encode()))) == 100_000


TEXT = st.text(string.ascii_letters + " .,'<>&", min_size=1, max_size=40).filter(lambda t: any(c.isalpha() for c in t))


@given(st.lists(TEXT, min_size=1, max_size=8))
def test_cues_never_overlap_and_stand_in_order(texts: list[str]) -> None:
    """However the file is made, what is read never overlaps and every cue has a length."""
    blocks = "\n\n".join(f"{n}\n00:00:{n:02d},000 --> 00:00:{n + 3:02d},000\n{t}" for n, t in enumerate(texts))
    cues = read_captions(blocks.encode()).cues
    assert all(cue.end > cue.start for cue in cues)
    assert all(a.end <= b.start + 1e-6 for a, b in pairwise(cues))


@given(st.lists(st.text(string.ascii_lowercase + " <>&'", min_size=1).filter(str.strip), min_size=1, max_size=6))
def test_what_is_written_is_read_back(texts: list[str]) -> None:
    """Captions written as WebVTT or SRT give the same words when read by an outside reader."""
    cues = [Cue(float(n), n + 0.9, " ".join(t.split())) for n, t in enumerate(texts)]
    outside = webvtt.from_buffer(io.StringIO(vtt_text(cues)))
    assert [" ".join(c.raw_text.split()) for c in outside] == [
        c.text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;") for c in cues
    ]
    assert srt_text(cues).count("-->") == len(cues)
