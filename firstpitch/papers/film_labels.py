"""Labels for lockers and appliances: a QR code each that opens the film at the right second."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import segno

from firstpitch.film.types import Chapter
from firstpitch.papers.pdf import typeset
from firstpitch.papers.programme import clock

_LONGEST = 300


@dataclass(frozen=True)
class FilmLabel:
    """One label to cut out: the thing's name, its mark on the drawing (0: none), the address to open and the time in the film [s]."""

    title: str
    mark: int
    address: str
    at: float


def film_labels(chapters: Sequence[Chapter], marks: Mapping[str, int], address: str) -> tuple[FilmLabel, ...]:
    """A label for each chapter about a kit; ``address`` is the owner's film page, opened at the second by its fragment ``t``.

    A kit that has several chapters gets one label, for the first. ``marks`` are the numbers of kits on the drawing.

    >>> film_labels([Chapter("Hob", ("hob",), 62.4, 90.0)], {"hob": 7}, "https://desk.example/o/abc/film/")[0].address
    'https://desk.example/o/abc/film/#t=62'
    """
    made: dict[tuple[str, ...], FilmLabel] = {}
    for chapter in chapters:
        if chapter.kits and chapter.kits not in made:
            mark = next((marks[kit] for kit in chapter.kits if kit in marks), 0)
            made[chapter.kits] = FilmLabel(chapter.title, mark, f"{address}#t={int(chapter.start)}", chapter.start)
    return tuple(made.values())


def labels_pdf(van: str, labels: Sequence[FilmLabel]) -> bytes:
    """The labels as PDF sheets (A4, tagged, PDF/UA-1), 3 across and 7 down, to cut along the lines.

    Raises ValueError when there is no label or an address is over 300 characters: its squares would be too small to read.
    """
    if not labels:
        raise ValueError("no chapter of this film is about a kit, so there is nothing to label")
    if any(len(label.address) > _LONGEST for label in labels):
        raise ValueError(f"an address of over {_LONGEST} characters makes a code too fine to read from a label")
    rows = [
        {"title": label.title, "mark": label.mark, "clock": clock(int(label.at)), "picture": f"code-{number}"}
        for number, label in enumerate(labels)
    ]
    svg = {f"code-{number}": _code(label.address) for number, label in enumerate(labels)}
    return typeset("film_labels.typ", {"van": van, "title": f"{van}: film labels", "labels": rows}, svg)


def _code(address: str) -> str:
    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="svg", border=4, xmldecl=False, svgns=True)
    return out.getvalue().decode()
