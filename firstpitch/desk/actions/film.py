"""Writes about films: what came of looking at one, its captions, what people think of its findings, and whether the owner sees it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.film_uploads import CHECK
from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.jobs import enqueue
from firstpitch.desk.film_check import Checked
from firstpitch.desk.films import kept_chapters, kept_recording, lasting
from firstpitch.desk.models import Event, Film, FilmUpload, Job, Person, Role
from firstpitch.desk.stored import drop, drop_pieces
from firstpitch.film.captions import CaptionFault, read_captions
from firstpitch.film.types import Recording

ACCEPTED, DISMISSED = "accepted", "dismissed"
DECIDED = "film.decided"
LONGEST_NAME = 120
LONGEST_REASON = 600
_LONGER_BY = 30.0


class FilmError(ValueError):
    """Something that cannot be done with a film like this; the words say why. ``field`` is where it belongs."""

    def __init__(self, words: str, field: str = "") -> None:
        super().__init__(words)
        self.field = field


@dataclass(frozen=True)
class KeptFile:
    """Where a film and its still picture are kept, and what the film holds."""

    file: str
    poster: str
    facts: dict[str, Any]


@dataclass(frozen=True)
class Override:
    """Who lets a film be shown although a caution to stop for is missing or late, and why."""

    name: str
    reason: str


def _locked(film: Film) -> Film:
    return Film.objects.select_for_update(of=("self",)).select_related("van__branch").get(pk=film.pk)


@transaction.atomic
def keep_taken(*, by: Person | None, film: Film, kept: KeptFile) -> dict[str, Any]:
    """Keep a film that has been looked at, and have it checked."""
    locked = _locked(film)
    pieces, locked.pieces = locked.pieces, None
    locked.file.name, locked.poster.name, locked.facts = kept.file, kept.poster, kept.facts
    locked.save(update_fields=["pieces", "file", "poster", "facts"])
    said = {"film": str(locked.pk), "name": locked.name, "lasts": lasting(kept.facts["length"])}
    write(by=by, van=locked.van, what="film.taken", data=said)
    _check_again(by, locked)
    if pieces:
        transaction.on_commit(lambda: drop_pieces(pieces))
    return said


@transaction.atomic
def give_captions(*, by: Person, film: Film, data: bytes, name: str) -> Job:
    """Keep captions that somebody made, in place of what the desk heard, and check the film again. FilmError says what is wrong."""
    locked = _locked(film)
    try:
        recording = read_captions(data, name[:80] or "captions")
    except CaptionFault as wrong:
        raise FilmError(str(wrong), "captions") from None
    if not recording.cues:
        raise FilmError(f"{name}: nothing is said in it. Choose the captions of this film.", "captions")
    length = locked.facts.get("length", 0.0)
    if length and recording.cues[-1].start > length + _LONGER_BY:
        raise FilmError(
            f"{name}: these captions go on to {lasting(recording.cues[-1].end)}, the film lasts {lasting(length)}. "
            "They belong to another film; choose those of this one.",
            "captions",
        )
    locked.recording, locked.spoken_by_hand = kept_recording(recording), True
    locked.save(update_fields=["recording", "spoken_by_hand"])
    write(
        by=by,
        van=locked.van,
        what="film.captions",
        data={"film": str(locked.pk), "name": name, "cues": len(recording.cues)},
    )
    return _check_again(by, locked)


@transaction.atomic
def ask_for_check(*, by: Person, film: Film, hear: bool = False) -> Job:
    """Have a film checked again; with ``hear`` it is listened to anew. Asked while that is under way, it is the same job."""
    locked = _locked(film)
    if locked.pieces or locked.removed:
        raise FilmError("The film has not been looked at yet.")
    write(by=by, van=locked.van, what="film.check_asked", data={"film": str(locked.pk)})
    return _check_again(by, locked, hear=hear)


def _check_again(by: Person | None, film: Film, *, hear: bool = False) -> Job:
    waiting = Job.objects.filter(van=film.van, task=CHECK, ended=None, begun=None, arguments__film=str(film.pk)).first()
    return waiting or enqueue(by=by, task=CHECK, arguments={"film": str(film.pk), "hear": hear}, van=film.van)


@transaction.atomic
def keep_found(*, by: Person | None, film: Film, made: Checked, heard: Recording | None = None) -> dict[str, Any]:
    """Keep what a check found. A film that is shown to the owner stays so unless a caution to stop for is missing now."""
    locked = _locked(film)
    if heard and not locked.spoken_by_hand:
        locked.recording = kept_recording(heard)
    _keep_check(locked, made)
    locked.save(update_fields=["recording", "found", "chapters", "captions"])
    said = _said(locked)
    write(by=by, van=locked.van, what="film.checked", data=said)
    _no_longer_fit(by, locked)
    return said


def _keep_check(film: Film, made: Checked) -> None:
    film.found, film.chapters, film.captions = made.found, kept_chapters(made.chapters), made.captions


def _said(film: Film) -> dict[str, Any]:
    coverage = (film.found or {})["coverage"]
    return {"film": str(film.pk), "score": round(coverage["score"]["total"]), "blocking": list(coverage["blocking"])}


def _no_longer_fit(by: Person | None, film: Film) -> None:
    """A shown film whose cautions do not hold any more is taken off the owner's page."""
    blocking = set(_said(film)["blocking"])
    let = set((film.override or {}).get("blocking", ()))
    if film.published and blocking - let:
        film.published, film.override = None, None
        film.save(update_fields=["published", "override"])
        write(
            by=by, van=film.van, what="film.unpublished", data={"film": str(film.pk), "why": "a caution is missing now"}
        )


@transaction.atomic
def keep_part(
    *,
    by: Person | None,
    film: Film,
    upload: FilmUpload,
    kept: KeptFile,
    made: Checked,
    recording: Recording,
    title: str,
) -> dict[str, Any]:
    """Keep a film in which a chapter was replaced; the file it had goes."""
    locked = _locked(film)
    old = (str(locked.file.name), str(locked.poster.name))
    locked.file.name, locked.poster.name, locked.facts = kept.file, kept.poster, kept.facts
    locked.recording = kept_recording(recording)
    _keep_check(locked, made)
    locked.save(update_fields=["file", "poster", "facts", "recording", "found", "chapters", "captions"])
    said = {**_said(locked), "chapter": title}
    write(by=by, van=locked.van, what="film.part_replaced", data=said)
    _no_longer_fit(by, locked)
    for name in old:
        transaction.on_commit(lambda name=name: drop(name))  # type: ignore[misc]
    transaction.on_commit(lambda: drop_pieces(upload.pk))
    return said


@transaction.atomic
def decide(*, by: Person, film: Film, finding: str, words: str, verdict: str, reason: str = "") -> Event:
    """Say of a finding that it is so (it goes on the re-film list) or that it is none, with the reason. FilmError."""
    reason = " ".join(reason.split())[:LONGEST_REASON]
    if verdict not in (ACCEPTED, DISMISSED, ""):
        raise FilmError("Say whether it is so or not.", "verdict")
    if verdict == DISMISSED and not reason:
        raise FilmError("Say why this is no fault; it stands in the history.", "reason")
    said = {"film": str(film.pk), "finding": finding[:200], "words": words[:300], "verdict": verdict, "reason": reason}
    return write(by=by, van=film.van, what=DECIDED, data=said)


@transaction.atomic
def publish(*, by: Person, film: Film, override: Override | None = None) -> Film:
    """Show a film to the owner, in place of any other of this van.

    FilmError where it was not checked, or a caution to stop for is missing or late and nobody answers for that.
    """
    locked = _locked(film)
    if locked.removed or not locked.file or not locked.found:
        raise FilmError("A film is shown to the owner once it has been checked.")
    blocking = list(locked.found["coverage"]["blocking"])
    locked.override = _let(locked, blocking, override, by)
    for other in Film.objects.filter(van=locked.van, published__isnull=False).exclude(pk=locked.pk):
        other.published = None
        other.save(update_fields=["published"])
        write(
            by=by, van=locked.van, what="film.unpublished", data={"film": str(other.pk), "why": "another is shown now"}
        )
    locked.published = timezone.now()
    locked.save(update_fields=["published", "override"])
    said = {"film": str(locked.pk), "name": locked.name, "override": locked.override}
    write(by=by, van=locked.van, what="film.published", data=said)
    return locked


def _let(film: Film, blocking: list[str], override: Override | None, by: Person) -> dict[str, Any] | None:
    if not blocking:
        return None
    labels = (film.found or {})["labels"]["cautions"]
    texts = [labels.get(key, {}).get("text", key) for key in blocking]
    name = " ".join(override.name.split())[:LONGEST_NAME] if override else ""
    reason = " ".join(override.reason.split())[:LONGEST_REASON] if override else ""
    if not name or not reason:
        raise FilmError(
            f"Film this again first: {'; '.join(texts)} If the owner is to see the film all the same, say who answers for that and why.",
            "override",
        )
    if by.role == Role.MANAGER and not by.second_factor:
        raise FilmError("As a manager, turn on your second factor before you let this film be shown.", "override")
    at = timezone.now().isoformat()
    return {"name": name, "reason": reason, "noted_by": by.shown_name, "at": at, "blocking": blocking, "texts": texts}


@transaction.atomic
def unpublish(*, by: Person, film: Film) -> Film:
    """Take a film off the owner's page. Done once; a second time changes nothing."""
    locked = _locked(film)
    if locked.published is None:
        return locked
    locked.published, locked.override = None, None
    locked.save(update_fields=["published", "override"])
    write(by=by, van=locked.van, what="film.unpublished", data={"film": str(locked.pk), "name": locked.name})
    return locked


@transaction.atomic
def name_speaker(*, by: Person, film: Film, speaker: Person) -> Film:
    """Say who speaks in a film, so that the pace of the next script is learned from the right one."""
    locked = _locked(film)
    locked.speaker = speaker
    locked.save(update_fields=["speaker"])
    write(by=by, van=locked.van, what="film.speaker", data={"film": str(locked.pk), "speaker": speaker.shown_name})
    return locked


@transaction.atomic
def remove_film(*, by: Person, film: Film) -> None:
    """Let a film go, with its file. FilmError while the owner sees it."""
    locked = _locked(film)
    if locked.published:
        raise FilmError("The owner sees this film. Take it off the owner's page first.")
    if locked.removed:
        return
    locked.removed = timezone.now()
    names = [str(name) for name in (locked.file.name, locked.poster.name) if name]
    pieces, locked.pieces = locked.pieces, None
    locked.save(update_fields=["removed", "pieces"])
    for job in Job.objects.filter(van=locked.van, ended=None, arguments__film=str(locked.pk)):
        Job.objects.filter(pk=job.pk).update(stopped=locked.removed)
    write(by=by, van=locked.van, what="film.removed", data={"film": str(locked.pk), "name": locked.name})
    for name in names:
        transaction.on_commit(lambda name=name: drop(name))  # type: ignore[misc]
    if pieces:
        transaction.on_commit(lambda: drop_pieces(pieces))
