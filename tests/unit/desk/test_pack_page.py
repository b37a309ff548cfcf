"""The page of a van's pack: asked for, seen being made, stopped, taken, out of date."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions.jobs import beat, finish, take
from firstpitch.desk.actions.packs import keep_pack
from firstpitch.desk.models import Handover, Job, Person, Van


def page(client: Client, van: Van, part: str = "") -> str:
    """What the page says."""
    return client.get(f"/vans/{van.pk}/pack/", {"part": part}).content.decode()


def made(van: Van, specialist: Person) -> None:
    """Make the pack that was asked for."""
    job = take(by=None, worker="w")
    assert job

    def keep() -> dict[str, Any]:
        return keep_pack(by=specialist, van=van, version=van.version, content=b"%PDF-1.7 a pack")

    finish(by=specialist, job=job, worker="w", keep=keep)


def test_asked_and_seen(own: Client, van: Van, handover: Handover) -> None:
    """Asking queues the pack with the round of the next handover; the page shows it wait, then how far it is."""
    assert "None has been made yet" in page(own, van)
    answer = own.post(f"/vans/{van.pk}/pack/ask/")
    assert answer.status_code == 302
    job = Job.objects.get()
    assert job.arguments == {"van": van.pk, "handover": handover.pk}
    assert "Waiting its turn" in page(own, van)
    assert take(by=None, worker="w")
    beat(by=None, job=job, worker="w", progress="drawing the pages")
    part = page(own, van, "progress")
    assert "Drawing the pages" in part
    assert "<html" not in part


def test_a_queue_that_stands_still_is_told(own: Client, van: Van) -> None:
    """Half a minute without anybody taking it up, and the page says so."""
    own.post(f"/vans/{van.pk}/pack/ask/")
    assert "stands still" not in page(own, van)
    Job.objects.update(added=timezone.now() - timedelta(seconds=31))
    assert "stands still" in page(own, van)


def test_taken(own: Client, van: Van, specialist: Person) -> None:
    """The pack that was made opens as a PDF under the van's name; before that its address leads to the page."""
    assert own.get(f"/vans/{van.pk}/pack.pdf")["Location"] == f"/vans/{van.pk}/pack/"
    own.post(f"/vans/{van.pk}/pack/ask/")
    made(van, specialist)
    assert "Open the pack" in page(own, van)
    file = own.get(f"/vans/{van.pk}/pack.pdf")
    assert file.content == b"%PDF-1.7 a pack"
    assert file["Content-Type"] == "application/pdf"
    assert "-pack.pdf" in file["Content-Disposition"]


def test_out_of_date(own: Client, van: Van, specialist: Person) -> None:
    """A pack of an earlier sheet says that it is out of date."""
    own.post(f"/vans/{van.pk}/pack/ask/")
    made(van, specialist)
    assert "has changed since" not in page(own, van)
    Van.objects.filter(pk=van.pk).update(version=van.version + 1)
    assert "has changed since" in page(own, van)


def test_stopped(own: Client, van: Van) -> None:
    """What is being made can be stopped, and asked for again."""
    own.post(f"/vans/{van.pk}/pack/ask/")
    job = Job.objects.get()
    own.post(f"/vans/{van.pk}/pack/stop/{job.pk}/")
    assert "was stopped" in page(own, van)
    own.post(f"/vans/{van.pk}/pack/ask/")
    assert Job.objects.filter(ended=None).count() == 1


def test_other_branch(far: Client, own: Client, van: Van) -> None:
    """Another branch can neither ask for, see, stop nor take it."""
    own.post(f"/vans/{van.pk}/pack/ask/")
    job = Job.objects.get()
    for address in ("pack/", "pack.pdf"):
        assert far.get(f"/vans/{van.pk}/{address}").status_code == 404
    for address in ("pack/ask/", f"pack/stop/{job.pk}/"):
        assert far.post(f"/vans/{van.pk}/{address}").status_code == 404
    job.refresh_from_db()
    assert job.stopped is None
