"""Visits to pages of a desk on a yard, page after page in turn with an empty one: time, processor time, queries, bytes.

Runs inside a process of its own (``python -m bench.visits ROUNDS``) with the yard's data folder in ``FIRSTPITCH_DATA``.
"""

from __future__ import annotations

import gc
import io
import json
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import quantiles
from typing import Any

EMPTY, FRAME = "an empty page", "an empty page with the frame"
AGAIN = 8  # vans that are opened over and over; "first" are others every time


@dataclass(frozen=True)
class Visit:
    """Who goes where."""

    cookie: str
    path: str


@dataclass(frozen=True)
class Took:
    """One visit: by the clock and by the processor [ms], queries, bytes of the body as sent (compressed)."""

    clock: float
    cpu: float
    queries: int
    sent: int


class Desk:
    """The desk in this process, called as a web server calls it."""

    def __init__(self) -> None:
        import django

        django.setup()
        from django.conf import settings
        from django.core.wsgi import get_wsgi_application
        from django.db import connection

        settings.ROOT_URLCONF = "bench.empty_page"
        self.application = get_wsgi_application()
        self.connection = connection
        self.statements: list[str] = []

    def visit(self, one: Visit, *, count: bool = False) -> Took:
        """Call the page; its queries are counted only when asked, because counting costs time."""
        name, _, query = one.path.partition("?")
        environ = {
            "REQUEST_METHOD": "GET",
            "PATH_INFO": name,
            "QUERY_STRING": query,
            "SERVER_NAME": "localhost",
            "SERVER_PORT": "8000",
            "SERVER_PROTOCOL": "HTTP/1.1",
            "HTTP_HOST": "localhost",
            "HTTP_COOKIE": one.cookie,
            "HTTP_ACCEPT_ENCODING": "gzip",
            "wsgi.url_scheme": "http",
            "wsgi.input": io.BytesIO(),
            "wsgi.errors": sys.stderr,
        }
        said: list[str] = []
        asked: list[str] = []

        def note(execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
            asked.append(sql)
            return execute(sql, params, many, context)

        def start(status: str, headers: list[tuple[str, str]], exc_info: Any = None) -> None:  # noqa: ARG001
            said.append(status)

        if count:
            self.connection.execute_wrappers.append(note)
        clock, cpu = time.perf_counter(), time.thread_time()
        answer = self.application(environ, start)
        body = b"".join(answer)
        if hasattr(answer, "close"):
            answer.close()
        clock, cpu = time.perf_counter() - clock, time.thread_time() - cpu
        if count:
            self.connection.execute_wrappers.remove(note)
        if not said[0].startswith("200"):
            raise RuntimeError(f"{one.path} answered {said[0]}: {body[:300]!r}")
        self.statements = asked
        return Took(clock * 1000, cpu * 1000, len(asked), len(body))


def signed_in(person: Any) -> str:
    """The cookie of a fresh session of this person."""
    from importlib import import_module

    from django.conf import settings
    from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY

    session = import_module(settings.SESSION_ENGINE).SessionStore()
    session[SESSION_KEY] = str(person.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = person.get_session_auth_hash()
    session.create()
    return f"{settings.SESSION_COOKIE_NAME}={session.session_key}"


@dataclass
class Chooser:
    """Chooses vans and handovers of a branch, another at every call."""

    branch: int
    cookie: str
    manager: str

    def __post_init__(self) -> None:
        from datetime import timedelta

        from django.utils import timezone

        from firstpitch.desk.models import Handover

        mine = Handover.objects.filter(van__branch=self.branch)
        now = timezone.now()
        near = mine.filter(due__gt=now - timedelta(days=25), due__lt=now + timedelta(days=25))
        self.planned = list(near.filter(plan__isnull=False).order_by("-pk").values_list("pk", flat=True))
        self.running = (
            list(near.filter(signed=None, events__number__gt=0).distinct().values_list("pk", flat=True)) or self.planned
        )
        self.signed = list(near.filter(signed__isnull=False).order_by("-pk").values_list("pk", flat=True))


def owner_secret(pk: int) -> str:
    """A fresh link to a handover."""
    from firstpitch.desk.actions.owner_links import make_link
    from firstpitch.desk.models import Handover

    handover = Handover.objects.select_related("van__branch", "specialist").get(pk=pk)
    return str(make_link(by=handover.specialist, handover=handover).secret)


def choosers() -> list[Chooser]:
    """One for each branch."""
    from firstpitch.desk.models import Branch, Person, Role

    found = []
    for branch in Branch.objects.order_by("pk"):
        people = Person.objects.filter(branch=branch)
        specialist, manager = people.filter(role=Role.SPECIALIST)[0], people.get(role=Role.MANAGER)
        found.append(Chooser(branch.pk, signed_in(specialist), signed_in(manager)))
    return found


Make = Callable[[Chooser, int], Visit]


def pages() -> dict[str, Make]:
    """Every page measured: from a branch and the number of the visit to who goes where. Vans and their handovers have the same number."""

    def of(rows: str, path: str, *, again: bool = False, query: str = "") -> Make:
        def make(c: Chooser, n: int) -> Visit:
            keys = getattr(c, rows)
            return Visit(c.cookie, path.format(keys[0] if again else keys[n % len(keys)]) + query)

        return make

    def fixed(path: str, who: str) -> Make:
        return lambda c, _: Visit(getattr(c, who), path)

    def owner(*, again: bool) -> Make:
        kept: dict[int, str] = {}

        def make(c: Chooser, n: int) -> Visit:
            pk = c.signed[0] if again else c.signed[n % len(c.signed)]
            if pk not in kept:
                kept[pk] = owner_secret(pk)
            return Visit("", f"/owner/{kept[pk]}/")

        return make

    return {
        EMPTY: fixed("/empty/", "cookie"),
        FRAME: fixed("/empty/frame/", "cookie"),
        "today": fixed("/", "cookie"),
        "today, further ahead": fixed("/?further=1", "cookie"),
        "vans": fixed("/vans/", "cookie"),
        "vans, the 2,000th on": fixed("/vans/?from=2000", "cookie"),
        "vans, found by stock number": lambda c, n: Visit(c.cookie, f"/vans/?q=K{n * 7 % 100:02d}"),
        "vans, none found": lambda c, n: Visit(c.cookie, f"/vans/?q=none{n}"),
        "questions": fixed("/questions/", "cookie"),
        "catalogue": fixed("/catalogue/", "cookie"),
        "one kind": fixed("/catalogue/cassette_toilet/", "cookie"),
        "settings": fixed("/settings/", "manager"),
        "people": fixed("/people/", "manager"),
        "van": of("signed", "/vans/{}/", again=True),
        "van's history": of("signed", "/vans/{}/history/", again=True),
        "handover": of("running", "/handovers/{}/", again=True),
        "outfit": of("running", "/outfit/{}/", again=True),
        "round, plan": of("planned", "/round/{}/", again=True),
        "live round": of("running", "/live/{}/", again=True),
        "live: all of it (kit.json)": of("running", "/live/{}/kit.json", again=True),
        "live: events of others": of("running", "/live/{}/since/", again=True),
        "record, signed": of("signed", "/handovers/{}/record/", again=True),
        "record, as it stands": of("running", "/handovers/{}/record/", again=True),
        "owner's page": owner(again=True),
        "van, its first time": of("signed", "/vans/{}/"),
        "live: all of it, its first time": of("planned", "/live/{}/kit.json"),
        "owner's page, its first time": owner(again=False),
    }


def measure(rounds: int) -> dict[str, dict[str, float]]:
    """Each page so many times, in turn; then once more for its queries and bytes."""
    desk, made = Desk(), pages()
    branches = choosers()
    took: dict[str, list[Took]] = {name: [] for name in made}
    for n in range(-min(AGAIN, rounds), rounds):
        for name, make in made.items():
            one = make(branches[n % min(len(branches), AGAIN)], n)
            found = desk.visit(one)
            if n >= 0:
                took[name].append(found)
        gc.collect()
    told = {}
    for name, make in made.items():
        clock, cpu = (sorted(getattr(one, part) for one in took[name]) for part in ("clock", "cpu"))
        last = desk.visit(make(branches[0], 0), count=True)
        told[name] = {
            "p50": quantiles(clock, n=20)[9],
            "p95": quantiles(clock, n=20)[18],
            "cpu50": quantiles(cpu, n=20)[9],
            "cpu95": quantiles(cpu, n=20)[18],
            "queries": last.queries,
            "sent": last.sent,
        }
    return told


if __name__ == "__main__":
    print(json.dumps(measure(int(sys.argv[1]))))
