"""Static files as they are sent: lighter, and never other than what was written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from django.core.management import call_command
from pytest_django.fixtures import Settings

from firstpitch.desk.statics import lighter


@pytest.mark.parametrize(
    ("written", "sent"),
    [
        ("function f(x) { return `a${x ? ` · ${x}` : ''}`; } // why", 'function f(e){return`a${e?` · ${e}`:""}`}'),
        ('import { one } from "./one.js";\n/** why */\none();', 'import{one}from"./one.js";one()'),
        ("export {};\n", "export {};\n"),
    ],
)
def test_scripts_lose_only_what_nobody_runs(written: str, sent: str) -> None:
    """Comments, indents and long inner names go; texts in quotes stay to the letter, and what could not be read again stays whole."""
    assert lighter("text/javascript", written) == sent


def test_gathering_again_changes_nothing(tmp_path: Path, settings: Settings) -> None:
    """A desk that is started again gives every file the name it had, so no tablet fetches anything twice."""
    settings.STATIC_ROOT = tmp_path
    versioned = {"BACKEND": "firstpitch.desk.statics.VersionedStatics"}
    settings.STORAGES = {**settings.STORAGES, "staticfiles": versioned}
    names = []
    for _ in range(2):
        call_command("collectstatic", verbosity=0, interactive=False, ignore_patterns=["django_htmx/ext/*"])
        names.append(json.loads((tmp_path / "staticfiles.json").read_text("utf-8"))["paths"])
    assert names[0] == names[1]
    assert "desk/live/screen.js" in names[0]
