"""The real desk on a free port with a data folder of its own, and the browser that looks at it."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests import postgres

ARTEFACTS = Path(__file__).resolve().parents[1] / "artefacts"
SIZES = {"wide": (1180, 820), "tall": (820, 1180), "phone": (390, 844)}
NAMES = {"specialist": "maud", "technician": "idris", "manager": "sorrel"}
MISSING = (
    "The browser tests need Chromium: install the system package `chromium` (Debian, Ubuntu: `sudo apt-get install -y chromium`), "
    "or name the program in FIRSTPITCH_CHROMIUM."
)
_WAIT_S = 60.0
_PREPARE = "from firstpitch.desk.__main__ import prepare; prepare(demo=True)"


def chromium() -> str | None:
    """Where Chromium is; installed from the system's packages when we may, None when it cannot be had."""
    found = _chromium()
    if found is None and shutil.which("apt-get") and os.geteuid() == 0:
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for arguments in (["update"], ["install", "-y", "chromium"]):
            subprocess.run(["apt-get", *arguments], env=quiet, check=False, capture_output=True)
        found = _chromium()
    return found


def _chromium() -> str | None:
    named = os.environ.get("FIRSTPITCH_CHROMIUM")
    return named or shutil.which("chromium") or shutil.which("chromium-browser")


def environment(data: Path, **more: str) -> dict[str, str]:
    """The surroundings of a desk with this data folder."""
    kept = {name: value for name, value in os.environ.items() if name != "DJANGO_ALLOW_ASYNC_UNSAFE"}
    if postgres.wanted():
        kept["FIRSTPITCH_DATABASE"] = postgres.database_of(data)
    return {
        **kept,
        "FIRSTPITCH_DATA": str(data),
        "DJANGO_SETTINGS_MODULE": "firstpitch.desk.settings",
        "FIRSTPITCH_LOG": "WARNING",
        **more,
    }


def fill(data: Path) -> None:
    """Make the data folder: database, static files, the demo."""
    made = subprocess.run(
        [sys.executable, "-c", _PREPARE], env=environment(data), capture_output=True, text=True, check=False
    )
    if made.returncode:
        raise RuntimeError(f"the demo could not be made:\n{made.stderr}")


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


@dataclass
class Desk:
    """One running desk. ``stop`` and ``start`` again keep the data and the address."""

    data: Path
    port: int = field(default_factory=free_port)
    workers: int = 2
    more: dict[str, str] = field(default_factory=dict)
    signed_in: dict[str, Any] = field(default_factory=dict)
    _process: subprocess.Popen[bytes] | None = None

    @property
    def address(self) -> str:
        """Where it is, without a slash at the end."""
        return f"http://127.0.0.1:{self.port}"

    @property
    def password(self) -> str:
        """The password of every person of the demo."""
        return (self.data / "demo-password").read_text().strip()

    @property
    def log(self) -> str:
        """What the server wrote."""
        return (self.data / "server.log").read_text("utf-8")

    def start(self) -> None:
        """Start serving and wait until the first page comes."""
        command = [sys.executable, "-m", "firstpitch.desk", "serve"]
        command += ["--port", str(self.port), "--workers", str(self.workers)]
        with (self.data / "server.log").open("ab") as log:
            self._process = subprocess.Popen(
                command,
                env=environment(self.data, **self.more),
                stdout=log,
                stderr=log,
                start_new_session=True,
                cwd=self.data,
            )
        ends = time.monotonic() + _WAIT_S
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > ends:
                self.stop()
                raise RuntimeError(f"the desk did not start:\n{self.log[-3000:]}")
            time.sleep(0.1)

    def _answers(self) -> bool:
        try:
            with urllib.request.urlopen(f"{self.address}/sign-in/", timeout=5):
                return True
        except urllib.error.HTTPError:
            return True
        except OSError:
            return False

    def stop(self, *, at_once: bool = False) -> None:
        """Stop serving; ``at_once`` as a power cut would."""
        process, self._process = self._process, None
        if process is None:
            return
        _signal_all(process.pid, signal.SIGKILL if at_once else signal.SIGTERM)
        try:
            process.wait(timeout=15)
        except subprocess.TimeoutExpired:
            _signal_all(process.pid, signal.SIGKILL)
            process.wait()

    def copy_database(self) -> None:
        """Copy the database, as a backup does; the desk must be stopped."""
        if postgres.wanted():
            postgres.copied(self.data)
        else:
            shutil.copy(self.data / "firstpitch.sqlite3", self.data / "copy.sqlite3")

    def put_back_database(self) -> None:
        """Put the copy in the database's place; the desk must be stopped."""
        if postgres.wanted():
            postgres.put_back(self.data)
            return
        for file in self.data.glob("firstpitch.sqlite3*"):
            file.unlink()
        shutil.copy(self.data / "copy.sqlite3", self.data / "firstpitch.sqlite3")

    def pause(self) -> None:
        """Stop answering without ending, as a desk does behind a bad line."""
        assert self._process
        _signal_all(self._process.pid, signal.SIGSTOP)

    def go_on(self) -> None:
        """Answer again."""
        assert self._process
        _signal_all(self._process.pid, signal.SIGCONT)

    def python(self, code: str) -> str:
        """Run Python beside the desk, on its data, with its models (``from firstpitch.desk.models import …``); gives what it printed."""
        ready = f"import django; django.setup()\n{code}"
        done = subprocess.run(
            [sys.executable, "-c", ready],
            env=environment(self.data, **self.more),
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode:
            raise RuntimeError(done.stderr)
        return done.stdout.strip()


def _signal_all(group: int, what: signal.Signals) -> None:
    with contextlib.suppress(ProcessLookupError):
        os.killpg(group, what)
