"""Words as heard meet words as written."""

from __future__ import annotations

import pytest

from firstpitch.film.words import concept, heard, plain_words, sound, vocabulary_of

VOCABULARY = vocabulary_of(
    ["handbrake on", "the heater flue", "gas locker", "jockey wheel", "breakaway cable", "regulator"]
)


@pytest.mark.parametrize(
    ("wrong", "right"), [("brake", "break"), ("flue", "flew"), ("gas", "guess"), ("brakes", "breaks")]
)
def test_homophones_sound_alike(wrong: str, right: str) -> None:
    """A recogniser writes one word for another that sounds the same."""
    assert sound(wrong) == sound(right)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("the guess locker", "gas"),
        ("the hand brake", "handbrake"),
        ("jockeywheel down", "jockey"),
        ("the regulater", "regul"),
    ],
)
def test_misheard_words_are_found(text: str, found: str) -> None:
    """Homophones, split and joined compounds and near misses all lead to the word meant."""
    assert any(name.startswith(concept(found)[:5]) for name in heard(VOCABULARY, plain_words(text)))


def test_everyday_words_are_not_trade_words() -> None:
    """“goes” sounds like “gas”, but nobody who says that something goes speaks of gas."""
    assert not heard(VOCABULARY, plain_words("off she goes and was there"))


def test_how_it_was_heard_is_told() -> None:
    """A finding shows the word as it was heard beside the word it stands for."""
    assert heard(VOCABULARY, ["guess"])[concept("gas")][1] == "guess for gas"
