"""Finding a van by what people know of it."""

from __future__ import annotations

from django.db.models import Q, QuerySet

from firstpitch.desk.access import vans
from firstpitch.desk.models import Person, Van

_LONGEST = 60


def asked(text: str) -> str:
    """What somebody looks for, on one line."""
    return " ".join(text.split())[:_LONGEST]


def find_vans(person: Person, search: str) -> QuerySet[Van]:
    """The vans of the branch with ``search`` in their name, stock or chassis number, newest first, without their sheets."""
    found = vans(person).order_by("-id").defer("sheet")
    if not search:
        return found
    return found.filter(
        Q(name__icontains=search) | Q(stock_number__icontains=search) | Q(chassis_number__icontains=search)
    )
