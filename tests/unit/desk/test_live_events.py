"""Taking in what tablets saw."""

from __future__ import annotations

import uuid
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions.vans import edit_sheet
from firstpitch.desk.models import Event, Handover, Person
from firstpitch.desk.snags import SNAG_EVENTS, snags_of
from tests.unit.desk.conftest import TODAY
from tests.unit.desk.live import Device


@pytest.fixture
def tablet(own: Client, handover: Handover) -> Device:
    """A tablet of the specialist."""
    return Device(own, handover)


@pytest.fixture
def other(own: Client, handover: Handover) -> Device:
    """A second tablet at the same handover."""
    return Device(own, handover, "tablet-b")


def stored() -> list[tuple[str, dict[str, Any]]]:
    """What and data of the live events, as they were written."""
    return list(Event.objects.exclude(what="handover.added").filter(handover__isnull=False).values_list("what", "data"))


def test_event_is_kept_as_it_was_seen(tablet: Device, specialist: Person) -> None:
    """An event comes in with its id, its device, number and clock, and with who was signed in."""
    event = tablet.tell("step.done", 5.25, step="hob.light", tried=True)
    row = Event.objects.get(pk=event["id"])
    assert (row.device, row.number, row.at.isoformat()) == ("tablet-a", 1, event["at"])
    assert (row.what, row.data, row.by) == ("step.done", {"step": "hob.light", "tried": True}, specialist)


def test_sent_twice_counts_once(tablet: Device) -> None:
    """The same event sent again is answered "already" and is there once."""
    event = tablet.tell("note", words="The owner asked about the awning.")
    assert tablet.send(event) == [("already", "")]
    assert len(stored()) == 1


def test_another_event_with_the_same_id_is_refused(tablet: Device) -> None:
    """An id that stands for something else already is refused and changes nothing."""
    event = tablet.tell("note", words="One thing.")
    answer, why = tablet.send({**event, "data": {"words": "Another thing."}})[0]
    assert answer == "refused"
    assert "id" in why
    assert stored() == [("note", {"words": "One thing."})]


FAULTY: list[tuple[dict[str, Any], str]] = [
    ({"what": "no.such"}, "knows no event"),
    ({"what": "step.done", "data": {"step": "no.such"}}, "no step"),
    ({"what": "step.done", "data": {"step": 7}}, "“step”"),
    ({"what": "step.done", "data": {"step": "hob.light", "tried": "yes"}}, "“tried”"),
    ({"what": "step.left", "data": {"step": "hob.light"}}, "“reason”"),
    ({"what": "state.set", "data": {"condition": "hob.lid", "value": "gone", "reason": "x"}}, "can be"),
    ({"what": "state.set", "data": {"condition": "hob.hat", "value": "on", "reason": "x"}}, "nothing called"),
    ({"what": "undone", "data": {"event": str(uuid.uuid4())}}, "not been told"),
    ({"what": "snag.raised", "data": {"snag": str(uuid.uuid4()), "words": "x", "severity": "care"}}, "id of the event"),
    ({"what": "note", "data": {"words": "x" * 50_000}}, "too long"),
    ({"what": "note", "data": {"words": "x"}, "at": "yesterday"}, "time"),
    ({"what": "note", "data": {"words": "x"}, "at": "2026-11-25T10:00:00"}, "time"),
    ({"what": "note", "data": {"words": "x"}, "number": -1}, "number"),
    ({"what": "note", "data": {"words": "x"}, "number": True}, "number"),
]


@pytest.mark.parametrize(("wrong", "why"), FAULTY, ids=[why for _, why in FAULTY])
def test_one_faulty_event_does_not_hold_up_the_rest(tablet: Device, wrong: dict[str, Any], why: str) -> None:
    """What can never be applied is refused with a reason, and the events before and after it are applied."""
    before, bad, after = tablet.event("note", words="Before."), tablet.event("note"), tablet.event("note", words="Aft.")
    answers = tablet.send(before, {**bad, **wrong}, after)
    assert [answer for answer, _ in answers] == ["applied", "refused", "applied"]
    assert why in answers[1][1]
    assert len(stored()) == 2


def test_no_event_at_all_is_refused_too(tablet: Device) -> None:
    """Something that is no event is answered as refused, and the batch goes on."""
    answer = tablet.post("nonsense", tablet.event("note", words="Good."))
    assert [a["answer"] for a in answer.json()["answers"]] == ["refused", "applied"]


@pytest.mark.parametrize("body", ["", "[]", "{", '{"device": "", "events": []}', '{"device": "a", "events": 3}'])
def test_unreadable_batches_are_told_apart_from_answers(own: Client, handover: Handover, body: str) -> None:
    """A batch that cannot be read is no answer about any event: 400, so that the tablet keeps everything."""
    answer = own.post(f"/live/{handover.pk}/events/", body, content_type="application/json")
    assert answer.status_code == 400
    assert "answers" not in answer.json()


def test_somebody_elses_events_wait(tablet: Device, specialist: Person) -> None:
    """What one person saw is not written down as another's: 409, and the tablet keeps it."""
    answer = tablet.post(tablet.event("note", words="Mine."), person=specialist.pk + 1)
    assert answer.status_code == 409
    assert stored() == []


def test_answer_tells_how_far_and_what_time(tablet: Device) -> None:
    """The answer holds the highest number that the desk has of this device, and the desk's clock."""
    answer = tablet.post(tablet.event("note", words="1"), tablet.event("note", words="2")).json()
    assert answer["known_up_to"] == 2
    assert answer["server_now"] > timezone.now().isoformat()[:10]


def test_signed_handover_takes_nothing_more(tablet: Device) -> None:
    """Once the record is signed new events are refused; one that is here already is still answered "already"."""
    event = tablet.tell("note", words="In time.")
    Handover.objects.filter(pk=tablet.handover.pk).update(signed=timezone.now(), record={}, record_digest="x")
    late = tablet.event("note", words="Too late.")
    answers = tablet.send(event, late)
    assert answers[0] == ("already", "")
    assert answers[1][0] == "refused"
    assert "signed" in answers[1][1]


def test_step_of_an_earlier_sheet_is_still_taken(tablet: Device, specialist: Person) -> None:
    """A kit that left the sheet after the tablet fetched it was still shown: its step is applied."""
    van = tablet.handover.van
    lines = van.sheet.splitlines()
    start = next(i for i, line in enumerate(lines) if line.strip() in ("fire-blanket:", "- id: fire-blanket"))
    ends = start + 1
    indent = len(lines[start]) - len(lines[start].lstrip())
    while ends < len(lines) and (not lines[ends].strip() or len(lines[ends]) - len(lines[ends].lstrip()) > indent):
        ends += 1
    shorter = "\n".join([*lines[:start], *lines[ends:]]) + "\n"
    edit_sheet(by=specialist, van=van, edit=lambda _: shorter, today=TODAY)
    assert tablet.send(tablet.event("step.done", step="fire-blanket.show", tried=False)) == [("applied", "")]


def test_snag_of_a_tablet_is_a_snag_of_the_van(tablet: Device) -> None:
    """A snag raised on the round stands among the van's snags with its words and severity."""
    event = tablet.event("snag.raised", words="Blind is torn.", severity="care", kit="blinds", step="blinds.show")
    event["data"]["snag"] = event["id"]
    assert tablet.send(event) == [("applied", "")]
    found = snags_of(Event.objects.filter(van=tablet.handover.van, what__in=SNAG_EVENTS))
    assert [(s.words, s.severity, s.open) for s in found] == [("Blind is torn.", "care", True)]
    tablet.tell("snag.mended", snag=event["id"], words="Sewn.")
    assert not snags_of(Event.objects.filter(van=tablet.handover.van, what__in=SNAG_EVENTS))[0].open


def test_done_and_left_on_two_tablets_is_a_conflict(tablet: Device, other: Device) -> None:
    """One tablet says done, another left out: both are kept, and a marker names the two."""
    done = tablet.tell("step.done", step="hob.light", tried=False)
    left = other.event("step.left", step="hob.light", reason="No gas.")
    answer, why = other.send(left)[0]
    assert answer == "conflict"
    assert "done" in why
    markers = [data for what, data in stored() if what == "conflict.seen"]
    assert [set(m["events"]) for m in markers] == [{done["id"], left["id"]}]
    assert other.send(left) == [("already", "")]
    assert len([what for what, _ in stored() if what == "conflict.seen"]) == 1


def test_same_tablet_or_same_word_is_no_conflict(tablet: Device, other: Device) -> None:
    """Both tablets saying done is no conflict, nor is one that takes back the other's word before it says its own."""
    tablet.tell("step.done", step="hob.light", tried=False)
    other.tell("step.done", step="hob.light", tried=True)
    left = tablet.tell("step.left", step="hob.lift_lid", reason="Later.")
    other.tell("undone", event=left["id"])
    other.tell("step.done", step="hob.lift_lid", tried=False)
    assert not [what for what, _ in stored() if what == "conflict.seen"]


def test_two_finds_of_one_condition(tablet: Device, other: Device) -> None:
    """Two tablets find one condition with two values: a conflict, unless the second names the first."""
    first = tablet.tell("state.set", condition="hob.lid", value="up", reason="It was up.")
    other.tell("state.set", condition="hob.lid", value="shut", reason="Now shut.", over=first["id"])
    third = tablet.event("state.set", condition="hob.lid", value="up", reason="Up!")
    assert tablet.send(third)[0][0] == "conflict"


@pytest.mark.parametrize("order", ["undone first", "undone last"])
def test_taking_back_what_another_built_on(tablet: Device, other: Device, order: str) -> None:
    """One tablet takes back the opening of the lid, on another the hob was lit after it: a conflict in whatever order they come in."""
    lid = tablet.tell("step.done", 10, step="hob.lift_lid", tried=False)
    undone = tablet.event("undone", 30, event=lid["id"])
    lit = other.event("step.done", 20, step="hob.light", tried=False)
    if order == "undone first":
        tablet.tell("undone", 30, event=lid["id"])
        assert other.send(lit)[0][0] == "conflict"
    else:
        assert other.send(lit)[0][0] == "applied"
        assert tablet.send(undone)[0][0] == "conflict"


def test_settling_a_conflict(tablet: Device, other: Device) -> None:
    """A settled conflict is not raised again by later events, and settling is an event like any other."""
    done = tablet.tell("step.done", step="hob.light", tried=False)
    left = other.event("step.left", step="hob.light", reason="No gas.")
    other.send(left)
    tablet.tell("conflict.settled", events=[done["id"], left["id"]], keeps=left["id"], reason="It was not lit.")
    other.tell("step.done", step="hob.lift_lid", tried=False)
    assert len([what for what, _ in stored() if what == "conflict.seen"]) == 1


def test_since_gives_what_is_new(tablet: Device, other: Device, own: Client) -> None:
    """A tablet that asks from its mark gets everything written since, and nothing when nothing was."""
    path = f"/live/{tablet.handover.pk}/since/"
    first = tablet.tell("note", words="One.")
    answer = own.get(path).json()
    assert [e["id"] for e in answer["events"]] == [first["id"]]
    assert own.get(path, {"after": answer["after"]}).json() == {"events": [], "after": answer["after"]}
    second = other.tell("note", words="Two.")
    again = own.get(path, {"after": answer["after"]}).json()
    assert second["id"] in [e["id"] for e in again["events"]]
    assert again["after"] > answer["after"]


def test_another_branch_changes_nothing(far: Client, tablet: Device) -> None:
    """A tablet of another branch gets "nothing here" for this handover, and nothing is written."""
    stranger = Device(far, tablet.handover)
    assert stranger.post(stranger.event("note", words="Boo.")).status_code == 404
    assert stored() == []
