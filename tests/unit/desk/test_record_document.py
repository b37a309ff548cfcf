"""The record as a PDF file."""

from __future__ import annotations

import io
from dataclasses import replace

import pikepdf
import pypdfium2
import pytest

from firstpitch.desk.record_data import digest_of
from firstpitch.desk.record_words import record_in_words
from firstpitch.papers.record import RecordData, record_document

STEP = {"id": "hob.light", "kit": "Hob", "title": "Light a burner"}
DUE = {"id": "smoke.test", "kit": "Smoke alarm", "title": "Test it"}
AT = "2026-11-25T10:04:00+00:00"
RECORD = {
    "van": "Wren",
    "chassis_number": "SGWREN00000000001",
    "stock_number": "D101",
    "sheet_version": 3,
    "dealership": "Test Yard",
    "telephone": "",
    "owner": "Rowan Pell",
    "specialist": "Ada",
    "people": ["Ada", "Idris"],
    "due": AT,
    "began": AT,
    "ended": "2026-11-25T10:06:00+00:00",
    "planned_s": 5400,
    "took_s": 120,
    "shown": [
        {**STEP, "began": AT, "ended": AT, "took_s": 90, "planned_s": 60, "planned_at_s": 0, "tried": True, "by": "Ada"}
    ],
    "left_out": [{**STEP, "title": "Clean it", "reason": "The owner knows it.", "must": False, "by": "Ada"}],
    "not_shown": [{**DUE, "must": True}],
    "overridden": [{**STEP, "harm": "The pump runs dry.", "reason": "One second only.", "at": AT, "by": "Ada"}],
    "found": [{"what": "Mains", "value": "off", "reason": "No supply.", "at": AT, "by": "Ada"}],
    "changes": [{"words": "It rains.", "at": AT, "by": "Ada"}],
    "snags": [
        {
            "id": "1",
            "words": "A lamp is out.",
            "severity": "stop",
            "kit": "Hob",
            "at": AT,
            "by": "Ada",
            "mended": "",
            "mended_by": "",
            "mended_words": "",
        }
    ],
    "notes": [{"words": "Asked about the awning.", "about": "Hob: Light a burner", "at": AT, "by": "Ada"}],
    "photos": 2,
    "taken_back": 1,
    "unsettled": ["One says done, the other left."],
    "let_go": {"name": "Max Orme", "reason": "Towed by our own lorry.", "snags": ["A lamp is out."]},
    "owner_signature": {"name": "Rowan Pell", "how": "drawn", "path": "M10 100L40 60L70 120L100 60L130 120L160 60"},
    "confirmed_by": "Ada",
    "signed": "2026-11-25T10:10:00+00:00",
}


@pytest.fixture
def data() -> RecordData:
    """A record with a line of every sort."""
    return record_in_words(RECORD, digest_of(RECORD))


def text_of(document: bytes) -> str:
    """The words of a PDF file as PDFium reads them, in one line."""
    with pypdfium2.PdfDocument(document) as pdf:
        return " ".join(" ".join(page.get_textpage().get_text_range() for page in pdf).split())


def test_document_says_everything(data: RecordData) -> None:
    """Every word of the record stands in the file, with the digest and that it certifies nothing."""
    said = text_of(record_document(data))
    wanted = [
        "Rowan Pell", "Light a burner, tried", "1:30", "The owner knows it.", "Test it", "The pump runs dry.", "One second only.",
        "No supply.", "It rains.", "A lamp is out.", "Asked about the awning.", "One says done, the other left.", "Max Orme",
        "Towed by our own lorry.", "certifies nothing", "1 hour 30 minutes", "10:04 to 10:06", digest_of(RECORD)[:8],
    ]  # fmt: skip
    assert [words for words in wanted if words not in said] == []


def test_document_is_tagged_and_the_same_each_time(data: RecordData) -> None:
    """The file is tagged, says it keeps PDF/UA part 1 and has a title (ISO 14289-1, 5 and 7.1); twice it is the same bytes."""
    document = record_document(data)
    assert document == record_document(data)
    with pikepdf.open(io.BytesIO(document)) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked) is True
        assert str(pdf.Root.Lang) == "en-GB"
        with pdf.open_metadata() as about:
            assert about["pdfuaid:part"] == "1"
            assert about["dc:title"] == "Wren: record of the handover to Rowan Pell"


def test_unsigned_document_says_so(data: RecordData) -> None:
    """Before it is signed the file says that it can still change, and leaves lines to sign on."""
    said = text_of(record_document(replace(data, signed=None)))
    assert "Not signed" in said
    assert "Signed on" not in said


def test_typed_name_stands_for_the_signature(data: RecordData) -> None:
    """A typed and confirmed name is printed, and said to be typed."""
    assert data.signed is not None
    typed = replace(data.signed, path="", how="Typed, and confirmed as the signature")
    assert "Typed, and confirmed" in text_of(record_document(replace(data, signed=typed)))
