"""Reading kind files into a catalogue that is proved sound."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from firstpitch.catalogue.literals import NAME
from firstpitch.catalogue.parse import parse_kind
from firstpitch.catalogue.proofs import faults
from firstpitch.catalogue.types import Catalogue, Kind
from firstpitch.catalogue.wording import said
from firstpitch.sheet.errors import CatalogueError

_SHIPPED = Path(__file__).parent / "kinds"
_LARGEST = 256 * 1024
_POSITION = re.compile(r" \(at (?:(line \d+), column \d+|end of document)\)$")


def load(extra: Path | None = None) -> Catalogue:
    """The catalogue that comes with the program, or that one with a dealership's folder ``extra`` on top.

    A file in ``extra`` with a new name adds a kind, one with a known name replaces that kind. Everything is proved at every load,
    the shipped files too (once for each run of the program). Raises CatalogueError, one sentence, at the first fault.
    """
    if extra is None:
        return _shipped()
    return _proved({**_shipped_kinds(), **read_folder(extra, str(extra))})


def read_folder(folder: Path, called: str) -> Mapping[str, Kind]:
    """The kinds whose files stand in ``folder``, by key, not yet proved to fit together; messages call the folder ``called``.

    Raises CatalogueError when the folder is missing or holds no kind file, and at the first file that cannot be read.
    """
    try:
        if not folder.is_dir():
            raise CatalogueError(said(called, "", "this is not a folder; give the folder that holds the kind files"))
        paths = sorted(path for path in folder.iterdir() if path.suffix == ".toml" and not path.name.startswith("."))
    except OSError as wrong:
        raise CatalogueError(said(called, "", f"the folder cannot be read ({wrong.strerror})")) from None
    if not paths:
        raise CatalogueError(said(called, "", "the folder holds no kind file; a kind file is called like “tap.toml”"))
    return {path.stem: _read_kind(path, f"{called}/{path.name}") for path in paths}


def _read_kind(path: Path, file: str) -> Kind:
    if not NAME.fullmatch(path.stem):
        raise CatalogueError(
            said(file, "", "a kind file is named after its key, in lower-case letters, digits and “_”")
        )
    try:
        if path.stat().st_size > _LARGEST:
            raise CatalogueError(said(file, "", f"the file is larger than {_LARGEST // 1024} kB, which no kind needs"))
        text = path.read_bytes().decode("utf-8")
        raw = tomllib.loads(text)
    except OSError as wrong:
        raise CatalogueError(said(file, "", f"the file cannot be read ({wrong.strerror})")) from None
    except UnicodeDecodeError:
        raise CatalogueError(said(file, "", "the file is not UTF-8 text; save it as UTF-8")) from None
    except (ValueError, RecursionError) as wrong:
        raise CatalogueError(said(file, *_toml_fault(wrong))) from None
    return parse_kind(raw, file, path.stem)


def _toml_fault(wrong: Exception) -> tuple[str, str]:
    text = "its tables or lists nest too deep" if isinstance(wrong, RecursionError) else str(wrong)
    found = _POSITION.search(text)
    where = (found[1] or "last line") if found else ""
    return where, f"this is not TOML ({_POSITION.sub('', text)})"


def _proved(kinds: Mapping[str, Kind]) -> Catalogue:
    for sentence in faults(kinds):
        raise CatalogueError(sentence)
    return Catalogue(MappingProxyType(dict(kinds)))


@cache
def _shipped_kinds() -> Mapping[str, Kind]:
    return MappingProxyType(dict(read_folder(_SHIPPED, "catalogue/kinds")))


@cache
def _shipped() -> Catalogue:
    return _proved(_shipped_kinds())
