"""The desk under load: tablets post for five minutes, or for as long as ``python -m bench.desk --minutes`` says."""

from __future__ import annotations

import argparse
from typing import Any

from bench.posting import run

TITLE = "The desk, killed while forty tablets post"
NOTES = (
    "Tablets are threads on the same machine that note a few things each second and throw one answer in ten away unread; the desk is "
    "killed (not stopped) and started again. Times are those of answered posts, the queue after each start among them."
)
_MINUTES = 5.0


def rows(minutes: float = _MINUTES) -> list[dict[str, Any]]:
    """One row: what was noted, what the desk has, what was lost or doubled."""
    found = run(minutes * 60)
    return [
        {
            "tablets": found.tablets,
            "seconds": f"{found.seconds:.0f}",
            "killed": found.kills,
            "events noted": found.noted,
            "at the desk": found.at_desk,
            "lost": found.lost,
            "doubled": found.doubled,
            "posts answered": found.posts,
            "posts without an answer": found.failed_posts,
            "median ms": f"{found.median:.0f}",
            "p95 ms": f"{found.p95:.0f}",
        }
    ]


if __name__ == "__main__":
    from bench.__main__ import table

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=_MINUTES)
    print(table(rows(parser.parse_args().minutes)))
