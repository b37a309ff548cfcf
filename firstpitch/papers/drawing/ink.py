"""Writing SVG: shapes with classes, inks by name, text made safe. Everything drawn by the program goes through here."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from html import escape
from types import MappingProxyType
from typing import Literal

from firstpitch.papers import look

InkMode = Literal["page", "alone", "fixed"]
"""``page``: classes only, the page holds the style sheet. ``alone``: the style sheet stands in the picture (a file of
its own). ``fixed``: every colour is written out as an attribute in print colours, for the typesetter."""

Point = tuple[float, float]

_FIGURES = f"{look.FIGURES_FACE}, {look.TEXT_FACE}, sans-serif"
_TEXT = f"{look.TEXT_FACE}, Georgia, serif"

# `$name` is a colour of the palette in look.py; numbers are units of the drawing.
STYLES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "body": {"fill": "none", "stroke": "$ink", "stroke-width": "2", "stroke-linejoin": "round"},
        "floor": {"fill": "$paper", "stroke": "none"},
        "frame": {"fill": "none", "stroke": "$ink", "stroke-width": "1.5", "stroke-linecap": "round"},
        "ball": {"fill": "$ink", "stroke": "none"},
        "wheel": {"fill": "$paper", "stroke": "$ink", "stroke-width": "1.5"},
        "arch": {"fill": "$paper", "stroke": "$ink", "stroke-width": "1"},
        "hidden": {"fill": "none", "stroke": "$soft", "stroke-width": "1", "stroke-dasharray": "4 3"},
        "furniture": {"fill": "$tint", "stroke": "$line", "stroke-width": "1"},
        "locker": {"fill": "none", "stroke": "$soft", "stroke-width": "0.7", "stroke-dasharray": "2 3"},
        "aisle": {"fill": "none", "stroke": "$line", "stroke-width": "1", "stroke-dasharray": "1 4"},
        "gap": {"fill": "none", "stroke": "$paper", "stroke-width": "5"},
        "door": {"fill": "$paper", "stroke": "$ink", "stroke-width": "1.5"},
        "pane": {"fill": "none", "stroke": "$ink", "stroke-width": "1"},
        "ground": {"fill": "none", "stroke": "$line", "stroke-width": "1.5"},
        "leader": {"fill": "none", "stroke": "$ink", "stroke-width": "0.8"},
        "dot": {"fill": "$ink", "stroke": "none"},
        "mark": {"fill": "$paper", "stroke": "$ink", "stroke-width": "1.4"},
        "mark-out": {"fill": "$tint", "stroke": "$ink", "stroke-width": "1.4"},
        "mark-next": {"fill": "$accent", "stroke": "$accent", "stroke-width": "1.4"},
        "number": {"fill": "$ink", "font-family": _FIGURES, "font-weight": "700", "text-anchor": "middle"},
        "number-next": {"fill": "$on-accent", "font-family": _FIGURES, "font-weight": "700", "text-anchor": "middle"},
        "label": {"fill": "$soft", "font-family": _FIGURES, "text-anchor": "middle"},
        "label-start": {"fill": "$soft", "font-family": _FIGURES, "text-anchor": "start"},
        "label-end": {"fill": "$soft", "font-family": _FIGURES, "text-anchor": "end"},
        "name-start": {"fill": "$ink", "font-family": _FIGURES, "font-weight": "700", "text-anchor": "start"},
        "name-end": {"fill": "$ink", "font-family": _FIGURES, "font-weight": "700", "text-anchor": "end"},
        "title": {"fill": "$ink", "font-family": _TEXT, "font-weight": "700", "text-anchor": "start"},
        "walk": {"fill": "none", "stroke": "$ink", "stroke-width": "1.6", "stroke-dasharray": "7 5"},
        "arrow": {"fill": "$ink", "stroke": "none"},
        "scale": {"fill": "none", "stroke": "$ink", "stroke-width": "1.2"},
        "rule": {"fill": "none", "stroke": "$line", "stroke-width": "0.8"},
        "band": {"fill": "$tint", "stroke": "none"},
        "step": {"fill": "$ink", "stroke": "$paper", "stroke-width": "0.6"},
        "step-try": {"fill": "$soft", "stroke": "$paper", "stroke-width": "0.6"},
        "wait": {"fill": "$paper", "stroke": "$ink", "stroke-width": "1.2"},
        "wait-hatch": {"fill": "none", "stroke": "$ink", "stroke-width": "0.8"},
        "walk-thin": {"fill": "none", "stroke": "$soft", "stroke-width": "1", "stroke-dasharray": "3 2.5"},
        "sign-warning": {"fill": "$sign-warning", "stroke": "$sign-black", "stroke-linejoin": "round"},
        "sign-ink": {"fill": "$sign-black", "stroke": "none"},
        "sign-stop": {"fill": "$sign-white", "stroke": "$sign-stop"},
        "sign-bar": {"fill": "none", "stroke": "$sign-stop"},
        "sign-must": {"fill": "$sign-must", "stroke": "none"},
        "sign-white": {"fill": "$sign-white", "stroke": "none"},
        "state": {"fill": "none", "stroke": "$ink", "stroke-width": "2", "stroke-linejoin": "round"},
        "state-heavy": {"fill": "none", "stroke": "$ink", "stroke-width": "4", "stroke-linejoin": "round"},
        "state-fill": {"fill": "$ink", "stroke": "none"},
    }
)
# Signs and state marks grow and shrink as a whole, lines and all.
_WHOLE = ("sign-", "state")
_XML_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")


def safe(text: str) -> str:
    """``text`` fit to stand in SVG or an attribute: marked-up characters escaped, forbidden ones dropped.

    >>> safe('<b> & "x"' + chr(7))
    '&lt;b&gt; &amp; &quot;x&quot;'
    """
    return escape(_XML_CONTROL.sub("", text), quote=True)


def number(value: float) -> str:
    """A coordinate with at most two decimals and no tail.

    >>> number(12.0), number(3.14159), number(-0.001)
    ('12', '3.14', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def path_of(points: Sequence[Point], *, closed: bool = False) -> str:
    """The ``d`` of a line through ``points``."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closed else "")


def round_path_of(points: Sequence[Point], radius: float) -> str:
    """The ``d`` of a closed line through ``points`` with its corners rounded."""
    parts: list[str] = []
    for i, corner in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % len(points)]
        start, end = _toward(corner, before, radius), _toward(corner, after, radius)
        parts.append(f"{'L' if parts else 'M'}{number(start[0])} {number(start[1])}")
        parts.append(f"Q{number(corner[0])} {number(corner[1])} {number(end[0])} {number(end[1])}")
    return "".join(parts) + "Z"


def _toward(a: Point, b: Point, reach: float) -> Point:
    part = min(0.5, reach / (math.dist(a, b) or 1.0))
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


@cache
def drawing_css() -> str:
    """The drawing classes as CSS; lines keep their width on screen however the picture is scaled."""
    rules = []
    for name, style in STYLES.items():
        body = "; ".join(f"{key}: {_css_value(value)}" for key, value in style.items())
        drawn = style.get("stroke", "none") != "none" and not name.startswith(_WHOLE)
        thin = "; vector-effect: non-scaling-stroke" if drawn else ""
        rules.append(f".fp-{name} {{ {body}{thin} }}")
    return "\n".join(rules)


def _css_value(value: str) -> str:
    return f"var(--fp-{value[1:]})" if value.startswith("$") else value


@cache
def _fixed(name: str) -> str:
    palette = {**look.PRINT, **look.SIGNS}
    return "".join(
        f' {key}="{palette[value[1:]] if value.startswith("$") else value}"' for key, value in STYLES[name].items()
    )


@dataclass
class Picture:
    """An SVG being written, in user units; ``key`` makes its ids unique on a page.

    ``title`` and ``desc`` are read out by screen readers. ``linked``: the picture holds links, so its parts stay reachable.
    ``hidden``: screen readers pass it by, and it has no title or ids.
    """

    key: str
    box: tuple[float, float, float, float]
    title: str
    desc: str
    mode: InkMode = "page"
    linked: bool = False
    hidden: bool = False
    _parts: list[str] = field(default_factory=list)

    def _ink(self, cls: str) -> str:
        if not cls:
            return ""
        return _fixed(cls) if self.mode == "fixed" else f' class="fp-{cls}"'

    def add(self, tag: str, cls: str = "", **shape: float | str) -> None:
        """One shape; keywords are its attributes, ``_`` standing for ``-``."""
        written = "".join(
            f' {key.rstrip("_").replace("_", "-")}="{safe(v) if isinstance(v, str) else number(v)}"'
            for key, v in shape.items()
        )
        self._parts.append(f"<{tag}{self._ink(cls)}{written}/>")

    def line(self, cls: str, points: Sequence[Point], *, closed: bool = False) -> None:
        """A line through ``points``."""
        self.add("path", cls, d=path_of(points, closed=closed))

    def rect(self, cls: str, x0: float, y0: float, x1: float, y1: float, *, radius: float = 0.0) -> None:
        """A rectangle between two opposite corners."""
        corner = {"rx": radius} if radius else {}
        self.add("rect", cls, x=min(x0, x1), y=min(y0, y1), width=abs(x1 - x0), height=abs(y1 - y0), **corner)

    def text(self, cls: str, x: float, y: float, size: float, words: str, *, upright: bool = False) -> None:
        """A line of text whose baseline starts (or is centred, by its class) at ``x, y``; ``upright`` reads upwards."""
        shown = look.displayable(words) if self.mode == "fixed" else words
        turn = f' transform="rotate(-90 {number(x)} {number(y)})"' if upright else ""
        self._parts.append(
            f'<text{self._ink(cls)} x="{number(x)}" y="{number(y)}" font-size="{number(size)}"{turn}>{safe(shown)}</text>'
        )

    def open_link(self, target: str, label: str) -> None:
        """Start a link; does nothing where the picture is not linked."""
        if self.linked:
            self._parts.append(f'<a href="{safe(target)}" aria-label="{safe(label)}">')

    def close_link(self) -> None:
        """End a link."""
        if self.linked:
            self._parts.append("</a>")

    def open_group(self, title: str) -> None:
        """Start a group with its own tooltip."""
        self._parts.append(f"<g><title>{safe(title)}</title>")

    def open_part(self, **about: str | float) -> None:
        """Start a group that the script of a page finds by ``data-…`` attributes, to move it or fill it."""
        named = "".join(
            f' data-{key.replace("_", "-")}="{safe(v) if isinstance(v, str) else number(v)}"'
            for key, v in about.items()
        )
        self._parts.append(f"<g{named if self.mode == 'page' else ''}>")

    def close_group(self) -> None:
        """End a group."""
        self._parts.append("</g>")

    def svg(self) -> str:
        """The finished picture."""
        x, y, width, height = (number(v) for v in self.box)
        role = "group" if self.linked else "img"
        size = f' width="{width}" height="{height}"' if self.mode != "page" else ""
        style = ""
        if self.mode == "alone":
            style = f"<style>{look.colours()}\nsvg {{ background: var(--fp-paper) }}\n{drawing_css()}</style>"
        head = f'<svg xmlns="http://www.w3.org/2000/svg"{size} viewBox="{x} {y} {width} {height}"'
        if self.hidden:
            return f'{head} aria-hidden="true">{style}{"".join(self._parts)}</svg>'
        key = safe(self.key)
        named = f'aria-labelledby="{key}-t"' + (f' aria-describedby="{key}-d"' if self.desc else "")
        desc = f'<desc id="{key}-d">{safe(self.desc)}</desc>' if self.desc else ""
        return (
            f'{head} role="{role}" {named}><title id="{key}-t">{safe(self.title)}</title>'
            f"{desc}{style}{''.join(self._parts)}</svg>"
        )
