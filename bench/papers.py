"""Making the owner's pack and the round's page: seconds, pages, and seconds a page."""

from __future__ import annotations

import io
import time
from datetime import date
from statistics import median
from typing import Any

import pikepdf

from bench.sizes import QUICK, demo_problem, demo_sheet
from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.papers import pack_data, pack_document, pack_page, round_document
from firstpitch.rounds import Plan, plan_round

TITLE = "Papers: making a pack"
TIMES = 3


def rows() -> list[dict[str, Any]]:
    """One row for each demo van; the first making in a process, with its imports, apart."""
    return [_row(name) for name in sheets()]


def _row(name: str) -> dict[str, Any]:
    problem = demo_problem(name)
    plan = plan_round(problem, patience=QUICK)
    if not isinstance(plan, Plan):
        raise ValueError(f"{name} has no round")
    data = pack_data(demo_sheet(name), load(), problem, plan, made=date(2026, 11, 25))
    if data.round is None:
        raise ValueError(f"{name}: the pack has no round")
    pdf, first = _clocked(lambda: pack_document(data))
    again = median(_clocked(lambda: pack_document(data))[1] for _ in range(TIMES))
    page, page_seconds = _clocked(lambda: pack_page(data))
    _, round_seconds = _clocked(lambda: round_document(data.round, data.van) if data.round else b"")
    with pikepdf.open(io.BytesIO(pdf)) as document:
        pages = len(document.pages)
    return {
        "van": name,
        "pages": pages,
        "PDF first s": f"{first:.2f}",
        "PDF again s": f"{again:.2f}",
        "ms a page": f"{1000 * again / pages:.1f}",
        "PDF kB": len(pdf) // 1000,
        "HTML s": f"{page_seconds:.2f}",
        "HTML kB": len(page.encode()) // 1000,
        "round page s": f"{round_seconds:.2f}",
    }


def _clocked(work: Any) -> tuple[Any, float]:
    begun = time.process_time()
    made = work()
    return made, time.process_time() - begun
