"""Captions that can be read in time."""

from __future__ import annotations

from itertools import pairwise

import pysubs2
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.film.captions import read_captions, retimed, srt_text, transcript_text
from firstpitch.film.captions.retime import LINE, SPEED
from firstpitch.film.types import Chapter, Cue, Recording

TALK = (
    "so this is your gas locker and um in here you've got two bottles strapped in so they can't fall over when you're towing "
    "before you light anything make sure the flue cover is off and have a look that nothing blocks the drop vent in the floor "
    "now the regulator has a changeover so when the first bottle is empty the second one takes over by itself"
)


def recording(words_per_minute: float, words: list[str] | None = None) -> Recording:
    words = TALK.split() if words is None else words
    each = 60 / words_per_minute
    cues: list[Cue] = []
    for n in range(0, len(words), 8):
        part = words[n : n + 8]
        cues.append(Cue(n * each, (n + len(part)) * each, " ".join(part)))
    return Recording(tuple(cues), len(words) * each)


def fits(cue: Cue) -> bool:
    lines = cue.text.split("\n")
    return len(lines) <= 2 and all(len(line) <= LINE for line in lines)


def test_speech_at_an_ordinary_pace_can_be_read() -> None:
    """At 150 words a minute every caption has at most two lines of 42 characters and 17 characters a second."""
    done = retimed(recording(150))
    assert done.hurried == ()
    assert all(fits(cue) for cue in done.cues)
    assert all(len(cue.text) / (cue.end - cue.start) <= SPEED for cue in done.cues)


def test_every_word_but_hesitations_is_kept() -> None:
    """Nothing that was said is left out of the captions, save um and er."""
    shown = " ".join(cue.text for cue in retimed(recording(150)).cues).split()
    assert shown == [word for word in TALK.split() if word != "um"]


def test_captions_begin_with_their_words() -> None:
    """At an ordinary pace no caption stands before its words are spoken or more than a second after."""
    source = recording(140)
    each = 60 / 140
    words = [w for w in TALK.split() if w != "um"]
    spoken = [n * each for n, w in enumerate(TALK.split()) if w != "um"]
    at = 0
    for cue in retimed(source).cues:
        assert -0.3 <= cue.start - spoken[at] <= 1.0
        at += len(cue.text.split())
    assert at == len(words)


def test_a_speaker_too_fast_for_any_reader_is_named() -> None:
    """At 330 words a minute for long, captions cannot be read; they stay near the speech and the places are named."""
    done = retimed(recording(330, TALK.split() * 6))
    assert done.hurried
    assert all(a.end <= b.start for a, b in pairwise(done.cues))


@given(st.lists(st.sampled_from(TALK.split()), min_size=1, max_size=120), st.floats(90, 260))
def test_captions_never_overlap_and_always_fit(words: list[str], pace: float) -> None:
    """Whatever is said and however fast, captions fit their lines, stand in order and never overlap."""
    done = retimed(recording(pace, words))
    assert all(fits(cue) and cue.end > cue.start for cue in done.cues)
    assert all(a.end <= b.start for a, b in pairwise(done.cues))


def test_srt_is_read_by_an_outside_reader() -> None:
    """A general subtitle library reads our SRT with the same number of captions and the same times."""
    cues = retimed(recording(150)).cues
    outside = pysubs2.SSAFile.from_string(srt_text(cues), format_="srt")
    assert [(e.start, e.end) for e in outside] == [(round(c.start * 1000), round(c.end * 1000)) for c in cues]


def test_transcript_stands_under_its_chapters() -> None:
    """The transcript is in paragraphs with times, under the chapters they belong to."""
    text = transcript_text(
        read_captions(b"[0:01] Hello.\n[0:10] The hitch.\n[0:30] The gas."),
        [Chapter("Hitch", ("hitch",), 10.0, 30.0), Chapter("Gas", ("gas",), 30.0, 40.0)],
    )
    assert text == "[0:01] Hello.\n\nHitch\n\n[0:10] The hitch.\n\nGas\n\n[0:30] The gas.\n"
