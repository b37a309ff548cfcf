"""Every error a user can cause, as one small tree.

FirstpitchError
├── SheetError       a build, car or load sheet (or a plan file) is wrong: file, line, field, what to do
├── CatalogueError   a kind file is wrong: file, key, what to do
└── UnknownFigure    a figure that a result needs is not on the sheet

``ValueError`` stays for a programmer's mistake. "Does not fit", "impossible" and "cannot say" are results.
"""

from __future__ import annotations


def quoted(found: object, most: int = 60) -> str:
    """What a user wrote, in quotation marks, on one line and not too long.

    >>> quoted("ten\\tkilos")
    '“ten kilos”'
    """
    text = " ".join("".join(c if c.isprintable() else " " for c in str(found)[: 4 * most]).split())
    return f"“{text if len(text) <= most else text[: most - 1] + '…'}”"


class FirstpitchError(Exception):
    """Anything a user can put right; its text is one sentence for that user."""


class SheetError(FirstpitchError):
    """One or more faults in a file the user gave; ``faults`` holds one sentence each, in file order."""

    def __init__(self, faults: list[str] | str) -> None:
        self.faults: list[str] = [faults] if isinstance(faults, str) else list(faults)
        super().__init__("\n".join(self.faults))


class CatalogueError(FirstpitchError):
    """A kind file breaks a rule of the catalogue; the text names the file and the key."""


class UnknownFigure(FirstpitchError):
    """A figure that a result cannot do without is not on the sheet."""
