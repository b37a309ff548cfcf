"""Working through the queue: one worker, one job at a time. docs/running.md says how to run it."""

from __future__ import annotations

import logging
import secrets
import socket
import threading
import time
from collections.abc import Mapping

from django.db import DatabaseError, close_old_connections, connection

from firstpitch.desk.actions.jobs import NotHeldError, beat, enqueue, fail, finish, give_back, take
from firstpitch.desk.models import Job
from firstpitch.desk.tasks import TASKS, Task, TaskError

__all__ = ["enqueue", "work", "work_once", "worker_name"]

BEAT_S = 10.0
_TELL_S = 1.0
BROKE = "Something broke at our end while this was made. It has been noted in the log. Try again later."
_log = logging.getLogger(__name__)


class LetGo(Exception):
    """The job in hand is to be let go: it was stopped, it is lost, or the worker goes home."""


class Hand:
    """A job in hand: beats beside the work, tells how far it is, and says when to let go."""

    def __init__(self, job: Job, worker: str, home: threading.Event) -> None:
        self.job, self.worker, self.home = job, worker, home
        self._words, self._told = "", 0.0
        self._over, self._gone = threading.Event(), threading.Event()
        self._thread = threading.Thread(target=self._beats, daemon=True)

    def __enter__(self) -> Hand:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._over.set()
        self._thread.join()

    def tell(self, words: str) -> None:
        """How far the work is; raises LetGo when it is to be let go."""
        self._words = words
        if time.monotonic() - self._told >= _TELL_S:
            self._told = time.monotonic()
            self._beat()
        if self._gone.is_set() or self.home.is_set():
            raise LetGo

    def _beats(self) -> None:
        while not self._over.wait(BEAT_S):
            self._beat()
        connection.close()

    def _beat(self) -> None:
        try:
            held = beat(by=None, job=self.job, worker=self.worker, progress=self._words)
        except (
            DatabaseError
        ):  # the next beat may get through; if none does, another worker takes the job and nothing is kept here
            _log.warning("job %s: the database took no beat", self.job.pk)
            return
        if not held:
            self._gone.set()


def worker_name() -> str:
    """A name no other worker has: the machine and some letters."""
    return f"{socket.gethostname()[:20]}-{secrets.token_hex(6)}"


def work_once(worker: str, home: threading.Event, tasks: Mapping[str, Task] = TASKS) -> bool:
    """Take one job and do it; False when there is none."""
    job = take(by=None, worker=worker) if Job.objects.filter(ended=None).exists() else None
    if job is None:
        return False
    _log.info("job %s: %s, try %s", job.pk, job.task, job.tries)
    try:
        _do(job, worker, home, tasks)
    except NotHeldError:
        _log.warning("job %s: stopped, or taken by another worker; nothing was kept", job.pk)
        _end_if_stopped(job, worker)
    return True


def _do(job: Job, worker: str, home: threading.Event, tasks: Mapping[str, Task]) -> None:
    try:
        if job.task not in tasks:
            raise TaskError("This version of the desk does not know how to do this.")
        with Hand(job, worker, home) as hand:
            keep = tasks[job.task](job, hand.tell)
        finish(by=job.by, job=job, worker=worker, keep=keep)
    except LetGo:
        if not home.is_set():
            raise NotHeldError from None
        give_back(by=None, job=job, worker=worker)
    except TaskError as words:
        fail(by=job.by, job=job, worker=worker, fault=str(words), again=False)
    except NotHeldError:
        raise
    except Exception:
        _log.exception("job %s broke", job.pk)
        fail(by=job.by, job=job, worker=worker, fault=BROKE, again=True)


def _end_if_stopped(job: Job, worker: str) -> None:
    try:
        fail(by=None, job=job, worker=worker, fault=BROKE, again=False)
    except NotHeldError:
        return


def work(home: threading.Event, *, until_empty: bool = False, between_s: float = 2.0) -> None:
    """Work until ``home`` is set, or until nothing is left; a database that is away is asked again."""
    worker = worker_name()
    while not home.is_set():
        close_old_connections()
        try:
            busy = work_once(worker, home)
        except DatabaseError as wrong:
            _log.warning("the database does not answer: %s", wrong)
            busy = False
        if not busy:
            if until_empty:
                return
            home.wait(between_s)
