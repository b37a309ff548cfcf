"""Reading captions of any of the usual forms."""

from __future__ import annotations

from firstpitch.film.captions.decode import decode
from firstpitch.film.captions.faults import CaptionFault
from firstpitch.film.captions.raw import RawCue
from firstpitch.film.captions.tidy import tidied
from firstpitch.film.captions.timed_text import STAMP, read_timed
from firstpitch.film.captions.timings import ARROW, read_blocks
from firstpitch.film.captions.word_json import read_json
from firstpitch.film.types import Recording

MOST_CUES = 200_000
LONGEST = 12 * 3600.0


def read_captions(data: bytes, name: str = "captions") -> Recording:
    """What the captions of a film say: WebVTT, SRT, timed text (``[m:ss] …``) or word-level JSON, told apart by what they hold.

    Raises CaptionFault, one sentence that names the file, when it is none of these or holds more than 200,000 cues.

    >>> read_captions(b"[0:05] This is the hitch.").cues[0].start
    5.0
    """
    text, mended = decode(data, name)
    raw = _raw(text, name)
    if len(raw) > MOST_CUES:
        raise CaptionFault(f"{name}: {len(raw):,} cues; the captions of one film have at most {MOST_CUES:,}")
    late = sum(1 for cue in raw if cue.start > LONGEST)
    if late:
        raise CaptionFault(f"{name}: {late} cues begin after {LONGEST / 3600:.0f} hours; check the times in the file")
    return tidied(raw, mended)


def _raw(text: str, name: str) -> list[RawCue]:
    start = text.lstrip("\ufeff \t\n")
    if start[:1] in ("{", "["):
        bracketed = STAMP.match(start)
        if not bracketed:
            return list(read_json(start, name))
    if any(ARROW.match(line) for line in text.split("\n")):
        return list(read_blocks(text))
    if start.startswith("WEBVTT"):
        return []
    timed = list(read_timed(text))
    if not timed:
        raise CaptionFault(
            f"{name}: no times found; give captions as WebVTT, SRT, timed text (“[1:05] This is the hitch”) or word-level JSON"
        )
    return timed
