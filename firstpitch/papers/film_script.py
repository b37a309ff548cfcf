"""The film's script on paper: a shot list as PDF, and one page that is a shot list in print and a prompter on a tablet."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from firstpitch.film.types import Script, Shot
from firstpitch.papers import look
from firstpitch.papers.page import templates
from firstpitch.papers.pdf import typeset
from firstpitch.papers.programme import clock, minutes_words


@dataclass(frozen=True)
class ShotLine:
    """One shot as printed; ``clock`` is when it begins."""

    number: int
    clock: str
    seconds: int
    title: str
    place: str
    sees: str
    cautions: tuple[str, ...]
    points: tuple[str, ...]
    say: str
    figures: tuple[tuple[str, str, bool], ...]
    walk: int
    waits: tuple[str, ...]


def shot_lines(script: Script) -> tuple[ShotLine, ...]:
    """The shots as printed; a figure carries whether it is known."""
    return tuple(_line(shot) for shot in script.shots)


def _line(shot: Shot) -> ShotLine:
    return ShotLine(
        number=shot.number,
        clock=clock(shot.start),
        seconds=shot.seconds,
        title=shot.title,
        place=shot.place,
        sees=shot.sees,
        cautions=shot.cautions,
        points=shot.points,
        say=shot.say,
        figures=tuple((what, value, not value.startswith("not on the sheet")) for what, value in shot.figures.items()),
        walk=shot.walk,
        waits=shot.waits,
    )


def web_file(name: str) -> str:
    """A file of the prompter: ``prompter.js`` or ``prompter.css``."""
    return (files(__package__) / "web" / name).read_text("utf-8")


def script_html(script: Script) -> str:
    """The script as one self-contained page: a prompter on a screen, the shot list in print or without scripts."""
    from markupsafe import Markup

    page = templates().get_template("film_script.html")
    return page.render(
        **_head(script),
        shots=shot_lines(script),
        style=Markup(look.style_sheet() + web_file("prompter.css")),  # our own files, never a user's text
        code=Markup(web_file("prompter.js")),
    )


def script_pdf(script: Script) -> bytes:
    """The shot list as a PDF file (tagged, PDF/UA-1)."""
    shots = [
        {
            "number": line.number,
            "clock": line.clock,
            "seconds": line.seconds,
            "title": line.title,
            "place": line.place,
            "sees": line.sees,
            "cautions": list(line.cautions),
            "points": list(line.points),
            "figures": [[what, value] for what, value, _ in line.figures],
            "waits": list(line.waits),
        }
        for line in shot_lines(script)
    ]
    return typeset("film_script.typ", {**_head(script), "shots": shots}, {})


def _head(script: Script) -> dict[str, Any]:
    return {
        "van": script.van,
        "title": f"{script.van}: film script",
        "total": minutes_words(script.total),
        "pace": round(script.words_per_minute),
        "left_out": list(script.left_out),
    }
