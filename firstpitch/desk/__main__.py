"""``python -m firstpitch.desk``: prepare and serve the desk, or run one of Django's own commands.

python -m firstpitch.desk serve [--port 8000] [--demo]
python -m firstpitch.desk migrate | check --deploy | ...
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date


def main(arguments: list[str] | None = None) -> None:
    """Serve the desk, or hand the arguments to Django."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "firstpitch.desk.settings")
    given = sys.argv[1:] if arguments is None else arguments
    if given[:1] == ["serve"]:
        _serve(given[1:])
        return
    from django.core.management import execute_from_command_line

    execute_from_command_line(["firstpitch-desk", *given])


def _serve(given: list[str]) -> None:
    parser = argparse.ArgumentParser(prog="firstpitch-desk serve", description="Serve the desk.")
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--queue", type=int, default=1, help="how many workers of the queue to run beside; 0 for none")
    parser.add_argument("--demo", action="store_true", help="fill an empty desk with an invented dealership")
    chosen = parser.parse_args(given)
    prepare(demo=chosen.demo)
    place = f"http://{chosen.host}:{chosen.port}"
    sys.stdout.write(f"The desk is at {place}/ (stop it with Ctrl-C)\n{_first_steps(place)}")
    sys.stdout.flush()
    with queue_workers(chosen.queue):
        serve(chosen.host, chosen.port, chosen.workers)


@contextmanager
def queue_workers(number: int) -> Iterator[None]:
    """Run workers of the queue beside; they end with this process, however it ends."""
    command = [sys.executable, "-m", "firstpitch.desk", "work", "--with", str(os.getpid())]
    begun = [subprocess.Popen(command) for _ in range(number)]
    try:
        yield
    finally:
        for worker in begun:
            worker.terminate()
        for worker in begun:
            worker.wait()


def _first_steps(place: str) -> str:
    """Where to make the first branch, with the code for it, while there is none."""
    from firstpitch.desk.access import nobody_yet
    from firstpitch.desk.actions.people import first_code

    return f"Nobody has an account yet. Make the first at {place}/first/?code={first_code()}\n" if nobody_yet() else ""


def prepare(*, demo: bool) -> None:
    """Bring the database and the static files up to date; seed the demo where asked and where the desk is empty."""
    import django

    django.setup()
    from django.conf import settings
    from django.core.management import call_command

    settings.DATA.mkdir(parents=True, exist_ok=True)
    call_command("migrate", verbosity=0, interactive=False)
    call_command("collectstatic", verbosity=0, interactive=False, ignore_patterns=["django_htmx/ext/*"])
    if demo:
        _demo()


def _demo() -> None:
    from django.conf import settings

    from firstpitch.desk.seed import PEOPLE, seed

    kept = settings.DATA / "demo-password"
    password = seed(date.today())
    if password:
        kept.touch(mode=0o600)
        kept.write_text(password)
    if kept.exists():
        names = ", ".join(f"{name} ({role.label.lower()})" for name, _, _, role in PEOPLE)
        sys.stdout.write(f"Demo people: {names}; the password of all three is {kept.read_text()}\n")


def serve(host: str, port: int, workers: int) -> None:
    """Serve with one blocking thread a worker, which measured fastest."""
    from granian import Granian
    from granian.constants import Interfaces

    Granian(
        "firstpitch.desk.wsgi:application",
        address=host,
        port=port,
        interface=Interfaces.WSGI,
        workers=workers,
        blocking_threads=1,
        log_access=False,
        websockets=False,
    ).serve()


if __name__ == "__main__":
    main()
