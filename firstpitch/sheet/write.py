"""From a tree of plain texts to a sheet file that reads back as the same tree."""

from __future__ import annotations

import json
import re

from firstpitch.sheet.source import NULLS, ListNode, MapNode, Node, Scalar

# Text that YAML takes as it stands, inside a row in square brackets too. Anything else is put in quotation marks.
_PLAIN = re.compile(r"[0-9A-Za-zÀ-ɏ+.°−](?:[\w .()°²³·µΩ%+/−–;'’-]*[\w.()°²³Ω%])?")


def written(text: str) -> str:
    """One value as it stands in a file; nothing for a value left open.

    >>> written("10 l"), written("a: b"), written("")
    ('10 l', '"a: b"', '')
    """
    if text == "":
        return ""
    if _PLAIN.fullmatch(text) and text not in NULLS and not text.startswith("..."):
        return text
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\x7F")


def write_tree(top: MapNode) -> str:
    """The file of a tree: keys on lines of their own, rows of values in square brackets."""
    return "\n".join(_map(top, "")) + "\n"


def _map(node: MapNode, indent: str) -> list[str]:
    lines: list[str] = []
    for key, entry in node.entries.items():
        head = f"{indent}{written(key)}:"
        held = entry.node
        if isinstance(held, Scalar):
            lines.append(f"{head} {_scalar(held)}".rstrip())
        elif isinstance(held, ListNode):
            lines += [f"{head} {_row(held)}"] if _is_row(held) else [head, *_list(held, indent + "  ")]
        else:
            lines += [head, *_map(held, indent + "  ")] if held.entries else [f"{head} {{}}"]
    return lines


def _list(node: ListNode, indent: str) -> list[str]:
    lines: list[str] = []
    for item in node.items:
        if isinstance(item, MapNode) and item.entries:
            inner = _map(item, indent + "  ")
            lines += [f"{indent}- {inner[0].lstrip()}", *inner[1:]]
        else:
            lines.append(f"{indent}- {_flow(item)}")
    return lines


def _is_row(node: ListNode) -> bool:
    return all(isinstance(item, Scalar) for item in node.items)


def _row(node: ListNode) -> str:
    return f"[{', '.join(_flow(item) for item in node.items)}]"


def _flow(node: Node) -> str:
    if isinstance(node, Scalar):
        return _scalar(node) or "~"
    if isinstance(node, ListNode):
        return _row(node)
    return f"{{{', '.join(f'{written(key)}: {_flow(entry.node)}' for key, entry in node.entries.items())}}}"


def _scalar(node: Scalar) -> str:
    """An empty text in quotation marks is a text, a value left open is nothing."""
    if node.empty:
        return ""
    return written(node.text) or '""'
