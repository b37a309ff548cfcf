"""``firstpitch-desk restore FILE``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from firstpitch.desk.backup import BackupError
from firstpitch.desk.postgres import ToolError
from firstpitch.desk.restore import restore


class Command(BaseCommand):
    """Puts a backup back."""

    help = "Put a backup back, all of it or nothing. Stop the desk and its workers first."

    def add_arguments(self, parser: CommandParser) -> None:
        """Which, and whether over a filled desk."""
        parser.add_argument("file", type=Path)
        parser.add_argument(
            "--replace",
            action="store_true",
            help="also where there is a desk already; that one is kept in a backup first",
        )

    def handle(self, *args: Any, file: Path, replace: bool, **options: Any) -> None:
        """Put it back."""
        del args, options
        try:
            made, kept = restore(file, replace=replace)
        except (BackupError, ToolError, OSError) as wrong:
            raise CommandError(f"{wrong} Nothing was changed.") from None
        self.stdout.write(
            f"The desk is as it was on {made.made[:16].replace('T', ' at ')} UTC. Everybody has to sign in again."
        )
        self.stdout.write("Owners' links that were taken back since then are good again: look through them.")
        if kept:
            self.stdout.write(f"What was there before is kept in {kept}.")
