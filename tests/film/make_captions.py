"""Makes each recording's captions from its ``spoken.txt``: ``python -m tests.film.make_captions [name …]``.

The words of a line are timed by their letters from its own time to the next line's; the same text always gives the same file.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from tests.film.labelled import RECORDINGS, Spoken, read_spoken

LINE = 36
SLOWEST = 0.55
LEAST = 0.08


@dataclass(frozen=True)
class Timed:
    """One word with its times [s]; ``line`` is the utterance it comes from."""

    text: str
    start: float
    end: float
    line: int


def timed_words(spoken: Spoken) -> tuple[Timed, ...]:
    """Every word of the recording, never overlapping, in order."""
    found: list[Timed] = []
    ends = [after.at for _, after in pairwise(spoken.utterances)]
    clock = 0.0
    for line, utterance in enumerate(spoken.utterances):
        words = utterance.text.split()
        start = max(clock, float(utterance.at))
        room = (ends[line] - start) if line < len(ends) else SLOWEST * len(words)
        room = max(min(room, SLOWEST * len(words)), LEAST * len(words))
        letters = sum(len(word) + 2 for word in words)
        clock = start
        for word in words:
            end = clock + room * (len(word) + 2) / letters
            found.append(Timed(word, round(clock, 3), round(end, 3), line))
            clock = end
    return tuple(found)


def lines_of(words: tuple[Timed, ...], most: int) -> Iterator[tuple[Timed, ...]]:
    """The words in lines of at most so many letters, broken without regard to sentences, as machines do."""
    line: list[Timed] = []
    for word in words:
        if line and sum(len(one.text) + 1 for one in line) + len(word.text) > most:
            yield tuple(line)
            line = []
        line.append(word)
    if line:
        yield tuple(line)


def clock_of(seconds: float, mark: str = ".") -> str:
    """hh:mm:ss.mmm, with a comma for SRT."""
    whole = round(seconds * 1000)
    return f"{whole // 3600000:02}:{whole // 60000 % 60:02}:{whole // 1000 % 60:02}{mark}{whole % 1000:03}"


def _plain(line: tuple[Timed, ...]) -> str:
    return " ".join(word.text for word in line)


def as_vtt(spoken: Spoken) -> str:
    """Rolling captions: each cue repeats the line before, and its new line carries word times; a short still cue stands between."""
    out = ["WEBVTT", "Kind: captions", "Language: en", ""]
    before = " "
    lines = list(lines_of(timed_words(spoken), LINE))
    for number, line in enumerate(lines):
        end = line[-1].end
        new = line[0].text + "".join(f"<{clock_of(word.start)}><c> {word.text}</c>" for word in line[1:])
        out += [f"{clock_of(line[0].start)} --> {clock_of(end)} align:start position:0%", before, new, ""]
        if number + 1 < len(lines):
            out += [f"{clock_of(end)} --> {clock_of(end + 0.01)} align:start position:0%", _plain(line), " ", ""]
        before = _plain(line)
    return "\n".join(out) + "\n"


def as_srt(spoken: Spoken) -> str:
    """SRT in cues of two lines' letters at most."""
    out: list[str] = []
    for number, line in enumerate(lines_of(timed_words(spoken), 2 * LINE), start=1):
        two = "\n".join(_plain(part) for part in lines_of(line, LINE + 4))
        out += [str(number), f"{clock_of(line[0].start, ',')} --> {clock_of(line[-1].end, ',')}", two, ""]
    return "\n".join(out) + "\n"


def as_timed(spoken: Spoken) -> str:
    """Paragraphs of a few lines, each with the time of its first: ``[m:ss] …``."""
    out: list[str] = []
    text: list[str] = []
    for utterance in spoken.utterances:
        if sum(len(part.split()) for part in text) >= 35:
            out.append(" ".join(text))
            text = []
        text.append(utterance.text if text else f"[{utterance.at // 60}:{utterance.at % 60:02}] {utterance.text}")
    return "\n\n".join([*out, " ".join(text)]) + "\n"


def as_json(spoken: Spoken) -> str:
    """Segments with their words, times and a confidence each, as recognisers of speech give them."""
    words = timed_words(spoken)
    segments = []
    for number, utterance in enumerate(spoken.utterances):
        mine = [word for word in words if word.line == number]
        told = [
            {"word": f" {word.text}", "start": word.start, "end": word.end, "probability": _sure(word.text)}
            for word in mine
        ]
        segments.append(
            {"id": number, "start": mine[0].start, "end": mine[-1].end, "text": f" {utterance.text}", "words": told}
        )
    whole = "".join(f" {utterance.text}" for utterance in spoken.utterances)
    return json.dumps({"language": "en", "text": whole, "segments": segments}, ensure_ascii=False, indent=1) + "\n"


def _sure(word: str) -> float:
    """A confidence that depends on the word alone: invented, but alike in every run."""
    return round(0.55 + (sum(map(ord, word)) % 45) / 100, 2)


MAKERS = {"vtt": as_vtt, "srt": as_srt, "timed": as_timed, "json": as_json}


def captions_of(spoken: Spoken) -> str:
    """The captions of one recording in the format of its header."""
    return MAKERS[spoken.headers["format"]](spoken)


def main(names: list[str]) -> None:
    """Writes the captions of the recordings named, or of all."""
    for name in names or sorted(path.parent.name for path in RECORDINGS.glob("*/spoken.txt")):
        spoken = read_spoken(name)
        spoken.captions.write_text(captions_of(spoken), "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
