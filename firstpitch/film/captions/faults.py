"""What is wrong with a caption file, in one sentence."""

from __future__ import annotations

from firstpitch.sheet.errors import FirstpitchError


class CaptionFault(FirstpitchError):
    """The file cannot be read as captions; the message names the file and says what to do."""
