"""What all tests share: a data folder of their own, made before Django reads its settings."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

os.environ.setdefault("FIRSTPITCH_DATA", tempfile.mkdtemp(prefix="firstpitch-test-"))
os.environ.setdefault("FIRSTPITCH_LOG", "WARNING")
# Rows of sentences depend on the sentence and the model alone, so that runs may share them.
os.environ.setdefault("FIRSTPITCH_CACHE", str(Path(tempfile.gettempdir()) / "firstpitch-test-cache"))
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

from tests import postgres

if postgres.wanted():
    postgres.use()
