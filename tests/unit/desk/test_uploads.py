"""What is taken of the files that come in."""

from __future__ import annotations

import io
import zipfile

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from firstpitch.desk.uploads import MOST_SHEET, UploadError, take_picture, take_text, take_workbook

SETTINGS_BODY = 20 * 1024 * 1024


def picture(form: str, size: tuple[int, int] = (40, 20), **more: object) -> bytes:
    """A picture of one sort."""
    out = io.BytesIO()
    Image.new("RGB", size, "white").save(out, form, **more)
    return out.getvalue()


def placed() -> bytes:
    """A JPEG that says which way up it is, which camera took it and where."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "Invented Optics"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    return picture("JPEG", exif=exif)


def workbook(**parts: bytes) -> bytes:
    """A packed file with parts like those of a workbook."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in {"[Content_Types].xml": b"<x/>", "xl/workbook.xml": b"<x/>", **parts}.items():
            packed.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize(("form", "sort"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/jpeg")])
def test_pictures_are_taken(form: str, sort: str) -> None:
    """JPEG, PNG and WebP pictures are taken by their content, whatever their name says."""
    taken = take_picture(SimpleUploadedFile("notes.txt", picture(form), "text/plain"))
    assert taken.sort == sort
    assert Image.open(io.BytesIO(taken.content)).size == (40, 20)
    assert len(taken.digest) == 64


def test_pictures_lose_place_and_camera() -> None:
    """A photo comes out upright and without what the camera wrote (place, make, time)."""
    before = Image.open(io.BytesIO(placed())).getexif()
    assert dict(before.get_ifd(0x8825))
    after = Image.open(io.BytesIO(take_picture(io.BytesIO(placed())).content))
    assert not dict(after.getexif())
    assert after.size == (20, 40)
    assert b"Invented Optics" not in take_picture(io.BytesIO(placed())).content


def test_words_behind_a_picture_are_lost() -> None:
    """What somebody hangs behind or into a picture does not come through."""
    hidden = b"<script>alert(1)</script>"
    for form in ("JPEG", "PNG"):
        assert hidden not in take_picture(io.BytesIO(picture(form) + hidden)).content


def test_long_pictures_are_made_smaller() -> None:
    """A photo comes out at most 4096 pixels long."""
    assert Image.open(io.BytesIO(take_picture(io.BytesIO(picture("JPEG", (5000, 100)))).content)).size == (4096, 82)


@pytest.mark.parametrize(
    "content",
    [
        b"\x89PNG\r\n\x1a\nnot really",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>",
        picture("GIF"),
        picture("BMP"),
        picture("TIFF"),
        b"%PDF-1.7",
        picture("JPEG")[:200],
        picture("PNG")[:40],
    ],
)
def test_other_files_are_no_photos(content: bytes) -> None:
    """Whatever is not a whole JPEG, PNG or WebP is refused in one sentence, though its name says photo."""
    with pytest.raises(UploadError, match="Send a JPEG, PNG or WebP"):
        take_picture(SimpleUploadedFile("photo.jpg", content, "image/jpeg"))


def test_bombs_are_refused() -> None:
    """A small file that unfolds into more than 50 million pixels is refused before it is unfolded."""
    with pytest.raises(UploadError, match="50 million") as found:
        take_picture(io.BytesIO(picture("PNG", (10_000, 5_001))))
    assert found.value.status == 413


def test_too_big_a_photo() -> None:
    """A photo of more than 20 MB is refused."""
    with pytest.raises(UploadError, match="bigger than 20 MB") as found:
        take_picture(io.BytesIO(b"\0" * (SETTINGS_BODY + 1)))
    assert found.value.status == 413


def test_nothing_at_all() -> None:
    """An empty file is refused."""
    for take in (take_picture, take_text, take_workbook):
        with pytest.raises(UploadError, match="empty"):
            take(io.BytesIO(b""))


def test_sheets_are_text() -> None:
    """A sheet is UTF-8 text, with or without the mark at its beginning; other bytes are refused."""
    assert take_text(io.BytesIO("\ufeffvan: é".encode())) == "van: é"
    for wrong in ("van: é".encode("latin-1"), b"van\0", picture("PNG")):
        with pytest.raises(UploadError, match="not text"):
            take_text(io.BytesIO(wrong))
    with pytest.raises(UploadError, match="bigger than 5 MB"):
        take_text(io.BytesIO(b"a" * (MOST_SHEET + 1)))


def test_workbooks_are_looked_into() -> None:
    """A workbook is known by its parts; one with macros, a bare packed file and one that unfolds too far are refused."""
    assert take_workbook(io.BytesIO(workbook())).ending == "xlsx"
    for wrong in (b"PK\x03\x04 broken", b"a,b\n1,2\n", workbook(**{"xl/vbaProject.bin": b"x"})):
        with pytest.raises(UploadError, match="not an XLSX"):
            take_workbook(io.BytesIO(wrong))
    with pytest.raises(UploadError, match="when unpacked"):
        take_workbook(io.BytesIO(workbook(**{"xl/big.xml": b"0" * (61 * 1024 * 1024)})))


def test_too_long_a_request_is_refused_unread(db: None) -> None:  # noqa: ARG001
    """A request that says it is longer than anything the desk takes is answered 413 in words, before it is read."""
    answer = Client().post("/sign-in/", b"x", content_type="text/plain", CONTENT_LENGTH=str(30 * 1024 * 1024))
    assert answer.status_code == 413
    assert "too big" in answer.content.decode()


def test_too_long_a_form_is_refused(db: None) -> None:  # noqa: ARG001
    """A form of more than 6 MB without files is answered 413, and a file of that length in a form is not refused as a form."""
    long = Client().post(
        "/first/", "username=" + "a" * (7 * 1024 * 1024), content_type="application/x-www-form-urlencoded"
    )
    assert long.status_code == 413
    file = Client().post("/sign-out/", {"file": SimpleUploadedFile("a.bin", b"a" * (7 * 1024 * 1024))})
    assert file.status_code == 302
