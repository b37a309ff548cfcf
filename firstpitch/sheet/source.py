"""From a file to a tree of plain texts with line numbers. Nothing is guessed: ``010``, ``yes`` and dates stay what is written.

What a text means is for the field to say that holds it. So YAML's own guesses (booleans, octal numbers, dates) never come in.
"""

from __future__ import annotations

import re
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from firstpitch.sheet.errors import SheetError, quoted
from firstpitch.sheet.faults import Faults

if TYPE_CHECKING:
    from ruamel.yaml.events import Event

MOST_BYTES = 5_000_000
MOST_VALUES = 100_000
MOST_DEPTH = 12
NULLS = frozenset({"", "~", "null", "Null", "NULL"})
_NOT_YAML = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Scalar:
    """One value as written. ``plain`` is whether it stands without quotes; an empty plain one is a value left open."""

    text: str
    line: int
    plain: bool = True

    @property
    def empty(self) -> bool:
        """Whether nothing is given: left empty, ``~`` or ``null``."""
        return self.plain and self.text in NULLS


@dataclass(frozen=True)
class ListNode:
    """A list, with the line it begins on."""

    items: tuple[Node, ...]
    line: int


@dataclass(frozen=True)
class Entry:
    """What stands under a key; ``line`` is the key's."""

    node: Node
    line: int


@dataclass(frozen=True)
class MapNode:
    """Keys with what stands under them, in file order."""

    entries: Mapping[str, Entry]
    line: int


Node = Scalar | ListNode | MapNode


def load(path: Path | str, faults: Faults) -> MapNode:
    """The tree of a sheet file; repeated keys go to ``faults``, and whatever makes the file unreadable raises SheetError.

    At most ``MOST_BYTES`` (looked at before reading), ``MOST_VALUES`` values and ``MOST_DEPTH`` levels.
    """
    return tree(decoded(_bytes(Path(path), faults.file), faults.file), faults)


def _bytes(path: Path, file: str) -> bytes:
    try:
        state = path.stat()
    except (FileNotFoundError, NotADirectoryError):
        raise SheetError(f"{file}: there is no such file; check the name and the folder.") from None
    except (OSError, ValueError) as fault:
        raise SheetError(f"{file}: the file cannot be reached ({_reason(fault)}); check the name.") from None
    if stat.S_ISDIR(state.st_mode):
        raise SheetError(f"{file}: this is a folder; name the sheet file in it.")
    if not stat.S_ISREG(state.st_mode):
        raise SheetError(f"{file}: this is not an ordinary file; save the sheet as a file and name that.")
    if state.st_size > MOST_BYTES:
        raise SheetError(
            f"{file}: the file has {state.st_size:,} bytes, but a sheet has at most {MOST_BYTES:,}; check that it is the right file."
        )
    try:
        with path.open("rb") as stream:
            return stream.read(MOST_BYTES)
    except OSError as fault:
        raise SheetError(f"{file}: the file cannot be read ({_reason(fault)}); check who may read it.") from None


def _reason(fault: Exception) -> str:
    return (getattr(fault, "strerror", None) or str(fault)).lower()


def decoded(raw: bytes, file: str) -> str:
    """The text of a sheet file of at most ``MOST_BYTES``; ``file`` is what messages call it. Raises SheetError when it is no plain text."""
    if len(raw) > MOST_BYTES:
        raise SheetError(
            f"{file}: it has {len(raw):,} bytes, but a sheet has at most {MOST_BYTES:,}; check that it is the right file."
        )
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise SheetError(f"{file}, line 1: the file is in UTF-16; save it as UTF-8.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        at = fault.start + (3 if raw.startswith(b"\xef\xbb\xbf") else 0)
        line = raw[:at].count(b"\n") + 1
        raise SheetError(
            f"{file}, line {line}: byte 0x{raw[at]:02X} (number {at + 1:,} in the file) is not UTF-8 text; save the file as UTF-8."
        ) from None
    odd = _NOT_YAML.search(text)
    if odd:
        line = text.count("\n", 0, odd.start()) + 1
        raise SheetError(f"{file}, line {line}: the hidden character U+{ord(odd[0]):04X} stands here; delete it.")
    return text


def tree(text: str, faults: Faults) -> MapNode:
    """The tree of a sheet given as text. Raises SheetError when it is no single YAML mapping of plain values."""
    if not text.strip():
        raise SheetError(f"{faults.file}: the file is empty; start it with the line “firstpitch: 1”.")
    top = _Builder(faults).build(_events(text, faults.file))
    if top is None or (isinstance(top, Scalar) and top.empty):
        raise SheetError(f"{faults.file}: the file holds only remarks; start it with the line “firstpitch: 1”.")
    if not isinstance(top, MapNode):
        found = "a list" if isinstance(top, ListNode) else f"the text {quoted(top.text)}"
        raise SheetError(
            f"{faults.file}, line {top.line}: {found} stands here, but a sheet is a set of keys, such as “van:” and “masses:”."
        )
    return top


def _events(text: str, file: str) -> Iterator[Event]:
    from ruamel.yaml import YAML

    stream: Iterator[Any] = YAML(typ="safe", pure=True).parse(text)
    while True:
        try:
            event = next(stream, None)
        except Exception as fault:  # the library raises kinds of its own and, on odd input, built-in ones too
            raise SheetError(_syntax(fault, text, file)) from None
        if event is None:
            return
        yield event


def _syntax(fault: Exception, text: str, file: str) -> str:
    mark = getattr(fault, "problem_mark", None) or getattr(fault, "context_mark", None)
    if mark is None:
        return f"{file}: this is not YAML; check the indentation, colons and quotation marks."
    lines = text.splitlines()
    at = min(mark.line, len(lines) - 1)
    if "\t" in lines[at][: mark.column + 1]:
        return f"{file}, line {at + 1}: a tab stands here; indent with spaces."
    found = f", at {quoted(lines[at])}," if lines[at].strip() else ""
    begun = getattr(fault, "context_mark", None)
    again = (
        f" (what begins on line {begun.line + 1} may not be closed)" if begun is not None and begun.line < at else ""
    )
    return (
        f"{file}, line {at + 1}: this is not YAML{found} column {mark.column + 1}{again}; "
        "check the indentation, colons and quotation marks of this line and the one above."
    )


class _Open:
    """A list or mapping whose end has not come yet."""

    def __init__(self, line: int, is_map: bool) -> None:
        self.line, self.is_map = line, is_map
        self.items: list[Node] = []
        self.entries: dict[str, Entry] = {}
        self.key: Scalar | None = None


class _Builder:
    """Puts the tree together from events, without recursion, and refuses what a sheet has no use for."""

    def __init__(self, faults: Faults) -> None:
        self.faults = faults
        self.stack: list[_Open] = []
        self.top: Node | None = None
        self.values = 0
        self.documents = 0

    def build(self, events: Iterator[Event]) -> Node | None:
        from ruamel.yaml import events as kinds

        for event in events:
            line = event.start_mark.line + 1
            if isinstance(event, kinds.DocumentStartEvent):
                self._document(line)
            elif isinstance(event, kinds.NodeEvent):
                self._plain_only(event, line)
            if isinstance(event, kinds.ScalarEvent):
                self._add(Scalar(event.value, line, plain=not event.style))
            elif isinstance(event, kinds.CollectionStartEvent):
                self._open(line, is_map=isinstance(event, kinds.MappingStartEvent))
            elif isinstance(event, kinds.CollectionEndEvent):
                self._close()
        return self.top

    def _refuse(self, line: int, sentence: str) -> SheetError:
        return SheetError(f"{self.faults.file}, line {line}: {sentence}.")

    def _document(self, line: int) -> None:
        self.documents += 1
        if self.documents > 1:
            raise self._refuse(
                line, "a second document begins here (“---”), but a sheet is one; put it in a file of its own"
            )

    def _plain_only(self, event: Any, line: int) -> None:
        self.values += 1
        if self.values > MOST_VALUES:
            raise self._refuse(line, f"the sheet has more than {MOST_VALUES:,} values; check that it is the right file")
        if event.anchor is not None:
            sentence = f"the anchor or alias {quoted(event.anchor)} (“&” or “*”) is used, which a sheet may not have"
            raise self._refuse(line, f"{sentence}; write the value out in full, or put it in quotation marks")
        tag = getattr(event, "tag", None)
        if tag is not None:
            sentence = f"the tag {quoted(tag)} (“!”) is used, which a sheet may not have"
            raise self._refuse(line, f"{sentence}; delete it, or put the value in quotation marks")

    def _open(self, line: int, *, is_map: bool) -> None:
        if len(self.stack) >= MOST_DEPTH:
            raise self._refuse(
                line, f"values are nested more than {MOST_DEPTH} deep; check the indentation and brackets"
            )
        if self.stack and self.stack[-1].is_map and self.stack[-1].key is None:
            raise self._refuse(
                line, "a list or a set of keys stands where a key must be; write a plain word and a colon"
            )
        self.stack.append(_Open(line, is_map))

    def _close(self) -> None:
        done = self.stack.pop()
        if done.is_map:
            self._add(MapNode(MappingProxyType(done.entries), done.line))
        else:
            self._add(ListNode(tuple(done.items), done.line))

    def _add(self, node: Node) -> None:
        if not self.stack:
            self.top = node
            return
        inner = self.stack[-1]
        if not inner.is_map:
            inner.items.append(node)
        elif inner.key is None and isinstance(node, Scalar):
            inner.key = node
        elif inner.key is not None:
            self._put(inner, inner.key, node)
            inner.key = None

    def _field(self) -> str:
        parts: list[str] = []
        for level in self.stack:
            if level.key is not None:
                parts.append(quoted(level.key.text)[1:-1])
            elif not level.is_map and parts:
                parts[-1] += f" {len(level.items) + 1}"
        return ".".join(parts)

    def _put(self, inner: _Open, key: Scalar, node: Node) -> None:
        first = inner.entries.get(key.text)
        if first is None:
            inner.entries[key.text] = Entry(node, key.line)
        else:
            sentence = f"the key {quoted(key.text)} stands twice, first on line {first.line}; keep one of them"
            self.faults.add(key.line, self._field(), sentence)
