"""Reading what happened in a handover from its events."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from firstpitch.desk.so_far import Act, Found, in_order, so_far, taken_back

BEGAN = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


@dataclass
class Row:
    """One tablet."""

    device: str
    events: list[Seen] = field(default_factory=list)

    def saw(self, second: float, what: str, **data: Any) -> Seen:
        """An event at a second of its clock."""
        at = BEGAN + timedelta(seconds=second)
        number = len(self.events) + 1
        seen = Seen(f"{self.device}{number}", self.device, number, at, what, data)
        self.events.append(seen)
        return seen


@dataclass(frozen=True)
class Seen:
    """An event."""

    pk: str
    device: str
    number: int
    at: datetime
    what: str
    data: dict[str, Any]


def test_devices_are_merged_by_time_and_each_keeps_its_own_order() -> None:
    """Two rows are merged by their clocks; a clock that jumps back cannot turn round what one tablet saw."""
    a, b = Row("a"), Row("b")
    for second in (0, 50, 10, 60):
        a.saw(second, "note", words="a")
    for second in (20, 55):
        b.saw(second, "note", words="b")
    assert [e.pk for e in in_order([*b.events, *reversed(a.events)])] == ["a1", "b1", "a2", "a3", "b2", "a4"]


def test_seconds_count_from_the_first_step_begun() -> None:
    """Second 0 is when the first step was begun; what was noted before it does not start the clock."""
    a = Row("a")
    a.saw(0, "note", words="Early.")
    a.saw(100, "step.begun", step="x")
    a.saw(130.7, "step.done", step="x", tried=True)
    past = so_far(a.events)
    assert past.acts == (Act("x", 0, 30, tried=True, event="a3"),)
    assert past.second(BEGAN + timedelta(seconds=140.2)) == 40
    assert past.second(BEGAN) == 30


def test_steps_done_in_one_second_stay_in_order() -> None:
    """Several steps ticked off at once end one second after each other."""
    a = Row("a")
    for step in ("x", "y", "z"):
        a.saw(0, "step.done", step=step)
    assert [(c.step, c.at) for c in so_far(a.events).acts] == [("x", 1), ("y", 2), ("z", 3)]


def test_taking_back_and_taking_that_back() -> None:
    """An event taken back does not count; taking the taking back away makes it count again."""
    a = Row("a")
    done = a.saw(0, "step.done", step="x")
    undone = a.saw(5, "undone", event=done.pk)
    assert so_far(a.events).acts == ()
    a.saw(6, "undone", event=undone.pk)
    assert [c.step for c in so_far(a.events).acts] == ["x"]
    assert taken_back(in_order(a.events)) == {undone.pk}


def test_settling_lets_one_word_count() -> None:
    """Of a conflict that was settled only the word that was kept counts."""
    a, b = Row("a"), Row("b")
    done, left = a.saw(0, "step.done", step="x"), b.saw(1, "step.left", step="x", reason="No gas.")
    assert not so_far([*a.events, *b.events]).left
    a.saw(9, "conflict.settled", events=[done.pk, left.pk], keeps=left.pk, reason="It was not done.")
    past = so_far([*a.events, *b.events])
    assert past.acts == ()
    assert past.left == {"x": "No gas."}


def test_what_was_found_stands_among_the_steps() -> None:
    """A condition found otherwise changes at its second, between the steps around it."""
    a = Row("a")
    a.saw(0, "step.done", step="x")
    a.saw(10, "state.set", condition="hob.lid", value="up", reason="It was up.")
    a.saw(20, "step.done", step="y")
    past = so_far(a.events)
    assert [c.condition if isinstance(c, Found) else c.step for c in past.changes] == ["x", "hob.lid", "y"]
    assert [c.at for c in past.changes] == [1, 10, 20]


def test_present_step_is_the_last_begun_that_is_open() -> None:
    """The present step is the one last begun that is neither done nor left out."""
    a = Row("a")
    a.saw(0, "step.begun", step="x")
    a.saw(5, "step.begun", step="y")
    assert so_far(a.events).current == "y"
    a.saw(9, "step.left", step="y", reason="Rain.")
    assert so_far(a.events).current == "x"
    a.saw(12, "step.done", step="x")
    assert so_far(a.events).current is None
