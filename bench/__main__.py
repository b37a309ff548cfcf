"""``python -m bench [--write]``: every module here that has ``rows()`` is run and its table printed; ``--write`` fills docs/speed.md."""

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
        f"- processor: {model}, {os.cpu_count()} logical cores, load before the start {busy}",
        f"- system: {platform.system()} {platform.release()}, Python {platform.python_version()}",
        f"- day: {datetime.now(UTC).date().isoformat()}",
    ]


def table(rows: Sequence[dict[str, Any]]) -> str:
    """Rows as a Markdown table, one column for each key in order of appearance."""
    heads = list(dict.fromkeys(key for row in rows for key in row))
    lines = [heads, ["---"] * len(heads), *([str(row.get(head, "")) for head in heads] for row in rows)]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)


def main(words: Sequence[str]) -> int:
    """Run every measurement, print its table, write the page when asked."""
    if set(words) - {"--write"}:
        print("Give nothing, or --write to write docs/speed.md.", file=sys.stderr)
        return 2
    parts = [HEAD, *facts(), ""]
    for found in sorted(pkgutil.iter_modules(bench.__path__), key=lambda m: m.name):
        if found.name == "__main__":
            continue
        module = importlib.import_module(f"bench.{found.name}")
        if not hasattr(module, "rows"):
            continue
        begun = time.perf_counter()
        text = table(module.rows())
        title = getattr(module, "TITLE", found.name)
        notes = getattr(module, "NOTES", "")
        part = (
            f"## {title}\n\n{text}\n\n{notes}{' ' if notes else ''}Measured in {time.perf_counter() - begun:.0f} s.\n"
        )
        print(part, flush=True)
        parts.append(part)
    if "--write" in words:
        PAGE.write_text("\n".join(parts), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
