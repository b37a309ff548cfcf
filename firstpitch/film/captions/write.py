"""Captions as files: WebVTT, SRT, and a transcript to read."""

from __future__ import annotations

import html
from collections.abc import Sequence

from firstpitch.film.types import Chapter, Cue, Recording

_PARAGRAPH = 2.0
_LONG = 400
_NO_MARKUP = str.maketrans({"<": "‹", ">": "›"})


def stamp(seconds: float, mark: str = ".") -> str:
    """A time as captions write it.

    >>> stamp(3725.04)
    '01:02:05.040'
    """
    whole = round(seconds * 1000)
    return f"{whole // 3_600_000:02d}:{whole // 60_000 % 60:02d}:{whole // 1000 % 60:02d}{mark}{whole % 1000:03d}"


def vtt_text(cues: Sequence[Cue], *, note: str = "") -> str:
    """WebVTT (W3C). Text is escaped, so that whatever was said stays text.

    >>> print(vtt_text([Cue(0.0, 1.5, "gas < off")]))
    WEBVTT
    <BLANKLINE>
    00:00:00.000 --> 00:00:01.500
    gas &lt; off
    <BLANKLINE>
    """
    head = "WEBVTT\n\n" + (f"NOTE {' '.join(note.replace('-->', '').split())}\n\n" if note else "")
    return head + "\n".join(f"{stamp(c.start)} --> {stamp(c.end)}\n{_escaped(c.text)}\n" for c in cues)


def _escaped(text: str) -> str:
    return html.escape(_no_blank(text), quote=False)


def _no_blank(text: str) -> str:
    """A blank line would end the cue."""
    return "\n".join(line for line in text.split("\n") if line.strip())


def srt_text(cues: Sequence[Cue]) -> str:
    """SRT, as players read it. SRT knows no escape, so angle brackets become single quotation marks that no player takes for markup."""
    return "\n".join(
        f"{number}\n{stamp(c.start, ',')} --> {stamp(c.end, ',')}\n{_no_blank(c.text).translate(_NO_MARKUP)}\n"
        for number, c in enumerate(cues, start=1)
    )


def chapters_vtt(chapters: Sequence[Chapter]) -> str:
    """The chapters as a WebVTT track of kind ``chapters``."""
    return vtt_text([Cue(c.start, c.end, c.title) for c in chapters])


def clock(seconds: float) -> str:
    """A time as people read it.

    >>> clock(65.4), clock(3725)
    ('1:05', '1:02:05')
    """
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    return f"{hours}:{rest // 60:02d}:{rest % 60:02d}" if hours else f"{rest // 60}:{rest % 60:02d}"


def transcript_text(recording: Recording, chapters: Sequence[Chapter] = ()) -> str:
    """What is said, in paragraphs with their times, under the chapters' titles where there are any."""
    out: list[str] = []
    heads = list(chapters)
    words: list[str] = []
    begun = last = 0.0
    for cue in recording.cues:
        new_chapter = bool(heads) and cue.start >= heads[0].start
        full = cue.start - last >= _PARAGRAPH or len(" ".join(words)) > _LONG
        if words and (new_chapter or full):
            out.append(f"[{clock(begun)}] {' '.join(words)}\n")
            words = []
        while heads and cue.start >= heads[0].start:
            out.append(f"{heads.pop(0).title}\n")
        if not words:
            begun = cue.start
        words.append(" ".join(cue.text.split()))
        last = cue.end
    if words:
        out.append(f"[{clock(begun)}] {' '.join(words)}\n")
    return "\n".join(out)
