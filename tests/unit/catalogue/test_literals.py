"""The short lines of a kind file read back as written."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.catalogue.literals import LiteralFault, parse_needed, parse_ref, write
from firstpitch.catalogue.types import Needed, Ref, SupplyRef

_NAMES = st.from_regex(re.compile(r"[a-z][a-z0-9]{0,5}(_[a-z0-9]{1,4}){0,2}", re.ASCII), fullmatch=True)
_VALUES = st.from_regex(re.compile(r"[a-z0-9]{1,6}(-[a-z0-9]{1,4}){0,2}", re.ASCII), fullmatch=True)
_LINKS = _NAMES.filter(lambda name: name not in ("self", "van"))
_LISTS = st.lists(_VALUES, min_size=1, max_size=4, unique=True).map(tuple)
_PLAIN = st.builds(Ref, st.one_of(st.just("self"), st.just("van"), _NAMES), _NAMES, _LISTS)
_OPTIONAL = st.builds(Ref, _LINKS, _NAMES, _LISTS, st.just(True))
_BLANKS = st.sampled_from(["", " ", "  ", "\t"])


@given(st.one_of(_PLAIN, _OPTIONAL, st.builds(SupplyRef, _VALUES)))
def test_a_line_reads_back_as_written(line: Needed) -> None:
    """Any condition line or supply line, written out, reads back as the same line."""
    assert parse_needed(write(line)) == line


@given(_PLAIN, _BLANKS, _BLANKS, _BLANKS)
def test_blanks_do_not_matter(line: Ref, before: str, middle: str, after: str) -> None:
    """Blanks round the line, the equals sign and the bars make no difference."""
    values = f"{middle}|{after}".join(line.values)
    assert parse_ref(f"{before}{line.owner}.{line.name}{middle}={after}{values}{before}") == line


@given(st.text(max_size=40))
def test_any_other_text_is_a_fault_of_its_own(text: str) -> None:
    """Any text at all either reads as a line that writes back to itself or is told as a fault, never anything else."""
    try:
        line = parse_needed(text)
    except LiteralFault:
        return
    assert parse_needed(write(line)) == line


@pytest.mark.parametrize(
    "text",
    [
        "",
        "self",
        "self.flame",
        "self.flame = ",
        "flame = lit",
        "self.flame == lit",
        "a.b.c = d",
        "self.flame = lit|",
        "self.a = b, c",
    ],
)
def test_a_half_line_is_refused(text: str) -> None:
    """A line without its owner, condition or value, or with too much of them, is refused."""
    with pytest.raises(LiteralFault, match=re.escape(f"“{text}”") if text else "does not read"):
        parse_ref(text)
