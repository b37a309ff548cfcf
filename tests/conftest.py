"""What all tests share: a data folder of their own, made before Django reads its settings."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from pathlib import Path

if "FIRSTPITCH_DATA" not in os.environ:
    os.environ["FIRSTPITCH_DATA"] = tempfile.mkdtemp(prefix="firstpitch-test-")
    atexit.register(shutil.rmtree, os.environ["FIRSTPITCH_DATA"], ignore_errors=True)
os.environ.setdefault("FIRSTPITCH_LOG", "WARNING")
# Rows of sentences depend on the sentence and the model alone, so that runs may share them.
os.environ.setdefault("FIRSTPITCH_CACHE", str(Path(tempfile.gettempdir()) / "firstpitch-test-cache"))
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

from hypothesis import HealthCheck, settings

from tests import postgres

# How long one example takes says more of what else the machine does than of the rule that is tested.
settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("any machine")

if postgres.wanted():
    postgres.use()
