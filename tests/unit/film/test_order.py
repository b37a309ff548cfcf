"""Acts in spoken order are judged by the round's rules, with what was never shown taken as done in time."""

from __future__ import annotations

from firstpitch.film.order import Act, order_of
from firstpitch.film.types import OrderFault
from tests.unit.film.vans import small_brief


def faults(*acts: tuple[float, str]) -> tuple[OrderFault, ...]:
    """The faults of acts (when, step)."""
    return order_of(small_brief().problem, [Act(step, at, step) for at, step in acts])[0]


def test_what_is_never_shown_is_taken_as_done() -> None:
    """A film that only lights the hob has left the rest off camera: no fault, but a note."""
    found, silent = order_of(small_brief().problem, [Act("hob.light", 10.0, "lit")])
    assert not found
    assert silent


def test_shown_only_later_is_a_fault() -> None:
    """Lighting the hob and testing the carbon monoxide alarm only afterwards is a fault at the hob."""
    found = faults((10.0, "hob.light"), (60.0, "co-alarm.test"))
    assert {f.step for f in found} == {"hob.light"}


def test_in_the_right_order_there_is_none() -> None:
    """The alarm first, then the flame: no fault."""
    assert not faults((10.0, "co-alarm.test"), (60.0, "hob.light"))


def test_a_guard_names_its_harm() -> None:
    """Coupling up with the steadies seen down and never wound up is a fault that names the harm."""
    steadies = [s.id for s in small_brief().problem.steps if s.id.endswith("-offside.wind_down")]
    found = faults((10.0, steadies[0]), (200.0, "hitch.couple_up"))
    assert any(f.step == "hitch.couple_up" and f.rule == "guard" and f.harm for f in found)


def test_shown_twice_is_no_fault() -> None:
    """A film may show a thing twice."""
    assert not faults((10.0, "co-alarm.test"), (60.0, "co-alarm.test"))


def test_an_act_that_would_spoil_everything_after_it_is_doubted() -> None:
    """One act told unsurely that makes several later acts faulty was more likely talked of than done."""
    sure = [
        Act(s, at, s, 0.9)
        for at, s in ((30.0, "hitch.show_head"), (60.0, "jockey-wheel.show"), (90.0, "handbrake.show"))
    ]
    wrong = Act("hitch.couple_up", 10.0, "coupled", 0.6)
    assert not order_of(small_brief().problem, [wrong, *sure])[0]
