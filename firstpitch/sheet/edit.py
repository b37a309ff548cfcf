"""Writing one figure into a sheet file as it stands: remarks, order and spacing of everything else stay as they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from firstpitch.sheet.errors import SheetError, quoted
from firstpitch.sheet.source import NULLS
from firstpitch.sheet.write import written

_DEEPER = "  "


@dataclass(frozen=True)
class _Change:
    """Put ``text`` in place of what stands from ``start`` to ``end``."""

    start: int
    end: int
    text: str


def set_value(text: str, field: str, value: str) -> str:
    """The sheet ``text`` with ``value`` at the dotted ``field``, as ``BuildSheet.unknown`` names fields; nothing leaves it open.

    Things in lists are named by their id: ``kit.battery.facts.fuse``. Keys that are missing on the way are added. Whether the
    value is right is for the reader to say. Raises SheetError where the sheet has no such place.

    >>> print(set_value("masses:\\n  miro: 1020 kg # weighed\\nkit: []\\n", "masses.axle_limit", "1200 kg"), end="")
    masses:
      miro: 1020 kg # weighed
      axle_limit: 1200 kg
    kit: []
    """
    from ruamel.yaml import YAML

    top = YAML(typ="safe", pure=True).compose(text)
    change = _change(text, top, field, field.split("."), " ".join(value.split()))
    return text[: change.start] + change.text + text[change.end :]


def _change(text: str, node: Any, field: str, path: list[str], value: str) -> _Change:
    from ruamel.yaml import nodes

    behind = 0  # where the value of the last key begins: behind its colon
    while path:
        if isinstance(node, nodes.SequenceNode):
            node, path = _item(node, path[0], field), path[1:]
        elif isinstance(node, nodes.MappingNode):
            found = next(((key, inner) for key, inner in node.value if key.value == path[0]), None)
            if found is None:
                return _add(text, node, path, value)
            node, path, behind = found[1], path[1:], _behind(text, found[0])
        elif isinstance(node, nodes.ScalarNode) and not node.style and node.value in NULLS:
            end = behind if _empty(node) else node.end_mark.index
            return _open_up(text, behind, end, path, value)
        else:
            raise _no_place(field)
    if not isinstance(node, nodes.ScalarNode):
        raise _no_place(field)
    return _replace(text, node, behind, value)


def _behind(text: str, key: Any) -> int:
    return text.index(":", key.end_mark.index) + 1


def _empty(node: Any) -> bool:
    """Whether nothing at all stands there; the library's marks of such a node may lie lines below."""
    return node.value == "" and not node.style


def _no_place(field: str) -> SheetError:
    return SheetError(f"the sheet: it has no place for {quoted(field)}; write the figure into the file by hand.")


def _item(node: Any, name: str, field: str) -> Any:
    from ruamel.yaml import nodes

    for item in node.value:
        pairs = item.value if isinstance(item, nodes.MappingNode) else ()
        if any(key.value == "id" and inner.value == name for key, inner in pairs):
            return item
    raise _no_place(field)


def _replace(text: str, node: Any, behind: int, value: str) -> _Change:
    new = written(value)
    if _empty(node):
        return _Change(behind, behind, f" {new}" if new else "")
    start, end = node.start_mark.index, node.end_mark.index
    if node.style in ("|", ">"):
        end = len(text[:end].rstrip())
    return _Change(start if new else len(text[:start].rstrip(" ")), end, new)


def _nested(path: list[str], value: str, indent: str) -> str:
    lines = [f"{indent}{_DEEPER * i}{written(key)}:" for i, key in enumerate(path)]
    return "\n".join(lines) + f" {written(value)}".rstrip()


def _in_brackets(path: list[str], value: str) -> str:
    inner = f"{written(path[-1])}: {written(value)}".rstrip()
    for key in reversed(path[:-1]):
        inner = f"{written(key)}: {{{inner}}}"
    return inner


def _add(text: str, node: Any, path: list[str], value: str) -> _Change:
    """The change that adds keys at the end of a mapping."""
    if node.flow_style:
        end = len(text[: node.end_mark.index - 1].rstrip())
        before = "" if text[end - 1] in "{," else ","
        gap = " " if node.value else ""
        return _Change(end, end, f"{before}{gap}{_in_brackets(path, value)}")
    indent = " " * node.value[0][0].start_mark.column
    place = _end_of_line(text, _last_end(text, node))
    return _Change(place, place, f"\n{_nested(path, value, indent)}")


def _open_up(text: str, behind: int, end: int, path: list[str], value: str) -> _Change:
    """The change that puts keys where a value was left open (``facts:`` with nothing behind it, or ``~`` up to ``end``)."""
    head = text[text.rfind("\n", 0, behind) + 1 : behind]
    if "{" in head or "[" in head:
        return _Change(behind, end, f" {{{_in_brackets(path, value)}}}")
    key = head.replace("- ", "  ")
    indent = " " * (len(key) - len(key.lstrip())) + _DEEPER
    place = _end_of_line(text, end)
    return _Change(behind, place, f"{text[end:place]}\n{_nested(path, value, indent)}")


def _last_end(text: str, node: Any) -> int:
    """Where the last value inside a node really ends; a block's own end lies past the remarks behind it."""
    behind = node.end_mark.index
    while hasattr(node, "flow_style") and not node.flow_style and node.value:
        last = node.value[-1]
        if isinstance(last, tuple):
            behind, node = _behind(text, last[0]), last[1]
        else:
            behind, node = last.start_mark.index, last
    return int(behind if not hasattr(node, "flow_style") and _empty(node) else node.end_mark.index)


def _end_of_line(text: str, place: int) -> int:
    place = len(text[:place].rstrip())
    end = text.find("\n", place)
    end = len(text) if end < 0 else end
    return end - 1 if text[end - 1 : end] == "\r" else end
