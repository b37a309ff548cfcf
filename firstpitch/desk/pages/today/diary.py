"""The lines of the diary, made ready for the page: a day can have many, so each word is put together once and here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache, lru_cache

from django.template.loader import render_to_string
from django.urls import NoReverseMatch, reverse
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe

from firstpitch.desk.waiting import Reason, Waiting
from firstpitch.papers.drawing.signs import State, draw_state


@dataclass(frozen=True)
class Said:
    """A state with its shape, its words, and more words under them."""

    shape: SafeString
    words: str
    more: str = ""


@dataclass(frozen=True)
class DiaryLine:
    """One handover as the page shows it. ``main`` is what its one button says, ``main_address`` where it leads.

    It holds all that is shown of it and nothing else, so that the same line need be rendered only once.
    """

    owner: str
    van: str
    iso: str
    clock: str
    day: str
    stock: str
    specialist: str
    address: str
    van_address: str
    change_address: str
    main: str
    main_address: str
    said: tuple[Said, ...]


@lru_cache(maxsize=16)
def shape(state: State) -> SafeString:
    """The shape of a state, drawn once."""
    return mark_safe(draw_state(state, hidden=True))


@cache
def _pattern(name: str) -> str:
    """The address of a page about a handover or van, with 0 for its number; nothing where the desk has no such page."""
    for key in ("pk", "handover"):
        try:
            return reverse(name, kwargs={key: 0})
        except NoReverseMatch:
            continue
    return ""


def _address(name: str, pk: int) -> str:
    return _pattern(name).replace("/0/", f"/{pk}/", 1)


def diary_line(one: Waiting, today: date) -> DiaryLine:
    """A line of the diary; the day stands on it where it is not ``today``."""
    handover = one.handover
    local = timezone.localtime(handover.due)
    main, name = _main(one)
    over = handover.signed is not None or handover.called_off is not None
    return DiaryLine(
        owner=handover.owner_name,
        van=handover.van.name,
        iso=local.isoformat(),
        clock=f"{local:%H:%M}",
        day="" if local.date() == today else day_words(local),
        stock=handover.van.stock_number,
        specialist=handover.specialist.shown_name if handover.specialist else "",
        address=_address("handover", handover.pk),
        van_address=_address("van", handover.van_id),
        change_address="" if over else _address("handover-change", handover.pk),
        main=main,
        main_address=_address(name, handover.pk),
        said=tuple(_said(one)),
    )


@lru_cache(maxsize=2048)
def shown(line: DiaryLine, number: int | None = None) -> SafeString:
    """A line as HTML; with its number where it stands on the line of the day."""
    return render_to_string("desk/today/line.html", {"one": line, "number": number})


def joined(lines: Iterable[SafeString]) -> SafeString:
    """Lines one after the other."""
    return mark_safe("".join(lines))


def day_words(when: datetime) -> str:
    """A day as a diary has it.

    >>> day_words(datetime(2026, 12, 4))
    'Fri 4 Dec'
    """
    return f"{when:%a} {when.day} {when:%b}"


def _main(one: Waiting) -> tuple[str, str]:
    if one.handover.signed:
        return "Record", "record"
    if one.handover.called_off:
        return "Open", "handover"
    return ("Hand over", "live") if one.planned else ("Plan the round", "round")


def _said(one: Waiting) -> list[Said]:
    if one.handover.signed:
        return [Said(shape("done"), "Handed over and signed")]
    if one.handover.called_off:
        return [Said(shape("left-out"), "Called off", one.handover.why_off)]
    late = [Said(shape("now"), one.late)] if one.late else []
    if one.ready:
        return [*late, Said(shape("done"), "Ready")]
    return [*late, *(_reason(reason) for reason in one.reasons)]


def _reason(reason: Reason) -> Said:
    return Said(shape(reason.state), reason.words, reason.more)
