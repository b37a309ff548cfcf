"""What the queue does with films: take one in, check what it says, put a chapter that was filmed again in its place."""

from __future__ import annotations

import contextlib
import tempfile
import uuid
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import Any

from django.utils import timezone

from firstpitch.desk.actions.film import KeptFile, keep_found, keep_part, keep_taken
from firstpitch.desk.actions.film_uploads import CHECK, PART, TAKE
from firstpitch.desk.film_check import check
from firstpitch.desk.films import LONGEST_S, lasting, read_chapters, read_recording
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Film, FilmUpload, Job
from firstpitch.desk.stored import at_hand, put, put_together, workshop
from firstpitch.desk.task import Keep, Task, TaskError, Tell
from firstpitch.desk.uploads import UploadError
from firstpitch.film.chapters import with_part
from firstpitch.film.types import Cue, Recording, Word
from firstpitch.sheet import SheetError
from firstpitch.sheet.errors import FirstpitchError

_GONE = "The film is not there any more. Send it again."
_BY_HAND = "Send its captions on the film's page (WebVTT, SRT, timed text or word-level JSON), or film it again with the microphone on."


@contextlib.contextmanager
def _in_words(names: Mapping[str, str]) -> Iterator[None]:
    """Faults of films and sheets become words for the person; file names of ours (``names``) become those the person knows."""
    try:
        yield
    except (FirstpitchError, UploadError) as wrong:
        words = str(wrong)
        for ours, theirs in names.items():
            words = words.replace(ours, theirs)
        raise TaskError(words) from None
    except FileNotFoundError:
        raise TaskError(_GONE) from None


def _film(job: Job) -> Film:
    found = Film.objects.select_related("van__branch").filter(pk=job.arguments["film"], removed=None).first()
    if found is None:
        raise TaskError(_GONE)
    return found


def take_film(job: Job, tell: Tell) -> Keep:
    """Look at what came in: is it a film, how long, does every browser play it; make it so, and a still picture of it."""
    film = _film(job)
    if film.pieces is None:
        raise TaskError("This film has been looked at already.")
    with (
        _in_words({f"{film.pieces}.part": film.name}),
        put_together(film.pieces) as path,
        tempfile.TemporaryDirectory(dir=workshop(), prefix=".take-") as folder,
    ):
        return _taken(job, film, path, Path(folder), tell)


def _taken(job: Job, film: Film, path: Path, folder: Path, tell: Tell) -> Keep:
    from firstpitch.media.playable import playable, plays_anywhere, still

    tell("looking at the film")
    facts = looked_at(path, film.name)
    tell(
        "copying it"
        if plays_anywhere(facts)
        else "making it play in every browser, which takes about as long as the film"
    )
    made = playable(path, folder / "film.mp4")
    picture = still(made, folder / "film.jpg")
    tell("keeping it")
    name = f"film/{timezone.now():%Y/%m}/{uuid.uuid4()}"
    kept = KeptFile(put(made, f"{name}.mp4"), put(picture, f"{name}.jpg"), _facts(facts))
    return partial(keep_taken, by=job.by, film=film, kept=kept)


def looked_at(path: Path, name: str) -> Any:
    """What a film file holds; TaskError where it is not one we take."""
    from firstpitch.media.probe import probe

    seen = probe(path)
    if not seen.video:
        raise TaskError(f"{name}: there is no picture in it. Send the film itself, for example as MP4.")
    if seen.length > LONGEST_S:
        raise TaskError(
            f"{name} lasts {lasting(seen.length)}; a film of a van may last at most {lasting(LONGEST_S)}. Cut it and send it again."
        )
    if seen.length <= 0:
        raise TaskError(f"{name}: it has no length. Copy it from the camera again, or export it as MP4.")
    return seen


def _facts(seen: Any) -> dict[str, Any]:
    return {
        "length": seen.length,
        "size": seen.size,
        "video": seen.video,
        "audio": seen.audio,
        "width": seen.width,
        "height": seen.height,
    }


def check_film(job: Job, tell: Tell) -> Keep:
    """Hear the film where nobody gave its captions, hold it against the van's sheet, make chapters and captions."""
    film = _film(job)
    with _in_words({Path(str(film.file.name)).name: film.name}):
        kept = None if job.arguments.get("hear") else film.recording
        heard = None if kept else _heard(film, tell)
        said = heard or read_recording(kept or {})
        recording = replace(said, length=max(said.length, film.facts.get("length", 0.0)))
        tell("holding it against the sheet")
        version = film.van.version
        try:
            made = check(open_van(film.van), film.van.branch, version, recording)
        except SheetError as wrong:
            raise TaskError(f"The sheet cannot be read any more: {wrong}") from None
    return partial(keep_found, by=job.by, film=film, made=made, heard=heard)


def _heard(film: Film, tell: Tell) -> Recording:
    if not film.facts.get("audio"):
        raise TaskError(f"There is no sound in {film.name}, so nothing can be heard. {_BY_HAND}")
    tell("listening")
    with at_hand(str(film.file.name)) as path:
        heard = _listen(path, tell)
    if not heard.cues:
        raise TaskError(f"Nobody can be heard speaking in {film.name}. {_BY_HAND}")
    return heard


def _listen(path: Path, tell: Tell) -> Recording:
    from firstpitch.media.recognise import recognise

    def told(share: float) -> bool:
        tell(f"listening: {share:.0%} heard")
        return True

    return recognise(path, tell=told)


def replace_chapter(job: Job, tell: Tell) -> Keep:
    """Put a chapter that was filmed again in its place: the later ones move, and what is said is checked again."""
    film = _film(job)
    upload = FilmUpload.objects.get(pk=job.arguments["upload"])
    chapters = read_chapters(film.chapters)
    if upload.chapter is None or upload.chapter >= len(chapters):
        raise TaskError("The chapters of the film have changed since. Choose the chapter again.")
    with (
        _in_words({f"{upload.pk}.part": upload.name, Path(str(film.file.name)).name: film.name}),
        put_together(upload.pk) as part,
        tempfile.TemporaryDirectory(dir=workshop(), prefix=".part-") as folder,
    ):
        return _replaced(job, film, upload, part, Path(folder), tell)


def _replaced(job: Job, film: Film, upload: FilmUpload, part: Path, folder: Path, tell: Tell) -> Keep:  # noqa: PLR0917  (one task, cut in two)
    from firstpitch.media.mux import replace_part
    from firstpitch.media.playable import still

    chapters = read_chapters(film.chapters)
    number = upload.chapter or 0
    old = chapters[number]
    seen = looked_at(part, upload.name)
    said = _of_part(seen, part, tell)
    tell("putting the new chapter in its place")
    with at_hand(str(film.file.name)) as whole:
        made = replace_part(whole, part, folder / "film.mp4", start=old.start, end=old.end)
    facts = looked_at(made, film.name)
    picture = still(made, folder / "film.jpg")
    recording = joined(
        read_recording(film.recording or {"cues": [], "length": 0.0}), said, old.start, old.end, seen.length
    )
    moved = with_part(chapters, number, seen.length)
    tell("holding it against the sheet")
    checked = replace(check(open_van(film.van), film.van.branch, film.van.version, recording), chapters=moved)
    name = f"film/{timezone.now():%Y/%m}/{uuid.uuid4()}"
    kept = KeptFile(put(made, f"{name}.mp4"), put(picture, f"{name}.jpg"), _facts(facts))
    return partial(
        keep_part, by=job.by, film=film, upload=upload, kept=kept, made=checked, recording=recording, title=old.title
    )


def _of_part(seen: Any, part: Path, tell: Tell) -> Recording:
    """What is said in the new part; nothing where it cannot be heard, which the check then shows as missing."""
    from firstpitch.media.faults import FilmFault
    from firstpitch.media.recognise import model_folder

    try:
        model_folder()
    except FilmFault:
        return Recording((), seen.length)
    return _listen(part, tell)


def joined(whole: Recording, part: Recording, start: float, end: float, length: float) -> Recording:
    """What is said once ``part`` (``length`` seconds) stands in the place of ``start`` to ``end``."""
    later = length - (end - start)
    before = [cue for cue in whole.cues if cue.start < start]
    after = [_moved(cue, later) for cue in whole.cues if cue.start >= end]
    new = [_moved(cue, start) for cue in part.cues]
    return Recording((*before, *new, *after), whole.length + later, whole.mended)


def _moved(cue: Cue, by: float) -> Cue:
    words = tuple(Word(word.text, word.start + by, word.end + by, word.sure) for word in cue.words)
    return Cue(cue.start + by, cue.end + by, cue.text, words)


FILM_TASKS: Mapping[str, Task] = MappingProxyType({TAKE: take_film, CHECK: check_film, PART: replace_chapter})
