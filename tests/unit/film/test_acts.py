"""Which steps count as done in a film, what undoes what, and which order faults are sure enough to be told."""

from __future__ import annotations

from dataclasses import replace

from firstpitch.film.act_evidence import against_opposite, opposites, puts_back
from firstpitch.film.faults import faults_of, owned_up
from firstpitch.film.matching import Speech, made_ready
from firstpitch.film.order import Act
from firstpitch.film.speech import breaths_of
from firstpitch.film.types import OrderFault
from firstpitch.media.sentences import remembered
from tests.unit.film.test_check import check
from tests.unit.film.vans import small_brief, small_van, spoken

ITEMS = small_van().acts.items
ROW = {item.key: row for row, item in enumerate(ITEMS)}


def speech(*lines: tuple[float, str]) -> Speech:
    """Timed lines made ready for matching."""
    return made_ready(breaths_of(spoken(*lines)), small_van().vocabulary, remembered())


def told(lines: Speech, *acts: tuple[float, str, float]) -> tuple[OrderFault, ...]:
    """The faults told of acts (when, step, how sure)."""
    return faults_of(small_brief().problem, [Act(step, at, step, sure) for at, step, sure in acts], lines)[0]


def test_a_step_and_what_undoes_it_are_opposites() -> None:
    """Opening the cylinder valve is undone by shutting it, and by nothing else."""
    found = opposites(small_brief().problem, ITEMS)
    assert found[ROW["cylinder-valve.open"]] == [ROW["cylinder-valve.shut"]]
    assert found[ROW["cylinder-valve.shut"]] == [ROW["cylinder-valve.open"]]


def test_putting_back_is_told_from_setting_up() -> None:
    """Shutting the hob lid leaves it as the film found it, lifting it does not."""
    back = puts_back(small_brief().problem, ITEMS)
    assert back[ROW["hob.shut_lid"]] == 1.0
    assert back[ROW["hob.lift_lid"]] == 0.0


def test_on_and_off_are_told_apart_by_their_own_words() -> None:
    """“Bottle's shut, turn it clockwise” speaks for shutting the cylinder valve, against opening it."""
    lines = speech((0, "That's the bottle shut, I've closed it right off."))
    odds = against_opposite(small_van().acts, opposites(small_brief().problem, ITEMS), lines)
    assert odds[ROW["cylinder-valve.shut"]].max() > 0 > odds[ROW["cylinder-valve.open"]].min()


def test_what_people_say_while_they_do_it_is_an_act() -> None:
    """Words of doing a thing now make its step an act of the film; a film that never speaks of it has none."""
    done = check((0, "Here's the hob. I'll lift the glass lid up, there, the hob lid's up and standing by itself."))
    assert "hob.lift_lid" in {step for stretch in done.stretches for step in stretch.steps}
    assert "hob.lift_lid" not in {step for stretch in check((0, "Lovely weather.")).stretches for step in stretch.steps}


def test_a_fault_that_leans_on_a_doubtful_act_is_not_told() -> None:
    """Lighting the hob before the alarm is tested is a fault when it is plainly done, none when it hardly was."""
    quiet = speech((0, "Here is the hob, and that is the lounge."))
    alarm = (60.0, "co-alarm.test", 0.9)
    assert {f.step for f in told(quiet, (10.0, "hob.light", 0.9), alarm)} == {"hob.light"}
    assert not told(quiet, (10.0, "hob.light", 0.3), alarm)


def test_owning_up_makes_a_fault_surer() -> None:
    """“Oh, I haven't done that yet” soon after an act speaks for a slip; the same words long after do not."""
    acts = ((10.0, "hob.light", 0.9), (60.0, "co-alarm.test", 0.9))
    slip = speech((0, "Here is the hob."), (20, "Oh, hang on, I haven't tested the alarm yet."))
    late = replace(slip, breaths=tuple(replace(b, start=b.start + 300, end=b.end + 300) for b in slip.breaths))
    assert owned_up(slip, 10.0) > owned_up(late, 10.0) == 0.0
    assert told(slip, *acts)[0].sure > told(late, *acts)[0].sure


def test_talk_of_nothing_is_padding_and_doing_a_thing_is_not() -> None:
    """Small talk is padding; words of lifting the hob's lid, said while it is done, are not."""
    found = check(
        (0, "Morning both, lovely day for it, my mate's dog kept me up half the night, never mind, eh."),
        (20, "Here's the hob. I'll lift the glass lid up, there, the hob lid's up and standing by itself."),
    )
    told = " ".join(p.quote for p in found.padding)
    assert "dog" in told
    assert "lid" not in told


def test_a_harm_is_named_once_for_an_act() -> None:
    """What one act is told to do wrong names each harm once, and the harm is not in the words before it as well."""
    lines = speech((0, "I light the hob."), (30, "Now I open the cylinder valve."))
    found = told(lines, (0.0, "hob.light", 0.9), (30.0, "cylinder-valve.open", 0.9))
    assert found
    harms = [f.harm for f in found if f.step == "hob.light" and f.harm]
    assert len(harms) == len(set(harms))
    assert not any(f.harm and f.harm in f.what for f in found)
