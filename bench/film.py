"""Checking a film: a quarter of an hour of talk against a whole van, beside reading its captions and comparing all pairs."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date
from statistics import median
from typing import Any

import numpy as np

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.film.brief import brief_of
from firstpitch.film.captions import read_captions
from firstpitch.film.check import check_prepared, prepared
from firstpitch.film.ground import sentences
from firstpitch.film.types import Coverage, FilmBrief, Recording
from firstpitch.media.sentences import KeptSentences, sentence_vectors
from firstpitch.rounds import RoundOptions, build_problem
from firstpitch.sheet import read_sheet_text, resolve_links

TITLE = "Film: a transcript of fifteen minutes against a whole van"
VAN, WORDS, WORDS_PER_SECOND, TIMES = "wren", 2300, 2.55, 3


def rows() -> list[dict[str, Any]]:
    """Reading only, the check with the van's wordings kept and without, and the likeness of all pairs; ratios to reading only."""
    brief, data = _brief(), _captions().encode()
    sentence_vectors(["the model is loaded before anything is timed"])
    recording = read_captions(data, "film.txt")
    ready = prepared(brief, KeptSentences(None))
    reading = _seconds(lambda: read_captions(data, "film.txt"))
    kept = _seconds(lambda: check_prepared(ready, recording, sentence_vectors))
    whole = _seconds(lambda: _from_nothing(brief, recording), 1)
    pairs = _seconds(lambda: _all_pairs(brief, data.decode()), 1)
    told = (
        ("reading the captions only", reading),
        ("check, wordings of the van kept", kept),
        ("check from nothing", whole),
    )
    return [
        {
            "what": what,
            "seconds": f"{seconds:.2f}",
            "times reading": f"{seconds / reading:.0f}",
            "of all pairs": f"{seconds / pairs:.2f}",
        }
        for what, seconds in (*told, ("likeness of all pairs, no words, no order", pairs))
    ]


def _seconds(work: Callable[[], object], times: int = TIMES) -> float:
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return median(taken)


def _from_nothing(brief: FilmBrief, recording: Recording) -> Coverage:
    like = KeptSentences(None)
    return check_prepared(prepared(brief, like), recording, like)


def _brief() -> FilmBrief:
    catalogue = load()
    sheet = read_sheet_text(sheets()[VAN].read_text("utf-8"), catalogue.kinds, today=date(2026, 11, 1), file=VAN)
    links = resolve_links(sheet.kit, catalogue.kinds).filled
    return brief_of(sheet, catalogue, build_problem(sheet, catalogue, links, RoundOptions(mode="film")))


def _captions() -> str:
    """The van's own script, one timed paragraph a step, to so many words."""
    lines: list[str] = []
    spoken = 0
    for step in _brief().problem.steps:
        if spoken >= WORDS:
            break
        second = int(spoken / WORDS_PER_SECOND)
        lines.append(f"[{second // 60}:{second % 60:02}] {step.say}")
        spoken += len(step.say.split())
    return "\n\n".join(lines)


def _all_pairs(brief: FilmBrief, text: str) -> float:
    """Every sentence spoken against every wording of every point, by likeness alone."""
    wordings = [w for p in brief.points for w in (p.text, *p.ways, *sentences(p.say))]
    pairs = sentence_vectors(sentences(text)) @ sentence_vectors(wordings).T
    return float(np.max(pairs))
