"""Safety-sign shapes and the marks of a state. Shape and word carry the meaning; colour comes last.

The three shapes are those of ISO 3864 and ISO 7010: a triangle warns, a circle with a bar forbids, a disc commands (general
signs W001, P001 and M001, known from memory, not seen). The proportions are drawn by eye.
"""

from __future__ import annotations

from typing import Literal

from firstpitch.papers.drawing.ink import InkMode, Picture

Sign = Literal["warning", "prohibition", "must-do"]
State = Literal["to-do", "now", "done", "tried", "waiting", "left-out", "cannot"]

SIGN_WORDS: dict[Sign, str] = {
    "warning": "Warning sign: triangle",
    "prohibition": "Prohibition sign: circle with a bar",
    "must-do": "Must-do sign: disc",
}
STATE_WORDS: dict[State, str] = {
    "to-do": "to do",
    "now": "now",
    "done": "done",
    "tried": "tried by the owner",
    "waiting": "waiting",
    "left-out": "left out",
    "cannot": "cannot be done yet",
}


def draw_sign(sign: Sign, *, mode: InkMode = "page", key: str = "", hidden: bool = False) -> str:
    """A safety-sign shape as SVG in a square of 100 units; ``hidden`` from screen readers where words beside it say the same."""
    picture = Picture(key or f"sign-{sign}", (0, 0, 100, 100), SIGN_WORDS[sign], "", mode=mode, hidden=hidden)
    if sign == "warning":
        picture.add("path", "sign-warning", d="M50 10L94 88L6 88Z", stroke_width=8)
        _exclamation(picture, "sign-ink", 36, 68, 77)
    elif sign == "must-do":
        picture.add("circle", "sign-must", cx=50, cy=50, r=48)
        _exclamation(picture, "sign-white", 20, 62, 77)
    else:
        picture.add("circle", "sign-stop", cx=50, cy=50, r=43, stroke_width=10)
        picture.add("path", "sign-bar", d="M20 20L80 80", stroke_width=9)
    return picture.svg()


def _exclamation(picture: Picture, cls: str, top: float, foot: float, dot: float) -> None:
    picture.add("path", cls, d=f"M44 {top}Q50 {top - 5} 56 {top}L53 {foot}L47 {foot}Z")
    picture.add("circle", cls, cx=50, cy=dot, r=5.5)


def draw_state(state: State, *, mode: InkMode = "page", key: str = "", left: float = 1.0, hidden: bool = False) -> str:
    """The mark of a state as SVG in a square of 24 units; ``left`` (0 to 1) is how much of a wait is still to run.

    ``hidden`` from screen readers where words beside it say the same.
    """
    picture = Picture(key or f"state-{state}", (0, 0, 24, 24), STATE_WORDS[state], "", mode=mode, hidden=hidden)
    if state == "waiting":
        picture.rect("state", 2, 8, 22, 16)
        picture.rect("state-fill", 2, 8, 2 + 20 * min(1.0, max(0.0, left)), 16)
        return picture.svg()
    picture.rect("state-heavy" if state == "now" else "state", 3, 3, 21, 21)
    if state in ("done", "tried"):
        picture.line("state", [(5.5, 12), (9, 16), (13, 7)] if state == "tried" else [(6, 12), (11, 17), (18, 7)])
    if state == "tried":
        picture.line("state", [(12, 14.5), (13.5, 16), (18.5, 7)])
    if state == "left-out":
        picture.line("state", [(1, 23), (23, 1)])
    if state == "cannot":
        picture.line("state-heavy", [(3, 12), (21, 12)])
    return picture.svg()
