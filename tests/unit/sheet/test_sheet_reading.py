"""Any sheet can be read against a form, with the same sentences as a build sheet."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from firstpitch.sheet.errors import SheetError
from firstpitch.sheet.form import Listing, Row, Section, choice, count, quantity, simple, text
from firstpitch.sheet.reading import read_file, read_text, sure
from firstpitch.sheet.schema import schema_of
from firstpitch.sheet.values import example, least_of

TODAY = date(2026, 5, 1)
BARROW = Section(
    "barrow",
    "a garden barrow",
    (
        text("name", "name of the barrow", required=True),
        quantity("load", "most it may carry", "kg", 1, 200, required=True),
        quantity("tyre_pressure", "pressure of its tyre", "bar", 0.5, 5),
        count("handles", "number of handles", 1, 2),
        choice("colour", "its colour", ("red", "green"), need="may"),
        simple("bought", "day it was bought", "date"),
        simple("lent", "whether it is lent out", "yes-no"),
        Row("wheels", "places of the wheels", "m", ("wheel",), most=4, bounds=(0, 3)),
        Section("owner", "whose it is", (text("name", "owner's name"),)),
        Listing(
            "tools",
            "tools in it",
            Section("tool", "a tool", (text("id", "its id", "[a-z]+", "small letters", required=True),)),
        ),
    ),
)


def test_good_sheet() -> None:
    """A form of one's own is read into figures, with what is missing named."""
    draft = read_text(
        "name: Green one\nload: 100 kg\nhandles: 2\nlent: no\nbought: 2024-03-01\nwheels: [0.2 m, 40 cm]\ntools: [{id: rake}, {id: hoe}]\n",
        BARROW,
        TODAY,
        "barrow.yaml",
    )
    draft.stop()
    top = draft.top
    assert (top.text("name"), top.si("load"), top.count("handles"), top.yes("lent")) == ("Green one", 100.0, 2, False)
    assert (top.day("bought"), top.row("wheels")) == (date(2024, 3, 1), (0.2, 0.4))
    assert [tool.text("id") for tool in top.sections("tools")] == ["rake", "hoe"]
    assert draft.unknown == ["tyre_pressure", "colour", "owner.name"]
    assert sure(top.quantity("load")).written == "100 kg"


def test_bad_sheet_from_a_file(tmp_path: Path) -> None:
    """Faults of any form name file, line and field, and take in what the caller adds."""
    path = tmp_path / "barrow.yaml"
    path.write_text("name: Green one\nload: -5 kg\nhandle: 2\nwheels: [0.2 m, 9 m]\ntools:\n  - id: Rake\n", "utf-8")
    draft = read_file(path, BARROW, TODAY)
    draft.faults.add(draft.top.line("load"), draft.top.field("load"), "this is more than the wheel bears; take less")
    with pytest.raises(SheetError) as fault:
        draft.stop()
    assert [sentence.removeprefix(str(path)) for sentence in fault.value.faults] == [
        ", line 2, load: “-5 kg” is too low; it must be from 1 kg to 200 kg.",
        ", line 2, load: this is more than the wheel bears; take less.",
        ", line 3: there is no key “handle” here (did you mean “handles”?); the keys are name, load, tyre_pressure, "
        "handles, colour, bought, lent, wheels, owner or tools.",
        ", line 4, wheels (wheel): “9 m” is too high; it must be from 0 m to 3 m.",
        ", line 6, tools 1.id: “Rake” is not of the right form; write small letters.",
    ]


def test_missing_figure_taken_as_read() -> None:
    """Taking a figure for granted that was not read is a programmer's mistake, not the user's."""
    with pytest.raises(ValueError, match="call stop"):
        sure(None)


def test_schema_of_any_form() -> None:
    """The same form gives the JSON Schema, with what is required and no other keys."""
    schema = schema_of(BARROW, "urn:example:barrow")
    assert schema["required"] == ["name", "load"]
    assert schema["additionalProperties"] is False
    assert list(schema["properties"]) == [part.name for part in BARROW.parts]


def test_example_lies_within_the_bounds() -> None:
    """The example in a sentence is itself a value that the reader takes."""
    for part in (
        quantity("a", "a", "kg", 200, 5000),
        quantity("a", "a", "m", 0.3, 2),
        quantity("a", "a", "W"),
        quantity("a", "a", "m", 20),
    ):
        figure = float(example(part.spec).split()[0])
        assert (least_of(part.spec) or 0) <= figure <= (part.spec.most or 1e9)
