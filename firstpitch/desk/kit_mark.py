"""Whether the kit.json a tablet holds is still right, told without making it anew."""

from __future__ import annotations

import hashlib
import json
from functools import lru_cache
from pathlib import Path

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
        [handover.plan, handover.options],
        [branch.words_per_minute, branch.metres_per_second, branch.choices, own_of(branch)],
    ]
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()[:16]


@lru_cache(maxsize=1)
def _program() -> str:
    """The program and its catalogue, by their texts."""
    texts = (path.read_bytes() for path in sorted(_PACKAGE.rglob("*")) if path.suffix in (".py", ".toml"))
    return hashlib.sha256(b"".join(texts)).hexdigest()
