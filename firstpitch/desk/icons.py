"""``static/desk/tablet/icon*``: the desk on a tablet's home screen, made from the nearside of a demo van.

``python -m firstpitch.desk.icons`` writes them; a test holds the drawn one equal to what this gives.
"""

from __future__ import annotations

import re
import tempfile
from datetime import date
from pathlib import Path

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.papers.drawing.ink import Picture
from firstpitch.papers.drawing.shell import draw_elevation
from firstpitch.papers.drawing.views import frame
from firstpitch.papers.look import LIGHT
from firstpitch.sheet import read_sheet_text

FOLDER = Path(__file__).parent / "static" / "desk" / "tablet"
_SIDE = 100.0
_VAN = "wren"
_NEXT = 0.68  # the next place, the one filled mark, as a part of the way to the door
# A maskable icon may be cut to a circle four fifths as wide (W3C, Web Application Manifest, "Icon masks and safe zone").
SHARES = {"icon": 0.9, "icon-maskable": 0.72}
FILES = (("icon", 192), ("icon", 512), ("icon-maskable", 512))


def drawn(share: float) -> str:
    """The van's nearside on paper with the one filled mark, ``share`` of the square wide, in light colours."""
    sheet = read_sheet_text(sheets()[_VAN].read_text("utf-8"), load().kinds, today=date.max)
    view = frame(sheet, "nearside")
    view = frame(sheet, "nearside", view.scale * share * _SIDE / view.size[0])
    picture = Picture("icon", (0, 0, *view.size), "Firstpitch", "", mode="fixed", hidden=True)
    draw_elevation(picture, view, sheet)
    inside = re.sub(r"^<svg[^>]*>|</svg>$", "", picture.svg())
    ground = re.search(r'<path[^>]*d="M0 [^"]*"/>$', inside)
    if ground:  # the icon needs no line of ground: it would end in the air
        inside = inside[: ground.start()]
    inside = re.sub(r'stroke-width="([\d.]+)"', lambda width: f'stroke-width="{_bold(width[1])}"', inside)
    x, y = view.at(sheet.plan.door.at * _NEXT, 0, sheet.body.height * 0.55)
    inside += f'<circle fill="{LIGHT["accent"]}" cx="{x:.2f}" cy="{y:.2f}" r="{0.055 * view.size[0]:.2f}"/>'
    left, top = (_SIDE - view.size[0]) / 2, (_SIDE - view.size[1]) / 2
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_SIDE:g} {_SIDE:g}">'
        f'<rect width="{_SIDE:g}" height="{_SIDE:g}" fill="{LIGHT["paper"]}"/>'
        f'<g transform="translate({left:.2f} {top:.2f})">{inside}</g></svg>\n'
    )


def _bold(width: str) -> str:
    return f"{max(1.4, float(width) * 1.3):g}"


def picture(share: float, pixels: int) -> bytes:
    """The same as a PNG, ``pixels`` wide."""
    import typst

    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "icon.svg").write_text(drawn(share), "utf-8")
        page = Path(folder) / "icon.typ"
        page.write_text('#set page(width: 72pt, height: 72pt, margin: 0pt)\n#image("icon.svg", width: 72pt)\n', "utf-8")
        made = typst.compile(str(page), format="png", ppi=float(pixels))
    if not isinstance(made, bytes):
        raise TypeError("the typesetter gave no single picture")
    return made


if __name__ == "__main__":
    (FOLDER / "icon.svg").write_text(drawn(SHARES["icon"]), "utf-8")
    for name, pixels in FILES:
        (FOLDER / f"{name}-{pixels}.png").write_bytes(picture(SHARES[name], pixels))
