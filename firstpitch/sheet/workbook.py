"""A build sheet as a workbook (XLSX): the template, a filled one, and reading one back with every fault at its cell.

A workbook is refused before it is opened when it is not what it seems: macros, other programs' contents, or more unpacked than
a sheet can need. Formulas are never worked out; their text is read as it stands.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from firstpitch.sheet.errors import SheetError, quoted
from firstpitch.sheet.faults import Faults, either, nearest
from firstpitch.sheet.kit import Kinds, fitted_kinds
from firstpitch.sheet.read import read_sheet_tree
from firstpitch.sheet.tables import (
    FIELD,
    MORE_HEADS,
    VAN_HEADS,
    WRITE,
    Cell,
    Filled,
    Line,
    Places,
    columns,
    free_tables,
    listings,
    sheet_tree,
    unit_or_choices,
    van_fields,
)
from firstpitch.sheet.write import write_tree

if TYPE_CHECKING:
    from openpyxl import Workbook

MOST_BYTES = 10 * 1024 * 1024
MOST_UNPACKED = 20 * 1024 * 1024
MOST_PARTS = 500
MOST_LINES = 5000
MOST_COLUMNS = 60
HELP = "kinds"
FILE = "the workbook"
_MACROS = re.compile(r"vbaProject|macrosheets|activeX|oleObject|/embeddings/", re.I)
_OLD = b"\xd0\xcf\x11\xe0"


def read_workbook(data: bytes, kinds: Kinds, *, today: date) -> str:
    """The sheet file (YAML text) that a workbook stands for.

    Raises SheetError with one sentence for each fault, each beginning with the sheet and cell where it stands.
    """
    _look_over(data)
    places, faults = Places(), Faults(FILE)
    try:
        tables, heads = _tables(_opened(data), places, faults)
        top = sheet_tree(tables, heads, kinds, faults)
        read_sheet_tree(top, kinds, today=today, faults=faults)
    except SheetError as wrong:
        raise SheetError([places.said(sentence, FILE) for sentence in wrong.faults]) from None
    return write_tree(top)


def _look_over(data: bytes) -> None:
    if len(data) > MOST_BYTES:
        raise SheetError(f"{FILE}: it has {len(data):,} bytes, but a sheet has at most {MOST_BYTES:,}.")
    if data.startswith(_OLD):
        raise SheetError(
            f"{FILE}: it is locked with a password or of the old sort (.xls); save it as .xlsx without one."
        )
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
                limit = MOST_UNPACKED // (1024 * 1024)
                raise SheetError(
                    f"{FILE}: unpacked it is larger than {limit} MB, which no sheet needs; copy the figures into a new template."
                )
            if any(_MACROS.search(part.filename) for part in parts):
                raise SheetError(f"{FILE}: it holds macros or controls; save it as .xlsx without them.")
            for part in parts:
                if part.filename.endswith((".xml", ".rels")) and b"<!DOCTYPE" in packed.read(part):
                    raise SheetError(f"{FILE}: it holds a document type, which no workbook needs; save it anew.")
    except (zipfile.BadZipFile, zipfile.LargeZipFile, EOFError, OSError, RuntimeError, ValueError, NotImplementedError):
        raise SheetError(f"{FILE}: this is not a workbook; save it as .xlsx and choose that file.") from None


def _opened(data: bytes) -> Workbook:
    import warnings

    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about styles and extensions that a sheet has no use for
            return load_workbook(io.BytesIO(data), read_only=True, data_only=False, keep_links=False)
    except Exception:  # the library raises whatever its parts raise on odd files
        raise SheetError(f"{FILE}: this workbook cannot be opened; copy the figures into a new template.") from None


def _tables(book: Workbook, places: Places, faults: Faults) -> tuple[dict[str, list[Line]], dict[str, int]]:
    wanted = ("van", *listings(), *free_tables())
    tables: dict[str, list[Line]] = {}
    heads: dict[str, int] = {}
    names = {name.strip().lower(): name for name in book.sheetnames}
    for name, shown in names.items():
        if name not in wanted and name != HELP:
            line = places.add(f"sheet {quoted(shown)}")
            faults.add(line, "", f"there is no such sheet{nearest(name, wanted)}; the sheets are {either(wanted)}")
    for name in wanted:
        if name in names:
            tables[name], heads[name] = _table(name, book[names[name]], places, faults)
        elif name not in free_tables():
            line = places.add(f"sheet {quoted(name)}")
            faults.add(line, "", "this sheet is missing; take a new template and copy the figures into it")
    return tables, heads


def _heads(table: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The heads a table must have, and those it may have besides."""
    if table == "van":
        return (WRITE, FIELD), tuple(head for head in VAN_HEADS if head not in (WRITE, FIELD))
    if table in MORE_HEADS:
        return MORE_HEADS[table], ("what it is", "unit or choices")
    return tuple(column.head for column in columns(table)), ()


def _table(table: str, page: Any, places: Places, faults: Faults) -> tuple[list[Line], int]:
    must, may = _heads(table)
    rows = _rows(table, page, places, faults)
    found = next(rows, None)
    top = places.add(f"sheet {quoted(table)}, line 1")
    if found is None:
        faults.add(top, "", f"the heads of the columns are missing; they are {either(must, 20)}")
        return [], top
    at: dict[int, str] = {}
    plain = {_plain(head): head for head in (*must, *may)}
    for number, cell in found.items():
        head = plain.get(_plain(cell.text))
        if head is None and cell.text:
            faults.add(cell.line, "", f"there is no column {quoted(cell.text)}{nearest(cell.text, must)}; delete it")
        elif head in at.values():
            faults.add(cell.line, "", f"the column {quoted(cell.text)} stands twice; keep one of them")
        elif head:
            at[number] = head
    missing = [head for head in must if head not in at.values()]
    if missing:
        faults.add(top, "", f"a column is missing: {either(missing, 20)}")
        return [], top
    lines = ({head: row[number] for number, head in at.items()} for row in rows)
    return [
        line for line in lines if any(line[head].text for head in must if head != FIELD)
    ] if table != "van" else list(lines), top


def _plain(head: str) -> str:
    return " ".join(head.lower().split())


def _rows(table: str, page: Any, places: Places, faults: Faults) -> Iterator[dict[int, Cell]]:
    """The rows of a sheet, each cell by the number of its column; every cell gets its place."""
    from openpyxl.utils import get_column_letter

    width = 0
    page.reset_dimensions()
    for number, row in enumerate(page.iter_rows(max_row=MOST_LINES + 1, values_only=True), 1):
        if number > MOST_LINES:
            line = places.add(f"sheet {quoted(table)}, line {number}")
            faults.add(line, "", f"the sheet has more than {MOST_LINES:,} lines; delete what does not belong")
            return
        values = list(row[:MOST_COLUMNS])
        width = width or len(values)
        values += [None] * (width - len(values))
        cells = {}
        for i, value in enumerate(values):
            place = places.add(f"sheet {quoted(table)}, cell {get_column_letter(i + 1)}{number}")
            cells[i] = Cell(cell_text(value), place)
        yield cells


def cell_text(value: object) -> str:
    """What a cell holds, as a person would write it.

    >>> cell_text(1500.0), cell_text(True), cell_text(datetime(2026, 4, 30)), cell_text(None)
    ('1500', 'yes', '2026-04-30', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, float):
        return f"{value:.12g}"
    return " ".join(str(value).split())


def write_workbook(kinds: Kinds, filled: Filled | None = None) -> bytes:
    """The template, or the workbook of one van. The sheet ``kinds`` lists what may be fitted and is not read back."""
    from openpyxl import Workbook

    filled = filled or Filled()
    book = Workbook()
    book.remove(book.active)
    van = [[f.what, filled.van.get(f.name, ""), f.allowed, f.name] for f in van_fields()]
    _page(book, "van", VAN_HEADS, van, bold={i for i, f in enumerate(van_fields()) if f.required})
    for name in listings():
        heads = tuple(column.head for column in columns(name))
        _page(book, name, heads, [[line.get(head, "") for head in heads] for line in filled.lines.get(name, ())])
    for name in free_tables():
        heads = MORE_HEADS[name]
        _page(book, name, heads, [[line.get(head, "") for head in heads] for line in filled.lines.get(name, ())])
    _page(book, HELP, ("kind", "called", "fact or link", "what it is", "unit or choices", "all kinds"), _help(kinds))
    _choices(book, kinds)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _page(
    book: Workbook, name: str, heads: Sequence[str], rows: Sequence[Sequence[str]], bold: set[int] | None = None
) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    page = book.create_sheet(name)
    page.append(list(heads))
    for cell in page[1]:
        cell.font, cell.alignment = Font(bold=True), Alignment(wrap_text=True, vertical="top")
    for number, row in enumerate(rows, 2):
        for column, text in enumerate(row, 1):
            cell = page.cell(row=number, column=column)
            if text:
                cell.value, cell.data_type = text, "s"  # never a formula
            cell.number_format = "@"
            if bold and number - 2 in bold and column == 1:
                cell.font = Font(bold=True)
    for column in range(1, len(heads) + 1):
        longest = max([len(heads[column - 1]) / 2, *(len(row[column - 1]) for row in rows)])
        page.column_dimensions[get_column_letter(column)].width = min(60, max(12, longest + 2))
    page.freeze_panes = "A2"


def _help(kinds: Kinds) -> list[list[str]]:
    fitted = sorted(fitted_kinds(kinds).items())
    lines: list[list[str]] = []
    for key, kind in fitted:
        lines.append([key, kind.title, "", "", ""])
        lines += [[key, "", fact, spec.what, unit_or_choices(spec)] for fact, spec in kind.facts.items()]
        ties = [tie for tie in kind.links.values() if not tie.every]
        lines += [[key, "", tie.name, f"id of a kit of the kind {either(tie.kinds)}", "link"] for tie in ties]
    return [[*line, fitted[i][0] if i < len(fitted) else ""] for i, line in enumerate(lines)]


def _choices(book: Workbook, kinds: Kinds) -> None:
    """Lists to pick from where a cell has few answers."""
    from openpyxl.worksheet.datavalidation import DataValidation

    listed = len(fitted_kinds(kinds)) + 1
    kind = DataValidation(type="list", formula1=f"={HELP}!$F$2:$F${listed}", allow_blank=True, showErrorMessage=False)
    yes = DataValidation(type="list", formula1='"yes,no"', allow_blank=True, showErrorMessage=False)
    kind.add(f"B2:B{MOST_LINES}")
    yes.add(f"J2:J{MOST_LINES}")
    book["kit"].add_data_validation(kind)
    book["lockers"].add_data_validation(yes)
