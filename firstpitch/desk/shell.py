"""The shell of the installed app: the files that live and van pages need, and the worker that keeps them."""

from __future__ import annotations

import hashlib
import json
from functools import lru_cache
from pathlib import Path

from django.http import HttpRequest
from django.template.loader import render_to_string
from django.templatetags.static import static

STATIC = Path(__file__).parent / "static" / "desk"
FONTS = Path(__file__).parents[1] / "papers" / "fonts"
_WORKER = "tablet/worker.js"
PAGES = {"/tablet/": "desk/tablet/tablet.html", "/tablet/two-answers/": "desk/tablet/two_answers.html"}
_FOLDERS = ("tablet", "live", "van")
_ENDINGS = (".css", ".js")


def shell_files() -> list[str]:
    """Addresses of the static files of the shell, with their digests: style sheets, modules, fonts, the drawn icon."""
    own = [path for path in STATIC.glob("*") if path.suffix in _ENDINGS]
    for folder in _FOLDERS:
        own += [path for path in (STATIC / folder).glob("*") if path.suffix in _ENDINGS]
    names = [f"desk/{path.relative_to(STATIC).as_posix()}" for path in own]
    names.append("desk/tablet/icon.svg")
    names += [f"fonts/{path.name}" for path in FONTS.glob("*.woff2")]
    return sorted(static(name) for name in names if name != f"desk/{_WORKER}")


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
