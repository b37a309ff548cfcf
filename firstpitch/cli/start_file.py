"""A start state: one of the two names, or a YAML file that says how the van stands."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

NAMES = ("from-store", "on-hook-up")


def read_start(start: str) -> tuple[str, Mapping[str, str]]:
    """The named start a state is based on, and the conditions that differ.

    A file holds ``based_on: from-store`` (or ``on-hook-up``) and ``conditions:`` with a line per condition, such as
    ``water-heater.water: full``. Raises SheetError with one sentence for each fault.
    """
    if start in NAMES:
        return start, {}
    from firstpitch.sheet.errors import SheetError
    from firstpitch.sheet.faults import nearest
    from firstpitch.sheet.form import Free, Section, choice
    from firstpitch.sheet.reading import read_file
    from firstpitch.sheet.source import Scalar

    if not Path(start).exists() and "." not in start and "/" not in start:
        raise SheetError(
            f"--start: “{start}” is neither a start state nor a file{nearest(start, NAMES)}; give {NAMES[0]}, {NAMES[1]} or a file."
        )
    form = Section(
        "start",
        "how the van stands",
        (
            choice("based_on", "the start state it is based on", NAMES, required=True),
            Free("conditions", "conditions that differ from it", required=True),
        ),
    )
    draft = read_file(start, form, date.max)
    found: dict[str, str] = {}
    conditions = draft.top.free("conditions")
    for name, entry in (conditions.entries if conditions else {}).items():
        if isinstance(entry.node, Scalar) and not entry.node.empty:
            found[name] = entry.node.text
        else:
            draft.faults.add(
                entry.line, f"conditions.{name}", "this is one value, such as “open”; write it after the colon"
            )
    draft.stop()
    return draft.top.text("based_on") or NAMES[0], found
