"""Reading our drawings back, with a plain XML parser."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Disc:
    x: float
    y: float
    r: float
    cls: str
    number: str


def parse(svg: str) -> ET.Element:
    return ET.fromstring(svg)


def by_class(root: ET.Element, cls: str) -> list[ET.Element]:
    return [e for e in root.iter() if e.get("class") == f"fp-{cls}"]


def rectangle(element: ET.Element) -> tuple[float, float, float, float]:
    x, y, width, height = (float(element.get(key, "nan")) for key in ("x", "y", "width", "height"))
    return x, y, width, height


def points(element: ET.Element) -> list[tuple[float, float]]:
    """The corners of a path of straight lines, or all coordinates of a rounded one."""
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", element.get("d", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def discs(root: ET.Element) -> list[Disc]:
    """Every numbered mark: a group with a disc and its number."""
    found = []
    for group in root.iter(f"{SVG}g"):
        circle, text = group.find(f"{SVG}circle"), group.find(f"{SVG}text")
        if circle is not None and text is not None:
            x, y, r = (float(circle.get(key, "nan")) for key in ("cx", "cy", "r"))
            found.append(Disc(x, y, r, circle.get("class", "").removeprefix("fp-"), text.text or ""))
    return found
