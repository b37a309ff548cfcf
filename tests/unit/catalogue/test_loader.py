"""Reading folders of kind files: what comes with the program, and a dealership's own on top."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from firstpitch.catalogue import load
from firstpitch.catalogue.loader import read_folder
from firstpitch.sheet.errors import CatalogueError

_AWNING = """
kind = "porch_awning"
title = "Porch awning"
about = "A small tent at the door."
group = "round"
stands = "outside"
topic = "living"
[facts.depth]
what = "how far it stands out"
type = "quantity"
unit = "m"
need = "may"
[[steps]]
id = "show"
title = "Show the porch awning"
level = "may"
worth = 2
say = "It stands out {depth}."
[card]
what = "A small tent at the door."
use = ["Peg it down."]
[film]
names = ["porch awning"]
"""


def _said(folder: Path) -> str:
    with pytest.raises(CatalogueError) as caught:
        load(folder)
    return str(caught.value).replace(str(folder), "FOLDER")


def test_a_folder_adds_a_kind(tmp_path: Path) -> None:
    """A file with a new name in the dealership's folder adds a kind and leaves every other as it was."""
    (tmp_path / "porch_awning.toml").write_text(_AWNING, "utf-8")
    kinds = load(tmp_path).kinds
    assert set(kinds) - set(load().kinds) == {"porch_awning"}
    assert kinds["porch_awning"].steps[0].say == "It stands out {depth}."
    assert kinds["porch_awning"].file == f"{tmp_path}/porch_awning.toml"
    assert all(kinds[key] is kind for key, kind in load().kinds.items())


def test_a_folder_replaces_a_kind(tmp_path: Path) -> None:
    """A file with a known name replaces that kind, and the shipped catalogue itself stays as it was."""
    own = _AWNING.replace('kind = "porch_awning"', 'kind = "number_plate"').replace("Porch awning", "Our plate")
    (tmp_path / "number_plate.toml").write_text(own, "utf-8")
    assert load(tmp_path).kinds["number_plate"].title == "Our plate"
    assert set(load(tmp_path).kinds) == set(load().kinds)
    assert load().kinds["number_plate"].title != "Our plate"


def test_replacing_a_kind_that_others_lean_on_is_proved(tmp_path: Path) -> None:
    """A replacement that lacks a condition other kinds ask for is refused, naming the line that asks and the new file."""
    own = _AWNING.replace('kind = "porch_awning"', 'kind = "heater_flue"')
    (tmp_path / "heater_flue.toml").write_text(own, "utf-8")
    assert "asks for a condition that FOLDER/heater_flue.toml does not declare" in _said(tmp_path)


def test_the_shipped_catalogue_is_read_once() -> None:
    """Asking again for the shipped catalogue costs nothing: it is the same one."""
    assert load() is load()


def test_a_folder_is_read_afresh_every_time(tmp_path: Path) -> None:
    """A dealership that mends its file sees the change at the next load."""
    (tmp_path / "porch_awning.toml").write_text(_AWNING, "utf-8")
    load(tmp_path)
    (tmp_path / "porch_awning.toml").write_text(_AWNING.replace("Peg it down.", "Peg it well."), "utf-8")
    assert load(tmp_path).kinds["porch_awning"].card.use == ("Peg it well.",)


def test_other_files_in_the_folder_are_left_alone(tmp_path: Path) -> None:
    """Notes, hidden files and folders beside the kind files do no harm."""
    (tmp_path / "porch_awning.toml").write_text(_AWNING, "utf-8")
    (tmp_path / "notes.txt").write_text("ours", "utf-8")
    (tmp_path / ".hidden.toml").write_text("not = [toml", "utf-8")
    (tmp_path / "old").mkdir()
    assert "porch_awning" in load(tmp_path).kinds


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    """A folder that is not there, and a file in its place, are told as such."""
    wanted = "FOLDER: this is not a folder; give the folder that holds the kind files."
    assert _said(tmp_path / "nowhere") == wanted
    (tmp_path / "file.toml").write_text(_AWNING, "utf-8")
    assert _said(tmp_path / "file.toml") == wanted


def test_a_folder_that_cannot_be_looked_into_is_told(tmp_path: Path) -> None:
    """A folder the system refuses to look for, as with a name far too long, is told with its reason."""
    assert _said(tmp_path / ("x" * 5000)) == "FOLDER: the folder cannot be read (File name too long)."


def test_an_empty_folder_is_told(tmp_path: Path) -> None:
    """A folder without kind files is a mistake, not an empty addition."""
    assert _said(tmp_path) == "FOLDER: the folder holds no kind file; a kind file is called like “tap.toml”."


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("a.toml", b"kind = \n", "FOLDER/a.toml, line 1: this is not TOML (Invalid value)."),
        ("a.toml", b"a = 1\na = 2\nb = 3", "FOLDER/a.toml, line 2: this is not TOML (Cannot overwrite a value)."),
        ("a.toml", b"a = [", "FOLDER/a.toml, last line: this is not TOML (Invalid value)."),
        ("a.toml", b"\xff\xfe", "FOLDER/a.toml: the file is not UTF-8 text; save it as UTF-8."),
        ("a.toml", b"a = " + b"[" * 9999, "FOLDER/a.toml: this is not TOML (its tables or lists nest too deep)."),
        ("a.toml", b"#" * 300_000, "FOLDER/a.toml: the file is larger than 256 kB, which no kind needs."),
        ("a.toml", b"", "FOLDER/a.toml, kind: this is missing; it must be a text in quotes."),
        (
            "a.toml",
            b"kind = '''\na\n'''\ntitle = 1979-05-27",
            "FOLDER/a.toml, title: found a date or time, but this is a text in quotes.",
        ),
        (
            "A b.toml",
            b"",
            "FOLDER/A b.toml: a kind file is named after its key, in lower-case letters, digits and “_”.",
        ),
    ],
)
def test_a_file_that_cannot_be_read_is_told(tmp_path: Path, name: str, content: bytes, says: str) -> None:
    """A file that is not TOML, not UTF-8, too large, too deep, empty or misnamed gives one sentence with file and line."""
    (tmp_path / name).write_bytes(content)
    assert _said(tmp_path) == says


def test_a_number_too_long_to_read_is_told(tmp_path: Path) -> None:
    """A number of thousands of digits, in tens or sixteens, is refused like any other fault."""
    (tmp_path / "a.toml").write_text(f"kind = 'a'\nmax = {'9' * 5000}", "utf-8")
    assert _said(tmp_path).startswith("FOLDER/a.toml: this is not TOML (")
    (tmp_path / "a.toml").write_text(
        _AWNING.replace("porch_awning", "a").replace("topic", f"max = 0x{'f' * 5000}\ntopic"), "utf-8"
    )
    assert (
        _said(tmp_path) == "FOLDER/a.toml, max: found a number far too large; allowed is a whole number from 1 to 1000."
    )


def test_a_folder_called_like_a_kind_file_is_told(tmp_path: Path) -> None:
    """A folder whose name ends like a kind file's is told, not passed over."""
    (tmp_path / "a.toml").mkdir()
    assert _said(tmp_path) == "FOLDER/a.toml: the file cannot be read (Is a directory)."


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read anything")
def test_a_file_without_leave_to_read_is_told(tmp_path: Path) -> None:
    """A file the user may not read is told with the reason the system gives."""
    (tmp_path / "a.toml").write_text(_AWNING, "utf-8")
    (tmp_path / "a.toml").chmod(0)
    assert _said(tmp_path) == "FOLDER/a.toml: the file cannot be read (Permission denied)."


def test_loading_needs_no_units_library() -> None:
    """Loading and proving the shipped catalogue leaves the units library, whose import is slow, alone."""
    code = "import sys; from firstpitch.catalogue import load; load(); print('pint' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"


def test_a_text_over_several_lines_is_one_text(tmp_path: Path) -> None:
    """Line breaks and runs of blanks in a text are evened out to single blanks."""
    text = _AWNING.replace('"It stands out {depth}."', '"""It stands\n   out {depth}."""')
    (tmp_path / "porch_awning.toml").write_text(text, "utf-8")
    assert read_folder(tmp_path, "kinds")["porch_awning"].steps[0].say == "It stands out {depth}."
