"""All URLs of the desk, and an example for every argument they take.

A new page whose arguments are known here needs nothing. For a new one add a line to ``examples``: under the name of the
argument, or under the part of the path before it and its name (``vans pk``) where several pages use the same name.
"""

from __future__ import annotations

import io
import re
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.contrib.auth.tokens import default_token_generator
from django.core.files.base import ContentFile
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.utils import timezone
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_encode
from PIL import Image

from firstpitch.desk.actions.film_uploads import begin_upload
from firstpitch.desk.actions.owner_links import make_link
from firstpitch.desk.actions.people import Invited, invite, session_mark
from firstpitch.desk.actions.photos import add_photo
from firstpitch.desk.actions.second_factor import start
from firstpitch.desk.actions.snags import raise_snag
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Film, Handover, Job, Media, Person, Question, Role, Session, Van


@dataclass(frozen=True)
class Example:
    """A value for an argument; ``row``: it names something that belongs to the branch and to nobody else."""

    value: Any
    row: bool = True


@dataclass(frozen=True)
class Url:
    """One URL of the desk: its route as written, its name, its view."""

    route: str
    name: str
    pattern: URLPattern

    @property
    def access(self) -> tuple[str, tuple[str, ...]] | None:
        """Who may open it: the mark of access.py."""
        mark: tuple[str, tuple[str, ...]] | None = getattr(self.pattern.callback, "access", None)
        return mark

    def arguments(self) -> list[tuple[str, str]]:
        """Its arguments: (part of the path before it, name)."""
        return re.findall(r"([\w.-]*)/?<(?:\w+:)?(\w+)>", self.route)


def every_url() -> list[Url]:
    """All URLs there are."""
    return [
        Url(route, pattern.name or "", pattern) for route, pattern in _walk(get_resolver("firstpitch.desk.urls"), "")
    ]


def _walk(found: URLResolver, before: str) -> Iterator[tuple[str, URLPattern]]:
    for one in found.url_patterns:
        route = before + str(one.pattern)
        if isinstance(one, URLResolver):
            yield from _walk(one, route)
        else:
            yield route, one


def example_of(url: Url, examples: dict[str, Example]) -> tuple[str, bool]:
    """The path of a URL with example arguments, and whether one of them names something of the branch."""
    chosen = {}
    for before, name in url.arguments():
        example = examples.get(f"{before} {name}") or examples.get(name)
        assert example, (
            f"The page {url.name!r} ({url.route}) takes an argument {name!r} that the tests have no example for. "
            f"Add one to examples() in tests/unit/desk/every_url.py under {name!r} or {f'{before} {name}'!r}."
        )
        chosen[name] = example
    path = reverse(url.name, kwargs={name: one.value for name, one in chosen.items()})
    return path, any(one.row for one in chosen.values())


def examples(van: Van, handover: Handover, specialist: Person, manager: Person) -> dict[str, Example]:
    """One thing of each sort in the branch, by the argument that names it."""
    picture = io.BytesIO()
    Image.new("RGB", (8, 8), "white").save(picture, "JPEG")
    media: Media = add_photo(by=specialist, van=van, data=picture.getvalue(), handover=handover)
    snag = raise_snag(by=specialist, van=van, words="The step is loose.", severity="care")
    question = Question.objects.create(handover=handover, words="How do I drain it?")
    link = make_link(by=specialist, handover=handover)
    job = Job.objects.create(branch=van.branch, van=van, task="none", by=specialist)
    film = _film(van, specialist)
    upload = begin_upload(by=specialist, van=van, name="walk-round.mp4", size=9)
    kit = open_van(van).sheet.kit[0]
    start(by=specialist)
    invited = _invited(manager)
    reset = default_token_generator.make_token(specialist)
    return {
        "van": Example(van.pk),
        "vans pk": Example(van.pk),
        "handover": Example(handover.pk),
        "handovers pk": Example(handover.pk),
        "person": Example(specialist.pk),
        "invitation": Example(invited.invitation.pk),
        "join secret": Example(invited.secret),
        "forgot who": Example(urlsafe_base64_encode(force_bytes(specialist.pk))),
        "token": Example(reset),
        "mark": Example(session_mark(_session(specialist)), row=False),
        "secret": Example(link.secret),
        "link": Example(link.link.pk),
        "media": Example(media.pk),
        "photo": Example(media.pk),
        "photos key": Example(media.pk),
        "snag": Example(snag.pk),
        "question": Example(question.pk),
        "job": Example(job.pk),
        "film": Example(film.pk),
        "upload": Example(upload.pk),
        "event": Example(uuid.uuid4(), row=False),
        "version": Example(van.version, row=False),
        "kit": Example(kit.id, row=False),
        "step": Example("van.welcome", row=False),
        "kind": Example(kit.kind, row=False),
        "catalogue key": Example(kit.kind, row=False),
    }


def _film(van: Van, specialist: Person) -> Film:
    facts = {"length": 9.0, "size": 7}
    film = Film(
        van=van, name="walk-round.mp4", speaker=specialist, by=specialist, facts=facts, published=timezone.now()
    )
    film.file.save("walk-round.mp4", ContentFile(b"no film"), save=False)
    film.poster.save("walk-round.jpg", ContentFile(b"no picture"), save=False)
    film.save()
    return film


def _invited(manager: Person) -> Invited:
    manager.second_factor = True
    try:
        return invite(by=manager, email="wilf@example.org", role=Role.TECHNICIAN)
    finally:
        manager.second_factor = False


def _session(person: Person) -> Session:
    client = Client()
    client.force_login(person)
    return Session.objects.get(person=person)
