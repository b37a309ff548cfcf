"""Colours against WCAG 2.2: text 4.5 : 1, lines that carry a meaning 3 : 1."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from firstpitch.papers import look

each_palette = pytest.mark.parametrize("palette", [look.LIGHT, look.DARK, look.PRINT], ids=["light", "dark", "print"])


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour as WCAG 2.2 defines it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_ratio_of_black_on_white() -> None:
    """Black on white has the ratio 21 : 1 that WCAG names as the greatest."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@each_palette
def test_text_can_be_read(palette: Mapping[str, str]) -> None:
    """Text, second-rank text and links stand out from paper and tint by at least 4.5 : 1 (WCAG 2.2, 1.4.3)."""
    for ink in ("ink", "soft", "accent"):
        for ground in ("paper", "tint"):
            assert contrast(palette[ink], palette[ground]) >= 4.5, (ink, ground)
    assert contrast(palette["on-accent"], palette["accent"]) >= 4.5


@each_palette
def test_lines_can_be_seen(palette: Mapping[str, str]) -> None:
    """Hairlines and furniture stand out from the paper by at least 3 : 1 (WCAG 2.2, 1.4.11)."""
    assert contrast(palette["line"], palette["paper"]) >= 3


def test_signs_can_be_seen() -> None:
    """The signs' black on yellow, red on white and white on blue stand out by at least 3 : 1 (WCAG 2.2, 1.4.11)."""
    signs = look.SIGNS
    for a, b in (("sign-black", "sign-warning"), ("sign-stop", "sign-white"), ("sign-white", "sign-must")):
        assert contrast(signs[a], signs[b]) >= 3
