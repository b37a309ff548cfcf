"""The script of a film."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from itertools import pairwise

import pytest

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.film.captions import read_captions
from firstpitch.film.chapters import chapters_of, with_part
from firstpitch.film.script import script_of
from firstpitch.film.speaker import learned_pace
from firstpitch.film.types import Chapter, Coverage, Cue, Pace, Recording, Score, Script, Stretch
from firstpitch.rounds import Patience, Plan, Problem, RoundOptions, build_problem, plan_round
from firstpitch.sheet import BuildSheet, read_sheet_text, resolve_links

NAMES = ("heron", "plover", "wren")
each_van = pytest.mark.parametrize("name", NAMES)


@cache
def film_round(name: str) -> tuple[BuildSheet, Problem, Plan]:
    catalogue = load()
    sheet = read_sheet_text(
        sheets()[name].read_text("utf-8"), catalogue.kinds, today=date(2026, 11, 1), file=f"{name}.yaml"
    )
    options = RoundOptions(mode="film", words_per_minute=140)
    problem = build_problem(sheet, catalogue, resolve_links(sheet.kit, catalogue.kinds).filled, options)
    plan = plan_round(problem, patience=Patience(starts=1, tries=0, work=0.0))
    assert isinstance(plan, Plan)
    return sheet, problem, plan


@cache
def script(name: str) -> Script:
    sheet, problem, plan = film_round(name)
    return script_of(sheet, load().kinds, problem, plan, 140)


@each_van
def test_every_step_of_the_round_is_one_shot_in_its_order(name: str) -> None:
    """The script goes as the round goes: one shot a step, none before the round has it, none on top of another."""
    _, _, plan = film_round(name)
    shots = script(name).shots
    assert [shot.step for shot in shots] == [t.step for t in plan.steps]
    assert all(shot.start >= t.start for shot, t in zip(shots, plan.steps, strict=True))
    assert all(a.start + a.seconds + b.walk == b.start for a, b in pairwise(shots))


@each_van
def test_a_caution_for_the_whole_kit_is_said_at_its_first_shot(name: str) -> None:
    """What holds for all use of a kit is said before anything is done with it."""
    sheet, _, _ = film_round(name)
    catalogue = load()
    kits = sheet.kit_by_id()
    told: set[str] = set()
    for shot in script(name).shots:
        if shot.kit in kits and kits[shot.kit].kind not in told:
            told.add(kits[shot.kit].kind)
            whole = [c.text for c in catalogue.kinds[kits[shot.kit].kind].cautions if c.level == "stop" and not c.steps]
            assert all(text in shot.cautions for text in whole if "{" not in text)


def test_an_unknown_figure_is_never_made_up() -> None:
    """A figure the sheet lacks is to be read off the plate, not guessed."""
    sheet, problem, plan = film_round("wren")
    kit = sheet.kit_by_id()["water-heater"]
    bare = replace(sheet, kit=tuple(replace(k, facts={}) if k is kit else k for k in sheet.kit))
    made = script_of(bare, load().kinds, problem, plan, 140)
    first = next(shot for shot in made.shots if shot.kit == kit.id)
    assert first.figures
    assert set(first.figures.values()) == {"not on the sheet: read it off the plate"}


def test_the_pace_is_learned_from_films_by_their_words() -> None:
    """Two films, one of 100 words a minute and one of 200 with three times the words, give 160."""
    slow = Recording((Cue(0, 60, "word " * 100),), 60)
    fast = Recording((Cue(0, 90, "word " * 300),), 90)
    assert learned_pace([slow, fast]) == pytest.approx(160, abs=0.5)


def test_silence_between_words_is_no_speech() -> None:
    """A minute of walking in silence does not slow the speaker's pace."""
    text = "\n".join(f"[{m}:00] " + "word " * 150 + f"\n[{m}:59] end" for m in range(0, 4, 2))
    film = read_captions(text.encode())
    quiet = learned_pace([film])
    assert quiet is not None
    assert 140 < quiet < 175


def test_too_few_words_teach_no_pace() -> None:
    """From less than a hundred words nobody's pace can be told."""
    assert learned_pace([Recording((Cue(0, 30, "word " * 60),), 30)]) is None


def coverage(stretches: list[Stretch], length: float) -> Coverage:
    return Coverage("Van", length, (), (), (), (), (), tuple(stretches), (), Pace(0, 0, ()), Score(0, (), ()), ())


def test_chapters_cover_the_film_without_a_hole() -> None:
    """From the first second to the last every moment belongs to one chapter; two stretches on one kit are one."""
    found = chapters_of(
        coverage(
            [
                Stretch("hitch", ("hitch",), 12, 40, ()),
                Stretch("hob", ("hob",), 45, 48, ()),
                Stretch("hitch", ("hitch",), 50, 70, ()),
                Stretch("tap", ("tap",), 75, 100, ()),
            ],
            110,
        ),
        {"hitch": "Hitch", "tap": "Taps", "hob": "Hob"},
    )
    assert [(c.title, c.start, c.end) for c in found] == [("Welcome", 0.0, 12), ("Hitch", 12, 75), ("Taps", 75, 110)]


def test_a_silent_film_is_one_chapter() -> None:
    """Where nothing is spoken of, the film is one chapter."""
    assert [(c.start, c.end) for c in chapters_of(coverage([], 90), {})] == [(0.0, 90)]


def test_a_part_filmed_again_moves_what_follows() -> None:
    """A chapter replaced by a longer one pushes the later ones back by the difference."""
    old = (Chapter("A", (), 0, 10), Chapter("B", (), 10, 30), Chapter("C", (), 30, 50))
    assert [(c.start, c.end) for c in with_part(old, 1, 25)] == [(0, 10), (10, 35), (35, 55)]
    with pytest.raises(ValueError, match="no chapter 4"):
        with_part(old, 3, 5)
    with pytest.raises(ValueError, match="no length"):
        with_part(old, 0, 0)


@each_van
def test_each_caution_is_said_once_and_before_its_first_act(name: str) -> None:
    """In the order of the film every caution that names acts is said once for its kind, no later than the first of them."""
    sheet, _, _ = film_round(name)
    catalogue = load()
    kits = sheet.kit_by_id()
    said: dict[tuple[str, str], int] = {}
    for shot in script(name).shots:
        kind = kits[shot.kit].kind if shot.kit in kits else shot.kit
        for text in shot.cautions:
            assert said.setdefault((kind, text), shot.number) == shot.number
    for shot in script(name).shots:
        kind = kits[shot.kit].kind if shot.kit in kits else shot.kit
        spec = shot.step.removeprefix(f"{shot.kit}.")
        for caution in catalogue.kinds[kind].cautions:
            if (
                caution.level == "stop"
                and spec in caution.steps
                and "{" not in caution.text
                and caution.text not in shot.say
            ):
                assert said[kind, caution.text] <= shot.number


def test_a_brief_script_speaks_the_points() -> None:
    """In a brief film the points are spoken, so that it is shorter than one with the words in full."""
    sheet, _, _ = film_round("wren")
    catalogue = load()
    options = RoundOptions(mode="film", words_per_minute=140, brief=True)
    problem = build_problem(sheet, catalogue, resolve_links(sheet.kit, catalogue.kinds).filled, options)
    plan = plan_round(problem, patience=Patience(starts=1, tries=0, work=0.0))
    assert isinstance(plan, Plan)
    short = script_of(sheet, catalogue.kinds, problem, plan, 140, warn=("stop",))
    assert short.total < script("wren").total
    shot = next(shot for shot in short.shots if len(shot.points) == 3)
    assert [f"{p[:1].upper()}{p[1:]}." for p in shot.points] == [f"{s}." for s in shot.say[:-1].split(". ")]
