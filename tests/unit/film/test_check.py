"""A film checked as a whole: what is said, late, missing, out of order, and what the check says about odd recordings."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from firstpitch.film.check import MOST_WORDS, CheckFault, check_film, check_prepared
from firstpitch.film.types import Coverage, Cue, Recording
from firstpitch.media.sentences import remembered
from tests.unit.film.vans import small_brief, small_van, spoken


def check(*lines: tuple[float, str]) -> Coverage:
    """What is found in these timed lines."""
    return check_prepared(small_van(), spoken(*lines), remembered())


def point(coverage: Coverage, key: str) -> str:
    """The state of one point."""
    return next(p.state for p in coverage.points if p.point == key)


def test_a_point_in_other_words_is_said() -> None:
    """An owner who hears it in any wording knows it; what nobody speaks of is missing."""
    found = check(
        (0, "This is the handbrake. Haul it up as hard as you possibly can. Keep it on until the car is hitched up."),
        (8, "Lovely weather we are having."),
    )
    assert point(found, "handbrake.show#1") == "said"
    assert point(found, "hob.light#1") == "missing"


def test_every_finding_says_why() -> None:
    """No point, caution or figure is told without its evidence."""
    found = check((0, "This is the handbrake. Pull it up hard, then the hob: two burners."))
    assert all(p.why for p in found.points)
    assert all(c.why for c in found.cautions)
    assert all(f.why for f in found.figures)


def test_a_caution_after_its_act_is_late() -> None:
    """A caution that comes when the thing it warns of is already done is late, and a late stop caution blocks."""
    act = (
        0,
        "Now the front locker. I lift the lid of the gas locker right up, and see that it stays up by itself. There.",
    )
    warning = (60, "No smoking, no flame and no sparks when the gas locker is open.")
    early = check((0, warning[1]), (30, act[1]))
    late = check(act, (30, "And here is the bed. The slats pull out from under here to make up the double."), warning)
    key = "front-locker!1"
    assert next(c.state for c in early.cautions if c.caution == key) == "said"
    assert next(c.state for c in late.cautions if c.caution == key) == "late"
    assert key in late.blocking
    assert key not in early.blocking


def test_silence_is_a_note_and_all_is_missing() -> None:
    """A film in which nothing is spoken is checked too: everything is missing, and a note says why."""
    found = check_prepared(small_van(), Recording((), 60.0), remembered())
    assert {p.state for p in found.points} == {"missing"}
    assert {c.state for c in found.cautions} == {"missing"}
    assert any("Nothing is spoken" in note for note in found.notes)
    assert found.pace.words == 0


def test_another_language_is_a_note() -> None:
    """A film that is not in English is told as such, with nothing found in it."""
    german = (
        "Guten Tag zusammen. Heute zeigen wir Ihnen den neuen Wohnwagen von vorne bis hinten und erklären alles ganz genau. "
        * 3
    )
    found = check((0, german))
    assert any("English" in note for note in found.notes)
    assert {p.state for p in found.points} == {"missing"}


def test_right_to_left_text_is_read() -> None:
    """Text in another script breaks nothing."""
    assert check((0, "שלום וברוכים הבאים לקרוואן החדש שלכם")).points


def test_too_long_a_film_is_refused_in_words() -> None:
    """More words than anybody says in six hours are refused with a sentence that says what to do."""
    cue = Cue(0.0, 10.0, "word " * (MOST_WORDS + 1))
    with pytest.raises(CheckFault, match="cut the film into parts"):
        check_prepared(small_van(), Recording((cue,), 10.0), remembered())


def test_the_same_film_gives_the_same_findings() -> None:
    """Nothing is left to chance: the check is a plain function of its inputs."""
    recording = spoken((0, "This is the handbrake. Pull it up hard."))
    assert check_film(small_brief(), recording, remembered()) == check_prepared(small_van(), recording, remembered())


def test_kit_that_is_not_on_the_sheet() -> None:
    """A mover spoken of as fitted is told; one that is said not to be there is not."""
    assert [n.kind for n in check((0, "And you've also got a motor mover fitted on this.")).not_fitted] == [
        "motor_mover"
    ]
    assert not check((0, "There's no motor mover on this one.")).not_fitted


def test_the_film_of_another_van_is_told() -> None:
    """Where much of the kit spoken of is not on the sheet, a note asks whether this is another van's film."""
    lines = (
        "a motor mover fitted",
        "a microwave",
        "an air conditioner",
        "a solar panel up top",
        "a water heater",
        "a shower",
    )
    found = check(*((10.0 * n, f"And here you've got {what} on this one.") for n, what in enumerate(lines)))
    assert any("another van" in note for note in found.notes)
    assert not any("another van" in note for note in check((0, "This is the handbrake. Pull it up hard.")).notes)


def test_the_mark_is_its_parts() -> None:
    """The mark is the sum of what its parts give, none above its share, and the shares make a hundred."""
    score = check((0, "This is the handbrake. Pull it up hard.")).score
    assert score.total == pytest.approx(sum(given for _, given, _, _ in score.parts), abs=0.1)
    assert all(0 <= given <= most for _, given, most, _ in score.parts)
    assert sum(most for _, _, most, _ in score.parts) == pytest.approx(100)


def test_stretches_cover_the_talk_in_order() -> None:
    """Stretches follow one another without overlap and name kit of the sheet."""
    found = check(
        (0, "This is the handbrake. Pull it up hard."), (20, "The fire extinguisher is by the door, pull the pin.")
    )
    assert [s.kind for s in found.stretches if s.kind] == ["handbrake", "extinguisher"]
    assert all(a.end <= b.start + 1e-6 for a, b in zip(found.stretches, found.stretches[1:], strict=False))


def test_likeness_rows_are_units() -> None:
    """The likeness gives a unit row for each text, and the same row for the same text."""
    rows = remembered()(["gas off", "gas on", "gas off"])
    assert np.allclose(np.linalg.norm(rows, axis=1), 1.0, atol=1e-3)
    assert np.array_equal(rows[0], rows[2])


def test_a_brief_without_points_is_checked() -> None:
    """A brief that asks for nothing gives an empty finding, not an error."""
    bare = replace(small_brief(), points=small_brief().points[:1], cautions=(), figures=())
    found = check_film(bare, spoken((0, "hello there")), remembered())
    assert len(found.points) == 1
    assert found.cautions == ()
