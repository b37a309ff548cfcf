"""The command: check, round, pack, replay, kinds, schema and demo, with good input and bad."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from firstpitch.cli.main import VERBS, main
from firstpitch.demo import sheets

VERBS_HERE = ("check", "round", "pack", "replay", "kinds", "schema", "demo")
HEAVY = ("ortools", "pint", "numpy", "rich", "ruamel", "typst", "firstpitch.rounds", "firstpitch.catalogue")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sheet of the demo van Wren in a folder of its own, which is where the command is run."""
    monkeypatch.chdir(tmp_path)
    sheet = tmp_path / "wren.yaml"
    sheet.write_bytes(sheets()["wren"].read_bytes())
    return sheet


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words))


@pytest.mark.parametrize("verb", VERBS_HERE)
def test_help_has_an_example(verb: str) -> None:
    """Every verb explains itself with an example that can be typed."""
    found = run(verb, "--help")
    assert found.exit_code == 0
    assert f"  firstpitch {verb}" in found.stdout.partition("Example")[2]


def test_help_names_every_verb_and_loads_nothing_heavy() -> None:
    """The list of verbs comes without the planner, the catalogue or the units being loaded, so it is there at once."""
    ask = (
        "import sys; from firstpitch.cli.main import main; main(['--help'], standalone_mode=False); "
        f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    )
    found = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert found.stderr.strip() == "[]"
    assert all(f"\n  {verb} " in found.stdout for verb in VERBS)
    assert "Exit codes" in found.stdout


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_shell_completion(shell: str) -> None:
    """The line given in the help prints a script for each of the three shells."""
    command = Path(sys.executable).with_name("firstpitch")
    found = subprocess.run(
        [command], env={"_FIRSTPITCH_COMPLETE": f"{shell}_source"}, capture_output=True, text=True, check=True
    )
    assert "_FIRSTPITCH_COMPLETE" in found.stdout


def test_version() -> None:
    """The version is that of the installed package."""
    assert run("--version").stdout.strip().endswith(version("firstpitch"))


BAD = {
    "no sheet of that name": ("check nowhere.yaml", "nowhere.yaml: there is no such file"),
    "folder as a sheet": ("round .", ".: this is a folder"),
    "device as a sheet": ("check /dev/null", "/dev/null: this is not an ordinary file"),
    "empty sheet": ("round empty.yaml", "empty.yaml: the file is empty"),
    "unknown kind": ("kinds water_heter", "did you mean “water_heater”?"),
    "catalogue is no folder": ("kinds --catalogue wren.yaml", "wren.yaml: this is not a folder"),
    "unknown verb": ("rond wren.yaml", "did you mean “round”?"),
    "unknown demo van": ("demo --van wrn", "did you mean “wren”?"),
    "minutes in words": ("round wren.yaml --minutes soon", "--minutes"),
    "minutes that are no number": ("round wren.yaml --minutes nan", "is not a number"),
    "pace that is no number": ("round wren.yaml --pace nan", "is not a number"),
    "start that is neither": ("round wren.yaml --start on-hookup", "did you mean “on-hook-up”?"),
    "start of another van": ("round wren.yaml --start start.yaml", "a condition this van does not have"),
    "file in place of a folder": ("pack wren.yaml --out empty.yaml", "empty.yaml is a file, not a folder"),
    "folder inside a file": ("pack wren.yaml --out empty.yaml/packs", "empty.yaml is a file, not a folder"),
    "no folder": ("pack wren.yaml --out=", "no folder is named"),
    "demo into a file": ("demo --out empty.yaml", "empty.yaml is a file, not a folder"),
    "picture into a folder": ("round wren.yaml --svg .", ".: this is a folder, not a file"),
    "picture into no folder": ("round wren.yaml --svg none/round.svg", "there is no folder none"),
    "sequence missing": ("replay wren.yaml nowhere.json", "nowhere.json: there is no such file"),
    "sequence is a folder": ("replay wren.yaml .", ".: this is a folder"),
    "sequence without end": ("replay wren.yaml /dev/zero", "/dev/zero: this is not an ordinary file"),
    "sequence is no JSON": ("replay wren.yaml wren.yaml", "wren.yaml, line 1: this is not JSON"),
    "load without a car": ("pack wren.yaml --load load.yaml", "give the car too"),
}


@pytest.mark.parametrize(("words", "sentence"), BAD.values(), ids=BAD)
def test_bad_input(van: Path, words: str, sentence: str) -> None:
    """Bad input gives a sentence on the error stream and exit code 2; nothing is printed as a result and no file is left behind."""
    (van.parent / "empty.yaml").touch()
    (van.parent / "start.yaml").write_text("based_on: from-store\nconditions:\n  ghost.lid: open\n")
    before = sorted(van.parent.iterdir())
    found = run(*words.split())
    assert found.exit_code == 2
    assert sentence in found.stderr
    assert found.stdout == ""
    assert sorted(van.parent.iterdir()) == before


def test_nothing_half_written(van: Path) -> None:
    """When one file of a pack cannot be put in place, none of the others is."""
    (van.parent / "out" / ".wren-round.svg.part").mkdir(parents=True)
    found = run("pack", "wren.yaml", "--out", "out", "--mode", "film")
    assert found.exit_code == 2
    assert "nothing was written" in found.stderr
    assert [path.name for path in (van.parent / "out").iterdir()] == [".wren-round.svg.part"]


ROUND = {
    "van", "mode", "start", "finish", "places", "walks", "steps", "waits", "left_out", "guards", "total_s", "bound_s", "gap", "seed",
}  # fmt: skip
STEP = {"id", "kit", "place", "start_s", "end_s", "level", "worth", "requires", "sets", "starts", "awaits", "why"}


def test_round_as_json_and_back_through_replay(van: Path) -> None:
    """The round as JSON holds every key of its description, and replay finds it clean; with a step taken out replay says no."""
    found = run("round", "wren.yaml", "--mode", "film", "--json")
    assert found.exit_code == 0
    round_ = json.loads(found.stdout)
    assert set(round_) >= ROUND
    assert all(set(step) == STEP for step in round_["steps"])
    assert all(set(wait) >= {"id", "start_s", "end_s", "sustains"} for wait in round_["waits"])
    assert all(set(guard) == {"id", "never", "harm"} for guard in round_["guards"])
    (van.parent / "round.json").write_text(found.stdout)
    clean = run("replay", "wren.yaml", "round.json", "--mode", "film")
    assert (clean.exit_code, clean.stdout) == (0, "Clean: no rule is broken.\n")
    round_["steps"] = [s for s in round_["steps"] if s["id"] != "heater-flue-room.take_off"]
    (van.parent / "round.json").write_text(json.dumps(round_))
    broken = run("replay", "wren.yaml", "round.json", "--mode", "film", "--json")
    assert broken.exit_code == 1
    rows = json.loads(broken.stdout)["broken"]
    assert any(row["rule"] == "guard" and "Carbon monoxide" in row["harm"] for row in rows)


@pytest.mark.usefixtures("van")
def test_an_impossible_round_is_a_result() -> None:
    """Ten minutes are too short: exit code 1 and the clash in words, and the same as JSON."""
    found = run("round", "wren.yaml", "--minutes", "10")
    assert found.exit_code == 1
    assert "The round may take 10:00." in found.stdout
    assert "no round of them is shorter than" in found.stdout
    told = run("round", "wren.yaml", "--minutes", "10", "--json")
    assert told.exit_code == 1
    clash = json.loads(told.stdout)
    assert clash["start_name"] == "from-store"
    assert clash["least_s"] > 600
    assert len(clash["clash"]) == 2


def test_a_must_without_what_it_needs_is_told(van: Path) -> None:
    """With no cylinder valve on the sheet the hob, a must, has no gas: the smallest clash says so."""
    text = van.read_text("utf-8")
    start = text.index("  - id: cylinder-valve")
    end = text.index("  - id: ", start + 5)
    van.write_text(text[:start] + text[end:], encoding="utf-8")
    found = run("round", "wren.yaml")
    assert found.exit_code == 1
    assert "is a must" in found.stdout
    assert "the sheet has no cylinder valve" in found.stdout.lower()


def test_check_lists_what_is_fitted_derived_and_unknown(van: Path) -> None:
    """Check names every kit, what follows from the sheet, and each unknown figure with what it blocks."""
    text = van.read_text("utf-8").replace("    wheel_torque: 88 N·m\n", "")
    van.write_text(text, encoding="utf-8")
    found = run("check", "wren.yaml", "--json")
    assert found.exit_code == 0
    report = json.loads(found.stdout)
    assert len(report["fitted"]) == report["derived"]["kit"] >= 45
    assert report["derived"]["user payload (MTPLM less MiRO)"] == "180 kg"
    torque = next(row for row in report["unknown"] if row["field"] == "running_gear.tyre.wheel_torque")
    assert torque["blocks"] == ["the wheel-nut torque"]
    assert "Unknown" in run("check", "wren.yaml").stdout


def test_kinds_and_schema() -> None:
    """The kinds are listed by where they are, one is shown whole, and the schema is one of 2020-12."""
    assert "outside, at the front" in run("kinds").stdout
    assert "Must never be" in run("kinds", "water_heater").stdout
    assert set(json.loads(run("kinds", "hob", "--json").stdout)) == {"hob"}
    assert json.loads(run("schema").stdout)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_demo_prints_its_sheet_and_makes_its_pack(van: Path) -> None:
    """The demo prints a sheet as it is, and does the whole job into a folder."""
    assert run("demo", "--van", "heron", "--sheet").stdout == sheets()["heron"].read_text("utf-8")
    found = run("demo", "--out", "job")
    assert found.exit_code == 0
    made = {path.name for path in (van.parent / "job").iterdir()}
    assert made == {"wren-pack.pdf", "wren-pack.html", "wren-round.pdf", "wren-round.svg"}
    assert all(name in found.stdout for name in made)
