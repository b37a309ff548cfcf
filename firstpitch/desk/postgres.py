"""PostgreSQL's own programs for taking a database out and putting it back."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from django.db import connection


class ToolError(Exception):
    """One of PostgreSQL's programs is missing or did not do it, in words."""


def dump(to: Path) -> None:
    """Write the whole schema and its rows, as at one moment, to ``to``. ToolError."""
    _run("pg_dump", "--no-owner", "--no-privileges", "--schema=public", f"--file={to}")


def load(dumped: Path, then: str) -> None:
    """Put ``dumped`` in the place of all there is and run ``then``, in one transaction: all of it or nothing. ToolError."""
    _run(
        "psql",
        "--no-psqlrc",
        "--quiet",
        "--single-transaction",
        "--set=ON_ERROR_STOP=1",
        "--command=DROP SCHEMA IF EXISTS public CASCADE",
        f"--file={dumped}",
        f"--command={then}",
    )


def _run(program: str, *arguments: str) -> None:
    found = shutil.which(program)
    if found is None:
        raise ToolError(
            f"{program} is not on the PATH. Install PostgreSQL's client programs of the server's version, "
            "or take and put back backups with your PostgreSQL service's own means."
        )
    about = connection.settings_dict
    given = {"PGHOST": about["HOST"], "PGPORT": about["PORT"], "PGUSER": about["USER"], "PGPASSWORD": about["PASSWORD"]}
    told = {"PGOPTIONS": "-c client_min_messages=warning"} | {
        name: str(value) for name, value in given.items() if value
    }
    done = subprocess.run(
        [found, *arguments, f"--dbname={about['NAME']}"],
        env={**os.environ, **told},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        lines = done.stderr.splitlines()
        said = " ".join([line for line in lines if "ERROR" in line or "error:" in line] or lines[-3:])[:400]
        raise ToolError(f"{program} did not do it: {said} (It must be of the server's version or newer.)")
