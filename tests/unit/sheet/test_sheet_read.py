"""What a good sheet becomes, and how several faults come together."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from firstpitch.sheet import BuildSheet, SheetError, read_sheet
from firstpitch.sheet.types import Door, Furniture, Insulation, Locker, Masses, Quantity

from .conftest import GOOD, KINDS, TODAY, changed, faults_of

Read = Callable[..., BuildSheet]
Faults = Callable[..., list[str]]


def test_figures_are_held_in_si(read: Read) -> None:
    """Masses come out in kilograms, lengths in metres, 44 psi as 303.4 kPa and 10 °C as 283.15 K."""
    sheet = read()
    assert sheet.masses == Masses(1065.0, 1250.0, 100.0, 1300.0, 1082.0, 71.0)
    assert (sheet.body.front, sheet.body.rear, sheet.body.width) == (1.25, 5.85, 2.2)
    assert sheet.body.insulation == Insulation(1.1, 0.9, 0.9, 2.8)
    assert sheet.gear.tyre.pressure == pytest.approx(303_369, abs=1)  # 1 psi = 6894.757 Pa, NIST SP 811 (from memory)
    assert sheet.cold_water == pytest.approx(283.15)


def test_plan_keeps_places_and_sides(read: Read) -> None:
    """The door, the aisle, lockers and furniture keep their places: x behind the towball, y to the nearside."""
    plan = read().plan
    assert plan.door == Door("nearside", 4.7, 0.6, 0.4)
    assert plan.aisle == ((2.6, 0.0), (4.7, 0.0))
    assert plan.lockers[1] == Locker("bed-box", "Box under the bed", 3.0, 0.6, 0.5, (1.5, 0.6, 0.4), 50.0, True)
    assert plan.furniture == (Furniture("Front lounge", (1.8, -1.05, 3.2, 1.05)),)


def test_facts_have_the_sort_their_kind_says(read: Read) -> None:
    """A kit's facts are quantities, counts, dates, choices, texts or yes-no as the kind says, with the text as written kept."""
    urn = read().kit[0]
    assert urn.facts["capacity"] == Quantity(0.01, "m ** 3", "10 l")
    assert urn.facts["taps"] == 2
    assert urn.facts["checked"] == date(2026, 4, 30)
    assert (urn.facts["fuel"], urn.facts["badge"], urn.facts["lit"]) == ("propane", "No. 7", True)
    assert urn.note == "The switch is inside the wardrobe."
    chill = urn.facts["chill"]
    assert isinstance(chill, Quantity)
    assert chill.si == pytest.approx(268.15)


def test_whole_sheet_has_nothing_unknown(read: Read) -> None:
    """A sheet with every figure leaves nothing unknown."""
    assert read().unknown == ()


@pytest.mark.parametrize("left_open", ["", " ~", " null", " unknown", ' ""'])
def test_figure_left_open_is_unknown_never_zero(read: Read, left_open: str) -> None:
    """A noseweight limit left open, in any way of saying so, is None and named as unknown."""
    sheet = read(("noseweight_limit: 100 kg", f"noseweight_limit:{left_open}"))
    assert sheet.masses.noseweight_limit is None
    assert sheet.unknown == ("masses.noseweight_limit",)


def test_everything_left_out_is_named() -> None:
    """Sections, lockers' limits and kit facts that are left out are each named by their dotted field."""
    text = GOOD[: GOOD.index("  insulation:")] + GOOD[GOOD.index("running_gear:") :]
    text = (
        text.replace("      limit: 50 kg\n", "")
        .replace("      power: 850 W\n", "")
        .replace("      badge: ", "      # ")
    )
    sheet = faults_free(text)
    assert sheet.unknown == (
        "body.insulation.wall",
        "body.insulation.roof",
        "body.insulation.floor",
        "body.insulation.window",
        "plan.lockers.bed-box.limit",
        "kit.urn.facts.power",
        "kit.urn.facts.badge",
    )


def test_one_axle_has_no_sharing_to_know(read: Read) -> None:
    """With one axle it is not unknown whether the axles share the load; with two it is."""
    assert read(("  equalised: no\n", "")).unknown == ()
    twin = read(("  equalised: no\n", ""), ("axles: [3.85 m]", "axles: [3.40 m, 4.20 m]"))
    assert twin.unknown == ("running_gear.equalised",)


def test_a_remark_is_no_unknown_figure(read: Read) -> None:
    """A kit without a remark lacks nothing."""
    assert read(("    note: The switch is inside the wardrobe.\n", "")).unknown == ()


@pytest.mark.parametrize(
    ("old", "new", "built"),
    [("berths: 2", "berths: 02", 2), ("berths: 2", 'berths: "2"', 2), ("berths: 2", "berths: +2", 2)],
)
def test_counts_are_decimal(read: Read, old: str, new: str, built: int) -> None:
    """A leading nought, a plus sign or quotation marks change nothing about a count."""
    assert read((old, new)).body.berths == built


def test_digits_stay_text_where_a_text_belongs(read: Read) -> None:
    """A date code without quotation marks, a name of digits and the name “yes” stay as written."""
    sheet = read(('"3525"', "0126"), ("name: Fernhill Two", "name: yes"), ("name: Tea urn", "name: 007"))
    assert (sheet.gear.tyre.date_code, sheet.identity.name, sheet.kit[0].name) == ("0126", "yes", "007")


def test_chassis_number_in_small_letters(read: Read) -> None:
    """A chassis number in small letters is held in capitals, as stamped."""
    assert read(("XXF24BN2026000117", "xxf24bn2026000117")).identity.chassis_number == "XXF24BN2026000117"


def test_all_faults_come_at_once_in_file_order(faults: Faults) -> None:
    """Three faults in three sections are three sentences, in the order of the file."""
    found = faults(
        ("kind: chimney", "kind: chimny"), ("miro: 1065 kg", "miro: 1065"), ("axles: [3.85 m]", "axles: [0.85 m]")
    )
    assert [sentence.split(":")[0] for sentence in found] == [
        "van.yaml, line 11, masses.miro",
        "van.yaml, line 28, running_gear.axles",
        "van.yaml, line 82, kit.chimney.kind",
    ]


def test_very_many_faults_are_cut_short() -> None:
    """A file with thousands of faults gives the first hundred and the number of the rest."""
    found = faults_of("".join(f"odd{n}: 1\n" for n in range(5000)) + GOOD)
    assert len(found) == 101
    assert found[-1] == "van.yaml: 4,900 more faults not shown; put these right first."


@pytest.mark.parametrize(
    ("section", "upto", "sentence"),
    [
        ("plan:", "kit:", "van.yaml, line 1, plan: this is missing; write “plan:” and below it: floor plan."),
        (
            "kit:",
            "",
            "van.yaml, line 1, kit: this is missing; write “kit:” and below it: everything fitted to the van.",
        ),
        (
            "masses:",
            "body:",
            "van.yaml, line 1, masses: this is missing; write “masses:” and below it: plated masses and limits.",
        ),
    ],
)
def test_missing_section(section: str, upto: str, sentence: str) -> None:
    """A sheet without a plan, kit or masses is refused with one sentence, not one for each figure in it."""
    end = GOOD.index(f"\n{upto}") + 1 if upto else len(GOOD)
    assert faults_of(GOOD[: GOOD.index(f"\n{section}") + 1] + GOOD[end:]) == [sentence]


@pytest.mark.parametrize(
    ("kit", "sentence"),
    [
        ("kit: []\n", "van.yaml, line 65, kit: the list has 0 entries; it must have from 1 to 1000."),
        (
            "kit: none\n",
            "van.yaml, line 65, kit: “none” stands here, but this is a list; begin each of its lines with “- ”.",
        ),
        (
            "kit: {a: b}\n",
            "van.yaml, line 65, kit: a set of keys stands here, but this is a list; begin each of its lines with “- ”.",
        ),
    ],
)
def test_kit_is_a_list(kit: str, sentence: str) -> None:
    """The kit list has at least one entry and is a list."""
    assert faults_of(GOOD[: GOOD.index("\nkit:") + 1] + kit) == [sentence]


def test_figures_too_long_to_be_figures(faults: Faults) -> None:
    """A figure of 400 digits and a name of 2,001 letters are refused and quoted no further than a line."""
    nines = "9" * 59
    assert faults(("miro: 1065 kg", f"miro: {'9' * 400} kg")) == [
        f"van.yaml, line 11, masses.miro: “{nines}…” is not a number with a unit; write it for example “12 kg”."
    ]
    assert faults(("name: Fernhill Two", f"name: {'a' * 2001}")) == [
        "van.yaml, line 3, van.name: the text has 2,001 letters; shorten it to at most 2,000."
    ]


def test_file_and_text_read_alike(tmp_path: Path, read: Read) -> None:
    """A sheet file, also one with a byte-order mark and Windows line ends, gives the same sheet as its text."""
    path = tmp_path / "van.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_sheet(path, KINDS, today=TODAY) == read()


def test_messages_name_the_file_as_given(tmp_path: Path) -> None:
    """A fault in a file is told with the path the user gave."""
    path = tmp_path / "van.yaml"
    path.write_text(changed(("miro: 1065 kg", "miro: 1065")), "utf-8")
    with pytest.raises(SheetError) as fault:
        read_sheet(path, KINDS, today=TODAY)
    assert str(fault.value) == f"{path}, line 11, masses.miro: “1065” has no unit; write it for example “1065 kg”."


def faults_free(text: str) -> BuildSheet:
    """The sheet of a text that must have no fault."""
    from firstpitch.sheet import read_sheet_text

    return read_sheet_text(text, KINDS, today=TODAY)
