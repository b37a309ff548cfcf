"""Whether the kit.json a tablet holds is still right, told without making it anew."""

from __future__ import annotations

import hashlib
import json
from functools import lru_cache
from pathlib import Path

from django.db.models import TextField
from django.db.models.functions import Cast

from firstpitch.desk.inputs import own_of
from firstpitch.desk.models import Handover

_PACKAGE = Path(__file__).parents[1]


def mark_of(handover: Handover) -> str:
    """A short name for one state of everything that kit.json is made from, the events of the handover apart.

    Those come by another way, so that a tablet which only lacks events need not fetch the rest again.
    """
    van, branch = handover.van, handover.van.branch
    parts = [
        _program(),
        [van.pk, van.version, van.name, van.stock_number, van.sheet],
        [handover.pk, handover.owner_name, handover.due.isoformat(), handover.signed is not None],
        [_plan_text(handover), handover.options],
        [branch.words_per_minute, branch.metres_per_second, branch.choices, own_of(branch)],
    ]
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()[:16]


def _plan_text(handover: Handover) -> str:
    """The plan as it is stored: reading that is a tenth of the work of reading what it says."""
    found = Handover.objects.filter(pk=handover.pk).values_list(Cast("plan", TextField()), flat=True)
    return found.first() or ""


@lru_cache(maxsize=1)
def _program() -> str:
    """The program and its catalogue, by their texts."""
    texts = (path.read_bytes() for path in sorted(_PACKAGE.rglob("*")) if path.suffix in (".py", ".toml"))
    return hashlib.sha256(b"".join(texts)).hexdigest()
