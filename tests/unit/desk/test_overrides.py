"""Going on against a warning: who may, and what it leaves behind. The rule is in docs/live-round.md."""

from __future__ import annotations

import json
from typing import Any

import pytest
from django.test import Client

from firstpitch.desk.actions.owner_links import make_link
from firstpitch.desk.models import Branch, Event, Handover, Person, Role
from firstpitch.desk.record_rows import record_kept
from tests.unit.desk.conftest import PASSWORD
from tests.unit.desk.live import Device

HEATER = "water-heater.heat_mains"
OVER = {
    "step": HEATER,
    "guard": "dry",
    "harm": "The element burns out.",
    "reason": "Filled by the workshop this morning.",
}
ROLES = [Role.SPECIALIST, Role.TECHNICIAN, Role.MANAGER]


def tablet_of(handover: Handover, branch: Branch, role: Role, *, second_factor: bool) -> Device:
    """A tablet in the hands of somebody with this role in this branch."""
    person = Person.objects.create_user("pat", password=PASSWORD, role=role, branch=branch, first_name="Pat Lorne")
    Person.objects.filter(pk=person.pk).update(second_factor=second_factor)
    client = Client()
    client.force_login(person)
    session = client.session
    session["second_factor"] = second_factor
    session.save()
    return Device(client, handover)


@pytest.mark.parametrize("second_factor", [False, True], ids=["password", "second factor"])
@pytest.mark.parametrize("role", ROLES)
def test_whoever_presents_may_and_is_named(
    role: Role,
    second_factor: bool,
    handover: Handover,
    branch: Branch,
) -> None:
    """Each role of the own branch goes on with a reason, with or without a second factor; the record has name, harm and reason."""
    tablet = tablet_of(handover, branch, role, second_factor=second_factor)
    tablet.tell("guard.overridden", 10, **OVER)
    tablet.tell("step.done", 11, step=HEATER, tried=False)
    told = record_kept(handover)["overridden"]
    assert [(one["by"], one["harm"], one["reason"]) for one in told] == [("Pat Lorne", OVER["harm"], OVER["reason"])]


@pytest.mark.parametrize("role", ROLES)
def test_nobody_of_another_branch_may(role: Role, handover: Handover, other_branch: Branch) -> None:
    """No role of another branch notes anything on this handover, whatever the second factor."""
    tablet = tablet_of(handover, other_branch, role, second_factor=True)
    assert tablet.post(tablet.event("guard.overridden", 10, **OVER)).status_code == 404
    assert not Event.objects.filter(what="guard.overridden").exists()


def test_owner_and_nobody_may_not(handover: Handover, specialist: Person) -> None:
    """Neither somebody who is not signed in nor an owner with a good link can go on against a warning."""
    secret = make_link(by=specialist, handover=handover).secret
    client = Client()
    assert client.get(f"/owner/{secret}/").status_code == 200
    assert (
        Device(client, handover).post(Device(client, handover).event("guard.overridden", 10, **OVER)).status_code == 401
    )
    assert not Event.objects.filter(what="guard.overridden").exists()


@pytest.mark.parametrize(
    "wrong", [{"reason": ""}, {"reason": "  "}, {"harm": ""}, {"guard": ""}, {"step": "no.such_step"}, {"reason": None}]
)
def test_without_a_reason_it_is_refused(wrong: dict[str, Any], handover: Handover, own: Client) -> None:
    """An override without its reason, its harm, its warning or a step of the van is refused."""
    tablet = Device(own, handover)
    answer, why = tablet.send(tablet.event("guard.overridden", 10, **{**OVER, **wrong}))[0]
    assert answer == "refused"
    assert why


def test_somebody_else_does_not_send_it(handover: Handover, branch: Branch, specialist: Person) -> None:
    """What one person went on with is not taken from another who has signed in on that tablet since."""
    tablet = tablet_of(handover, branch, Role.TECHNICIAN, second_factor=False)
    assert tablet.post(tablet.event("guard.overridden", 10, **OVER), person=specialist.pk).status_code == 409
    assert not Event.objects.filter(what="guard.overridden").exists()


def test_it_can_be_taken_back_but_not_wiped_out(handover: Handover, own: Client) -> None:
    """Taken back, it no longer stands in the record; both events stay in the history."""
    tablet = Device(own, handover)
    over = tablet.tell("guard.overridden", 10, **OVER)
    tablet.tell("undone", 20, event=over["id"])
    assert record_kept(handover)["overridden"] == []
    assert json.loads(json.dumps(Event.objects.get(pk=over["id"]).data)) == OVER
