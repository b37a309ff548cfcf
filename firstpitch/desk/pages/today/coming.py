"""The rows of Today, as light as they can be: a page has dozens, and a model for each row and its van costs more than asking for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Case, QuerySet, Value, When

from firstpitch.desk.models import Handover
from firstpitch.desk.models.person import shown_name

_FIELDS = (
    *("id", "van_id", "owner_name", "due", "signed", "called_off", "why_off", "planned"),
    *(f"van__{name}" for name in ("name", "stock_number", "lacks")),
    *(f"specialist__{name}" for name in ("id", "first_name", "last_name", "username")),
)


@dataclass(frozen=True, slots=True)
class ShortVan:
    """What is shown of a van."""

    name: str
    stock_number: str
    lacks: dict[str, Any]


@dataclass(frozen=True, slots=True)
class ShortPerson:
    """What is shown of a person."""

    shown_name: str


@dataclass(frozen=True, slots=True)
class Coming:
    """What is shown of a handover, named as on the handover itself."""

    pk: int
    van_id: int
    owner_name: str
    due: datetime
    signed: datetime | None
    called_off: datetime | None
    why_off: str
    planned: bool
    van: ShortVan
    specialist: ShortPerson | None


def coming_of(found: QuerySet[Handover], most: int) -> Iterator[Coming]:
    """The first rows of ``found``."""
    planned = Case(When(plan__isnull=False, then=Value(True)), default=Value(False))
    for row in found.annotate(planned=planned).values_list(*_FIELDS)[:most]:
        pk, van_id, owner, due, signed, off, why, plan, name, stock, lacks, person, first, last, username = row
        who = ShortPerson(shown_name(first, last, username)) if person is not None else None
        yield Coming(pk, van_id, owner, due, signed, off, why, plan, ShortVan(name, stock, lacks), who)
