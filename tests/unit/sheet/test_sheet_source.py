"""What the reader says about files that are no sheet at all, and that nothing but SheetError ever comes out."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from firstpitch.sheet import SheetError, read_sheet, read_sheet_text
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.source import MOST_BYTES, MOST_VALUES, ListNode, MapNode, Scalar, tree

from .conftest import GOOD, KINDS, TODAY, faults_of


def said(path: Path) -> str:
    """The sentence for a file, with the folder taken off."""
    with pytest.raises(SheetError) as fault:
        read_sheet(path, KINDS, today=TODAY)
    return str(fault.value).replace(str(path), path.name)


def test_missing_file(tmp_path: Path) -> None:
    """A file that is not there is told as such, also where a folder on the way is a file."""
    assert said(tmp_path / "van.yaml") == "van.yaml: there is no such file; check the name and the folder."
    (tmp_path / "a").write_text("")
    assert said(tmp_path / "a" / "van.yaml") == "van.yaml: there is no such file; check the name and the folder."


def test_folder(tmp_path: Path) -> None:
    """A folder is not a sheet."""
    assert said(tmp_path) == f"{tmp_path.name}: this is a folder; name the sheet file in it."


def test_pipe_or_device(tmp_path: Path) -> None:
    """A pipe, which might never end, is refused without waiting for it."""
    os.mkfifo(tmp_path / "pipe")
    assert said(tmp_path / "pipe") == "pipe: this is not an ordinary file; save the sheet as a file and name that."


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_unreadable_file(tmp_path: Path) -> None:
    """A file that may not be read is told as such."""
    path = tmp_path / "van.yaml"
    path.write_text(GOOD, "utf-8")
    path.chmod(0)
    assert said(path) == "van.yaml: the file cannot be read (permission denied); check who may read it."


def test_unreachable_name(tmp_path: Path) -> None:
    """A name that no file can have is refused with the reason."""
    name = "a" * 300
    assert said(tmp_path / name) == f"{name}: the file cannot be reached (file name too long); check the name."


def test_file_of_50_megabytes(tmp_path: Path) -> None:
    """A file of 50 MB is refused by its size, before any of it is read."""
    path = tmp_path / "van.yaml"
    with path.open("wb") as stream:
        stream.truncate(50_000_000)
    assert said(path) == (
        "van.yaml: the file has 50,000,000 bytes, but a sheet has at most 5,000,000; check that it is the right file."
    )


@pytest.mark.parametrize(
    ("raw", "sentence"),
    [
        (
            b"a: 1\nb: caf\xe9\n",
            "van.yaml, line 2: byte 0xE9 (number 12 in the file) is not UTF-8 text; save the file as UTF-8.",
        ),
        (
            b"\xef\xbb\xbfa: \xff",
            "van.yaml, line 1: byte 0xFF (number 7 in the file) is not UTF-8 text; save the file as UTF-8.",
        ),
        ("a: 1".encode("utf-16"), "van.yaml, line 1: the file is in UTF-16; save it as UTF-8."),
        (b"a: 1\nb: \x07\n", "van.yaml, line 2: the hidden character U+0007 stands here; delete it."),
        (b"a: 1\n\x00\n", "van.yaml, line 2: the hidden character U+0000 stands here; delete it."),
    ],
)
def test_not_text(tmp_path: Path, raw: bytes, sentence: str) -> None:
    """A file that is not UTF-8 text is refused with the line and the byte."""
    path = tmp_path / "van.yaml"
    path.write_bytes(raw)
    assert said(path) == sentence


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "van.yaml: the file is empty; start it with the line “firstpitch: 1”."),
        ("# a remark\n", "van.yaml: the file holds only remarks; start it with the line “firstpitch: 1”."),
        ("- a\n", "van.yaml, line 1: a list stands here, but a sheet is a set of keys, such as “van:” and “masses:”."),
        (
            "van\n",
            "van.yaml, line 1: the text “van” stands here, but a sheet is a set of keys, such as “van:” and “masses:”.",
        ),
        ("a: 1\n\tb: 2\n", "van.yaml, line 2: a tab stands here; indent with spaces."),
        (
            "a: 1\nb: c: d\n",
            "van.yaml, line 2: this is not YAML, at “b: c: d”, column 5; "
            "check the indentation, colons and quotation marks of this line and the one above.",
        ),
        (
            "a:\n  b: 1\n c: 2\n",
            "van.yaml, line 3: this is not YAML, at “c: 2”, column 2 (what begins on line 1 may not be closed); "
            "check the indentation, colons and quotation marks of this line and the one above.",
        ),
        (
            "at: [1 m,\n  2 m\nb: 1\n",
            "van.yaml, line 3: this is not YAML, at “b: 1”, column 2 (what begins on line 1 may not be closed); "
            "check the indentation, colons and quotation marks of this line and the one above.",
        ),
        (
            "firstpitch: 1\n---\nfirstpitch: 1\n",
            "van.yaml, line 2: a second document begins here (“---”), but a sheet is one; put it in a file of its own.",
        ),
        (
            "? [a]\n: 1\n",
            "van.yaml, line 1: a list or a set of keys stands where a key must be; write a plain word and a colon.",
        ),
        (
            "a: !!python/object:os.system 1\n",
            "van.yaml, line 1: the tag “tag:yaml.org,2002:python/object:os.system” (“!”) is used, "
            "which a sheet may not have; delete it, or put the value in quotation marks.",
        ),
        (
            "a: &x 1\nb: *x\n",
            "van.yaml, line 1: the anchor or alias “x” (“&” or “*”) is used, "
            "which a sheet may not have; write the value out in full, or put it in quotation marks.",
        ),
    ],
)
def test_not_a_sheet(text: str, sentence: str) -> None:
    """Text that is no single plain YAML mapping is refused with the line and what to do."""
    assert faults_of(text) == [sentence]


def test_bomb_of_aliases() -> None:
    """A small file that aliases would blow up to a thousand million values is refused at its first anchor."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 10)]
    assert faults_of("\n".join(lines)) == [
        "van.yaml, line 1: the anchor or alias “a0” (“&” or “*”) is used, "
        "which a sheet may not have; write the value out in full, or put it in quotation marks."
    ]


@pytest.mark.parametrize(
    "text", ["[" * 4_000_000, "a: " + "{a: " * 100_000, "- " * 100_000, "a:\n" * 1 + " - " * 50_000]
)
def test_deep_nesting(text: str) -> None:
    """A file nested a million deep is refused, without running out of stack."""
    assert faults_of(text) == [
        "van.yaml, line 1: values are nested more than 12 deep; check the indentation and brackets."
        if not text.startswith("a:\n")
        else "van.yaml, line 2: values are nested more than 12 deep; check the indentation and brackets."
    ]


def test_too_many_values() -> None:
    """A file within the size but with more values than any van is refused."""
    text = "a: [" + "1," * MOST_VALUES + "]"
    assert len(text) < MOST_BYTES
    assert faults_of(text) == [
        "van.yaml, line 1: the sheet has more than 100,000 values; check that it is the right file."
    ]


def test_tree_keeps_text_and_lines() -> None:
    """YAML's own guesses stay out: octal, yes, dates and numbers are the texts that were written, each with its line."""
    top = tree("a: 010\nb: [yes, 2026-05-01]\nc:\n  d: 1e3\n  e: ~\n  f: '~'\n", Faults("van.yaml"))
    assert top.entries["a"].node == Scalar("010", 1)
    assert top.entries["b"].node == ListNode((Scalar("yes", 2), Scalar("2026-05-01", 2)), 2)
    inner = top.entries["c"].node
    assert isinstance(inner, MapNode)
    assert inner.entries["d"].node == Scalar("1e3", 4)
    assert [key for key, entry in inner.entries.items() if isinstance(entry.node, Scalar) and entry.node.empty] == ["e"]


@given(st.binary(max_size=400))
@example(b"\xff\xfe")
@example(b"%YAML 9.9\n---\na: 1")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bytes(tmp_path: Path, raw: bytes) -> None:
    """Whatever bytes a file holds, it is refused with sentences and never with anything else."""
    path = tmp_path / "van.yaml"
    path.write_bytes(raw)
    with pytest.raises(SheetError) as fault:
        read_sheet(path, KINDS, today=TODAY)
    assert all(sentence.startswith(str(path)) and sentence.endswith(".") for sentence in fault.value.faults)


YAML_BITS = st.sampled_from(
    [
        *"abk:-?[]{},#&*!|>'\"%@`~ \n\t",
        "\n  ",
        "\n- ",
        ": ",
        "van:",
        "kit:\n",
        "- id: a\n",
        "1 kg",
        "!!",
        "---\n",
        "...\n",
        "<<",
    ]
)


@given(st.lists(YAML_BITS, max_size=60).map("".join))
@example('a: "\\U99999999"')
@example('"\\x')
@example("a: !<tag:yaml.org,2002:int> x")
@example("%TAG ! x\n---\na: !y z")
@settings(max_examples=400)
def test_any_yaml_like_text(text: str) -> None:
    """Whatever is made of YAML's own signs is refused with sentences and never with anything else."""
    with pytest.raises(SheetError):
        read_sheet_text(text, KINDS, today=TODAY)


@given(st.data())
@settings(max_examples=200, deadline=None)
def test_any_slip_in_a_good_sheet(data: st.DataObject) -> None:
    """A few letters changed anywhere in a good sheet give either a sheet or sentences, never anything else."""
    start = data.draw(st.integers(0, len(GOOD)))
    length = data.draw(st.integers(0, 12))
    put: Callable[..., st.SearchStrategy[str]] = st.text
    text = GOOD[:start] + data.draw(put(max_size=6) | YAML_BITS) + GOOD[start + length :]
    for sentence in faults_of(text):
        assert sentence.startswith("van.yaml")
        assert "\n" not in sentence
        assert sentence.endswith(".")
