"""A build sheet as a workbook and its kit as a CSV file: what is written reads back, and every fault stands at its cell."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date

import pytest
from openpyxl import Workbook, load_workbook

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.sheet import SheetError, read_sheet_text
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.fill_tables import filled_tables
from firstpitch.sheet.kit_list import with_kit_list, write_kit_list
from firstpitch.sheet.read import read_sheet_tree
from firstpitch.sheet.similar import OWN, similar_tree
from firstpitch.sheet.source import MapNode, tree
from firstpitch.sheet.tables import Places, columns, listings, van_fields
from firstpitch.sheet.workbook import MOST_UNPACKED, read_workbook, write_workbook
from firstpitch.sheet.write import write_tree

TODAY = date(2026, 11, 25)
KINDS = load().kinds
TEXTS = {name: file.read_text("utf-8") for name, file in sheets().items()}


def tree_of(name: str) -> MapNode:
    """A demo van's tree."""
    return tree(TEXTS[name], Faults("x"))


def workbook_of(name: str = "wren") -> bytes:
    """A demo van as a workbook."""
    return write_workbook(KINDS, filled_tables(tree_of(name), KINDS))


def changed(change: Callable[[Workbook], object], name: str = "wren") -> bytes:
    """A demo van's workbook with something changed by hand."""
    book = load_workbook(io.BytesIO(workbook_of(name)))
    change(book)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def faults_of(data: bytes) -> list[str]:
    """What is wrong with a workbook."""
    with pytest.raises(SheetError) as wrong:
        read_workbook(data, KINDS, today=TODAY)
    return wrong.value.faults


def van_cell(book: Workbook, field: str) -> object:
    """The cell to write one figure of the van in."""
    page = book["van"]
    row = next(row for row in page.iter_rows() if row[3].value == field)
    return row[1]


@pytest.mark.parametrize("name", list(TEXTS))
def test_workbook_round_trip(name: str) -> None:
    """A van written into a workbook and read back is the very same van."""
    again = read_workbook(workbook_of(name), KINDS, today=TODAY)
    assert read_sheet_text(again, KINDS, today=TODAY) == read_sheet_text(TEXTS[name], KINDS, today=TODAY)


def test_template_has_every_field() -> None:
    """The template asks for every figure and every list that a sheet may hold, and for nothing else."""
    book = load_workbook(io.BytesIO(write_workbook(KINDS)))
    assert [row[3].value for row in book["van"].iter_rows(min_row=2)] == [field.name for field in van_fields()]
    for name in listings():
        assert [cell.value for cell in book[name][1]] == [column.head for column in columns(name)]
    assert {row[0].value for row in book["kinds"].iter_rows(min_row=2)} == set(KINDS) - {"van"}


def test_empty_template() -> None:
    """An empty template names each required figure at its own cell."""
    found = faults_of(write_workbook(KINDS))
    assert any(fault.startswith("sheet “van”, cell B2, van.name: this is missing") for fault in found)
    assert any(fault.startswith("sheet “kit”, line 1, kit: the list has 0 entries") for fault in found)
    assert all(fault.startswith("sheet “") for fault in found)


def test_bare_number_takes_the_unit_beside_it() -> None:
    """A plain number under a column with a unit is read in that unit; with a unit of its own it keeps that."""

    def change(book: Workbook) -> None:
        van_cell(book, "masses.miro").value = 1020
        van_cell(book, "body.length").value = "460 cm"
        van_cell(book, "running_gear.tyre.pressure").value = "39 psi"

    again = read_sheet_text(read_workbook(changed(change), KINDS, today=TODAY), KINDS, today=TODAY)
    assert (again.masses.miro, again.body.length) == (1020.0, pytest.approx(4.6))
    assert again.gear.tyre.pressure == read_sheet_text(TEXTS["wren"], KINDS, today=TODAY).gear.tyre.pressure


def test_every_fault_at_its_cell() -> None:
    """All faults of all sheets are told at once, each at its cell, and nothing is read."""

    def change(book: Workbook) -> None:
        van_cell(book, "masses.mtplm").value = "heavy"
        book["kit"]["B3"].value = "road_plugg"
        book["lockers"]["J2"].value = "perhaps"
        book["facts"].append(["nobody", "capacity", "3 l"])
        book["aisle"]["A3"].value = None

    found = faults_of(changed(change))
    starts = (
        "sheet “van”, cell B10, masses.mtplm: ",
        "sheet “kit”, cell B3, kit.road-plug.kind: there is no kind “road_plugg” (did you mean “road_plug”?)",
        "sheet “lockers”, cell J2, plan.lockers.gas-locker.inside: “perhaps” is neither yes nor no",
        "sheet “facts”, cell A",
        "sheet “aisle”, cell A3, ",
    )
    for start in starts:
        assert sum(fault.startswith(start) for fault in found) == 1, start
    assert len(found) == len(starts)


def test_formula_is_text() -> None:
    """A formula is never worked out: its text is read and found wrong."""

    def change(book: Workbook) -> None:
        van_cell(book, "masses.mtplm").value = "=1000+200"

    assert "“=1000+200” is not a number with a unit" in faults_of(changed(change))[0]


def test_written_text_never_a_formula() -> None:
    """A name that begins like a formula is written as text and reads back."""
    text = TEXTS["wren"].replace("  name: Wren\n", '  name: "=1+1"\n')
    data = write_workbook(KINDS, filled_tables(tree(text, Faults("x")), KINDS))
    assert read_sheet_text(read_workbook(data, KINDS, today=TODAY), KINDS, today=TODAY).identity.name == "=1+1"


def test_unknown_sheet_column_and_missing_ones() -> None:
    """A sheet or column that does not belong, and one that is missing, are told by name."""

    def change(book: Workbook) -> None:
        book["lockers"].title = "locker"
        book["kit"]["H1"].value = "colour"

    found = " ".join(faults_of(changed(change)))
    assert "sheet “locker”: there is no such sheet (did you mean “lockers”?)" in found
    assert "sheet “lockers”: this sheet is missing" in found
    assert "sheet “kit”, cell H1: there is no column “colour”" in found


def packed(parts: dict[str, bytes]) -> bytes:
    """A zip file with these parts added to a good workbook's."""
    out = io.BytesIO(workbook_of())
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as box:
        for name, data in parts.items():
            box.writestr(name, data)
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"firstpitch: 1\n", "this is not a workbook"),
        (b"PK\x03\x04 but no more", "this is not a workbook"),
        (b"\xd0\xcf\x11\xe0" + bytes(600), "of the old sort"),
        (bytes(11 * 1024 * 1024), "it has 11,534,336 bytes"),
        (packed({"xl/vbaProject.bin": b"x"}), "it holds macros"),
        (packed({"xl/big.xml": bytes(MOST_UNPACKED + 1)}), "unpacked it is larger than 20 MB"),
        (packed({"xl/odd.xml": b"<?xml version='1.0'?><!DOCTYPE a>"}), "it holds a document type"),
    ],
    ids=["text", "cut off", "old", "large", "macros", "bomb", "entities"],
)
def test_refused_before_opening(data: bytes, words: str) -> None:
    """What is no plain workbook of bearable size is refused in one sentence that says what to do."""
    found = faults_of(data)
    assert len(found) == 1
    assert words in found[0]


def test_zip_of_something_else() -> None:
    """A zip file that is no workbook is refused in one sentence."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as box:
        box.writestr("a.txt", "hello")
    assert faults_of(out.getvalue()) == [
        "the workbook: this workbook cannot be opened; copy the figures into a new template."
    ]


@pytest.mark.parametrize("name", list(TEXTS))
def test_kit_list_round_trip(name: str) -> None:
    """The kit of a van as CSV, read back into the same van, changes nothing."""
    places, faults = Places(), Faults("the kit list")
    data = write_kit_list(tree_of(name), KINDS).encode()
    top = with_kit_list(data, tree_of(name), KINDS, places, faults)
    again = read_sheet_tree(top, KINDS, today=TODAY, faults=faults)
    assert again.kit == read_sheet_text(TEXTS[name], KINDS, today=TODAY).kit


def kit_list_faults(data: bytes) -> list[str]:
    """What is wrong with a kit list for the demo van wren."""
    places, faults = Places(), Faults("the kit list")
    with pytest.raises(SheetError) as wrong:
        read_sheet_tree(with_kit_list(data, tree_of("wren"), KINDS, places, faults), KINDS, today=TODAY, faults=faults)
    return [places.said(fault, "the kit list") for fault in wrong.value.faults]


def test_kit_list_faults() -> None:
    """Each fault of a kit list is told with its line and the head of its column."""
    text = write_kit_list(tree_of("wren"), KINDS).lstrip("\ufeff")
    text = text.replace("hitch,hitch,", "hitch,hich,", 1).replace(
        "handbrake,handbrake,Handbrake,0.50 m", "handbrake,handbrake,Handbrake,0.5 kg", 1
    )
    found = kit_list_faults(text.encode())
    assert found[0].startswith("line 2, column “kind”, kit.hitch.kind: there is no kind “hich”")
    assert found[1].startswith("line 5, column “at: x from the towball [m]”, kit.handbrake.at")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "nothing in it"),
        ("id,kind\nté,x\n".encode("latin-1"), "not UTF-8"),
        (b"id,kind,colour\n", "there is no column “colour”"),
        (b"id\n" * 1200, "more than 1,000 lines"),
        (b'id,kind\n"unclosed', "not a CSV file"),
    ],
    ids=["empty", "letters", "column", "long", "quotes"],
)
def test_kit_list_refused(data: bytes, words: str) -> None:
    """What is no kit list is refused with a sentence that says why."""
    assert words in " ".join(kit_list_faults(data))


def test_kit_list_semicolons() -> None:
    """A list written with semicolons, as spreadsheets of some countries do, reads the same."""
    heads = [column.head for column in columns("kit")]
    rows = [["hitch", "hitch", "Hitch", "0.1", "0", "0.45 m", ""]]
    text = "\n".join(";".join(row) for row in [heads, *rows])
    places, faults = Places(), Faults("x")
    top = with_kit_list(text.encode(), tree_of("wren"), KINDS, places, faults)
    kit = read_sheet_tree(top, KINDS, today=TODAY, faults=faults).kit
    assert [(one.id, one.x, one.z) for one in kit] == [("hitch", 0.1, 0.45)]


def test_similar_van_carries_nothing_of_its_own() -> None:
    """A sheet made from that of a van like it keeps fittings and leaves open what was plated, weighed, stamped or dated on that van."""
    said = {"van.name": "Wren the second", "masses.miro": "1015 kg", "masses.mtplm": "1200 kg"}
    new = read_sheet_text(write_tree(similar_tree(tree_of("wren"), KINDS, said)), KINDS, today=TODAY)
    old = read_sheet_text(TEXTS["wren"], KINDS, today=TODAY)
    assert (new.body, new.plan, len(new.kit)) == (old.body, old.plan, len(old.kit))
    assert (new.identity.name, new.masses.miro) == ("Wren the second", 1015.0)
    assert not any(isinstance(value, date) for kit in new.kit for value in kit.facts.values())
    left_open = set(OWN) - set(said)
    assert left_open <= set(new.unknown)
    assert new.masses.measured_noseweight is None
