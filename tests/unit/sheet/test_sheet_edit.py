"""Writing one figure into a sheet file as it stands."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.sheet import SheetError, read_sheet_text
from firstpitch.sheet.edit import set_value
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.source import Entry, ListNode, MapNode, Node, Scalar, tree
from firstpitch.sheet.write import write_tree

if TYPE_CHECKING:
    from collections.abc import Iterator

TODAY = date(2026, 11, 25)
TEXTS = {name: file.read_text("utf-8") for name, file in sheets().items()}


def leaves(node: Node, at: str = "") -> Iterator[tuple[str, str]]:
    """Every value of a tree that ``set_value`` can name, with its field."""
    if isinstance(node, MapNode):
        for key, entry in node.entries.items():
            yield from leaves(entry.node, f"{at}.{key}" if at else key)
    elif isinstance(node, ListNode):
        for item in node.items:
            held = item.entries.get("id") if isinstance(item, MapNode) else None
            if held and isinstance(held.node, Scalar):
                yield from leaves(item, f"{at}.{held.node.text}")
    elif not at.endswith((".id",)):
        yield at, node.text


def plain(node: Node) -> object:
    """A tree without line numbers."""
    if isinstance(node, MapNode):
        return {key: plain(entry.node) for key, entry in node.entries.items()}
    if isinstance(node, ListNode):
        return [plain(item) for item in node.items]
    return None if node.empty else node.text


@pytest.mark.parametrize("name", list(TEXTS))
def test_set_value_same(name: str) -> None:
    """Writing a figure that stands there already changes nothing but, at most, its quotation marks."""
    text = TEXTS[name]
    fields = list(leaves(tree(text, Faults("x"))))
    for field, value in fields[:: len(fields) // 12]:
        assert plain(tree(set_value(text, field, value), Faults("x"))) == plain(tree(text, Faults("x")))


@pytest.mark.parametrize("name", list(TEXTS))
def test_set_value_one_line(name: str) -> None:
    """A new figure changes the one line it stands on, and every other line keeps its letters."""
    text = TEXTS[name]
    before = text.splitlines()
    fields = [field for field, _ in leaves(tree(text, Faults("x")))]
    for field in fields[:: len(fields) // 12]:
        after = set_value(text, field, "made: up").splitlines()
        assert len(after) == len(before)
        assert sum(a != b for a, b in zip(before, after, strict=True)) == 1


def test_set_value_unknown_read() -> None:
    """Each figure that a sheet leaves unknown is known after it was written in, and the rest reads as before."""
    kinds = load().kinds
    sheet = read_sheet_text(TEXTS["plover"], kinds, today=TODAY)
    values = {"plan.lockers.under-bed-rear.limit": "25 kg", "kit.gas-regulator.facts.hose_date": "2026-02-03"}
    for field, value in values.items():
        assert field in sheet.unknown
        read = read_sheet_text(set_value(TEXTS["plover"], field, value), kinds, today=TODAY)
        assert set(read.unknown) == set(sheet.unknown) - {field}


CASES = {
    "missing key, remark behind": (
        "a:\n  b: 1 # x\n  # y\n\nc: 2\n",
        "a.d",
        "3 l",
        "a:\n  b: 1 # x\n  d: 3 l\n  # y\n\nc: 2\n",
    ),
    "left open": ("a:\n  b:\n  c: 1\n", "a.b", "3 l", "a:\n  b: 3 l\n  c: 1\n"),
    "left open, remark": ("a:\n  b: # ask\n", "a.b", "3 l", "a:\n  b: 3 l # ask\n"),
    "said unknown": ("a: unknown\n", "a", "3 l", "a: 3 l\n"),
    "in quotation marks": ("a: '3 l'\n", "a", "4 l", "a: 4 l\n"),
    "clear": ("a: 3 l # x\n", "a", "", "a: # x\n"),
    "in braces": ("a: {b: 1}\n", "a.c", "2, kg", 'a: {b: 1, c: "2, kg"}\n'),
    "empty braces": ("a: {}\n", "a.c.d", "2 kg", "a: {c: {d: 2 kg}}\n"),
    "keys behind an empty key": (
        "k:\n- id: x\n  f: # no\n- id: y\n",
        "k.x.f.q",
        "3",
        "k:\n- id: x\n  f: # no\n    q: 3\n- id: y\n",
    ),
    "keys behind a tilde": ("k:\n- id: x\n  f: ~\n- id: y\n", "k.x.f.q", "3", "k:\n- id: x\n  f:\n    q: 3\n- id: y\n"),
    "last line without an end": ("k:\n- id: x", "k.x.f.q", "3", "k:\n- id: x\n  f:\n    q: 3"),
    "lines of another system": ("a:\r\n  b: 1\r\nc: 2\r\n", "a.z", "9", "a:\r\n  b: 1\n  z: 9\r\nc: 2\r\n"),
    "long text": ("a: |\n  long\n  text\n\nb: 1\n", "a", "short", "a: short\n\nb: 1\n"),
    "letters beyond ASCII": ("n: Łódź\na:\n  b: é\n", "a.b", "°", "n: Łódź\na:\n  b: °\n"),
}


@pytest.mark.parametrize("case", list(CASES))
def test_set_value_case(case: str) -> None:
    """Remarks, order, blank lines and brackets stay as they are wherever a figure is written in."""
    text, field, value, wanted = CASES[case]
    assert set_value(text, field, value) == wanted


@pytest.mark.parametrize("field", ["kit.nothing.facts.x", "masses.miro.more", "plan.aisle.1"])
def test_set_value_no_place(field: str) -> None:
    """A field that the sheet has no place for is refused in one sentence."""
    with pytest.raises(SheetError, match="it has no place for"):
        set_value(TEXTS["wren"], field, "1 kg")


@pytest.mark.parametrize("name", list(TEXTS))
def test_write_tree_reads_same(name: str) -> None:
    """A sheet written from its tree reads as the very same van."""
    kinds = load().kinds
    again = write_tree(tree(TEXTS[name], Faults("x")))
    assert read_sheet_text(again, kinds, today=TODAY) == read_sheet_text(TEXTS[name], kinds, today=TODAY)


words = st.text(
    st.characters(exclude_categories=("Cs", "Cc", "Cn", "Zl", "Zp"), exclude_characters="\ufeff"), max_size=12
)
values = st.builds(Scalar, words.filter(lambda t: t not in ("~", "null", "Null", "NULL")), st.just(1), st.just(False))
keys = st.from_regex(r"[a-z][a-z_]{0,8}", fullmatch=True)
trees = st.recursive(
    values,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: ListNode(tuple(items), 1)),
        st.dictionaries(keys, inner.map(lambda node: Entry(node, 1)), min_size=1, max_size=3).map(
            lambda entries: MapNode(entries, 1)
        ),
    ),
    max_leaves=8,
)


@given(st.dictionaries(keys, trees.map(lambda node: Entry(node, 1)), min_size=1, max_size=4))
def test_write_tree_round_trip(entries: dict[str, Entry]) -> None:
    """Whatever a tree holds, its file reads back as the same tree."""
    top = MapNode(entries, 1)
    assert plain(tree(write_tree(top), Faults("x"))) == plain(top)
