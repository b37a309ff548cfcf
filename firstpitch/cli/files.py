"""Files that a verb reads and writes: told before long work when they cannot be, and written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from firstpitch.sheet.errors import SheetError


def check_folder(out: str) -> Path:
    """The folder to write to. SheetError with one sentence where it cannot be one, before anything is worked out or made."""
    if not out.strip():
        raise SheetError("--out: no folder is named; give the folder to write to, for example “out”.")
    folder = Path(out)
    for part in (folder, *folder.parents):
        if part.is_dir():
            if not os.access(part, os.W_OK | os.X_OK):
                raise SheetError(f"{out}: nothing can be written in the folder {part}; name another folder.")
            return folder
        if part.exists():
            raise SheetError(f"{out}: {part} is a file, not a folder; name another folder.")
    return folder


def check_file(out: str) -> Path:
    """The file to write. SheetError with one sentence where it cannot be written, before anything is worked out."""
    file = Path(out)
    if not out.strip() or file.is_dir():
        raise SheetError(f"{out or 'The file'}: this is a folder, not a file; name a file to write to.")
    if not file.parent.is_dir():
        raise SheetError(f"{out}: there is no folder {file.parent}; make it first, or name another file.")
    check_folder(str(file.parent))
    return file


def write_files(out: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Write files into a folder, all of them or none; gives their paths. SheetError where the folder cannot be written to."""
    parts: list[tuple[Path, Path]] = []
    try:
        out.mkdir(parents=True, exist_ok=True)
        for name, content in files.items():
            parts.append((out / f".{name}.part", out / name))
            parts[-1][0].write_bytes(content)
        for part, whole in parts:
            part.replace(whole)
    except OSError as fault:
        for part, _ in parts:
            if part.is_file():
                part.unlink()
        raise SheetError(
            f"{out}: nothing was written ({fault.strerror}); name a folder that can be written to."
        ) from None
    return [whole for _, whole in parts]


def read_text(path: str, what: str, most: int) -> str:
    """The UTF-8 text of a file of ``most`` bytes at most; SheetError with one sentence that calls it ``what``."""
    file = Path(path)
    if file.is_dir():
        raise SheetError(f"{path}: this is a folder; name a file with {what}.")
    if not file.exists():
        raise SheetError(f"{path}: there is no such file; check the name and the folder.")
    if not file.is_file():
        raise SheetError(f"{path}: this is not an ordinary file; save {what} as a file and name that.")
    if file.stat().st_size > most:
        raise SheetError(f"{path}: the file has {file.stat().st_size:,} bytes; {what} has at most {most:,}.")
    try:
        return file.read_text("utf-8")
    except UnicodeDecodeError:
        raise SheetError(f"{path}: the file is not UTF-8 text; save it as UTF-8.") from None
