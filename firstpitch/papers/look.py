"""The look in figures: colours, faces and the style sheet. What each stands for is written in docs/look.md."""

from __future__ import annotations

import base64
import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

TEXT_FACE = "Firstpitch Text"
FIGURES_FACE = "Firstpitch Figures"

LIGHT: Mapping[str, str] = MappingProxyType(
    {
        "paper": "#fbf7ec",
        "ink": "#1b1a17",
        "soft": "#5c574b",
        "line": "#90866a",
        "tint": "#efe8d4",
        "accent": "#5a2d82",
        "on-accent": "#ffffff",
    }
)
DARK: Mapping[str, str] = MappingProxyType(
    {
        "paper": "#0f1b2d",
        "ink": "#eef1f5",
        "soft": "#b4bfce",
        "line": "#5d6c83",
        "tint": "#1a2940",
        "accent": "#cdaef7",
        "on-accent": "#14101c",
    }
)
PRINT: Mapping[str, str] = MappingProxyType(
    {
        "paper": "#ffffff",
        "ink": "#000000",
        "soft": "#4a4740",
        "line": "#8d8674",
        "tint": "#efece4",
        "accent": "#5a2d82",
        "on-accent": "#ffffff",
    }
)
# Safety colours of the signs: yellow, red and blue as ISO 3864 asks for by name; these screen values are ours.
SIGNS: Mapping[str, str] = MappingProxyType(
    {
        "sign-warning": "#f7c600",
        "sign-stop": "#c1121f",
        "sign-must": "#0a57a4",
        "sign-black": "#000000",
        "sign-white": "#ffffff",
    }
)

_FACES = (
    (TEXT_FACE, 400, "text"),
    (TEXT_FACE, 700, "text-bold"),
    (FIGURES_FACE, 400, "figures"),
    (FIGURES_FACE, 700, "figures-bold"),
)


def variables(palette: Mapping[str, str]) -> str:
    """A palette as CSS custom properties.

    >>> variables({"ink": "#000000"})
    '--fp-ink: #000000;'
    """
    return " ".join(f"--fp-{name}: {colour};" for name, colour in palette.items())


@cache
def font_bytes(name: str) -> bytes:
    """One of the font files shipped with the program, by file name."""
    return (files(__package__) / "fonts" / name).read_bytes()


@cache
def font_faces() -> str:
    """The ``@font-face`` rules with the fonts inside them, so that a page asks for nothing outside itself."""
    rules = []
    for family, weight, name in _FACES:
        data = base64.b64encode(font_bytes(f"{name}.woff2")).decode("ascii")
        rules.append(
            f'@font-face {{ font-family: "{family}"; font-weight: {weight}; font-display: swap; '
            f"src: url(data:font/woff2;base64,{data}) format('woff2'); }}"
        )
    return "\n".join(rules)


@cache
def colours() -> str:
    """All colours as CSS: light, dark for readers who ask for it, and print."""
    return "\n".join(
        (
            f":root {{ {variables(LIGHT)} {variables(SIGNS)} }}",
            f"@media screen and (prefers-color-scheme: dark) {{ :root {{ {variables(DARK)} }} }}",
            f"@media print {{ :root {{ {variables(PRINT)} }} }}",
        )
    )


@cache
def style_sheet() -> str:
    """The whole style sheet for a self-contained page: fonts, colours, drawing classes and layout."""
    from firstpitch.papers.drawing.ink import drawing_css

    return "\n".join((font_faces(), colours(), drawing_css(), (files(__package__) / "look.css").read_text("utf-8")))


_BREAK = "\u200b"
_LONG_RUN = re.compile(r"\S{26,}")
_PIECES = re.compile(r"\S{1,9}")


@cache
def _cover() -> tuple[tuple[int, int], ...]:
    lines = font_bytes("cover.txt").decode("ascii").split()
    spans = [tuple(int(end, 16) for end in line.split("-")) for line in lines]
    # Greek and Cyrillic letters come from the faces built into the typesetter.
    return (*((first, last) for first, last in spans), (0x391, 0x3A1), (0x3A3, 0x3C9), (0x410, 0x44F))


def displayable(text: str) -> str:
    """``text`` with every character that the printed faces lack replaced by an open square, and room to break in a run of
    letters too long for a line.

    >>> displayable("Łódź 12 V"), displayable("漢 ok")
    ('Łódź 12 V', '□ ok')
    """
    plain = text.replace("‑", "-").replace("\u202f", "\u00a0").replace("\t", " ")
    held = "".join(c if c == "\n" or any(a <= ord(c) <= b for a, b in _cover()) else "□" for c in plain)
    return _LONG_RUN.sub(lambda run: _BREAK.join(_PIECES.findall(run[0])), held)
