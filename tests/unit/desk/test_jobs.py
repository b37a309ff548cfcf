"""The queue: taken once, beaten, tried again, lost and found, stopped."""

# ruff: noqa: ARG001  (tasks take a job and a way to tell)
from __future__ import annotations

import hashlib
import threading
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.core.files.storage import default_storage
from django.utils import timezone

from firstpitch.desk.actions.jobs import LOST, MOST_TRIES, STALE, NotHeldError, beat, enqueue, finish, stop, take
from firstpitch.desk.actions.packs import ask_for_pack
from firstpitch.desk.jobs import BROKE, work_once
from firstpitch.desk.models import BranchEvent, Event, Job, Media, Person, Van
from firstpitch.desk.tasks import Task, TaskError, Tell

HOME = threading.Event()


def kept(**what: Any) -> Callable[[], dict[str, Any]]:
    """What keeps nothing but says ``what``."""
    return lambda: what


def add(by: Person, **arguments: Any) -> Job:
    """A job of a task that tests give."""
    return enqueue(by=by, task="test", arguments=arguments)


def do(task: Task, worker: str = "w") -> bool:
    """Do one job as a worker does it."""
    return work_once(worker, HOME, {"test": task})


def age(job: Job) -> None:
    """As if its worker had been silent for longer than is believed."""
    Job.objects.filter(pk=job.pk).update(beat=timezone.now() - STALE - timedelta(seconds=1))


def test_in_order_and_once(specialist: Person) -> None:
    """Jobs are taken oldest first, each by one worker only."""
    jobs = [add(specialist, n=n) for n in range(3)]
    taken = [take(by=None, worker=f"w{n}") for n in range(4)]
    assert [job and job.pk for job in taken] == [*(job.pk for job in jobs), None]


def test_done(specialist: Person) -> None:
    """A job that comes to its end has its result, and the branch's history says who asked for it."""
    job = add(specialist, n=4)

    def double(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        tell("doubling")
        return kept(double=2 * job.arguments["n"])

    assert do(double)
    assert not do(double)
    job.refresh_from_db()
    assert (job.result, job.fault, job.tries) == ({"double": 8}, "", 1)
    assert job.ended
    told = BranchEvent.objects.filter(what__startswith="job.").order_by("at")
    assert [(event.what, event.by) for event in told] == [("job.added", specialist), ("job.done", specialist)]


def test_progress_is_seen(specialist: Person) -> None:
    """What a task tells stands in the database while it works."""
    job = add(specialist)
    seen = []

    def slow(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        tell("half way")
        seen.append(Job.objects.get(pk=job.pk).progress)
        return kept()

    do(slow)
    assert seen == ["half way"]
    job.refresh_from_db()
    assert job.progress == ""


def test_tried_three_times(specialist: Person) -> None:
    """What breaks is put off and tried anew, three times in all; then it is over, in words without a traceback."""
    job = add(specialist)

    def breaks(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        raise RuntimeError("secret")

    for number in range(1, MOST_TRIES + 1):
        assert do(breaks)
        assert not do(breaks), "it is put off"
        job.refresh_from_db()
        assert job.tries == number
        Job.objects.filter(pk=job.pk).update(after=None)
    assert not do(breaks)
    assert job.ended
    assert job.fault == BROKE


def test_hopeless_is_not_tried_again(specialist: Person) -> None:
    """What cannot be done is over at once, with the reason."""
    job = add(specialist)

    def cannot(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        raise TaskError("There is no round.")

    do(cannot)
    job.refresh_from_db()
    assert job.ended
    assert job.fault == "There is no round."


def test_lost_is_taken_again(specialist: Person) -> None:
    """A job whose worker fell silent is taken by another; what the first still says or keeps counts no more."""
    add(specialist)
    first = take(by=None, worker="first")
    assert first
    assert take(by=None, worker="second") is None
    age(first)
    again = take(by=None, worker="second")
    assert again
    assert (again.pk, again.tries) == (first.pk, 2)
    assert not beat(by=None, job=first, worker="first", progress="still here")
    with pytest.raises(NotHeldError):
        finish(by=None, job=first, worker="first", keep=lambda: pytest.fail("kept twice"))
    finish(by=None, job=again, worker="second", keep=kept(by="second"))
    again.refresh_from_db()
    assert again.result == {"by": "second"}


def test_beats_keep_it(specialist: Person) -> None:
    """A worker that beats keeps its job, however long it takes."""
    add(specialist)
    job = take(by=None, worker="w")
    assert job
    age(job)
    assert beat(by=None, job=job, worker="w", progress="on")
    assert take(by=None, worker="x") is None


def test_lost_three_times_is_over(specialist: Person) -> None:
    """A job that takes three workers down with it is not given to a fourth."""
    job = add(specialist)
    for number in range(MOST_TRIES):
        assert take(by=None, worker=f"w{number}")
        age(job)
    assert take(by=None, worker="last") is None
    job.refresh_from_db()
    assert job.ended
    assert job.fault == LOST


def test_stopped_while_waiting(specialist: Person) -> None:
    """A waiting job that is stopped is over and never taken."""
    job = stop(by=specialist, job=add(specialist))
    assert job.ended
    assert take(by=None, worker="w") is None


def test_stopped_while_running(specialist: Person) -> None:
    """A running job that is stopped ends when it next tells how far it is, and keeps nothing."""
    job = add(specialist)

    def long(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        stop(by=specialist, job=job)
        tell("going on")
        pytest.fail("it went on")

    do(long)
    job.refresh_from_db()
    assert job.ended
    assert job.fault == "Stopped."
    assert job.result is None


def test_stopped_at_the_last_moment(specialist: Person) -> None:
    """A job stopped after its last word keeps nothing either."""
    job = add(specialist)

    def quick(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        stop(by=specialist, job=job)
        return lambda: pytest.fail("kept")

    do(quick)
    job.refresh_from_db()
    assert job.ended
    assert job.fault == "Stopped."


def test_what_cannot_be_kept_is_not_half_kept(specialist: Person, van: Van) -> None:
    """When keeping the result breaks, nothing of it stays, and the job is tried again."""
    job = add(specialist)

    def bad(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        def keep() -> dict[str, Any]:
            Van.objects.filter(pk=van.pk).update(name="half kept")
            raise RuntimeError

        return keep

    do(bad)
    job.refresh_from_db()
    van.refresh_from_db()
    assert van.name != "half kept"
    assert job.ended is None
    assert job.after


def test_going_home_gives_back(specialist: Person) -> None:
    """A worker that is told to go home gives its job back at once, and the try does not count."""
    job = add(specialist)
    home = threading.Event()

    def long(job: Job, tell: Tell) -> Callable[[], dict[str, Any]]:
        home.set()
        tell("going on")
        pytest.fail("it went on")

    work_once("w", home, {"test": long})
    job.refresh_from_db()
    assert (job.begun, job.tries, job.worker) == (None, 0, "")


def test_unknown_task(specialist: Person) -> None:
    """A job of a newer version is over with words, not with a traceback."""
    job = add(specialist)
    work_once("w", HOME, {})
    job.refresh_from_db()
    assert "does not know" in job.fault


def test_asked_twice_is_one_pack(specialist: Person, van: Van) -> None:
    """Asking again for a pack that is being made gives the same job."""
    assert ask_for_pack(by=specialist, van=van) == ask_for_pack(by=specialist, van=van)


@pytest.mark.slow
def test_a_real_pack(specialist: Person, van: Van) -> None:
    """The pack of a van is planned, drawn and kept as a PDF with its digest, and the van's history says so."""
    job = ask_for_pack(by=specialist, van=van)
    assert work_once("w", HOME)
    job.refresh_from_db()
    assert job.result, job.fault
    media = Media.objects.get(pk=job.result["media"])
    with default_storage.open(str(media.file.name)) as stream:
        content = stream.read()
    assert content.startswith(b"%PDF-")
    assert hashlib.sha256(content).hexdigest() == media.digest
    assert Event.objects.filter(van=van, what="pack.made").count() == 1
