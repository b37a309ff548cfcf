"""Writes about a branch's own kinds: its own texts in place of the catalogue's, or kinds that the catalogue lacks."""

from __future__ import annotations

import difflib
import re
from datetime import date

from django.db import transaction

from firstpitch.catalogue import Catalogue, Kind, load
from firstpitch.catalogue.literals import NAME
from firstpitch.desk.access import branch_of
from firstpitch.desk.actions.history import write_branch
from firstpitch.desk.inputs import OwnTexts, catalogue_with, lacks_of, own_of
from firstpitch.desk.models import Branch, OwnKind, Person, Van
from firstpitch.sheet import BuildSheet, SheetError, read_sheet_text
from firstpitch.sheet.errors import CatalogueError

LARGEST = 256 * 1024
_MOST_LINES = 80
_AT_ONCE = 100


@transaction.atomic
def keep_own_kind(*, by: Person, key: str, text: str) -> OwnKind:
    """Use ``text`` (a kind file) for this kind in the person's branch. CatalogueError, one sentence, and nothing kept, when it is
    wrong or when a van of the branch does not fit it.
    """
    branch = Branch.objects.select_for_update().get(pk=branch_of(by).pk)
    if not NAME.fullmatch(key):
        raise CatalogueError("A kind's key has lower-case letters, digits and “_”, with a letter first, such as “tap”.")
    if len(text.encode()) > LARGEST:
        raise CatalogueError(f"The text is larger than {LARGEST // 1024} kB, which no kind needs.")
    before = own_of(branch)
    text = text.replace("\r\n", "\n")
    after = (*(pair for pair in before if pair[0] != key), (key, text))
    _fit_vans(branch, key, before, after)
    own, made = OwnKind.objects.update_or_create(branch=branch, key=key, defaults={"text": text})
    old = "" if made else dict(before)[key]
    write_branch(
        by=by, branch=branch, what="kind.changed", data={"key": key, "lines": _lines(old, text), "before": old}
    )
    return own


@transaction.atomic
def drop_own_kind(*, by: Person, key: str) -> None:
    """Go back to the catalogue's text for this kind. CatalogueError when a van of the branch needs the own one."""
    branch = Branch.objects.select_for_update().get(pk=branch_of(by).pk)
    before = own_of(branch)
    if key not in dict(before):
        return
    _fit_vans(branch, key, before, tuple(pair for pair in before if pair[0] != key))
    OwnKind.objects.filter(branch=branch, key=key).delete()
    write_branch(by=by, branch=branch, what="kind.dropped", data={"key": key, "before": dict(before)[key]})


def _fit_vans(branch: Branch, key: str, before: OwnTexts, after: OwnTexts) -> None:
    """CatalogueError when the catalogue of ``after`` is wrong, or a van of the branch can no longer be read with it. What the vans
    lack is counted anew where the kind now asks for something else.
    """
    new = catalogue_with(tuple(sorted(after)))
    old = catalogue_with(tuple(sorted(before))).kinds.get(key)
    if _asks_the_same(old, new.kinds.get(key)):
        return
    for van in Van.objects.filter(branch=branch, kinds__contains=f" {key} ").order_by("-id").iterator(_AT_ONCE):
        Van.objects.filter(pk=van.pk).update(lacks=lacks_of(_read(van, new), new).stored())


def _asks_the_same(old: Kind | None, new: Kind | None) -> bool:
    """Whether both ask the same of a sheet, so that every van that fitted one fits the other."""
    if old is None or new is None:
        return old is new
    return (old.facts, old.links, old.max) == (new.facts, new.links, new.max)


def _read(van: Van, catalogue: Catalogue) -> BuildSheet:
    try:
        return read_sheet_text(van.sheet, catalogue.kinds, today=date.max)
    except SheetError as wrong:
        why = re.sub(r"^the sheet, line \d+, ", "", wrong.faults[0])
        raise CatalogueError(f"{van.name} would no longer fit: {why} Change the text or that van's sheet.") from None


def shipped_text(key: str) -> str:
    """The kind file that comes with the program, or nothing."""
    from importlib.resources import files

    file = files("firstpitch.catalogue") / "kinds" / f"{key}.toml"
    return file.read_text("utf-8") if key in load().kinds else ""


def _lines(before: str, after: str) -> list[str]:
    changed = [
        line.rstrip()
        for line in difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
        if line[:3] not in ("---", "+++") and line[:1] in ("+", "-")
    ]
    return changed[:_MOST_LINES]
