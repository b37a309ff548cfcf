"""The outfit and stow sheet as files: ``outfit --out``, and as pages of ``pack --car``, with good input and bad."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest

from tests.unit.cli.test_outfit_commands import (
    DEMO,
    ESTATE,
    HATCHBACK,
    TOO_MUCH,
    WEEKEND,
    WREN,
    call,
    changed,
    load_of,
    refused,
    said,
)

SHEET = {"wren-outfit.pdf", "wren-outfit.html"}
PACK = {"wren-pack.pdf", "wren-pack.html", "wren-round.pdf", "wren-round.svg"}
QUICK = ("--mode", "film")
"""A round of the few things that are filmed is planned in no time; the pack is the same but for its last page."""


def files(folder: Path) -> set[str]:
    """The names of the files in a folder; nothing where there is none."""
    return {path.name for path in folder.iterdir()} if folder.exists() else set()


def pdf_text(file: Path) -> str:
    """All words of a PDF file."""
    with pypdfium2.PdfDocument(file) as pdf:
        return " ".join(" ".join(page.get_textpage().get_text_bounded() for page in pdf).split())


@pytest.fixture(scope="module")
def stow(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stow of Wren's weekend load, as the stow verb writes it."""
    file = tmp_path_factory.mktemp("stow") / "stow.yaml"
    assert call("stow", WREN, WEEKEND, "--car", ESTATE, "--save", file).exit_code == 0
    return file


def test_outfit_writes_its_sheet(tmp_path: Path) -> None:
    """Both files are written and named, and without a stow the sheet says that one was planned."""
    out = tmp_path / "new" / "sheets"
    found = call("outfit", WREN, ESTATE, "--load", WEEKEND, "--brief", "--out", out)
    assert found.exit_code == 0
    assert files(out) == SHEET
    assert said(found).count("with a stow that was planned") == 2
    assert "As planned" in pdf_text(out / "wren-outfit.pdf")
    assert "As planned" in (out / "wren-outfit.html").read_text("utf-8")


def test_outfit_with_a_stow_judges_that_stow(tmp_path: Path, stow: Path) -> None:
    """With a stow the sheet judges it as it lies."""
    found = call("outfit", WREN, ESTATE, "--load", WEEKEND, "--stow", stow, "--brief", "--out", tmp_path / "out")
    assert found.exit_code == 0
    assert "planned" not in said(found)
    assert "As it is stowed now." in pdf_text(tmp_path / "out" / "wren-outfit.pdf")


def test_outfit_that_does_not_fit_is_written_all_the_same(tmp_path: Path) -> None:
    """A car that may not tow this van: the sheet is written to show it, and the exit code is 1."""
    found = call("outfit", WREN, HATCHBACK, "--brief", "--out", tmp_path / "out")
    assert found.exit_code == 1
    assert files(tmp_path / "out") == SHEET
    assert "the car may tow 1,000 kg: 200 kg too much" in pdf_text(tmp_path / "out" / "wren-outfit.pdf")


def test_pack_with_a_car_has_the_sheet_in_it(tmp_path: Path) -> None:
    """The car alone is enough: the pack is the same four files, with the sheet's pages in PDF and page."""
    found = call("pack", WREN, *QUICK, "--car", ESTATE, "--out", tmp_path / "out")
    assert found.exit_code == 0
    assert files(tmp_path / "out") == PACK
    assert "The outfit and stow sheet says:" in found.stderr
    text = pdf_text(tmp_path / "out" / "wren-pack.pdf")
    assert "Wren behind Demo estate car with no load" in text
    assert 'id="outfit-sheet"' in (tmp_path / "out" / "wren-pack.html").read_text("utf-8")


def test_pack_with_car_load_and_stow(tmp_path: Path, stow: Path) -> None:
    """With load and stow the pack's sheet judges that stow."""
    words = ("--car", ESTATE, "--load", WEEKEND, "--stow", stow, "--out", tmp_path / "out")
    found = call("pack", WREN, *QUICK, *words)
    assert found.exit_code == 0
    text = pdf_text(tmp_path / "out" / "wren-pack.pdf")
    assert "with Two people, a long weekend" in text
    assert "As it is stowed now." in text


def test_pack_with_an_outfit_that_does_not_fit(tmp_path: Path) -> None:
    """The pack is a paper, not a verdict: it is made, says "does not fit" in it and on the side, and the exit code stays 0."""
    found = call("pack", WREN, *QUICK, "--car", HATCHBACK, "--load", TOO_MUCH, "--out", tmp_path / "out")
    assert found.exit_code == 0
    assert "The outfit and stow sheet says: does not fit." in found.stderr
    assert "200 kg too much" in pdf_text(tmp_path / "out" / "wren-pack.pdf")


@pytest.mark.parametrize("verb", ["outfit", "pack"])
@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        ("kerb_mass: 1690 kg", "kerb_mass: .inf", ("car.kerb_mass", "not a number with a unit")),
        ("kerb_mass: 1690 kg", "kerb_mass: -3 kg", ("too low",)),
        ("gross_vehicle_mass: 2250 kg", "gross_vehicle_mass: 1250 kg", ("below the kerb mass",)),
    ],
)
def test_bad_car_writes_nothing(tmp_path: Path, verb: str, old: str, new: str, parts: tuple[str, ...]) -> None:
    """A bad car sheet: exit code 2, one sentence, and not a single file."""
    car, out = changed(ESTATE, tmp_path, old, new), tmp_path / "out"
    words = ("outfit", WREN, car) if verb == "outfit" else ("pack", WREN, *QUICK, "--car", car)
    refused(call(*words, "--out", out), "estate.yaml, line", *parts)
    assert files(out) == set()


@pytest.mark.parametrize("verb", ["outfit", "pack"])
def test_bad_load_or_stow_writes_nothing(tmp_path: Path, verb: str) -> None:
    """A load or stow sheet that cannot be right: exit code 2, one sentence, and not a single file."""
    out = tmp_path / "out"
    words = ("outfit", WREN, ESTATE) if verb == "outfit" else ("pack", WREN, *QUICK, "--car", ESTATE)
    bad = load_of(tmp_path, "id: a, name: A, mass: nan kg, size_class: small")
    refused(call(*words, "--load", bad, "--out", out), "load.yaml, line 5", "not a number with a unit")
    wrong = tmp_path / "stow.yaml"
    wrong.write_text("firstpitch: 1\nstow:\n  - { item: bedding, locker: wardrobes }\n", encoding="utf-8")
    refused(call(*words, "--load", WEEKEND, "--stow", wrong, "--out", out), "did you mean “wardrobe”")
    refused(call(*words, "--load", tmp_path / "none.yaml", "--out", out), "there is no such file")
    assert files(out) == set()


@pytest.mark.parametrize("verb", ["outfit", "pack"])
def test_a_file_in_place_of_the_folder(tmp_path: Path, verb: str) -> None:
    """A folder that is a file: exit code 2 before anything is worked out."""
    taken = tmp_path / "taken"
    taken.write_text("mine", encoding="utf-8")
    words = ("outfit", WREN, ESTATE) if verb == "outfit" else ("pack", WREN, *QUICK, "--car", ESTATE)
    refused(call(*words, "--out", taken), "is a file, not a folder")
    assert taken.read_text("utf-8") == "mine"


@pytest.mark.parametrize("option", ["--load", "--stow"])
def test_pack_needs_the_car_for_the_rest(tmp_path: Path, option: str) -> None:
    """A load or stow without a car has nothing to be judged behind: exit code 2."""
    refused(call("pack", WREN, *QUICK, option, WEEKEND, "--out", tmp_path / "out"), "give the car too, with --car CAR")


@pytest.mark.parametrize(
    "words",
    [
        ("stow", WREN, WEEKEND, "--save"),
        ("stow", WREN, WEEKEND, "--svg"),
        ("steadiness", WREN, ESTATE, WEEKEND, "--svg"),
    ],
)
def test_a_file_that_cannot_be_written(tmp_path: Path, words: tuple[object, ...]) -> None:
    """A drawing or stow for a folder that is not there: exit code 2 before anything is worked out."""
    refused(call(*words, tmp_path / "no" / "such.yaml"), "there is no folder")


@pytest.mark.parametrize(
    "words",
    [
        ("stow", WREN, WEEKEND, "--seconds", "nan"),
        ("stow", WREN, WEEKEND, "--seconds", "inf"),
        ("steadiness", WREN, ESTATE, WEEKEND, "--speed", "nan"),
        ("steadiness", WREN, ESTATE, WEEKEND, "--speed", "inf"),
        ("steadiness", WREN, ESTATE, WEEKEND, "--speed", "-80"),
    ],
)
def test_a_number_that_is_none_is_refused(words: tuple[object, ...]) -> None:
    """Not a number, endless or below nought on the command line: exit code 2."""
    assert DEMO.is_dir()
    refused(call(*words), words[-2])  # type: ignore[arg-type]
