"""Papers as one self-contained page: styles, fonts and drawings stand in it, and it needs no script."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from firstpitch.papers import look
from firstpitch.papers.drawing import View, draw
from firstpitch.papers.drawing.signs import SIGN_WORDS, draw_sign
from firstpitch.papers.drawing.timeline import draw_timeline
from firstpitch.papers.drawing.views import share
from firstpitch.papers.words import words

if TYPE_CHECKING:
    from jinja2 import Environment

    from firstpitch.papers.data import PackData

_SIDES: tuple[View, ...] = ("nearside", "offside", "front", "rear")


@cache
def templates() -> Environment:
    """The page templates; every text is escaped."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("firstpitch.papers", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def pack_page(data: PackData) -> str:
    """The owner's pack as one HTML page."""
    from markupsafe import Markup

    svg = {"plan": draw(data.sheet, "plan", marks=data.marks, linked=True)}
    svg |= {side: draw(data.sheet, side, marks=data.marks, linked=True) for side in _SIDES}
    if data.round:
        svg["round"] = draw_timeline(data.round.problem, data.round.plan)
    if data.outfit:
        # The sheet is a page of its own, made from the same templates, so it can only be asked for here.
        from firstpitch.papers.outfit_sheet import outfit_drawings

        svg |= outfit_drawings(data.outfit, mode="page")
    # A sign stands beside the words that say the same, so it is hidden from screen readers.
    signs = {f"sign-{sign}": draw_sign(sign, hidden=True) for sign in SIGN_WORDS}
    return (
        templates()
        .get_template("pack.html")
        .render(
            data=data,
            words=words()["pack"],
            outfit_words=words()["outfit"],
            blank=words()["ask"]["blank"],
            style=Markup(look.style_sheet()),  # our own file, never a user's text
            svg={key: Markup(value) for key, value in {**svg, **signs}.items()},  # escaped where it is written
            share={side: round(100 * share(data.sheet, side)[0], 1) for side in _SIDES},
        )
    )
