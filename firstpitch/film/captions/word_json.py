"""Word-level JSON, as speech recognisers give it: somewhere inside are entries with a word and its times."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from statistics import median
from typing import Any

from firstpitch.film.captions.faults import CaptionFault
from firstpitch.film.captions.gather import gathered
from firstpitch.film.captions.raw import RawCue
from firstpitch.film.types import Word

_TEXTS = ("punctuated_word", "word", "text", "content", "transcript")
_STARTS = ("start", "start_time", "startTime", "begin", "from", "offset")
_ENDS = ("end", "end_time", "endTime", "stop", "to")
_SURE = ("probability", "confidence", "conf", "score")
_MILLISECONDS = 20.0
_DEEPEST = 40
_GREATEST = 1e12


def read_json(text: str, name: str) -> Iterator[RawCue]:
    """The words in order, gathered into cues at pauses and sentence ends; entries with times but no words inside count as cues.

    Raises CaptionFault when the text is not JSON or holds no timed words.
    """
    try:
        tree = json.loads(text)
    except (json.JSONDecodeError, RecursionError) as fault:
        line = f" (line {fault.lineno})" if isinstance(fault, json.JSONDecodeError) else ""
        raise CaptionFault(f"{name}{line}: this is not whole JSON; export the recogniser's result again") from None
    found = list(_entries(tree, 0))
    if not found:
        raise CaptionFault(f"{name}: no entry has a word with its start and end; export the result with word times")
    yield from map(_cue, gathered(_in_seconds(found)))


def _entries(node: Any, depth: int) -> Iterator[Word]:
    """Timed words, the innermost entries where entries hold entries."""
    if depth > _DEEPEST:
        return
    if isinstance(node, list):
        for item in node:
            yield from _entries(item, depth + 1)
    elif isinstance(node, dict):
        inner = [
            word for value in node.values() if isinstance(value, list | dict) for word in _entries(value, depth + 1)
        ]
        yield from inner or _own(node)


def _own(node: Mapping[str, Any]) -> Iterator[Word]:
    text = next((node[key] for key in _TEXTS if isinstance(node.get(key), str) and node[key].strip()), None)
    start = next((at for key in _STARTS if (at := _number(node.get(key))) is not None), None)
    end = next((at for key in _ENDS if (at := _number(node.get(key))) is not None), None)
    if text is not None and start is not None:
        sure = next((value for key in _SURE if (value := _number(node.get(key))) is not None), None)
        yield Word(" ".join(text.split()), start, end if end is not None else start, sure)


def _number(value: Any) -> float | None:
    """A time or a share: a number, or text like ``1.5``, ``1.5s`` or ``00:01:02,5``."""
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, int | float):
        return float(value) if abs(value) < _GREATEST else None
    if isinstance(value, str):
        clock = re.fullmatch(r"(?:(\d+):)?(\d+):(\d+(?:[.,]\d+)?)", value.strip())
        if clock:
            return int(clock[1] or 0) * 3600 + int(clock[2]) * 60 + float(clock[3].replace(",", "."))
        plain = re.fullmatch(r"(\d+(?:\.\d+)?)s?", value.strip())
        return float(plain[1]) if plain else None
    return None


def _in_seconds(words: list[Word]) -> list[Word]:
    """Some recognisers count milliseconds: nobody takes twenty seconds for one word."""
    per_word = median((word.end - word.start) / max(1, len(word.text.split())) for word in words)
    if per_word < _MILLISECONDS:
        return words
    return [Word(w.text, w.start / 1000, w.end / 1000, w.sure) for w in words]


def _cue(words: tuple[Word, ...]) -> RawCue:
    timed = words if all(" " not in word.text for word in words) else ()
    return RawCue(words[0].start, max(word.end for word in words), (" ".join(word.text for word in words),), timed)
