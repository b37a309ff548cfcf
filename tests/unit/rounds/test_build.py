"""From a sheet and a catalogue to a planning problem."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from firstpitch.catalogue.types import Caution
from firstpitch.rounds import Effect, Literally, Missing, WalkRates
from tests.unit.rounds.kinds import (
    catalogue,
    condition,
    fact,
    guard_spec,
    kind,
    kit,
    lines,
    link,
    litres,
    problem_of,
    spec,
    supply,
    wait_spec,
)

VAN = kind("van", spec("welcome", say="one two three four five"))


def ids(problem: Any) -> list[str]:
    return [s.id for s in problem.steps]


def step_of(problem: Any, name: str) -> Any:
    return next(s for s in problem.steps if s.id == name)


def test_the_van_comes_first_and_stands_at_the_door() -> None:
    """The kind every van has gives its steps first, at the door, without being on the sheet."""
    of = problem_of(catalogue(kind("tap"), van=VAN), kit("tap-1", "tap"))
    assert ids(of) == ["van.welcome", "tap-1.show"]
    assert step_of(of, "van.welcome").place == of.start_place
    assert next(p for p in of.places if p.id == of.start_place).x == 4.0


def test_seconds_are_words_handling_and_the_owners_try() -> None:
    """Five words at 150 a minute are 2 s; with 8.5 s of handling and 15 s of trying a step takes 25.5 s, rounded up."""
    of = catalogue(kind("tap", spec(hands=8.5, owner_try=15.0)))
    show = step_of(problem_of(of, kit("t", "tap")), "t.show")
    assert (show.seconds, show.spoken, show.hands, show.owner_try) == (26, 2, 9, 15)


def stop(text: str, *steps: str, level: str = "stop") -> Caution:
    return Caution(level, text, steps, "warning", "common practice, no source")  # type: ignore[arg-type]


def test_cautions_to_stop_for_are_spoken_before_the_step_once_a_kind() -> None:
    """Ten words of a stop caution add 4 s to the first step it names, at the first kit of the kind, and to no other."""
    text = "one two three four five six seven eight nine ten"
    of = catalogue(
        kind("tap", spec(hands=8.0), spec("again", hands=8.0), cautions=(stop(text, "show", "again"),)),
    )
    problem = problem_of(of, kit("a", "tap"), kit("b", "tap"))
    found = {s.id: (s.seconds, s.spoken, s.cautions) for s in problem.steps if s.kit in {"a", "b"}}
    assert found == {
        "a.show": (14, 6, (text,)),
        "a.again": (10, 2, ()),
        "b.show": (10, 2, ()),
        "b.again": (10, 2, ()),
    }


def test_other_cautions_and_words_that_are_said_anyway_take_no_time() -> None:
    """A care, a note or a caution for the whole kit is for the papers; one that the step says anyway takes no time of its own."""
    of = catalogue(
        kind(
            "tap",
            spec(hands=8.0, say="Mind your hand. It is hot."),
            cautions=(
                stop("Far too long a text.", "show", level="care"),
                stop("Mind your hand.", "show"),
                stop("Stop."),
            ),
        )
    )
    show = step_of(problem_of(of, kit("t", "tap")), "t.show")
    assert (show.cautions, show.spoken) == ((), 3)


def test_a_film_has_no_owners_try() -> None:
    """In a film nobody tries: the same step takes 10.5 s, rounded up."""
    of = catalogue(kind("tap", spec(hands=8.5, owner_try=15.0)))
    show = step_of(problem_of(of, kit("t", "tap"), mode="film"), "t.show")
    assert (show.seconds, show.owner_try) == (11, 0)


def test_words_per_minute() -> None:
    """At half the pace the words take twice as long; a pace of zero is refused."""
    of = catalogue(kind("tap", spec(hands=0.0)))
    assert step_of(problem_of(of, kit("t", "tap"), words_per_minute=75.0), "t.show").seconds == 4
    with pytest.raises(ValueError, match="pace must be above zero"):
        problem_of(of, kit("t", "tap"), words_per_minute=0.0)


def test_modes() -> None:
    """A step for handovers only is not in a film."""
    of = catalogue(kind("tap", spec(), spec("sign", modes=("handover",))))
    assert "t.sign" in ids(problem_of(of, kit("t", "tap")))
    assert "t.sign" not in ids(problem_of(of, kit("t", "tap"), mode="film"))


def test_once_for_each_kind_or_for_each_kit() -> None:
    """A step ``per = "kind"`` stands once, at the first such kit on the sheet; one ``per = "kit"`` at each."""
    of = catalogue(kind("bed", spec("explain", per="kind"), spec("show")))
    problem = problem_of(of, kit("b2", "bed", x=5.0), kit("b1", "bed", x=2.0))
    assert ids(problem)[1:] == ["b2.explain", "b2.show", "b1.show"]


def test_places_of_steps() -> None:
    """A step stands at its kit, at the door, or at what a link names, inside or outside as that kind stands."""
    heater = kind(
        "heater",
        spec("here"),
        spec("door", at="door"),
        spec("there", at="flue"),
        stands="inside",
        links={"flue": link("flue", "flue")},
    )
    of = problem_of(catalogue(heater, kind("flue")), kit("h", "heater", x=3.0, y=0.5), kit("f", "flue", x=5.0, y=-1.1))
    place = {p.id: p for p in of.places}
    here, door, there = (place[step_of(of, f"h.{name}").place] for name in ("here", "door", "there"))
    assert (here.inside, here.x, here.y) == (True, 3.0, 0.0)
    assert door.id == of.start_place
    assert (there.inside, there.y) == (False, -1.7)
    assert there.x == pytest.approx(5.0, abs=0.25)


def test_inside_steps_ask_for_a_way_in() -> None:
    """Every step taken inside asks for the door to be unlocked; one outside does not; the gate is the door's own."""
    door = kind(
        "door",
        conditions=[condition("lock", "locked", "unlocked")],
        supplies=(supply("inside", "gate", "self.lock = unlocked"),),
    )
    of = problem_of(
        catalogue(door, kind("bed", stands="inside"), kind("tap")), kit("d", "door"), kit("b", "bed"), kit("t", "tap")
    )
    needs = Literally("d.lock", frozenset({"unlocked"}))
    assert needs in step_of(of, "b.show").requires
    assert needs not in step_of(of, "t.show").requires


def test_listed_kit_asks_for_the_round_to_be_under_way() -> None:
    """Every step of listed kit comes after the welcome and before the last look; the van's own steps are those gates."""
    van = kind(
        "van",
        spec("welcome", sets=("self.walk = begun",)),
        conditions=[condition("walk", "not-begun", "begun")],
        supplies=(supply("round", "gate", "self.walk = begun"),),
    )
    of = problem_of(catalogue(kind("tap"), van=van), kit("t", "tap"))
    assert step_of(of, "van.welcome").requires == ()
    assert step_of(of, "t.show").requires == (Literally("van.walk", frozenset({"begun"})),)


def test_a_step_that_lacks_a_link_is_missing() -> None:
    """Where a must link is not filled the step is missing with a sentence, whether it is asked of or stood at."""
    heater = kind(
        "heater",
        spec("light", requires=("flue.cap = off",)),
        spec("reach", at="flue"),
        spec("show"),
        links={"flue": link("flue", "flue")},
    )
    flue = kind("flue", conditions=[condition("cap", "on", "off")])
    of = problem_of(catalogue(heater, flue), kit("h", "heater"))
    assert of.missing == tuple(Missing(f"h.{s}", "The sheet has no flue, which “H” needs.") for s in ("light", "reach"))


FILLER = kind(
    "filler",
    spec("fill", starts=("filling",)),
    spec("taste", awaits=("filling",)),
    waits=[wait_spec("filling", by="filling", volume="size", flow="pump.flow", sets=("self.tank = full",))],
    conditions=[condition("tank", "empty", "full")],
    facts={"size": fact("size", "l")},
    links={"pump": link("pump", "pump", need="may")},
)
PUMP = kind("pump", facts={"flow": fact("flow", "l/min")})
FLOW = {"flow": litres(10 / 60)}


def test_waits_take_their_time_from_the_sheet() -> None:
    """Forty litres at the pump's ten litres a minute take 240 s; the wait sets what it fills and belongs to the step that starts it."""
    of = problem_of(
        catalogue(FILLER, PUMP), kit("f", "filler", facts={"size": litres(40)}), kit("p", "pump", facts=FLOW)
    )
    (wait,) = of.waits
    assert (wait.id, wait.seconds, wait.sets) == ("f.filling", 240, (Effect("f.tank", "full"),))
    assert step_of(of, "f.fill").starts == ("f.filling",)
    assert step_of(of, "f.taste").awaits == ("f.filling",)
    assert of.missing == ()


@pytest.mark.parametrize(
    ("kits", "lacks"),
    [
        ((kit("f", "filler"), kit("p", "pump", facts=FLOW)), "the sheet lacks “size” of F (kit f, fact size)."),
        (
            (kit("f", "filler", facts={"size": litres(40)}), kit("p", "pump")),
            "the sheet lacks “flow” of P (kit p, fact flow).",
        ),
        ((kit("f", "filler", facts={"size": litres(40)}),), "the sheet lacks the pump that F needs."),
    ],
    ids=["own fact", "fact of a link", "no link"],
)
def test_an_unknown_figure_makes_the_step_missing(kits: tuple[Any, ...], lacks: str) -> None:
    """A figure the sheet lacks makes the duration unknown: the step that starts the wait is missing and the sentence names the figure."""
    (found,) = problem_of(catalogue(FILLER, PUMP), *kits).missing
    assert found == Missing("f.fill", f"How long “Filling” takes cannot be worked out: {lacks}")


def test_unknown_cold_water_is_told() -> None:
    """Heating needs the temperature of the cold water; where the sheet lacks it, that field is named."""
    heater = kind(
        "heater",
        spec("heat", starts=("heating",)),
        waits=[
            wait_spec("heating", by="heating", volume="size", power="power", **{"from": "cold_water", "to": "60 degC"})
        ],
        facts={"size": fact("size", "l"), "power": fact("power", "W")},
    )
    from firstpitch.sheet import Quantity

    figures = {"size": litres(10), "power": Quantity(850.0, "W", "850 W")}
    of = catalogue(heater)
    (found,) = problem_of(of, kit("h", "heater", facts=figures)).missing
    assert found.what.endswith("the sheet lacks the temperature of the cold water (cold_water).")
    known = problem_of(of, kit("h", "heater", facts=figures), cold_water=288.15)
    assert known.missing == ()
    assert known.waits[0].seconds == pytest.approx(36.9 * 60, rel=0.003)


def test_a_wait_whose_end_is_there_at_the_start_takes_a_second_while_it_stays_so() -> None:
    """A full tank needs no filling, while it stays full; one that a step empties first fills anew."""
    fill = spec("fill", starts=("filling",))
    wait = wait_spec("filling", by="filling", volume="size", flow="flow")
    wait = replace(wait, sets=lines("self.tank = full"))
    facts = {"size": fact("size", "l"), "flow": fact("flow", "l/min")}
    figures = {"size": litres(40), "flow": litres(10 / 60)}
    tank = condition("tank", "empty", "full", hook_up="full")
    stays = catalogue(kind("filler", fill, waits=[wait], facts=facts, conditions=[tank]))
    assert problem_of(stays, kit("f", "filler", facts=figures)).waits[0].seconds == 240
    full = problem_of(stays, kit("f", "filler", facts=figures), start="on-hook-up").waits[0]
    assert (full.seconds, full.sustains) == (1, (Literally("f.tank", frozenset({"full"})),))
    for emptied in (replace(fill, sets=lines("self.tank = empty")), replace(fill, requires=lines("self.tank = empty"))):
        of = catalogue(kind("filler", emptied, waits=[wait], facts=facts, conditions=[tank]))
        assert problem_of(of, kit("f", "filler", facts=figures), start="on-hook-up").waits[0].seconds == 240


VALVE = kind(
    "valve",
    spec("open", sets=("self.valve = open",)),
    conditions=[condition("valve", "shut", "open", hook_up="open")],
    always=("self.valve = shut",),
    drained=("self.valve = shut",),
    kept=("self.valve = open",),
    guards=(guard_spec("valve", "self.valve = open"),),
)


def test_start_states() -> None:
    """From store the valve is shut, on hook-up it is open, and single values can be given."""
    of = catalogue(VALVE)
    assert problem_of(of, kit("v", "valve")).start == {"v.valve": "shut"}
    hook_up = problem_of(of, kit("v", "valve"), start="on-hook-up")
    assert (hook_up.start, hook_up.start_name) == ({"v.valve": "open"}, "on-hook-up")
    changed = problem_of(of, kit("v", "valve"), start_values={"v.valve": "open"})
    assert (changed.start, changed.start_name) == ({"v.valve": "open"}, "from-store with changes")


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"w.valve": "open"}, "names “w.valve”, a condition this van does not have"),
        ({"v.valve": "ajar"}, "sets v.valve to “ajar”; it can be shut, open"),
    ],
)
def test_start_values_must_be_the_vans(values: dict[str, str], sentence: str) -> None:
    """A start that names a condition or a value this van does not have is refused with what it can be."""
    with pytest.raises(ValueError, match=sentence):
        problem_of(catalogue(VALVE), kit("v", "valve"), start_values=values)


def test_finish_as_the_owner_wants_the_water() -> None:
    """The finish holds what always holds and what goes with drained or kept, each line once."""
    shut, opened = Literally("v.valve", frozenset({"shut"})), Literally("v.valve", frozenset({"open"}))
    of = catalogue(VALVE)
    assert problem_of(of, kit("v", "valve")).finish == (shut,)
    assert problem_of(of, kit("v", "valve"), water="kept").finish == (shut, opened)


def test_guards_are_named_after_their_kit() -> None:
    """A guard has its kit's id and, where a link stands for several kits, a number."""
    hitch = kind(
        "hitch",
        conditions=[condition("head", "off", "on")],
        links={"feet": link("feet", "foot", every=True)},
        guards=(guard_spec("feet", "self.head = on", "feet.foot = down"),),
    )
    foot = kind("foot", conditions=[condition("foot", "up", "down")])
    of = problem_of(catalogue(hitch, foot), kit("h", "hitch"), kit("a", "foot"), kit("b", "foot"))
    assert [(g.id, g.kit, g.harm) for g in of.guards] == [(f"h.feet.{n}", "h", "The feet is harmed.") for n in (1, 2)]
    alone = problem_of(catalogue(hitch, foot), kit("h", "hitch"), kit("a", "foot"))
    assert [g.id for g in alone.guards] == ["h.feet"]


def test_labels_tell_kit_of_one_kind_apart() -> None:
    """A condition reads as the catalogue has it, with the kit's name where there is more than one of the kind."""
    of = catalogue(VALVE)
    assert problem_of(of, kit("v", "valve")).labels == {"v.valve": "valve"}
    two = problem_of(of, kit("left", "valve"), kit("right", "valve"))
    assert two.labels == {"left.valve": "valve (Left)", "right.valve": "valve (Right)"}


def test_walks_follow_the_rates() -> None:
    """The walking times are those of the given pace."""
    of = catalogue(kind("tap"))
    quick = problem_of(of, kit("t", "tap", x=6.0, y=-1.1), rates=WalkRates(pace=2.0))
    slow = problem_of(of, kit("t", "tap", x=6.0, y=-1.1))
    place = step_of(slow, "t.show").place
    assert 0 < quick.walks[quick.start_place][place] < slow.walks[slow.start_place][place]
