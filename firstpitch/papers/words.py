"""The pack's own texts, read from words.toml."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def words() -> dict[str, Any]:
    """All texts as tables."""
    return tomllib.loads((files(__package__) / "words.toml").read_text("utf-8"))
