"""Papers as PDF: tagged and accessible (PDF/UA-1), the same bytes for the same input."""

from __future__ import annotations

import dataclasses
import json
from functools import cache
from importlib.resources import as_file, files
from typing import Any, Final

from firstpitch.papers import look
from firstpitch.papers.data import PackData
from firstpitch.papers.drawing import draw
from firstpitch.papers.drawing.signs import SIGN_WORDS, draw_sign
from firstpitch.papers.drawing.timeline import draw_timeline, timeline_size
from firstpitch.papers.drawing.views import View, share
from firstpitch.papers.programme import Programme, minutes_words
from firstpitch.papers.words import words

_SIDES: tuple[View, ...] = ("nearside", "offside", "front", "rear")
_STANDARD: Final = "ua-1"


def pack_document(data: PackData) -> bytes:
    """The owner's pack as a PDF file."""
    svg = {f"sign-{sign}": draw_sign(sign, mode="fixed") for sign in SIGN_WORDS}
    svg["plan"] = draw(data.sheet, "plan", marks=data.marks, mode="fixed")
    for side in _SIDES:
        svg[side] = draw(data.sheet, side, marks=data.marks, mode="fixed")
    printed = {**plain(data), "outfit": None}
    if data.round:
        svg["round"] = draw_timeline(data.round.problem, data.round.plan, mode="fixed")
        printed |= _round_values(data.round)
    if data.outfit:
        # The sheet is set by this module when it stands alone, so it can only be asked for here.
        from firstpitch.papers.outfit_sheet import outfit_drawings, outfit_values

        printed["outfit"] = outfit_values(data.outfit)
        svg |= outfit_drawings(data.outfit, mode="fixed", narrow=True)
    seen = len(data.marks)
    return typeset(
        "pack.typ",
        {
            **printed,
            "title": f"{data.van}: {words()['pack']['title'].lower()}",
            "words": words()["pack"],
            "side-share": {side: share(data.sheet, side)[0] for side in _SIDES},
            "side-height": {side: share(data.sheet, side)[1] for side in _SIDES},
            "sign-words": dict(SIGN_WORDS),
            "plan-alt": (
                f"Plan of {data.van} seen from above, towball on the left, nearside at the bottom, "
                f"with {seen} numbered marks at the places of its kit. The list below names each number."
            ),
            "side-alt": {
                side: f"{data.van} seen from the {side}, with the marks that can be seen there." for side in _SIDES
            },
        },
        svg,
    )


def round_document(round_: Programme, van: str) -> bytes:
    """The round as a PDF file of one page."""
    svg = {"round": draw_timeline(round_.problem, round_.plan, mode="fixed")}
    values = {
        "van": van,
        "title": f"{van}: walk-round",
        "words": words()["pack"],
        "round": plain(round_),
        **_round_values(round_),
    }
    return typeset("round.typ", values, svg)


def _round_values(round_: Programme) -> dict[str, Any]:
    width, height = timeline_size(round_.problem, round_.plan)
    words_for_it = (
        f"The round in time: {len(round_.stops)} stops in {minutes_words(round_.plan.total)} and "
        f"{len(round_.waits)} waits that run beside them. The list below says the same in words."
    )
    return {"round-alt": words_for_it, "round-share": height / width}


def plain(value: object) -> Any:
    """A dataclass as plain values for JSON; the sheet, problem and plan behind it are not printed."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        hidden = ("sheet", "problem", "plan", "marks", "outfit")
        return {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value) if f.name not in hidden}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, str):
        return look.displayable(value)
    return value


@cache
def _fonts(folder: str) -> Any:
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[folder])


def typeset(template: str, values: dict[str, Any], svg: dict[str, str]) -> bytes:
    import typst

    shown = {key: _displayable(value) for key, value in values.items()}
    data = json.dumps({**shown, "colours": dict(look.PRINT), "svg": svg}, ensure_ascii=False, sort_keys=True)
    with as_file(files(__package__)) as folder:
        done = typst.compile(
            str(folder / "templates" / template),
            font_paths=_fonts(str(folder / "fonts")),
            ignore_system_fonts=True,
            sys_inputs={"data": data},
            pdf_standards=_STANDARD,
            timestamp=0,
        )
    if not isinstance(done, bytes):
        raise TypeError("the typesetter gave no single file")
    return done


def _displayable(value: Any) -> Any:
    if isinstance(value, str):
        return look.displayable(value)
    if isinstance(value, dict):
        return {key: _displayable(item) for key, item in value.items()}
    return [_displayable(item) for item in value] if isinstance(value, list) else value
