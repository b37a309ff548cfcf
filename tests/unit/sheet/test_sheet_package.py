"""The package as a whole."""

from __future__ import annotations

import subprocess
import sys


def test_import_is_light() -> None:
    """Importing the package loads neither the units library nor the YAML library, so that the command starts fast."""
    code = "import sys, firstpitch.sheet; print([m for m in ('pint', 'ruamel.yaml', 'jsonschema', 'pydantic') if m in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"
