"""The health page: what must hold for the desk to do its work."""

from __future__ import annotations

from typing import NamedTuple

import pytest
from django.db import connection, connections
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.test import Client

from firstpitch.desk import health
from firstpitch.desk.models import Branch, Job, Person


class Disk(NamedTuple):
    """What the system says of a disk [bytes]."""

    total: int
    used: int
    free: int


def test_all_well(branch: Branch, specialist: Person) -> None:
    """A desk that works says so to anybody, with the length of its queue and nothing of any branch."""
    Job.objects.create(branch=branch, task="none", by=specialist)
    answer = Client().get("/health/")
    said = answer.json()
    assert answer.status_code == 200
    assert said["ok"]
    assert said["database"]
    assert said["migrations"]
    assert said["queue"]["waiting"] == 1
    assert said["queue"]["running"] == 0
    assert said["disk"]["free_bytes"] >= said["disk"]["least_bytes"]
    assert branch.name not in answer.content.decode()


def test_unmigrated(db: None) -> None:  # noqa: ARG001
    """A database that lacks a migration of this program is not well."""
    [(_, last)] = MigrationLoader(connection).graph.leaf_nodes("desk")
    MigrationRecorder(connection).record_unapplied("desk", last)
    answer = Client().get("/health/")
    assert answer.status_code == 503
    assert answer.json()["migrations"] is False


def test_full_disk(db: None, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: ARG001
    """Less room than a day of photos is not well."""
    monkeypatch.setattr(health.shutil, "disk_usage", lambda _: Disk(1, 1, health.LEAST_FREE - 1))
    answer = Client().get("/health/")
    assert answer.status_code == 503
    assert answer.json()["disk"]["ok"] is False


def test_no_database(db: None, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: ARG001
    """A database that cannot be opened is 503 with what could still be asked, and no traceback."""
    broken = connections.create_connection("default")
    broken.settings_dict = {**broken.settings_dict, "NAME": "file:/nowhere/none.sqlite3?mode=ro", "HOST": "/nowhere"}
    monkeypatch.setattr(health, "connection", broken)
    answer = Client().get("/health/")
    assert answer.status_code == 503
    said = answer.json()
    assert said["database"] is False
    assert said["migrations"] is None
    assert said["queue"]["waiting"] is None
    assert said["disk"]["free_bytes"] > 0
