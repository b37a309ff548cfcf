"""The shell of the installed app: the files that live and van pages need, and the worker that keeps them."""

from __future__ import annotations

import hashlib
import json
import re
from functools import lru_cache
from pathlib import Path

from django.contrib.staticfiles.finders import get_finders
from django.contrib.staticfiles.storage import staticfiles_storage
from django.http import HttpRequest
from django.template.loader import render_to_string
from django.templatetags.static import static

STATIC = Path(__file__).parent / "static"
_WORKER = "desk/tablet/worker.js"
PAGES = {"/tablet/": "desk/tablet/tablet.html", "/tablet/two-answers/": "desk/tablet/two_answers.html"}
_FILES = re.compile(r"(desk/((tablet|live|van)/)?[\w-]+\.(css|js)|desk/tablet/icon\.svg|fonts/[\w-]+\.woff2)")


def shell_files() -> list[str]:
    """Addresses of the static files of the shell, with their digests: style sheets, modules, fonts, the drawn icon."""
    return sorted(static(name) for name in _names() if _FILES.fullmatch(name) and name != _WORKER)


def _names() -> list[str]:
    """All static files: those that were collected, or as they lie where none are collected."""
    collected = getattr(staticfiles_storage, "hashed_files", None)
    if collected:
        return list(collected)
    return [path for finder in get_finders() for path, _ in finder.list(None)]


def worker_text(request: HttpRequest) -> str:
    """The worker as it is served: one line that names the shell, then ``worker.js``."""
    return _worker_text(request.get_host())


@lru_cache(maxsize=4)
def _worker_text(host: str) -> str:  # noqa: ARG001  (static addresses may differ by host)
    files = shell_files()
    written = (STATIC / _WORKER).read_text("utf-8")
    pages = [render_to_string(template) for template in PAGES.values()]
    version = hashlib.sha256(json.dumps([files, written, pages]).encode()).hexdigest()[:12]
    shell = json.dumps({"version": version, "files": files, "pages": list(PAGES)}, sort_keys=True)
    return f"self.shell = {shell};\n{written}"
