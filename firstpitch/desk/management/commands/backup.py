"""``firstpitch-desk backup FILE``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from firstpitch.desk.backup import HERE, BackupError, write_backup
from firstpitch.desk.postgres import ToolError


class Command(BaseCommand):
    """Writes a backup while the desk runs."""

    help = "Keep the whole desk (database and media) in one file. The desk may run meanwhile."

    def add_arguments(self, parser: CommandParser) -> None:
        """Where to."""
        parser.add_argument("file", type=Path, help="the file to write, such as desk-monday.tar.gz")

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        """Write it."""
        del args, options
        try:
            made = write_backup(file)
        except (BackupError, ToolError, OSError) as wrong:
            raise CommandError(str(wrong)) from None
        self.stdout.write(
            f"{file}: the database and {len(made.files) - 1} media files, {file.stat().st_size / 1e6:.1f} MB."
        )
        if made.media != HERE:
            self.stdout.write("The media are in a bucket and not in this file; keep versions of the bucket itself.")
        self.stdout.write(
            "It holds everything about people and vans: keep it where only you can read it, and on another machine."
        )
