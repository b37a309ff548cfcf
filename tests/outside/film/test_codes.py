"""The codes on the labels are read by a decoder that is not ours."""

from __future__ import annotations

import pypdfium2
import zxingcpp

from firstpitch.film.types import Chapter
from firstpitch.papers.film_labels import film_labels, labels_pdf

ADDRESS = "https://desk.example/o/qY3kD0u7Jx9cV2bN5mA8sT1wZ4rE6pL0/film/"
CHAPTERS = [
    Chapter("Welcome", (), 0, 12),
    *[Chapter(f"Thing number {n}", (f"kit-{n}",), 12 + 31 * n, 43 + 31 * n) for n in range(26)],
    Chapter("Thing number 3 again", ("kit-3",), 900, 930),
]


def test_every_code_opens_the_film_at_its_second() -> None:
    """Decoded from the printed sheets at 150 dots an inch, the codes are exactly the addresses of the chapters, in order, each once."""
    labels = film_labels(CHAPTERS, {"kit-3": 17}, ADDRESS)
    pdf = pypdfium2.PdfDocument(labels_pdf("Test van", labels))
    found = []
    for page in pdf:
        codes = zxingcpp.read_barcodes(page.render(scale=150 / 72).to_pil())
        codes = sorted(codes, key=lambda c: (round(c.position.top_left.y / 60), c.position.top_left.x))
        found += [code.text for code in codes]
    assert found == [f"{ADDRESS}#t={12 + 31 * n}" for n in range(26)]
