"""Writes about the queue. Each worker holds a job under its own name; what it says or keeps counts only while it still holds it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from django.db import connection, transaction
from django.db.models import F, Q
from django.utils import timezone

from firstpitch.desk.actions.history import write_branch
from firstpitch.desk.models import Branch, Job, Person, Van

MOST_TRIES = 3
STALE = timedelta(seconds=60)  # six beats missed: whoever held it is gone
_WAIT = timedelta(seconds=15)
STOPPED = "Stopped."
LOST = f"This was begun {MOST_TRIES} times and never came to an end. Ask for it again; if that does not help, look at the log."


class NotHeldError(Exception):
    """The job is over, or somebody else holds it by now: nothing may be kept for it."""


@transaction.atomic
def enqueue(
    *, by: Person | None, task: str, arguments: dict[str, Any], branch: Branch | None = None, van: Van | None = None
) -> Job:
    """Put work at the end of the queue. ``task`` is a name in desk/tasks.py, ``arguments`` what it needs, as JSON."""
    branch = branch or (van.branch if van else by.branch if by else None)
    job = Job.objects.create(branch=branch, van=van, task=task, arguments=arguments, by=by)
    _tell(by, job, "job.added")
    return job


@transaction.atomic
def take(*, by: Person | None, worker: str) -> Job | None:
    """Take the oldest job that is ready, or one whose worker is gone; None when there is none."""
    now = timezone.now()
    _end_what_is_lost(by, now)
    ready = Job.objects.filter(_ready(now)).order_by("id")
    if connection.features.has_select_for_update_skip_locked:
        ready = ready.select_for_update(skip_locked=True)
    key = ready.values_list("pk", flat=True).first()
    if key is None:
        return None
    taken = Job.objects.filter(_ready(now), pk=key).update(
        worker=worker, begun=now, beat=now, after=None, progress="", tries=F("tries") + 1
    )
    return Job.objects.select_related("branch", "van__branch", "by").get(pk=key) if taken else None


def _ready(now: datetime) -> Q:
    free = Q(begun=None) | Q(beat__lt=now - STALE)
    due = Q(after=None) | Q(after__lte=now)
    return free & due & Q(ended=None, stopped=None, tries__lt=MOST_TRIES)


def _end_what_is_lost(by: Person | None, now: datetime) -> None:
    gone = Job.objects.filter(ended=None, beat__lt=now - STALE)
    for job in gone.filter(Q(tries__gte=MOST_TRIES) | Q(stopped__isnull=False)):
        fault = STOPPED if job.stopped else LOST
        if Job.objects.filter(pk=job.pk, ended=None, beat=job.beat).update(ended=now, fault=fault):
            _tell(by, job, "job.failed")


@transaction.atomic
def beat(*, by: Person | None, job: Job, worker: str, progress: str) -> bool:
    """Say that the work goes on and how far it is. False when the job is no longer held, or somebody asked for it to stop."""
    del by
    held = Job.objects.filter(pk=job.pk, worker=worker, ended=None, stopped=None)
    return bool(held.update(beat=timezone.now(), progress=progress[:200]))


@transaction.atomic
def finish(*, by: Person | None, job: Job, worker: str, keep: Callable[[], dict[str, Any]]) -> Job:
    """End a job well: ``keep`` writes what came of it and tells it as JSON, in the same transaction. NotHeldError, and nothing kept,
    when it is no longer held.
    """
    held = _held(job, worker)
    if held.stopped:
        raise NotHeldError
    held.result, held.ended, held.progress = keep(), timezone.now(), ""
    held.save(update_fields=["result", "ended", "progress"])
    _tell(by, held, "job.done")
    return held


@transaction.atomic
def fail(*, by: Person | None, job: Job, worker: str, fault: str, again: bool) -> Job:
    """It came to nothing. With ``again`` it is put off and tried anew, up to three times; else it is over with ``fault``."""
    held = _held(job, worker)
    now = timezone.now()
    if again and held.tries < MOST_TRIES and not held.stopped:
        held.begun = held.beat = None
        held.worker, held.progress, held.after = "", "", now + _WAIT * held.tries**2
        held.save(update_fields=["begun", "beat", "worker", "progress", "after"])
        return held
    held.ended, held.fault, held.progress = now, STOPPED if held.stopped else fault, ""
    held.save(update_fields=["ended", "fault", "progress"])
    _tell(by, held, "job.failed")
    return held


@transaction.atomic
def give_back(*, by: Person | None, job: Job, worker: str) -> None:
    """The worker is told to go home: another may take the job at once, and this try does not count."""
    del by
    _held(job, worker)
    Job.objects.filter(pk=job.pk, worker=worker, ended=None).update(
        begun=None, beat=None, worker="", progress="", tries=F("tries") - 1
    )


@transaction.atomic
def stop(*, by: Person, job: Job) -> Job:
    """Stop a job: at once while it waits, as soon as its worker next looks while it runs. One that is over stays as it is."""
    locked = Job.objects.select_for_update().get(pk=job.pk)
    if locked.ended or locked.stopped:
        return locked
    locked.stopped = timezone.now()
    if locked.begun is None:
        locked.ended, locked.fault = locked.stopped, STOPPED
    locked.save(update_fields=["stopped", "ended", "fault"])
    _tell(by, locked, "job.stopped")
    return locked


def _held(job: Job, worker: str) -> Job:
    held = Job.objects.select_for_update().filter(pk=job.pk, worker=worker, ended=None).first()
    if held is None:
        raise NotHeldError
    return held


def _tell(by: Person | None, job: Job, what: str) -> None:
    if job.branch:
        said = {"job": job.pk, "task": job.task, "arguments": job.arguments, "fault": job.fault}
        write_branch(by=by, branch=job.branch, what=what, data=said)
