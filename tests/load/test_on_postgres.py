"""The desk on a real PostgreSQL server, from a wheel, in a folder of its own: some of its tests, and a backup put back.

All of its tests, in the browser too, run there with ``make test-postgres``.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests import postgres

ROOT = Path(__file__).parents[2]
CHOSEN = "jobs or health or live_events or today or called_off"
pytestmark = pytest.mark.slow


def environment(data: Path, name: str) -> dict[str, str]:
    """The desk's environment for the database ``name`` of the server, with the server's own programs first on the PATH."""
    server = postgres.server()
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("FIRSTPITCH_", "DJANGO_", "PYTEST_"))}
    return {
        **kept,
        "PATH": f"{server.bin_path}{os.pathsep}{kept['PATH']}",
        "FIRSTPITCH_DATA": str(data),
        "FIRSTPITCH_DATABASE": server.get_uri(database=name),
    }


def run(given: dict[str, str], *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run a module of Python with that environment."""
    return subprocess.run(
        [sys.executable, "-m", *arguments],
        cwd=ROOT,
        env=given,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )


def on_postgres(tmp_path: Path, *chosen: str) -> None:
    """Run some of the tests in a process of their own, on a server of its own; they have to pass."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("FIRSTPITCH_", "DJANGO_", "PYTEST_"))}
    done = run({**kept, postgres.SWITCH: "1", "FIRSTPITCH_DATA": str(tmp_path)}, "pytest", *chosen, "-x")
    assert done.returncode == 0, done.stdout[-3000:] + done.stderr[-1000:]
    assert " passed" in done.stdout or "[100%]" in done.stdout


def test_the_desks_own_tests(tmp_path: Path) -> None:
    """Today, events of tablets, the queue and health do on PostgreSQL what they do on SQLite."""
    on_postgres(tmp_path, "tests/unit/desk", "-k", f"({CHOSEN}) and not no_database and not real_pack")


def test_a_record_is_signed_in_the_browser(tmp_path: Path) -> None:
    """A real desk on PostgreSQL lets a record be read and signed in a real browser."""
    on_postgres(tmp_path, "tests/browser/test_record.py")


FILL = """
from datetime import date
from firstpitch.desk.seed import count, seed
print(seed(date(2026, 11, 25)) and count())
"""
COUNT = "from firstpitch.desk.seed import count; print(count())"


def test_backup_is_put_back(tmp_path: Path) -> None:
    """What is written after a backup is gone when it is put back, and what was there before is there again."""
    postgres.server().psql("CREATE DATABASE kept")
    given = environment(tmp_path / "data", "kept")
    file = str(tmp_path / "kept.tar.gz")

    def desk(*arguments: str) -> str:
        done = run(given, "firstpitch.desk", *arguments)
        assert done.returncode == 0, done.stderr
        return done.stdout

    desk("migrate", "--verbosity", "0")
    filled = desk("shell", "--no-imports", "-c", FILL)
    desk("backup", file)
    desk(
        "shell",
        "--no-imports",
        "-c",
        "from firstpitch.desk.models import Event; Event.objects.all()._raw_delete('default')",
    )
    refused = run(given, "firstpitch.desk", "restore", file)
    assert refused.returncode == 1
    assert "--replace" in refused.stderr
    desk("restore", "--replace", file)
    assert desk("shell", "--no-imports", "-c", COUNT) == filled
    events = desk(
        "shell", "--no-imports", "-c", "from firstpitch.desk.models import Event; print(Event.objects.count())"
    )
    assert int(events) > 0
    desk("migrate", "--check")
