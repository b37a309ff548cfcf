"""Writes about films that are coming in."""

from __future__ import annotations

import uuid
from pathlib import PurePath

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.jobs import enqueue
from firstpitch.desk.films import MOST_BYTES, PIECE, no_film
from firstpitch.desk.models import Film, FilmUpload, Person, Van
from firstpitch.desk.stored import add_piece, drop_pieces, gigabytes, room_for
from firstpitch.desk.uploads import UploadError

TAKE, CHECK, PART = "film.take", "film.check", "film.part"
_TOO_BIG = 413
_OTHER_PLACE = 409
_OVER = 410
_LONGEST_NAME = 200


class OffsetError(UploadError):
    """A piece that does not go on where the upload stands; ``offset`` is where it does."""

    def __init__(self, offset: int) -> None:
        super().__init__(
            "This piece does not follow the last one. Ask where the upload stands and go on from there.", _OTHER_PLACE
        )
        self.offset = offset


@transaction.atomic
def begin_upload(
    *,
    by: Person,
    van: Van,
    name: str,
    size: int,
    modified: int = 0,
    film: Film | None = None,
    chapter: int | None = None,
) -> FilmUpload:
    """Begin to take in a film, or a chapter of ``film`` filmed again. The same file begun before goes on where it stopped.

    UploadError when it is empty, too big, or there is no room.
    """
    name = " ".join(PurePath(name.replace("\\", "/")).name.split())[:_LONGEST_NAME] or "film"
    if size <= 0:
        raise UploadError("The film is empty. Choose the file again.")
    if size > MOST_BYTES:
        raise UploadError(
            f"The film has {gigabytes(size)}; one may have at most {gigabytes(MOST_BYTES)}. "
            "Send it at a smaller size: 1080p is plenty.",
            _TOO_BIG,
        )
    locked = Van.objects.select_for_update().get(pk=van.pk)
    begun = FilmUpload.objects.filter(
        van=locked, by=by, ended=None, name=name, size=size, modified=modified, film=film, chapter=chapter
    ).first()
    if begun:
        return begun
    room_for(size)
    made = FilmUpload.objects.create(
        van=locked, by=by, name=name, size=size, modified=modified, film=film, chapter=chapter
    )
    write(by=by, van=locked, what="film.coming", data={"upload": str(made.pk), "name": name, "size": size})
    return made


@transaction.atomic
def take_piece(*, by: Person, upload: FilmUpload, offset: int, content: bytes) -> FilmUpload:
    """Keep the next piece. With the last one the film is here and is looked at by the queue.

    UploadError when it does not fit; then what came before still stands.
    """
    locked = FilmUpload.objects.select_for_update(of=("self",)).select_related("van__branch", "film").get(pk=upload.pk)
    if locked.ended:
        raise UploadError("This upload is over. Begin it again.", _OVER)
    if offset != locked.offset:
        raise OffsetError(locked.offset)
    if not content or len(content) > PIECE or offset + len(content) > locked.size:
        raise UploadError("This piece has the wrong size. Choose the file again.")
    if offset == 0:
        no_film(content)
    add_piece(locked.pk, offset, content)
    locked.offset += len(content)
    if locked.offset == locked.size:
        locked.ended = timezone.now()
        _whole(by, locked)
    locked.save(update_fields=["offset", "ended", "last"])
    return locked


def _whole(by: Person, upload: FilmUpload) -> None:
    van = upload.van
    said = {"upload": str(upload.pk), "name": upload.name, "size": upload.size}
    if upload.film:
        said |= {"film": str(upload.film.pk), "chapter": upload.chapter}
        write(by=by, van=van, what="film.part_sent", data=said)
        enqueue(by=by, task=PART, arguments={"film": str(upload.film.pk), "upload": str(upload.pk)}, van=van)
        return
    film = Film.objects.create(id=uuid.uuid4(), van=van, name=upload.name, speaker=by, by=by, pieces=upload.pk)
    write(by=by, van=van, what="film.sent", data={**said, "film": str(film.pk)})
    enqueue(by=by, task=TAKE, arguments={"film": str(film.pk)}, van=van)


@transaction.atomic
def cancel_upload(*, by: Person, upload: FilmUpload) -> None:
    """Stop an upload and let its pieces go. One that is over stays as it is."""
    locked = FilmUpload.objects.select_for_update(of=("self",)).select_related("van").get(pk=upload.pk)
    if locked.ended:
        return
    locked.ended = timezone.now()
    locked.save(update_fields=["ended", "last"])
    write(by=by, van=locked.van, what="film.stopped", data={"upload": str(locked.pk), "name": locked.name})
    transaction.on_commit(lambda: drop_pieces(locked.pk))
