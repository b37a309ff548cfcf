"""A handover that is called off: why, what it closes, what stays, and how it is taken up again."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction
from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions.handovers import (
    CalledOffError,
    NoReasonError,
    SignedError,
    call_off,
    change_handover,
    keep_plan,
    take_up_again,
)
from firstpitch.desk.actions.owner_links import make_link
from firstpitch.desk.actions.records import Signature, sign_record
from firstpitch.desk.models import Event, Handover, Person, Van
from firstpitch.desk.record_data import digest_of
from firstpitch.desk.record_rows import record_now
from tests.unit.desk.live import Device

WHY = "The van was sold at the other yard."


def off(handover: Handover, by: Person) -> Handover:
    """Call it off."""
    return call_off(by=by, handover=handover, why=WHY)


def test_page_asks_why(own: Client, handover: Handover) -> None:
    """A handover is called off with a reason only; without one nothing changes and it is said beside the field."""
    path = f"/handovers/{handover.pk}/call-off/"
    assert own.get(path).status_code == 200
    refused = own.post(path, {"why": "  "})
    assert refused.status_code == 422
    assert "Say why" in refused.content.decode()
    handover.refresh_from_db()
    assert handover.called_off is None
    own.post(path, {"why": WHY})
    handover.refresh_from_db()
    assert handover.called_off is not None
    assert handover.why_off == WHY


def test_history_tells_it(own: Client, handover: Handover, van: Van, specialist: Person) -> None:
    """Who called it off, when and why stands in the van's history, and that it was taken up again."""
    off(handover, specialist)
    take_up_again(by=specialist, handover=handover)
    assert [e.by for e in Event.objects.filter(what__in=("handover.called_off", "handover.taken_up"))] == [
        specialist
    ] * 2
    text = own.get(f"/vans/{van.pk}/history/").content.decode()
    assert f"alled off the handover to {handover.owner_name}: {WHY}" in text
    assert f"ook the handover to {handover.owner_name} up again" in text


def test_pages_tell_it(own: Client, handover: Handover, van: Van, specialist: Person) -> None:
    """Today, the van and the handover say that it is off and why, and offer no round; the van has no date of collection."""
    handover.due = timezone.now()
    handover.save(update_fields=["due"])
    off(handover, specialist)
    for path in ("/", f"/vans/{van.pk}/", f"/handovers/{handover.pk}/"):
        text = own.get(path).content.decode()
        assert WHY in text, path
        assert f"/live/{handover.pk}/" not in text, path
    assert "no date" in own.get(f"/vans/{van.pk}/").content.decode()


def test_never_late(own: Client, handover: Handover, specialist: Person) -> None:
    """A handover called off is not late when its day has gone by."""
    handover.due = timezone.now() - timedelta(days=3)
    handover.save(update_fields=["due"])
    assert "Late from before" in own.get("/").content.decode()
    off(handover, specialist)
    assert "Late from before" not in own.get("/").content.decode()


def test_nothing_is_changed_while_it_is_off(handover: Handover, specialist: Person) -> None:
    """Neither day nor round nor record of it is written before it is taken up again."""
    off(handover, specialist)
    with pytest.raises(CalledOffError, match="sold at the other yard"):
        change_handover(
            by=specialist, handover=handover, owner_name="x", due=handover.due, owner_contact="", specialist=None
        )
    with pytest.raises(CalledOffError):
        keep_plan(by=specialist, handover=handover, plan={"total_s": 1, "bound_s": 1, "steps": []}, options={})
    with pytest.raises(CalledOffError):
        sign_record(
            by=specialist,
            handover=handover,
            seen=digest_of(record_now(handover)),
            signature=Signature("Rowan Pell", "typed"),
            confirmed=True,
        )


def test_owner_sees_nothing_more(handover: Handover, specialist: Person) -> None:
    """The owner's link is shut with the handover and stays shut when it is taken up again."""
    secret = make_link(by=specialist, handover=handover).secret
    assert Client().get(f"/owner/{secret}/").status_code == 200
    off(handover, specialist)
    assert Client().get(f"/owner/{secret}/").status_code == 410
    take_up_again(by=specialist, handover=handover)
    assert Client().get(f"/owner/{secret}/").status_code == 410


def test_what_a_tablet_noted_is_not_lost(own: Client, handover: Handover, specialist: Person) -> None:
    """What a tablet noted before it heard is still taken in."""
    tablet = Device(own, handover)
    note = tablet.event("note", words="They rang.")
    off(handover, specialist)
    assert tablet.send(note) == [("applied", "")]


def test_signed_stays(handover: Handover, specialist: Person) -> None:
    """A handover whose record is signed cannot be called off; the database holds that too."""
    Handover.objects.filter(pk=handover.pk).update(signed=timezone.now(), record={}, record_digest="x")
    with pytest.raises(SignedError, match="handed over"):
        off(handover, specialist)
    with pytest.raises(IntegrityError), transaction.atomic():
        Handover.objects.filter(pk=handover.pk).update(called_off=timezone.now(), why_off="x")


def test_twice_is_once(handover: Handover, specialist: Person) -> None:
    """Calling off twice changes nothing the second time; a reason of blanks is none."""
    with pytest.raises(NoReasonError):
        call_off(by=specialist, handover=handover, why=" \n ")
    first = off(handover, specialist).called_off
    assert call_off(by=specialist, handover=handover, why="another reason").called_off == first
    assert Event.objects.filter(what="handover.called_off").count() == 1


def test_moved_to_another_day(own: Client, handover: Handover, specialist: Person) -> None:
    """Called off and taken up again, a handover can be moved to another day."""
    off(handover, specialist)
    own.post(f"/handovers/{handover.pk}/take-up/")
    path = f"/handovers/{handover.pk}/change/"
    answer = own.post(
        path, {"owner_name": handover.owner_name, "due": "tomorrow 17:45", "owner_contact": "", "specialist": ""}
    )
    assert answer.status_code == 302
    handover.refresh_from_db()
    assert handover.called_off is None
    assert f"{timezone.localtime(handover.due):%H:%M}" == "17:45"


def test_another_branch_cannot(far: Client, handover: Handover) -> None:
    """People of another branch can neither call it off nor take it up."""
    assert far.post(f"/handovers/{handover.pk}/call-off/", {"why": WHY}).status_code == 404
    assert far.post(f"/handovers/{handover.pk}/take-up/").status_code == 404
