"""What people bring a van in with: a sheet file, a workbook, a kit list, or a van like it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.core.files.uploadedfile import UploadedFile

from firstpitch.catalogue import Catalogue
from firstpitch.desk.models import Van
from firstpitch.sheet import SheetError
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.kit_list import FILE as KIT_LIST
from firstpitch.sheet.kit_list import with_kit_list
from firstpitch.sheet.read import read_sheet_tree
from firstpitch.sheet.similar import similar_tree
from firstpitch.sheet.source import decoded, tree
from firstpitch.sheet.tables import Places
from firstpitch.sheet.workbook import MOST_BYTES, read_workbook
from firstpitch.sheet.write import write_tree

_PACKED = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
_FAULT = re.compile(r"^(.*?): (.*)$", re.S)


@dataclass(frozen=True)
class Fault:
    """One fault as a list shows it: where it stands, and what is wrong there."""

    place: str
    sentence: str


def shown(wrong: SheetError) -> tuple[Fault, ...]:
    """The faults of a sheet, each with its place."""
    found = [_FAULT.match(sentence) for sentence in wrong.faults]
    return tuple(
        Fault(_place(match[1]), match[2][:1].upper() + match[2][1:]) if match else Fault("", sentence)
        for match, sentence in zip(found, wrong.faults, strict=True)
    )


def _place(text: str) -> str:
    return text.removeprefix("the sheet, ") or "the sheet"


def is_workbook(data: bytes) -> bool:
    """Whether these are the bytes of a packed file rather than of a text."""
    return data.startswith(_PACKED)


def read_upload(upload: UploadedFile) -> bytes:
    """The bytes of a file that was sent; SheetError when there are too many or none."""
    size = upload.size or 0
    if size > MOST_BYTES:
        raise SheetError(
            f"the file: it has {size:,} bytes, but a sheet has at most {MOST_BYTES:,}; check that it is the right file."
        )
    data: bytes = upload.read()
    if not data:
        raise SheetError("the file: there is nothing in it; check that it is the right file.")
    return data


def sheet_text(data: bytes, catalogue: Catalogue, today: date) -> str:
    """The sheet in a file that is a workbook or a sheet file. A workbook has been read without fault, a sheet file not yet."""
    if is_workbook(data):
        return read_workbook(data, catalogue.kinds, today=today)
    return decoded(data, "the sheet")


def similar_sheet(
    like: Van, said: Mapping[str, str], catalogue: Catalogue, today: date, kit_list: bytes | None = None
) -> str:
    """The sheet of a van like ``like`` with its own figures ``said`` (dotted field: text), and its own kit where a list is given.

    SheetError with every fault; those of the kit list name line and column.
    """
    places, faults = Places(), Faults(KIT_LIST)
    top = similar_tree(tree(like.sheet, faults), catalogue.kinds, said)
    try:
        if kit_list is not None:
            top = with_kit_list(kit_list, top, catalogue.kinds, places, faults)
        read_sheet_tree(top, catalogue.kinds, today=today, faults=faults)
    except SheetError as wrong:
        raise SheetError([_said(places, sentence) for sentence in wrong.faults]) from None
    return write_tree(top)


def _said(places: Places, sentence: str) -> str:
    """A fault with cells in words, and without a line number of the other van's sheet, which nobody here has seen."""
    plain = re.sub(rf"^{KIT_LIST}, (?:line \d{{1,6}}, )?", "", sentence)
    return places.said(plain, KIT_LIST)


def by_field(faults: Sequence[Fault], fields: Sequence[str]) -> tuple[dict[str, str], tuple[Fault, ...]]:
    """Faults beside the fields they belong to, and the rest."""
    beside: dict[str, str] = {}
    rest: list[Fault] = []
    for fault in faults:
        if fault.place in fields:
            beside[fault.place] = f"{beside.get(fault.place, '')} {fault.sentence}".strip()
        else:
            rest.append(fault)
    return beside, tuple(rest)
