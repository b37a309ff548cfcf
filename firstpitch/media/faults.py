"""What is wrong with a film file, in one sentence."""

from __future__ import annotations

from firstpitch.sheet.errors import FirstpitchError


class FilmFault(FirstpitchError):
    """A film cannot be read, heard or written; the message names the file and says what to do."""
