"""Whether a step or a condition belongs to the van of a handover, also one of a sheet that has been changed since a tablet fetched it."""

from __future__ import annotations

from collections.abc import Iterator

from firstpitch.catalogue.types import Condition, Kind
from firstpitch.desk.inputs import OpenVan, open_text, open_van
from firstpitch.desk.models import Handover
from firstpitch.sheet import SheetError

_VAN = "van"


def step_known(handover: Handover, step: str) -> bool:
    """Whether the van has, or had under an earlier version of its sheet, this step in some mode of a round."""
    kit, _, name = step.rpartition(".")
    return any(spec.id == name for kind in _kinds_of(handover, kit) for spec in kind.steps)


def condition_known(handover: Handover, condition: str, value: str) -> str:
    """Why this condition cannot have this value on the van; nothing where it can."""
    kit, _, name = condition.rpartition(".")
    found: Condition | None = None
    for kind in _kinds_of(handover, kit):
        found = kind.conditions.get(name) or found
        if found and value in found.values:
            return ""
    if found is None:
        return f"This van has nothing called “{condition}”."
    return f"“{found.what}” is never “{value}”; it can be {', '.join(found.values)}."


def _kinds_of(handover: Handover, kit: str) -> Iterator[Kind]:
    """The kinds that a kit id of this van stands for or stood for, the present one first."""
    opened = open_van(handover.van)
    if kit == _VAN:
        yield opened.catalogue.kinds[_VAN]
        return
    yield from _named(opened, kit)
    for text in handover.van.sheets_before.order_by("-version").values_list("text", flat=True):
        try:
            yield from _named(open_text(handover.van.branch, text), kit)
        except SheetError:
            continue


def _named(opened: OpenVan, kit: str) -> Iterator[Kind]:
    return (opened.catalogue.kinds[k.kind] for k in opened.sheet.kit if k.id == kit)
