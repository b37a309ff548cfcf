"""Taking a van in: from a sheet file, a workbook, a kit list, or a van like it."""

from __future__ import annotations

import io
from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from openpyxl import load_workbook

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Event, Person, Van
from firstpitch.sheet import read_sheet_text
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.fill_tables import filled_tables
from firstpitch.sheet.kit_list import write_kit_list
from firstpitch.sheet.source import tree
from firstpitch.sheet.workbook import write_workbook

KINDS = load().kinds
WREN = sheets()["wren"].read_text("utf-8")
FILE = "/vans/new/file/"


def sheet_file(text: str = WREN) -> SimpleUploadedFile:
    """A sheet as a file."""
    return SimpleUploadedFile("van.yaml", text.encode())


def workbook(text: str = WREN, *, mtplm: str = "") -> SimpleUploadedFile:
    """A van as a workbook, with its MTPLM written over where one is given."""
    data = write_workbook(KINDS, filled_tables(tree(text, Faults("x")), KINDS))
    if mtplm:
        book = load_workbook(io.BytesIO(data))
        next(row for row in book["van"].iter_rows() if row[3].value == "masses.mtplm")[1].value = mtplm
        out = io.BytesIO()
        book.save(out)
        data = out.getvalue()
    return SimpleUploadedFile("van.xlsx", data)


def test_sheet_file_is_taken_in(own: Client, specialist: Person) -> None:
    """A good sheet file becomes a van of the branch, letter by letter as sent, and the history tells who took it in."""
    answer = own.post(FILE, {"file": sheet_file(), "stock": "T7", "sheet": ""})
    van = Van.objects.get()
    assert answer.headers["Location"] == f"/vans/{van.pk}/"
    assert (van.sheet, van.stock_number, van.name) == (WREN, "T7", "Wren")
    assert Event.objects.get(what="van.added").by == specialist


def test_sheet_pasted(own: Client) -> None:
    """A sheet pasted as text is taken in as well."""
    own.post(FILE, {"sheet": WREN, "stock": ""})
    assert Van.objects.get().name == "Wren"


def test_every_fault_of_a_sheet_file_is_shown(own: Client) -> None:
    """Every fault is shown with its line, the text stands below to be put right, and nothing is taken in."""
    wrong = (
        WREN.replace("miro: 1020 kg", "miro: heavy")
        .replace("kind: hitch", "kind: hich")
        .replace("berths: 2", "berths: x")
    )
    answer = own.post(FILE, {"file": sheet_file(wrong), "stock": "T7", "sheet": ""})
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "3 things are wrong, so nothing was taken in" in text
    for words in ("line 15, masses.miro", "“hich”", "kind: hich", 'value="T7"'):
        assert words in text
    assert not Van.objects.exists()


def test_workbook_is_taken_in(own: Client) -> None:
    """A workbook becomes the same van as the sheet it was made from."""
    own.post(FILE, {"file": workbook(), "stock": "", "sheet": ""})
    again = read_sheet_text(Van.objects.get().sheet, KINDS, today=date.max)
    assert again == read_sheet_text(WREN, KINDS, today=date.max)


def test_fault_of_a_workbook_is_shown_at_its_cell(own: Client) -> None:
    """A fault of a workbook is shown with sheet and cell, and nothing is taken in."""
    answer = own.post(FILE, {"file": workbook(mtplm="heavy"), "stock": "", "sheet": ""})
    text = answer.content.decode()
    assert "sheet “van”, cell B10" in text
    assert "“heavy” is not a number with a unit" in text
    assert not Van.objects.exists()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "this is missing|nothing in it|empty"),
        (b"\xff\xfe\x00", "UTF-16"),
        (b"\x80abc", "not UTF-8"),
        (b"PK\x03\x04rest", "not a workbook"),
        (b"\xd0\xcf\x11\xe0rest", "of the old sort"),
        (b"just words", "a sheet is a set of keys"),
        (b"a: &x 1\nb: *x\n", "anchor or alias"),
        (b"x" * (11 * 1024 * 1024), "11,534,336 bytes"),
    ],
    ids=["empty", "utf-16", "latin", "zip", "old", "words", "anchor", "large"],
)
def test_files_that_are_no_sheet(own: Client, content: bytes, words: str) -> None:
    """Whatever else is sent is refused in a sentence, and nothing is taken in."""
    answer = own.post(FILE, {"file": SimpleUploadedFile("van.yaml", content), "stock": "", "sheet": ""})
    text = answer.content.decode()
    assert answer.status_code == 422
    assert any(word in text for word in words.split("|")), text
    assert not Van.objects.exists()


def test_template_is_for_the_kinds_of_the_branch(own: Client) -> None:
    """The empty workbook lists every kind of the branch and has no van in it."""
    answer = own.get("/vans/new/build-sheet.xlsx")
    book = load_workbook(io.BytesIO(answer.content))
    assert {row[0].value for row in book["kinds"].iter_rows(min_row=2)} == set(KINDS) - {"van"}
    assert all(row[1].value is None for row in book["van"].iter_rows(min_row=2))


@pytest.mark.parametrize("name", ["sheet.yaml", "sheet.xlsx", "kit.csv"])
def test_sheet_taken_away(own: Client, far: Client, van: Van, name: str) -> None:
    """A van's sheet can be taken away as a file; nobody of another branch gets it."""
    answer = own.get(f"/vans/{van.pk}/{name}")
    assert answer.status_code == 200
    assert "attachment" in answer.headers["Content-Disposition"]
    assert far.get(f"/vans/{van.pk}/{name}").status_code == 404


def similar(**more: object) -> dict[str, object]:
    """What is asked of a van like another, filled in."""
    return {
        "value:van.name": "Wren the second",
        "value:van.chassis_number": "DEM0WREN226000018",
        "value:van.model_year": "2026",
        "value:van.built": "2026-05-04",
        "value:masses.miro": "1015",
        "value:masses.mtplm": "1200 kg",
        "value:masses.noseweight_limit": "",
        "value:masses.axle_limit": "",
        "stock": "T8",
        **more,
    }


def test_van_like_another(own: Client, van: Van) -> None:
    """A van like another has its fittings, its own plate as typed, and leaves open what was not typed or belongs to one van."""
    own.post(f"/vans/{van.pk}/similar/", similar())
    new = Van.objects.exclude(pk=van.pk).get()
    sheet, old = open_van(new).sheet, open_van(van).sheet
    assert (new.name, new.chassis_number, new.stock_number) == ("Wren the second", "DEM0WREN226000018", "T8")
    assert (sheet.masses.miro, sheet.masses.noseweight_limit, sheet.masses.measured_mass) == (1015.0, None, None)
    assert (sheet.plan, len(sheet.kit)) == (old.plan, len(old.kit))
    assert sheet.gear.tyre.date_code is None
    assert new.lacks["must"] > van.lacks["must"]


def test_van_like_another_with_faults(own: Client, van: Van) -> None:
    """What is wrong is said beside its field, what was typed stays, and nothing is taken in."""
    sent = similar(**{"value:masses.miro": "light", "value:van.chassis_number": "SHORT", "value:van.name": ""})
    answer = own.post(f"/vans/{van.pk}/similar/", sent)
    text = answer.content.decode()
    assert answer.status_code == 422
    for words in ("“light” is not a number with a unit", "“SHORT” is not of the right form", 'value="light"'):
        assert words in text
    assert text.count('aria-invalid="true"') == 3
    assert Van.objects.count() == 1


def test_van_like_another_with_kit_of_its_own(own: Client, van: Van) -> None:
    """A kit list sent along takes the place of the other van's kit; its faults name line and column."""
    text = write_kit_list(tree(WREN, Faults("x")), KINDS)
    lines = [line for line in text.splitlines(keepends=True) if not line.startswith("blinds,")]
    sent = SimpleUploadedFile("kit.csv", "".join(lines).encode())
    wrong = SimpleUploadedFile("kit.csv", text.replace("hitch,hitch,", "hitch,hich,", 1).encode())
    answer = own.post(f"/vans/{van.pk}/similar/", similar(kit_list=wrong))
    assert answer.status_code == 422
    assert "line 2, column “kind”" in answer.content.decode()
    own.post(f"/vans/{van.pk}/similar/", similar(kit_list=sent))
    new = Van.objects.exclude(pk=van.pk).get()
    assert {kit.id for kit in open_van(van).sheet.kit} - {kit.id for kit in open_van(new).sheet.kit} == {"blinds"}


def test_van_like_one_of_another_branch(far: Client, van: Van) -> None:
    """A van of another branch cannot be taken as the example."""
    assert far.get(f"/vans/{van.pk}/similar/").status_code == 404
    assert far.post(f"/vans/{van.pk}/similar/", similar()).status_code == 404
    assert Van.objects.count() == 1


def test_new_van_for_a_handover(own: Client) -> None:
    """Whoever wanted to add a handover for a new van comes back to it once the van is taken in."""
    answer = own.post(FILE, {"sheet": WREN, "stock": "", "then": "handover"})
    assert answer.headers["Location"] == f"/handovers/new/?van={Van.objects.get().pk}"


def test_list_of_vans(own: Client, far: Client, van: Van) -> None:
    """The list finds vans by name, stock and chassis number, and only those of the branch."""
    Van.objects.filter(pk=van.pk).update(stock_number="T123")
    for search in ("", "wre", "t12", van.chassis_number[-5:].lower()):
        assert "Wren" in own.get(f"/vans/?q={search}").content.decode(), search
    assert "No van here is called" in own.get("/vans/?q=heron").content.decode()
    assert "Wren" not in far.get("/vans/").content.decode()
