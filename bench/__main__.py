"""``python -m bench [--write] [name …]``: every module here that has ``rows()`` (or those named) is run and its table printed.

``--write`` fills docs/speed.md; with names the parts of others stay as they are, each with the machine it was measured on.
"""

from __future__ import annotations

import importlib
import os
import pkgutil
import platform
import sys
import time
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import bench

PAGE = Path(__file__).parents[1] / "docs" / "speed.md"
HEAD = """# Speed

Measured with `make bench` (`python -m bench --write` writes this page). Nothing here is a promise: it says what one machine did once.
"""


def facts() -> list[str]:
    """The machine, in a few lines."""
    model = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.exists():
        names = [
            line.split(":", 1)[1].strip() for line in info.read_text().splitlines() if line.startswith("model name")
        ]
        model = names[0] if names else model
    busy = f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "unknown"
    return [
        f"processor: {model}, {os.cpu_count()} logical cores, load before the start {busy}",
        f"system: {platform.system()} {platform.release()}, Python {platform.python_version()}",
        f"day: {datetime.now(UTC).date().isoformat()}",
    ]


def table(rows: Sequence[dict[str, Any]]) -> str:
    """Rows as a Markdown table, one column for each key in order of appearance."""
    heads = list(dict.fromkeys(key for row in rows for key in row))
    lines = [heads, ["---"] * len(heads), *([str(row.get(head, "")) for head in heads] for row in rows)]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)


def main(words: Sequence[str]) -> int:
    """Run every measurement that is asked for, print its table, write the page when asked."""
    names = [found.name for found in sorted(pkgutil.iter_modules(bench.__path__), key=lambda m: m.name)]
    wanted = [word for word in words if word != "--write"]
    if set(wanted) - set(names):
        print(
            "Give names of modules in bench, or nothing for all, and --write to write docs/speed.md.", file=sys.stderr
        )
        return 2
    parts: dict[str, str] = {}
    for name in wanted or [name for name in names if name != "__main__"]:
        module = importlib.import_module(f"bench.{name}")
        if hasattr(module, "rows"):
            title = getattr(module, "TITLE", name)
            parts[title] = _part(module, title)
            print(parts[title], flush=True)
    if "--write" in words:
        kept = {} if not wanted else parts_of(PAGE.read_text("utf-8"))
        PAGE.write_text("\n".join([HEAD, *(kept | parts).values()]), "utf-8")
    return 0


def _part(module: Any, title: str) -> str:
    """A measurement as it stands on the page."""
    about, begun = "; ".join(facts()), time.perf_counter()
    text, notes = table(module.rows()), getattr(module, "NOTES", "")
    took = f"Measured in {time.perf_counter() - begun:.0f} s ({about})."
    return f"## {title}\n\n{text}\n\n{notes}{' ' if notes else ''}{took}\n"


def parts_of(page: str) -> dict[str, str]:
    """The parts of a page written before, by title.

    >>> list(parts_of("# Speed\\n\\n## One\\n\\na\\n\\n## Two\\n\\nb\\n"))
    ['One', 'Two']
    """
    found = {}
    for part in page.split("\n## ")[1:]:
        found[part.split("\n", 1)[0]] = f"## {part.rstrip()}\n"
    return found


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
