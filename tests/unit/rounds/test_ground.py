"""From lines of the catalogue to the conditions of one van."""

from __future__ import annotations

import pytest

from firstpitch.rounds import Literally
from firstpitch.rounds.ground import Van, ground_never, ground_ref, ground_supply, owners, put_together
from firstpitch.sheet import Kit, resolve_links
from tests.unit.rounds.kinds import catalogue, condition, kind, kit, line, lines, link, sheet, supply

HOB = kind(
    "hob",
    links={
        "mover": link("mover", "mover", need="may"),
        "flue": link("flue", "flue"),
        "feet": link("feet", "foot", every=True, need="may"),
    },
    conditions=[condition("ring", "out", "lit")],
)
CYLINDER = kind(
    "cylinder",
    conditions=[condition("valve", "shut", "open")],
    supplies=(supply("gas", "source", "self.valve = open", rank=1),),
)
RESERVE = kind(
    "reserve",
    conditions=[condition("valve", "shut", "open")],
    supplies=(supply("gas", "source", "self.valve = open", rank=2),),
)
TAP = kind(
    "tap", conditions=[condition("lever", "across", "along")], supplies=(supply("gas", "gate", "self.lever = along"),)
)
FOOT = kind("foot", conditions=[condition("foot", "up", "down"), condition("load", "none", "some")])
MOVER = kind("mover", conditions=[condition("rollers", "off", "on")])
FLUE = kind("flue", conditions=[condition("cap", "on", "off")])
ALL = catalogue(HOB, CYLINDER, RESERVE, TAP, FOOT, MOVER, FLUE)


def van(*kits: Kit) -> Van:
    of = sheet(*kits)
    return put_together(of, ALL, resolve_links(of.kit, ALL.kinds).filled)


def literal(name: str, *values: str) -> Literally:
    return Literally(name, frozenset(values))


HOB_KIT = kit("hob-1", "hob")


def test_self_and_van() -> None:
    """``self`` is the kit itself and ``van`` the caravan as a whole."""
    of = van(HOB_KIT)
    assert owners(of, HOB_KIT, "self") == (HOB_KIT,)
    assert [k.id for k in owners(of, HOB_KIT, "van")] == ["van"]


def test_values_become_a_set() -> None:
    """A line with a bar holds for any of its values."""
    (found,) = ground_ref(van(HOB_KIT), HOB_KIT, line("self.ring = out|lit")).literals  # type: ignore[arg-type]
    assert found == literal("hob-1.ring", "out", "lit")


def test_may_link_that_nothing_fills_drops_out() -> None:
    """A line about a ``may`` link that nothing on the sheet fills is ignored and nothing is said."""
    found = ground_ref(van(HOB_KIT), HOB_KIT, line("mover.rollers = off"))  # type: ignore[arg-type]
    assert (found.literals, found.lacks) == ((), ())


def test_must_link_that_nothing_fills_is_told() -> None:
    """A line about a ``must`` link that nothing fills gives a sentence that names what the sheet lacks and who needs it."""
    found = ground_ref(van(HOB_KIT), HOB_KIT, line("flue.cap = off"))  # type: ignore[arg-type]
    assert found.lacks == ("The sheet has no flue, which “Hob 1” needs.",)


def test_every_link_asks_all() -> None:
    """A link that stands for every foot asks all of them."""
    of = van(HOB_KIT, kit("a", "foot"), kit("b", "foot"))
    found = ground_ref(of, HOB_KIT, line("feet.foot = down"))  # type: ignore[arg-type]
    assert found.literals == (literal("a.foot", "down"), literal("b.foot", "down"))


def test_supply_takes_the_source_of_lowest_rank_and_every_gate() -> None:
    """Gas is there when the source of lowest rank is open and every tap on the way is."""
    of = van(HOB_KIT, kit("spare", "reserve"), kit("main", "cylinder"), kit("t1", "tap"), kit("t2", "tap"))
    found = ground_supply(of, HOB_KIT, "gas")
    assert found.literals == (literal("main.valve", "open"), literal("t1.lever", "along"), literal("t2.lever", "along"))
    assert found.lacks == ()


def test_supply_from_the_next_rank_where_the_first_is_not_fitted() -> None:
    """Without the source of rank 1 the one of rank 2 is used; of two equal ones the first on the sheet."""
    of = van(HOB_KIT, kit("r1", "reserve"), kit("r2", "reserve"))
    assert ground_supply(of, HOB_KIT, "gas").literals == (literal("r1.valve", "open"),)


def test_supply_without_a_source_is_told() -> None:
    """Where the sheet has no source at all, a sentence names what could be one; gates alone do not make a supply."""
    found = ground_supply(van(HOB_KIT, kit("t1", "tap")), HOB_KIT, "gas")
    assert found.literals == ()
    assert found.lacks == ("“Hob 1” needs gas, but the sheet has no cylinder or reserve.",)


def test_supply_that_has_gates_only() -> None:
    """A supply that no kind is a source of (a way inside) is there when every gate is, and lacks nothing."""
    assert ground_supply(van(HOB_KIT), HOB_KIT, "inside") == ground_supply(van(HOB_KIT), HOB_KIT, "round")
    assert ground_supply(van(HOB_KIT), HOB_KIT, "inside").lacks == ()


@pytest.mark.parametrize(
    ("never", "kits", "guards"),
    [
        (("self.ring = lit", "flue.cap = on"), (kit("f", "flue"),), [("hob-1.ring", "f.cap")]),
        (("self.ring = lit", "mover.rollers = on"), (), []),
        (("self.ring = lit", "mover?.rollers = on"), (), [("hob-1.ring",)]),
        (("mover?.rollers = on",), (), []),
        (("self.ring = lit", "flue.cap = on"), (), []),
    ],
    ids=[
        "both there",
        "may link falls away",
        "with a question mark only the line",
        "nothing left",
        "must link falls away",
    ],
)
def test_guards(never: tuple[str, ...], kits: tuple[Kit, ...], guards: list[tuple[str, ...]]) -> None:
    """A guard about a link that nothing fills falls away whole, or only its line where that is marked with a question mark."""
    found = ground_never(van(HOB_KIT, *kits), HOB_KIT, lines(*never))
    assert [tuple(side.condition for side in one) for one in found] == guards


def test_guard_about_every_foot_is_one_for_each() -> None:
    """A guard about each of two feet is two guards, and two lines about a foot speak of the same foot."""
    of = van(HOB_KIT, kit("a", "foot"), kit("b", "foot"))
    found = ground_never(of, HOB_KIT, lines("self.ring = lit", "feet.foot = up", "feet.load = some"))
    assert [tuple(side.condition for side in one) for one in found] == [
        ("hob-1.ring", "a.foot", "a.load"),
        ("hob-1.ring", "b.foot", "b.load"),
    ]
