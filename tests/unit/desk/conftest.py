"""A small dealership: two branches, three people, one van each, and a client for each of own branch, other branch, nobody."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.conf import settings as django_settings
from django.test import Client
from django.utils import timezone
from pytest_django.fixtures import Settings

from firstpitch.demo import sheets
from firstpitch.desk.actions.handovers import add_handover
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.models import Branch, Handover, Person, Role, Van

TODAY = date(2026, 11, 25)
PASSWORD = "quite-long-enough-9"


@pytest.fixture(autouse=True)
def _static_files_as_they_lie(settings: Settings) -> None:
    """Pages name static files without the digests that ``collectstatic`` writes, so that no test has to run it."""
    django_settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
    plain = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    settings.STORAGES = {**django_settings.STORAGES, "staticfiles": plain}


@pytest.fixture
def branch(db: None) -> Branch:  # noqa: ARG001  (a fixture)
    """The branch the tests work in."""
    return Branch.objects.create(name="Test Yard")


@pytest.fixture
def other_branch(db: None) -> Branch:  # noqa: ARG001  (a fixture)
    """Another branch, whose people must see nothing of the first."""
    return Branch.objects.create(name="Far Yard")


@pytest.fixture
def specialist(branch: Branch) -> Person:
    """A handover specialist of the branch."""
    return Person.objects.create_user("ada", password=PASSWORD, role=Role.SPECIALIST, branch=branch)


@pytest.fixture
def manager(branch: Branch) -> Person:
    """The manager of the branch."""
    return Person.objects.create_user("max", password=PASSWORD, role=Role.MANAGER, branch=branch)


@pytest.fixture
def stranger(other_branch: Branch) -> Person:
    """A manager of the other branch."""
    return Person.objects.create_user("zoe", password=PASSWORD, role=Role.MANAGER, branch=other_branch)


@pytest.fixture
def van(specialist: Person) -> Van:
    """The demo van wren, in the branch."""
    return add_van(by=specialist, sheet=sheets()["wren"].read_text("utf-8"), today=TODAY)


@pytest.fixture
def handover(specialist: Person, van: Van) -> Handover:
    """Its handover, due tomorrow."""
    due = timezone.now() + timedelta(days=1)
    return add_handover(by=specialist, van=van, owner_name="Rowan Pell", due=due, specialist=specialist)


@pytest.fixture
def own(specialist: Person) -> Client:
    """A browser signed in as the specialist."""
    client = Client()
    client.force_login(specialist)
    return client


@pytest.fixture
def far(stranger: Person) -> Client:
    """A browser signed in at the other branch."""
    client = Client()
    client.force_login(stranger)
    return client
