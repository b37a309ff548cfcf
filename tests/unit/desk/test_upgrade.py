"""Upgrades: a database of the first schema, with rows in it, is brought to the present one, and every row is there as it was."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from tests.unit.desk.test_safety import run

OLD = """
import datetime
from django.core.management import call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
call_command("migrate", "desk", "0001", verbosity=0)
old = MigrationExecutor(connection).loader.project_state([("desk", "0001_initial")]).apps
made = lambda model, **values: old.get_model("desk", model).objects.create(**values)
now = datetime.datetime(2026, 11, 2, 9, 30, tzinfo=datetime.UTC)
branch = made("Branch", name="Old Yard")
person = made("Person", username="ada", password="x", role="specialist", branch=branch)
van = made("Van", branch=branch, name="Old van", chassis_number="OLDVAN00000000001", sheet="van: {}", version=3)
handover = made("Handover", van=van, owner_name="Rowan Pell", due=now, specialist=person)
made("Event", van=van, handover=handover, what="note", data={"words": "kept"}, by=person, at=now)
made("Media", van=van, file="van/old.jpg", sort="image/jpeg", digest="0" * 64, by=person)
made("Job", branch=branch, task="none", by=person)
"""


def rows(data: Path) -> dict[str, list[dict[str, object]]]:
    """The rows of each table of the desk, by column."""
    with closing(sqlite3.connect(data / "firstpitch.sqlite3")) as database:
        database.row_factory = sqlite3.Row
        names = [name for (name,) in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        mine = sorted(name for name in names if name.startswith("desk_"))
        return {name: [dict(row) for row in database.execute(f"SELECT * FROM {name}")] for name in mine}


def test_from_the_first_schema(tmp_path: Path) -> None:
    """Every row of the first schema, column by column, is the same after the upgrade, and nothing is left to migrate."""
    made = run(tmp_path, "shell", "--no-imports", "-c", OLD)
    assert made.returncode == 0, made.stderr
    before = rows(tmp_path)
    assert {name for name, found in before.items() if found} >= {
        "desk_branch", "desk_person", "desk_van", "desk_handover", "desk_event", "desk_media", "desk_job",
    }  # fmt: skip
    done = run(tmp_path, "migrate", "--verbosity", "0")
    assert done.returncode == 0, done.stderr
    after = rows(tmp_path)
    for table, found in before.items():
        assert len(after[table]) == len(found), table
        for old, new in zip(found, after[table], strict=True):
            assert {name: new[name] for name in old} == old, table
    assert run(tmp_path, "migrate", "--check").returncode == 0
    assert run(tmp_path, "makemigrations", "--check", "--dry-run").returncode == 0
