"""The record of a handover from its rows: the kept one once it is signed, else as it stands now."""

from __future__ import annotations

from typing import Any

from firstpitch.desk.disputes import SEEN
from firstpitch.desk.inputs import problem_of
from firstpitch.desk.live_events import EVENTS
from firstpitch.desk.models import Event, Handover
from firstpitch.desk.record_data import About, record_of
from firstpitch.desk.snags import SNAG_EVENTS, snags_of


def record_now(handover: Handover) -> dict[str, Any]:
    """What would be signed at this moment."""
    told = Event.objects.filter(handover=handover, what__in=[*EVENTS, SEEN]).select_related("by")
    of_van = Event.objects.filter(van=handover.van_id, what__in=SNAG_EVENTS).select_related("by")
    return record_of(_about(handover), problem_of(handover), list(told), snags_of(of_van))


def record_kept(handover: Handover) -> dict[str, Any]:
    """The signed record, or what would be signed at this moment."""
    return dict(handover.record) if handover.record is not None else record_now(handover)


def _about(handover: Handover) -> About:
    van = handover.van
    return About(
        van=van.name,
        chassis_number=van.chassis_number,
        stock_number=van.stock_number,
        sheet_version=van.version,
        dealership=van.branch.name,
        telephone=van.branch.telephone,
        owner=handover.owner_name,
        specialist=handover.specialist.shown_name if handover.specialist else "",
        due=handover.due,
        plan=handover.plan,
    )
