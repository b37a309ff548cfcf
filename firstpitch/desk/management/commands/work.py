"""``firstpitch-desk work``: one worker of the queue. Run as many as there is work for."""

from __future__ import annotations

import os
import signal
import threading
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from firstpitch.desk.jobs import work

_LOOK_S = 5.0


class Command(BaseCommand):
    """Works through the queue until it is told to stop; a job in hand is then given back."""

    help = "Work through the queue of jobs. Stop it with Ctrl-C or SIGTERM; the job in hand is given back."

    def add_arguments(self, parser: CommandParser) -> None:
        """When to stop."""
        parser.add_argument("--until-empty", action="store_true", help="stop when nothing is left to do")
        parser.add_argument(
            "--with", type=int, dest="beside", help="stop when the process of this number, which began this one, ends"
        )

    def handle(self, *args: Any, until_empty: bool, beside: int | None, **options: Any) -> None:
        """Work."""
        del args, options
        home = threading.Event()
        for sign in (signal.SIGTERM, signal.SIGINT):
            signal.signal(sign, lambda *_: home.set())
        if beside:
            threading.Thread(target=_watch, args=(beside, home), daemon=True).start()
        work(home, until_empty=until_empty)


def _watch(parent: int, home: threading.Event) -> None:
    while os.getppid() == parent:
        if home.wait(_LOOK_S):
            return
    home.set()
