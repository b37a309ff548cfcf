"""From the bytes of a caption file to its text."""

from __future__ import annotations

import codecs

from firstpitch.film.captions.faults import CaptionFault

MOST_BYTES = 50_000_000
_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


def decode(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """The text, and what had to be put right to get it.

    A byte-order mark is believed; else UTF-8; else Windows-1252, the usual encoding of captions that are not UTF-8 (common practice,
    no source). Raises CaptionFault for an empty file, one over 50 MB, or bytes that are no text.

    >>> decode(b"two o\\x92clock", "a.srt")[0]
    'two o\u2019clock'
    """
    if len(data) > MOST_BYTES:
        raise CaptionFault(
            f"{name}: {len(data) // 1_000_000} MB; captions of one film are at most {MOST_BYTES // 1_000_000} MB"
        )
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _lines(data.decode(encoding, errors="replace")), ()
    if b"\x00" in data[:4096]:
        raise CaptionFault(f"{name}: this is no text; give captions as WebVTT, SRT, timed text or word-level JSON")
    if not data.strip():
        raise CaptionFault(f"{name}: the file is empty; export the captions again")
    try:
        return _lines(data.decode("utf-8")), ()
    except UnicodeDecodeError as fault:
        text = data.decode("cp1252", errors="replace")
        return _lines(text), (f"Not UTF-8 (byte {fault.start}): read as Windows-1252.",)


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")
