"""The desk's pages on a large dealership (``bench/yard.py``), against an empty page in the same run."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

from bench.visits import EMPTY, FRAME
from bench.yard import LARGE, ROOT, Size, environment, yard

TITLE = "The desk's pages: 50,000 vans, 20 branches, 2,000,000 events"
NOTES = (
    "SQLite, one process, called as a web server calls it, pages in turn, people of eight branches in turn. An empty page is a view that "
    "returns an empty answer, behind the same middleware and with the same cookie, so one query, for the session, is in it; with the "
    "frame it also asks for sign-in and has the head, ways and foot of every page. The ratio is of p95 by the clock to the p95 of the "
    "empty page; the other of p95 by the processor, which other work on the machine disturbs less. The bars: 6 for lists, 10 for the "
    "data of the live page. A van’s first time is after its sheet has changed, or after a start: its "
    "sheet is read then, which is kept. Bytes are the body, compressed."
)
ROUNDS = 60


def measured(size: Size, rounds: int) -> dict[str, dict[str, float]]:
    """Every page of ``bench.visits`` on a yard of this size."""
    done = subprocess.run(
        [sys.executable, "-m", "bench.visits", str(rounds)],
        env=environment(yard(size)),
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        raise RuntimeError(done.stderr[-3000:])
    found: dict[str, dict[str, float]] = json.loads(done.stdout.splitlines()[-1])
    return found


def rows(size: Size = LARGE, rounds: int = ROUNDS) -> list[dict[str, Any]]:
    """One row for each page."""
    found = measured(size, rounds)
    empty, frame = found[EMPTY], found[FRAME]
    return [
        {
            "page": name,
            "queries": f"{took['queries']:.0f}",
            "p50 ms": f"{took['p50']:.1f}",
            "p95 ms": f"{took['p95']:.1f}",
            "p95 / empty": f"{took['p95'] / empty['p95']:.1f}",
            "p95 / empty, processor": f"{took['cpu95'] / empty['cpu95']:.1f}",
            "p95 / empty with the frame, processor": f"{took['cpu95'] / frame['cpu95']:.1f}",
            "kB sent": f"{took['sent'] / 1000:.1f}",
        }
        for name, took in found.items()
    ]


if __name__ == "__main__":
    from bench.__main__ import table

    print(table(rows()))
