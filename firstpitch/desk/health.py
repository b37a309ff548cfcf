"""How the desk itself is: database, migrations, room on the disk, the queue."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.utils import timezone

from firstpitch.desk.models import Job

LEAST_FREE = 500 * 1024 * 1024  # bytes; a day of photos of one branch, common practice, no source


@dataclass(frozen=True)
class Health:
    """``free`` is bytes on the disk of the data folder; ``waits_s`` how long the oldest job has waited. None: could not be asked."""

    database: bool
    migrated: bool | None
    free: int | None
    waiting: int | None = None
    running: int | None = None
    waits_s: int | None = None

    @property
    def enough_room(self) -> bool:
        """Whether a day's photos still fit."""
        return self.free is not None and self.free >= LEAST_FREE

    @property
    def well(self) -> bool:
        """Whether the desk can do its work. A long queue is told but is no fault of the web process that is asked."""
        return self.database and self.migrated is True and self.enough_room

    def told(self) -> dict[str, Any]:
        """As the page says it."""
        return {
            "ok": self.well,
            "database": self.database,
            "migrations": self.migrated,
            "disk": {"ok": self.enough_room, "free_bytes": self.free, "least_bytes": LEAST_FREE},
            "queue": {"waiting": self.waiting, "running": self.running, "oldest_waits_s": self.waits_s},
        }


def health() -> Health:
    """Ask everything once; never raises for what it is there to find out."""
    free = _free()
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return Health(database=False, migrated=None, free=free)
    try:
        if not _migrated():
            return Health(database=True, migrated=False, free=free)
        open_jobs = Job.objects.filter(ended=None)
        waiting = open_jobs.filter(begun=None)
        oldest = waiting.order_by("id").values_list("added", flat=True).first()
        waits = int((timezone.now() - oldest).total_seconds()) if oldest else 0
        running = open_jobs.exclude(begun=None).count()
        return Health(True, True, free, waiting.count(), running, waits)
    except DatabaseError:
        return Health(database=False, migrated=None, free=free)


def _migrated() -> bool:
    executor = MigrationExecutor(connection)
    return not executor.migration_plan(executor.loader.graph.leaf_nodes())


def _free() -> int | None:
    try:
        return shutil.disk_usage(settings.DATA).free
    except OSError:
        return None
