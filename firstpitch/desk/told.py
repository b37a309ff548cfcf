"""The history in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from types import MappingProxyType
from typing import Any

from firstpitch.desk.inputs import OpenVan
from firstpitch.desk.models import Event
from firstpitch.desk.snags import WORDS

Data = Mapping[str, Any]
_LATE_S = 120


@dataclass(frozen=True)
class Line:
    """One line of a history. ``lines``: the lines of the sheet that went and came. ``received``: set where it came in much later."""

    at: datetime
    who: str
    words: str
    kit: str
    lines: Sequence[str]
    received: datetime | None
    photo: str


def _filled(data: Data) -> str:
    found = [f"{one['value']} for {one['what']}" for one in data.get("filled", ())]
    if found:
        return f"wrote {'; '.join(found)}"
    return f"changed the build sheet{': ' + data['why'] if data.get('why') else ''}"


def _snag(data: Data) -> str:
    return f"raised a snag ({WORDS.get(data.get('severity', ''), 'Take care').lower()}): {data.get('words', '')}"


def _mended(data: Data) -> str:
    return f"mended a snag{': ' + data['words'] if data.get('words') else ''}"


def _photo(data: Data) -> str:
    return f"took a photo{': ' + data['words'] if data.get('words') else ''}"


def _stowed(data: Data) -> str:
    return f"stowed the load{' as planned' if data.get('best') else ''}: {'; '.join(data.get('moved', ()))}".rstrip(
        ": "
    )


def _on_step(words: str) -> Callable[[Data], str]:
    """Words about a step; its title stands under ``title`` and what else was said under ``reason`` or ``words``."""

    def tell(data: Data) -> str:
        said = data.get("reason") or data.get("words") or ""
        return f"{words} {data.get('title', '')}".strip() + (f": {said}" if said else "")

    return tell


def _done(data: Data) -> str:
    return f"{'the owner tried' if data.get('tried') else 'showed'} {data.get('title', '')}"


def _found(data: Data) -> str:
    return f"found {data.get('condition', '')} to be {data.get('value', '')}: {data.get('reason', '')}".rstrip(": ")


def _film_decided(data: Data) -> str:
    said = {"accepted": "film it again", "dismissed": "no fault"}.get(data.get("verdict", ""), "not decided")
    return f"said of a finding in the film “{data.get('words', '')}”: {said}. {data.get('reason', '')}".strip()


def _film_shown(data: Data) -> str:
    let = data.get("override") or {}
    against = (
        f" although these are missing: {'; '.join(let['texts'])} {let['name']} answers for it: {let['reason']}"
        if let
        else ""
    )
    return f"showed the film {data.get('name', '')} to the owner{against}"


TOLD: Mapping[str, Callable[[Data], str]] = MappingProxyType(
    {
        "van.added": lambda _: "took the van in",
        "van.sheet_changed": _filled,
        "handover.added": lambda data: f"put the handover to {data.get('owner', '')} in the diary",
        "handover.changed": lambda data: f"changed the handover to {data.get('owner', '')}",
        "handover.called_off": lambda data: (
            f"called off the handover to {data.get('owner', '')}: {data.get('why', '')}"
        ),
        "handover.taken_up": lambda data: f"took the handover to {data.get('owner', '')} up again",
        "pack.made": lambda _: "had the pack made",
        "outfit.car": lambda data: f"wrote down the car: {data.get('car', '')}",
        "outfit.load": lambda data: f"wrote down the load: {data.get('load', '')}, {data.get('pieces', '?')} things",
        "outfit.stowed": _stowed,
        "round.planned": lambda data: f"planned the round: {data.get('steps', '?')} steps",
        "round.changed": lambda data: f"changed the round: {data.get('why', '')}".rstrip(": "),
        "round.replanned": lambda _: "planned the rest of the round anew",
        "step.begun": _on_step("went to"),
        "step.done": _done,
        "step.left": _on_step("left out"),
        "guard.overridden": lambda data: (
            f"went on against a warning ({data.get('harm', '')}): {data.get('reason', '')}"
        ),
        "state.set": _found,
        "note": lambda data: f"noted: {data.get('words', '')}",
        "undone": lambda _: "took something back",
        "conflict.seen": lambda data: f"two tablets said different things: {data.get('why', '')}",
        "conflict.settled": lambda data: f"settled what two tablets said: {data.get('reason', '')}",
        "snag.raised": _snag,
        "snag.mended": _mended,
        "photo.added": _photo,
        "photo": _photo,
        "film.coming": lambda data: f"began to send the film {data.get('name', '')}",
        "film.stopped": lambda data: f"stopped sending the film {data.get('name', '')}",
        "film.sent": lambda data: f"sent the film {data.get('name', '')} in",
        "film.part_sent": lambda data: f"sent a chapter in that was filmed again: {data.get('name', '')}",
        "film.taken": lambda data: f"had the film {data.get('name', '')} looked at: it lasts {data.get('lasts', '')}",
        "film.captions": lambda data: f"gave the film its captions: {data.get('name', '')}",
        "film.check_asked": lambda _: "asked for the film to be checked",
        "film.checked": lambda data: f"had the film checked: {data.get('score', '?')} of 100",
        "film.part_replaced": lambda data: f"replaced the chapter “{data.get('chapter', '')}” of the film",
        "film.decided": _film_decided,
        "film.published": _film_shown,
        "film.unpublished": lambda data: f"took the film off the owner's page: {data.get('why', '')}".rstrip(": "),
        "film.speaker": lambda data: f"said who speaks in the film: {data.get('speaker', '')}",
        "film.removed": lambda data: f"let the film {data.get('name', '')} go",
        "record.signed": lambda _: "signed the record",
        "owner_link.made": lambda _: "made a link for the owner",
        "owner_link.extended": lambda _: "made the owner's link last longer",
        "owner_link.revoked": lambda _: "took the owner's link back",
    }
)
PHOTOS = ("photo.added", "photo")


def step_titles(opened: OpenVan) -> dict[str, str]:
    """The title of every step of a van, by kit and step as events name it."""
    kinds = opened.catalogue.kinds
    fitted = [(kit.id, kinds[kit.kind]) for kit in opened.sheet.kit]
    whole = [("van", kinds["van"])] if "van" in kinds else []
    return {f"{kit}.{step.id}": step.title for kit, kind in (*whole, *fitted) for step in kind.steps}


def told(event: Event, titles: Mapping[str, str] = MappingProxyType({})) -> Line:
    """One event in words; one that has no words of its own is told by its name. ``titles``: of steps, as ``step_titles`` gives them."""
    step = str(event.data.get("step", ""))
    data = {**event.data, "title": f"“{titles[step]}”"} if step in titles else event.data
    words = TOLD[event.what](data) if event.what in TOLD else event.what.replace(".", " ").replace("_", " ")
    late = (event.received - event.at).total_seconds() > _LATE_S
    return Line(
        at=event.at,
        who=event.by.shown_name if event.by else "the owner",
        words=words,
        kit=str(data.get("kit") or step.rpartition(".")[0]),
        lines=data.get("lines", ()) if not data.get("filled") else (),
        received=event.received if late else None,
        photo=str(data.get("media", "")) if event.what in PHOTOS else "",
    )
