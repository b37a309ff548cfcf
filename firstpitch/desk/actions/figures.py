"""Filling in single figures of a van's sheet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from firstpitch.desk.actions.vans import edit_sheet
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Person, Van
from firstpitch.sheet import BuildSheet, FirstpitchError, SheetError
from firstpitch.sheet.edit import set_value
from firstpitch.sheet.errors import quoted
from firstpitch.sheet.form import Value
from firstpitch.sheet.source import Scalar
from firstpitch.sheet.unknown import describe, value_of
from firstpitch.sheet.values import ValueFault, is_unknown, read_value

_BARE = re.compile(r"[-+−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)")
_PLACE = re.compile(r"^the sheet, (?:line \d+, )?(?:([a-z][\w.-]*): )?")


class FieldFaults(FirstpitchError):
    """What is wrong with what was typed: a sentence for each dotted field; those of no field of the form stand under nothing."""

    def __init__(self, faults: Mapping[str, str]) -> None:
        self.faults = dict(faults)
        super().__init__(" ".join(faults.values()))


def fill_in(*, by: Person, van: Van, values: Mapping[str, str], today: date, kit: str = "") -> BuildSheet:
    """Write figures (dotted field: as typed) into a van's sheet as it stands now; an empty one is passed over.

    A plain number takes the unit of its field. Raises FieldFaults, and changes nothing, when any of them is wrong.
    """
    try:
        opened = open_van(van)
    except SheetError as wrong:  # the branch's kinds have changed under it
        raise FieldFaults({"": wrong.faults[0]}) from None
    specs: dict[str, Value] = {}
    for field in values:
        try:
            specs[field] = value_of(field, opened.sheet, opened.catalogue.kinds)
        except KeyError:
            raise FieldFaults(
                {"": f"The sheet has no field {quoted(field)} any more; look at the van again."}
            ) from None
    typed = {field: _with_unit(text, specs[field]) for field, text in values.items() if text.strip()}
    faults = {field: found for field, text in typed.items() if (found := _fault(text, specs[field], today))}
    if faults:
        raise FieldFaults(faults)

    def edit(text: str) -> str:
        for field, value in typed.items():
            text = set_value(text, field, value)
        return text

    kinds = opened.catalogue.kinds
    filled = [
        {"field": field, "what": describe(field, opened.sheet, kinds).words, "value": value}
        for field, value in typed.items()
    ]
    try:
        return edit_sheet(by=by, van=van, edit=edit, today=today, data={"filled": filled, "kit": kit})
    except SheetError as wrong:
        raise FieldFaults(_by_field(wrong.faults, set(typed))) from None


def _with_unit(text: str, value: Value) -> str:
    """What was typed, with the unit that stands in the field where it has none.

    >>> from firstpitch.sheet.form import quantity
    >>> _with_unit("12", quantity("limit", "limit", "kg")), _with_unit("39 psi", quantity("p", "p", "bar"))
    ('12 kg', '39 psi')
    """
    plain = " ".join(text.split())
    return f"{plain} {value.spec.unit}" if value.spec.type == "quantity" and _BARE.fullmatch(plain) else plain


def _fault(text: str, value: Value, today: date) -> str:
    node = Scalar(text, 1)
    if is_unknown(node, value.spec):
        return "Write the figure, or leave the field empty."
    try:
        read_value(node, value.spec, today)
    except ValueFault as wrong:
        return f"{wrong}."
    if value.pattern and not re.fullmatch(value.pattern, text):
        return f"{quoted(text)} is not of the right form; write {value.allowed}."
    return ""


def _by_field(sentences: list[str], fields: set[str]) -> dict[str, str]:
    """Faults of the whole sheet sorted to the fields that were typed; the rest goes under the first of none."""
    found: dict[str, str] = {}
    for sentence in sentences:
        place = _PLACE.match(sentence)
        field = place[1] if place and place[1] in fields else ""
        plain = _PLACE.sub("", sentence)
        found[field] = f"{found[field]} {plain}" if field in found else plain
    return found
