"""The drawing on the pages before signing in: the nearside of one of the demo's vans, without numbers."""

from __future__ import annotations

from datetime import date
from functools import cache

from django.utils.safestring import SafeString, mark_safe

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.papers.drawing import draw
from firstpitch.sheet import read_sheet_text


@cache
def doorway() -> SafeString:
    """The drawing as SVG; it only adorns, so the page hides it from screen readers."""
    text = next(iter(sheets().values())).read_text("utf-8")
    sheet = read_sheet_text(text, load().kinds, today=date.max)
    return mark_safe(draw(sheet, "nearside", key="doorway"))
