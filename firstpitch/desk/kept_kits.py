"""``kit.json`` made once for each state of a handover, and kept: all of it but the events, which come to it every time.

Kept in this process, and in the folder ``kept`` beside the database for the other web processes. The name of what is kept changes with
everything it is made from (``kit_mark.py``), so nothing kept is ever out of date.
"""

from __future__ import annotations

import json
import secrets
import struct
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.core.cache import caches
from django.http import HttpRequest, HttpResponse
from django.utils.cache import patch_vary_headers

from firstpitch.desk.kit_mark import mark_of
from firstpitch.desk.live_kit import kit_of
from firstpitch.desk.models import Handover

_RAW = -zlib.MAX_WBITS
_LEVEL = 9  # it is pressed once and sent often
_HEAD = b"\x1f\x8b\x08\x08\x00\x00\x00\x00\x00\xff"  # RFC 1952: deflate, with a name, no time, unknown system
_LONGEST_NAME = 100


@dataclass(frozen=True)
class KeptKit:
    """The text of the object without its closing brace, the same as deflate blocks (RFC 1951) that more can follow, and its CRC-32."""

    text: bytes
    packed: bytes
    crc: int


def kit_answer(request: HttpRequest, handover: Handover, mark: str, events: Sequence[dict[str, Any]]) -> HttpResponse:
    """The whole kit for a tablet, packed where it can read that."""
    kept = _kept(mark) or _make(handover, mark)
    rest = f',"events":{json.dumps(events)},"mark":{json.dumps(mark)}}}'.encode()
    if "gzip" in request.headers.get("Accept-Encoding", ""):
        answer = HttpResponse(
            gzipped(kept, rest), content_type="application/json", headers={"Content-Encoding": "gzip"}
        )
    else:
        answer = HttpResponse(kept.text + rest, content_type="application/json")
    patch_vary_headers(answer, ("Accept-Encoding",))
    return answer


def make_ready(handover: Handover) -> None:
    """Make the kit now unless it is kept, so that the first tablet that asks for it need not wait."""
    mark = mark_of(handover)
    if _kept(mark) is None:
        _make(handover, mark)


def packed(text: bytes) -> KeptKit:
    """A text made ready to be sent with different ends."""
    press = zlib.compressobj(_LEVEL, zlib.DEFLATED, _RAW)
    return KeptKit(text, press.compress(text) + press.flush(zlib.Z_FULL_FLUSH), zlib.crc32(text))


def gzipped(kept: KeptKit, rest: bytes) -> bytes:
    """Kept text and its end as one gzip file (RFC 1952), with a name of random length against guessing secrets from the size.

    >>> import gzip
    >>> gzip.decompress(gzipped(packed(b"at the door, "), b"at the tap"))
    b'at the door, at the tap'
    """
    press = zlib.compressobj(_LEVEL, zlib.DEFLATED, _RAW)
    name = b"a" * secrets.randbelow(_LONGEST_NAME)
    end = press.compress(rest) + press.flush()
    size = (len(kept.text) + len(rest)) % 2**32
    return _HEAD + name + b"\x00" + kept.packed + end + struct.pack("<LL", zlib.crc32(rest, kept.crc), size)


def _kept(mark: str) -> KeptKit | None:
    found: KeptKit | None = caches["kits-here"].get(mark)
    if found is None:
        stored = caches["kits"].get(mark)
        if stored is not None:
            found = KeptKit(*stored)
            caches["kits-here"].set(mark, found)
    return found


def _make(handover: Handover, mark: str) -> KeptKit:
    made = packed(json.dumps(kit_of(handover), separators=(",", ":")).encode()[:-1])
    caches["kits"].set(mark, (made.text, made.packed, made.crc))
    caches["kits-here"].set(mark, made)
    return made
