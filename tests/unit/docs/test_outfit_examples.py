"""The page about the outfit: every example on it runs as it stands."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from firstpitch.cli.main import main

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "outfit.md").read_text("utf-8")
COMMANDS = [
    line for block in re.findall(r"^```sh\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL) for line in block.splitlines()
]


def test_examples_run_in_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Typed one after another in the project's folder, each command of the page ends with exit code 0."""
    (tmp_path / "firstpitch").symlink_to(ROOT / "firstpitch")
    monkeypatch.chdir(tmp_path)
    assert len(COMMANDS) == 5
    for command in COMMANDS:
        program, *words = shlex.split(command)
        assert program == "firstpitch"
        result = CliRunner().invoke(main, words)
        assert result.exit_code == 0, f"{command}\n{result.output}"
    assert Path("stow.yaml").exists()


def test_verdict_words_are_all_explained() -> None:
    """The page explains each of the four words, and names no other."""
    table = re.findall(r"^\| (fits|tight|does not fit|cannot say) \|", PAGE, re.MULTILINE)
    assert table == ["fits", "tight", "does not fit", "cannot say"]
