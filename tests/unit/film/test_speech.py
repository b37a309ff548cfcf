"""Recordings are cut into breaths, and their pace is told."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from firstpitch.film.pace import pace_of
from firstpitch.film.speech import MOST, breaths_of, heard_words
from firstpitch.film.types import Cue, Recording, Word

WORDS = st.lists(
    st.sampled_from(["so", "gas", "off", "now.", "the", "valve,", "turn", "and", "then", "it", "right?"]), max_size=120
)


def talk(words: list[str]) -> Recording:
    """Words spoken one after another, half a second each."""
    timed = tuple(Word(text, n * 0.5, n * 0.5 + 0.45) for n, text in enumerate(words))
    return Recording((Cue(0.0, len(words) * 0.5, " ".join(words), timed),) if words else (), len(words) * 0.5)


@given(WORDS)
def test_no_word_is_lost(words: list[str]) -> None:
    """Every word is in just one breath, in order, and no breath is long."""
    breaths = breaths_of(talk(words))
    assert [w.text for b in breaths for w in b.words] == words
    assert all(1 <= len(b.words) <= MOST for b in breaths)


def test_a_full_stop_and_a_pause_part_breaths() -> None:
    """Sentences and silences end a breath."""
    breaths = breaths_of(Recording((Cue(0, 2, "Turn the gas off."), Cue(5, 7, "Then shut the lid.")), 7))
    assert [b.text for b in breaths] == ["Turn the gas off.", "Then shut the lid."]


def test_cue_times_are_shared_out() -> None:
    """Words of a cue without times of their own never overlap and stay within it."""
    words = heard_words(Recording((Cue(3.0, 6.0, "see that the lid stays up"),), 6.0))
    assert words[0].start == 3.0
    assert words[-1].end == 6.0
    assert all(a.end <= b.start + 1e-9 for a, b in pairwise(words))


def test_pace_counts_speech_not_silence() -> None:
    """A minute's silence between two sentences does not slow the speaker down."""
    quick = [Word("a", n * 0.5, n * 0.5 + 0.5) for n in range(20)]
    later = [Word("a", 60 + n * 0.5, 60.5 + n * 0.5) for n in range(20)]
    assert pace_of([*quick, *later]).words_per_minute == 120.0


def test_fast_talk_is_told_with_its_place() -> None:
    """Half a minute at 240 words a minute is too fast to follow."""
    fast = [Word("a", n * 0.25, n * 0.25 + 0.25) for n in range(160)]
    ((start, end, rate),) = pace_of(fast).fast
    assert start < 5
    assert end == 40.0
    assert rate > 230
