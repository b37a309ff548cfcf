"""Writes of the live round: what tablets saw, each event with its effect in one transaction, answered for one by one."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from django.db import transaction

from firstpitch.desk.actions.history import Sent, write
from firstpitch.desk.disputes import ABOUT, SEEN, Dispute, disputes
from firstpitch.desk.inputs import problem_of
from firstpitch.desk.known_steps import condition_known, step_known
from firstpitch.desk.live_events import ABOUT_STEPS, FaultyError, Sight, read_event
from firstpitch.desk.models import Event, Handover, Person

Said = Literal["applied", "already", "conflict", "refused"]
_SIGNED = "The record of this handover is signed. Nothing can be added to it; tell whoever signed it."


@dataclass(frozen=True)
class Answer:
    """What becomes of one event. Only these four answers clear it from a tablet's outbox."""

    id: str
    answer: Said
    why: str = ""

    def as_json(self) -> dict[str, str]:
        """As it is sent back."""
        return {"id": self.id, "answer": self.answer, "why": self.why}


def take_events(*, by: Person, handover: Handover, device: str, given: Sequence[Any]) -> list[Answer]:
    """Take a batch in, event by event, in the order of the batch; what is wrong with one does not hold up the others."""
    answers: list[Answer] = []
    for one in given:
        try:
            sight = read_event(one, device)
        except FaultyError as fault:
            named = one.get("id") if isinstance(one, dict) else ""
            answers.append(Answer(str(named), "refused", str(fault)))
            continue
        answers.append(take_event(by=by, handover=handover, sight=sight))
    return answers


@transaction.atomic
def take_event(*, by: Person, handover: Handover, sight: Sight) -> Answer:
    """Take one event in: the event and its effect (a marker where it does not go with another) together, or neither."""
    locked = Handover.objects.select_for_update(of=("self",)).select_related("van__branch").get(pk=handover.pk)
    there = Event.objects.filter(pk=sight.pk).first()
    if there is not None:
        return _again(there, locked, sight)
    if locked.signed:
        return Answer(str(sight.pk), "refused", _SIGNED)
    lacking = _lacking(locked, sight)
    if lacking:
        return Answer(str(sight.pk), "refused", lacking)
    sent = Sent(sight.pk, sight.at, sight.device, sight.number)
    write(by=by, van=locked.van, what=sight.what, data=dict(sight.data), handover=locked, sent=sent)
    found = _new_disputes(locked, sight)
    for dispute in found:
        marker = Sent(dispute.id, sight.at)
        data = {"events": sorted(dispute.events), "why": dispute.why}
        write(by=None, van=locked.van, what=SEEN, data=data, handover=locked, sent=marker)
    mine = [dispute.why for dispute in found if str(sight.pk) in dispute.events]
    return Answer(str(sight.pk), "conflict", " ".join(mine)) if mine else Answer(str(sight.pk), "applied")


def _again(there: Event, handover: Handover, sight: Sight) -> Answer:
    """The answer for an id that is here already."""
    same = (there.handover_id, there.what, there.data, there.device) == (
        handover.pk,
        sight.what,
        dict(sight.data),
        sight.device,
    )
    if same:
        return Answer(str(sight.pk), "already")
    return Answer(str(sight.pk), "refused", "Something else has this id already. Note it again.")


def _lacking(handover: Handover, sight: Sight) -> str:
    """Why an event cannot be applied to this handover; nothing where it can."""
    if sight.what in ABOUT_STEPS and not step_known(handover, sight.step):
        return f"This van has no step “{sight.step}”."
    if sight.what == "state.set":
        return condition_known(handover, str(sight.data["condition"]), str(sight.data["value"]))
    named = {"undone": ["event"], "conflict.settled": ["keeps"], "snag.mended": ["snag"]}.get(sight.what, [])
    missing = [name for name in named if not _is_here(handover, sight.data[name], sight.what)]
    return "It is about something that the desk has not been told of." if missing else ""


def _is_here(handover: Handover, key: str, what: str) -> bool:
    """Whether an event that another one names is here: of this handover, or of this van where it is a snag."""
    mine = Event.objects.filter(van=handover.van, pk=uuid.UUID(key))
    return (mine if what == "snag.mended" else mine.filter(handover=handover)).exists()


def _new_disputes(handover: Handover, sight: Sight) -> list[Dispute]:
    """The disputes that nobody has marked yet."""
    if sight.what not in ABOUT:
        return []
    events = list(Event.objects.filter(handover=handover, what__in=ABOUT))
    if len({event.device for event in events if event.device}) < 2:  # noqa: PLR2004  (it takes two)
        return []
    marked = {event.pk for event in events if event.what == SEEN}
    return [dispute for dispute in disputes(problem_of(handover), events) if dispute.id not in marked]
