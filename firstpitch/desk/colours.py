"""``static/desk/colours.css``: the colours and drawing inks of papers/look.py as a file that browsers may keep.

``python -m firstpitch.desk.colours`` writes it; a test holds it equal to the look.
"""

from __future__ import annotations

from pathlib import Path

from firstpitch.papers.drawing.ink import drawing_css
from firstpitch.papers.look import colours

FILE = Path(__file__).parent / "static" / "desk" / "colours.css"


def written() -> str:
    """What the file must hold."""
    return f"/* Written by firstpitch/desk/colours.py from papers/look.py. Change it there. */\n{colours()}\n{drawing_css()}\n"


if __name__ == "__main__":
    FILE.write_text(written(), encoding="utf-8")
