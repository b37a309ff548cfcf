"""Every file that comes in goes through here: its size, and what it is by its content, not by its name."""

from __future__ import annotations

import hashlib
import io
import zipfile
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.http import HttpRequest
from PIL import Image, ImageOps, UnidentifiedImageError

MOST_SHEET = 5 * 1024 * 1024
MOST_SIDE = 4096
MOST_PIXELS = 50_000_000
_SLACK = 64 * 1024
_MOST_UNPACKED = 60 * 1024 * 1024
_MOST_PARTS = 500
_PICTURES = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
_XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


class UploadError(ValueError):
    """A file that is not taken, and what to send in its place. ``status`` is what a bare answer carries."""

    def __init__(self, words: str, status: int = 400) -> None:
        super().__init__(words)
        self.status = status


@dataclass(frozen=True)
class Taken:
    """A file that was looked at: its content, its sort (a media type) and the SHA-256 of the content."""

    content: bytes
    sort: str
    digest: str

    @property
    def ending(self) -> str:
        """The ending a file of this sort gets."""
        return {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", _XLSX: "xlsx"}.get(self.sort, "txt")


def too_long(request: HttpRequest) -> bool:
    """Whether the body says it is longer than anything the desk takes."""
    try:
        length = int(request.META.get("CONTENT_LENGTH") or 0)
    except ValueError:
        return True
    return length < 0 or length > settings.MOST_UPLOAD + _SLACK


def take_picture(file: Any) -> Taken:
    """A photo: JPEG, PNG or WebP by its content, drawn anew without what the camera wrote about place and time.

    It comes out upright and at most 4096 pixels long, as JPEG (PNG stays PNG). UploadError for all else.
    """
    content = _read(file, settings.MOST_UPLOAD, "photo")
    try:
        with Image.open(io.BytesIO(content), formats=tuple(_PICTURES)) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise UploadError("The photo has too many pixels: send one of at most 50 million.", 413)
            return _drawn_anew(opened)
    except UploadError:
        raise
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, Image.DecompressionBombError) as wrong:
        raise UploadError("This file is not a photo we can read. Send a JPEG, PNG or WebP picture.") from wrong


def _drawn_anew(opened: Image.Image) -> Taken:
    form = "PNG" if opened.format == "PNG" else "JPEG"
    upright = ImageOps.exif_transpose(opened)
    upright.thumbnail((MOST_SIDE, MOST_SIDE))
    bare = upright.convert("RGBA" if form == "PNG" and "A" in upright.getbands() else "RGB")
    bare.info.clear()
    out = io.BytesIO()
    bare.save(out, form, **({"quality": 88} if form == "JPEG" else {"optimize": False}))
    return _taken(out.getvalue(), _PICTURES[form])


def take_text(file: Any) -> str:
    """A sheet as text: UTF-8, at most 5 MB. UploadError for all else."""
    content = _read(file, MOST_SHEET, "sheet")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise UploadError("This file is not text. Send the build sheet as a YAML file in UTF-8.") from wrong
    if "\0" in text:
        raise UploadError("This file is not text. Send the build sheet as a YAML file in UTF-8.")
    return text


def take_workbook(file: Any) -> Taken:
    """A filled-in workbook: XLSX by its content, at most 5 MB packed and 60 MB unpacked. UploadError for all else."""
    content = _read(file, MOST_SHEET, "workbook")
    wrong = UploadError("This file is not an XLSX workbook. Save it as XLSX and send it again.")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
    except (zipfile.BadZipFile, ValueError, NotImplementedError) as fault:
        raise wrong from fault
    names = {part.filename for part in parts}
    if not {"[Content_Types].xml", "xl/workbook.xml"} <= names or "xl/vbaProject.bin" in names:
        raise wrong
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > _MOST_UNPACKED:
        raise UploadError("The workbook is too big when unpacked. Send only the filled-in template.", 413)
    return _taken(content, _XLSX)


def _read(file: Any, most: int, name: str) -> bytes:
    """All of ``file`` (an uploaded file, or anything with ``read``), unless it is longer than ``most`` bytes."""
    content: bytes = file.read(most + 1)
    if len(content) > most:
        raise UploadError(f"The {name} is bigger than {most // (1024 * 1024)} MB. Send a smaller one.", 413)
    if not content:
        raise UploadError(f"The {name} is empty. Choose the file again.")
    return content


def _taken(content: bytes, sort: str) -> Taken:
    return Taken(content, sort, hashlib.sha256(content).hexdigest())
