"""Reading any sheet against its form: every fault collected, every missing figure named.

This serves the build sheet and just as well a car or load sheet: describe it as a ``Section``, call ``read_file``, look
across the figures and add to ``faults``, call ``stop``, and then put the frozen result together with ``sure``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TypeVar

from firstpitch.sheet import source
from firstpitch.sheet.errors import quoted
from firstpitch.sheet.faults import Faults, counted_as, either, nearest
from firstpitch.sheet.form import ID, Listing, Part, Row, Section, Value
from firstpitch.sheet.source import ListNode, MapNode, Node, Scalar
from firstpitch.sheet.types import FactSpec, FactValue, Quantity
from firstpitch.sheet.values import ValueFault, example, is_unknown, read_value

Found = TypeVar("Found")


def sure(found: Found | None) -> Found:
    """A required figure. Raises ValueError when it is missing, which after ``stop`` is a programmer's mistake."""
    if found is None:
        raise ValueError("a required figure was not read; call stop() before putting the sheet together")
    return found


@dataclass(frozen=True)
class RowReading:
    """A row of quantities with its dotted field and line."""

    at: str
    begins: int
    figures: tuple[Quantity, ...]

    @property
    def si(self) -> tuple[float, ...]:
        """The figures in SI."""
        return tuple(figure.si for figure in self.figures)


@dataclass(frozen=True)
class Reading:
    """What was found in one section. ``at`` is its dotted field, ``begins`` its line.

    Each accessor gives None for what is missing or at fault.
    """

    at: str
    begins: int
    found: Mapping[str, object]
    lines: Mapping[str, int]

    def line(self, name: str) -> int:
        """The line of a key, or of the section where the key is missing."""
        return self.lines.get(name, self.begins)

    def field(self, name: str) -> str:
        """The dotted field of a key."""
        return f"{self.at}.{name}" if self.at else name

    def quantity(self, name: str) -> Quantity | None:
        """A quantity as written, with its SI figure."""
        found = self.found.get(name)
        return found if isinstance(found, Quantity) else None

    def si(self, name: str) -> float | None:
        """A quantity in SI."""
        found = self.quantity(name)
        return found.si if found else None

    def count(self, name: str) -> int | None:
        """A whole number."""
        found = self.found.get(name)
        return found if isinstance(found, int) and not isinstance(found, bool) else None

    def text(self, name: str) -> str | None:
        """A text or a choice."""
        found = self.found.get(name)
        return found if isinstance(found, str) else None

    def yes(self, name: str) -> bool | None:
        """A yes or no."""
        found = self.found.get(name)
        return found if isinstance(found, bool) else None

    def day(self, name: str) -> date | None:
        """A date."""
        found = self.found.get(name)
        return found if isinstance(found, date) else None

    def row(self, name: str) -> tuple[float, ...] | None:
        """A row of quantities in SI, whole or not at all."""
        found = self.found.get(name)
        return found.si if isinstance(found, RowReading) else None

    def section(self, name: str) -> Reading:
        """A section; empty where it is missing."""
        found = self.found.get(name)
        return found if isinstance(found, Reading) else Reading(self.field(name), self.begins, {}, {})

    def rows(self, name: str) -> tuple[RowReading, ...]:
        """The readable rows of a list of rows."""
        found = self.found.get(name)
        return tuple(r for r in found if isinstance(r, RowReading)) if isinstance(found, tuple) else ()

    def sections(self, name: str) -> tuple[Reading, ...]:
        """The sections of a list of sections."""
        found = self.found.get(name)
        return tuple(r for r in found if isinstance(r, Reading)) if isinstance(found, tuple) else ()

    def free(self, name: str) -> MapNode | None:
        """Keys that were handed on unread."""
        found = self.found.get(name)
        return found if isinstance(found, MapNode) else None


@dataclass
class Draft:
    """A sheet half read: ``top`` its figures, ``faults`` what is wrong so far, ``unknown`` the dotted fields that are missing."""

    faults: Faults
    today: date
    unknown: list[str] = field(default_factory=list)
    top: Reading = field(default_factory=lambda: Reading("", 1, {}, {}))

    def stop(self) -> None:
        """Raise SheetError if anything is wrong."""
        self.faults.stop()

    def value(self, node: Node, spec: FactSpec, at: str) -> FactValue | None:
        """The value at ``node``, or None with ``at`` noted as unknown or at fault."""
        if not isinstance(node, Scalar):
            self._wrong_shape(node, at, f"one value; write for example {quoted(example(spec))}")
            return None
        if is_unknown(node, spec):
            self.unknown.append(at)
            return None
        try:
            return read_value(node, spec, self.today)
        except ValueFault as fault:
            self.faults.add(node.line, at, str(fault))
            return None

    def _wrong_shape(self, node: Node, at: str, wanted: str) -> None:
        found = "a list stands" if isinstance(node, ListNode) else "a set of keys stands"
        if isinstance(node, Scalar):
            found = "nothing stands" if node.empty else f"{quoted(node.text)} stands"
        self.faults.add(node.line, at, f"{found} here, but this is {wanted}")

    def section(self, node: Node | None, form: Section, at: str, line: int) -> Reading:
        """One section. ``node`` None: it is missing, and each of its values with it."""
        if node is not None and not isinstance(node, MapNode) and not (isinstance(node, Scalar) and node.empty):
            keys = either(part.name for part in form.parts)
            self._wrong_shape(node, at, f"a set of keys ({keys}); write each on a line of its own")
            return Reading(at, node.line, {}, {})
        entries = node.entries if isinstance(node, MapNode) else {}
        begins = min((entry.line for entry in entries.values()), default=line)
        reading = Reading(at, begins, found := {}, {key: entry.line for key, entry in entries.items()})
        names = [part.name for part in form.parts]
        for key, entry in entries.items():
            if key not in names:
                sentence = f"there is no key {quoted(key)} here{nearest(key, names)}; the keys are {either(names, 40)}"
                self.faults.add(entry.line, at, sentence)
        for part in form.parts:
            held = entries.get(part.name)
            found[part.name] = self._part(held.node if held else None, part, reading)
        return reading

    def _part(self, node: Node | None, part: Part, within: Reading) -> object:
        at, line = within.field(part.name), within.line(part.name)
        if isinstance(node, Scalar) and node.empty:
            node = None
        if node is None and part.required:
            self.faults.add(line, at, f"this is missing; {_how(part)}")
            return None
        if isinstance(part, Value):
            return self._value(node, part, at)
        if isinstance(part, Section):
            return self.section(node, part, at, line)
        if node is None:
            return None
        if isinstance(part, Row):
            return self.row(node, part, at)
        if isinstance(part, Listing):
            return self._listing(node, part, at)
        if not isinstance(node, MapNode):
            self._wrong_shape(node, at, f"a set of keys: {part.what}")
            return None
        return node

    def _value(self, node: Node | None, part: Value, at: str) -> FactValue | None:
        before = len(self.unknown)
        if node is None:
            self.unknown.append(at)
            found = None
        else:
            found = self.value(node, part.spec, at)
        open_left = len(self.unknown) > before
        if open_left and (part.required or not part.reported):
            self.unknown.pop()
        if open_left and part.required and node is not None:
            self.faults.add(node.line, at, f"this is left open, but a sheet needs it; {_how(part)}")
        if isinstance(found, str) and part.pattern and node is not None:
            return self._formed(found, part, at, node.line)
        return found

    def _formed(self, found: str, part: Value, at: str, line: int) -> str | None:
        if re.fullmatch(part.pattern, found):
            return found
        self.faults.add(line, at, f"{quoted(found)} is not of the right form; write {part.allowed}")
        return None

    def row(self, node: Node, form: Row, at: str) -> RowReading | None:
        """A row of quantities, or None if any of them is at fault."""
        wanted = f"{', '.join(form.parts)}; write for example {_row_example(form)}"
        if not isinstance(node, ListNode):
            self._wrong_shape(node, at, f"a row in square brackets: {wanted}")
            return None
        few, many = len(form.parts), form.longest
        if not few <= len(node.items) <= many:
            counted = f"{few}" if few == many else f"{few} to {many}"
            self.faults.add(
                node.line, at, f"the row has {counted_as(len(node.items), 'figure')} instead of {counted}: {wanted}"
            )
            return None
        figures = [
            self._figure(item, form, f"{at} ({name})") for item, name in zip(node.items, _names(form), strict=False)
        ]
        whole = tuple(figure for figure in figures if figure is not None)
        return RowReading(at, node.line, whole) if len(whole) == len(node.items) else None

    def _figure(self, node: Node, form: Row, at: str) -> Quantity | None:
        spec = FactSpec(form.name, form.what, "quantity", form.unit, "must", (), *form.bounds)
        if isinstance(node, Scalar) and is_unknown(node, spec):
            self.faults.add(
                node.line, at, f"this is left open, but a row must be whole; write for example {_row_example(form)}"
            )
            return None
        found = self.value(node, spec, at)
        return found if isinstance(found, Quantity) else None

    def _listing(self, node: Node, form: Listing, at: str) -> tuple[object, ...]:
        if not isinstance(node, ListNode):
            self._wrong_shape(node, at, "a list; begin each of its lines with “- ”")
            return ()
        if not form.least <= len(node.items) <= form.most:
            sentence = f"the list has {counted_as(len(node.items), 'entry', 'entries')}; it must have from {form.least} to {form.most}"
            self.faults.add(node.line, at, sentence)
        items = list(enumerate(node.items[: form.most], 1))
        if isinstance(form.each, Row):
            return tuple(self.row(item, form.each, f"{at} {n}") for n, item in items)
        return tuple(self.section(item, form.each, _item_name(item, at, n), item.line) for n, item in items)


def _names(form: Row) -> list[str]:
    return [*form.parts, *[form.parts[-1]] * (form.longest - len(form.parts))]


def _row_example(form: Row) -> str:
    return f"“[{', '.join(f'{n} {form.unit}' for n, _ in enumerate(form.parts, 1))}]”"


def _item_name(node: Node, at: str, number: int) -> str:
    held = node.entries.get("id") if isinstance(node, MapNode) else None
    name = held.node.text.strip() if held and isinstance(held.node, Scalar) else ""
    return f"{at}.{name}" if re.fullmatch(ID, name) else f"{at} {number}"


def _how(part: Part) -> str:
    if isinstance(part, Value) and part.allowed:
        return f"write the {part.spec.what}: {part.allowed}"
    if isinstance(part, Value) and part.spec.type == "text":
        return f"write the {part.spec.what}"
    if isinstance(part, Value):
        return f"write the {part.spec.what}, for example {quoted(f'{part.name}: {example(part.spec)}')}"
    if isinstance(part, Row):
        return f"write the {part.what}, for example “{part.name}: {_row_example(part)[1:-1]}”"
    return f"write {quoted(part.name + ':')} and below it: {part.what}"


def read_text(text: str, form: Section, today: date, file: str) -> Draft:
    """A sheet given as text. ``file`` is what messages call it. Raises SheetError when it is no single YAML mapping."""
    faults = Faults(file)
    return read_tree(source.tree(text, faults), form, today, faults)


def read_tree(top: MapNode, form: Section, today: date, faults: Faults) -> Draft:
    """A sheet given as a tree, whatever it was made from; ``faults`` may hold some already."""
    draft = Draft(faults, today)
    draft.top = draft.section(top, form, "", 1)
    return draft


def read_file(path: Path | str, form: Section, today: date) -> Draft:
    """A sheet file. Raises SheetError when it cannot be read or is no single YAML mapping."""
    draft = Draft(Faults(str(path)), today)
    draft.top = draft.section(source.load(path, draft.faults), form, "", 1)
    return draft
