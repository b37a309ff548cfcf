"""The how-to for planning a round: every example on the page runs as it stands."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from firstpitch.cli import replay as replay_verb
from firstpitch.cli import round as round_verb

PAGE = Path(__file__).parents[3] / "docs" / "how-to-round.md"
_BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_NAMED = re.compile(r"Save this as `([\w.]+)`:\s*$")
_CODE = re.compile(r"exit code (\d)")


@dataclass(frozen=True)
class Example:
    """One command of the page and the exit code the page promises (0 where it says nothing)."""

    command: str
    code: int


@cache
def page() -> str:
    return PAGE.read_text("utf-8")


def examples() -> Iterator[Example]:
    for language, body in _BLOCK.findall(page()):
        if language == "sh":
            for line in body.splitlines():
                command, _, remark = line.partition(" #")
                promised = _CODE.search(remark)
                yield Example(command.strip(), int(promised[1]) if promised else 0)


def files() -> Iterator[tuple[str, str]]:
    """The files the page asks its reader to save: name and text."""
    for block in _BLOCK.finditer(page()):
        named = _NAMED.search(page()[: block.start()])
        if named:
            yield named[1], block[2]


def run(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    env = {**os.environ, "PATH": path, "COLUMNS": "160"}
    return subprocess.run(command, shell=True, cwd=folder, env=env, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[subprocess.CompletedProcess[str], Path]]:
    """All examples, run from the top of the page in one empty folder with the files the page asks for."""
    folder = tmp_path_factory.mktemp("how-to")
    for name, text in files():
        (folder / name).write_text(text, encoding="utf-8")
    return {example.command: (run(example.command, folder), folder) for example in examples()}


@pytest.mark.parametrize("example", list(examples()), ids=lambda example: example.command)
def test_example_runs(example: Example, outcomes: dict[str, tuple[subprocess.CompletedProcess[str], Path]]) -> None:
    """A command on the page leaves with the exit code the page promises, and never with a traceback."""
    done, _ = outcomes[example.command]
    assert done.returncode == example.code, done.stderr or done.stdout
    assert "Traceback" not in done.stderr
    assert ">" in example.command or done.stdout.strip()


def test_files_come_out(outcomes: dict[str, tuple[subprocess.CompletedProcess[str], Path]]) -> None:
    """The sheet, the picture and the JSON file that the page speaks of are there afterwards, each of its sort."""
    _, folder = next(iter(outcomes.values()))
    assert (folder / "wren.yaml").read_text("utf-8").count("kind:") >= 45
    assert "<svg" in (folder / "round.svg").read_text("utf-8")
    start = json.loads((folder / "round.json").read_text("utf-8"))["start"]
    for name, text in files():
        if name.endswith(".yaml"):
            assert all(line.split(":")[0].strip() in start for line in text.splitlines()[2:])


def test_options_are_told() -> None:
    """Every option of “round” and “replay” stands on the page, so that nothing has to be guessed from the program."""
    told = set(re.findall(r"--[a-z]+", page()))
    for command in (round_verb.command, replay_verb.command):
        assert {opt for param in command.params for opt in param.opts if opt.startswith("--")} <= told


def test_broken_order_is_told(outcomes: dict[str, tuple[subprocess.CompletedProcess[str], Path]]) -> None:
    """The wrong order on the page is told for what the page says: door, flue cover, look for leaks, alarm."""
    done, _ = outcomes["firstpitch replay wren.yaml mine.json --part"]
    for word in ("door", "flue", "leaks", "alarm"):
        assert word in done.stdout
