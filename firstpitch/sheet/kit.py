"""The kit list: what each kind asks for, and which kit belongs with which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Protocol

from firstpitch.sheet.errors import SheetError, quoted
from firstpitch.sheet.faults import either, nearest
from firstpitch.sheet.reading import Draft, Reading
from firstpitch.sheet.source import Scalar
from firstpitch.sheet.types import FactSpec, FactValue, Kit, LinkGap, Links, LinkSpec

# Words with a meaning of their own in the catalogue: no kit has such an id, and the kind “van” every van has unlisted.
RESERVED = ("self", "van")


class KindLike(Protocol):
    """What the sheet needs to know of a kind; the catalogue's ``Kind`` is one."""

    @property
    def title(self) -> str:
        """As it reads in a list."""
        ...

    @property
    def max(self) -> int | None:
        """At most so many on one van; None for any number."""
        ...

    @property
    def facts(self) -> Mapping[str, FactSpec]:
        """The figures and details its kit carries."""
        ...

    @property
    def links(self) -> Mapping[str, LinkSpec]:
        """Its ties to other kit."""
        ...


Kinds = Mapping[str, KindLike]


def fitted_kinds(kinds: Kinds) -> Kinds:
    """The kinds a sheet can list: all but the one that every van has without listing it."""
    return {key: kind for key, kind in kinds.items() if key not in RESERVED}


def read_kit(draft: Draft, kinds: Kinds) -> tuple[Kit, ...]:
    """The kit list of a half-read sheet; faults and unknown facts go to ``draft``. Where there is a fault the kit is not to be used."""
    kinds = fitted_kinds(kinds)
    readings = draft.top.sections("kit")
    kit = tuple(_one(draft, reading, kinds) for reading in readings)
    _ids(draft, readings, kit)
    _numbers(draft, readings, kit, kinds)
    lines = {one.id: reading for one, reading in zip(kit, readings, strict=True)}
    for owner, link, sentence in _link_faults(kit, kinds):
        reading = lines[owner.id]
        draft.faults.add(_link_line(reading, link), f"{reading.at}.links.{link}", sentence)
    return kit


def _one(draft: Draft, reading: Reading, kinds: Kinds) -> Kit:
    key = reading.text("kind")
    kind = kinds.get(key) if key else None
    if key and kind is None:
        known = "the kinds are listed by “firstpitch kinds”"
        sentence = f"there is no kind {quoted(key)}{nearest(key, kinds)}; {known}"
        draft.faults.add(reading.line("kind"), reading.field("kind"), sentence)
    # A kit without a place is at fault already and never leaves the reader.
    x, y = reading.row("at") or (0.0, 0.0)
    return Kit(
        id=reading.text("id") or "",
        kind=key or "",
        name=reading.text("name") or "",
        x=x,
        y=y,
        z=reading.si("height"),
        facts=MappingProxyType(_facts(draft, reading, kind) if kind else {}),
        links=MappingProxyType(_links(draft, reading)),
        note=reading.text("note") or "",
    )


def _facts(draft: Draft, reading: Reading, kind: KindLike) -> dict[str, FactValue]:
    given = reading.free("facts")
    entries = given.entries if given else {}
    at = reading.field("facts")
    for name, entry in entries.items():
        if name not in kind.facts:
            known = f"; the facts are {either(kind.facts, 40)}" if kind.facts else "; delete it, this kind has no facts"
            sentence = f"the kind “{kind.title}” has no fact {quoted(name)}{nearest(name, kind.facts)}{known}"
            draft.faults.add(entry.line, at, sentence)
    found: dict[str, FactValue] = {}
    for name, spec in kind.facts.items():
        if name not in entries:
            draft.unknown.append(f"{at}.{name}")
            continue
        value = draft.value(entries[name].node, spec, f"{at}.{name}")
        if value is not None:
            found[name] = value
    return found


def _links(draft: Draft, reading: Reading) -> dict[str, str]:
    given = reading.free("links")
    found: dict[str, str] = {}
    for name, entry in given.entries.items() if given else ():
        if isinstance(entry.node, Scalar) and entry.node.empty:
            continue
        if isinstance(entry.node, Scalar) and entry.node.text.strip():
            found[name] = entry.node.text.strip()
        else:
            sentence = f"this is not the id of one kit; write for example “{name}: its-id”, or delete the line"
            draft.faults.add(entry.line, f"{reading.field('links')}.{name}", sentence)
    return found


def _ids(draft: Draft, readings: Sequence[Reading], kit: Sequence[Kit]) -> None:
    seen: dict[str, int] = {}
    for one, reading in zip(kit, readings, strict=True):
        line = reading.line("id")
        if one.id in RESERVED:
            draft.faults.add(
                line, reading.field("id"), f"the id {quoted(one.id)} has a meaning of its own; choose another"
            )
        if one.id and one.id in seen:
            sentence = (
                f"the id {quoted(one.id)} is taken by the kit on line {seen[one.id]}; give each kit an id of its own"
            )
            draft.faults.add(line, reading.field("id"), sentence)
        seen.setdefault(one.id, line)


def _numbers(draft: Draft, readings: Sequence[Reading], kit: Sequence[Kit], kinds: Kinds) -> None:
    for key, kind in kinds.items():
        fitted = [reading for one, reading in zip(kit, readings, strict=True) if one.kind == key]
        if kind.max is not None and len(fitted) > kind.max:
            first_over = fitted[kind.max]
            sentence = (
                f"this is number {kind.max + 1} of {len(fitted)} of the kind “{kind.title}”, "
                f"but a van has at most {kind.max}; delete it or give it its right kind"
            )
            draft.faults.add(first_over.line("kind"), first_over.field("kind"), sentence)


def _link_line(reading: Reading, link: str) -> int:
    given = reading.free("links")
    entry = given.entries.get(link) if given else None
    return entry.line if entry else reading.line("links")


def _candidates(kit: Sequence[Kit], owner: Kit, link: LinkSpec) -> tuple[str, ...]:
    return tuple(one.id for one in kit if one.kind in link.kinds and one.id and one.id != owner.id)


def _link_faults(kit: Sequence[Kit], kinds: Kinds) -> Iterator[tuple[Kit, str, str]]:
    by_id = {one.id: one for one in kit}
    for owner in kit:
        kind = kinds.get(owner.kind)
        if kind is None:
            continue
        for name in owner.links:
            if name not in kind.links:
                known = f"; the links are {either(kind.links)}" if kind.links else "; delete it, this kind has no links"
                yield (
                    owner,
                    name,
                    f"the kind “{kind.title}” has no link {quoted(name)}{nearest(name, kind.links)}{known}",
                )
        for name, link in kind.links.items():
            sentence = _link_fault(kit, by_id, owner, link, kinds)
            if sentence:
                yield owner, name, sentence


def _link_fault(kit: Sequence[Kit], by_id: Mapping[str, Kit], owner: Kit, link: LinkSpec, kinds: Kinds) -> str:
    candidates = _candidates(kit, owner, link)
    wanted = either(f"“{kinds[key].title}”" if key in kinds else quoted(key) for key in link.kinds)
    said = owner.links.get(link.name)
    if said is None:
        if link.every or len(candidates) <= 1:
            return ""
        example = f"“{link.name}: {candidates[0]}”"
        return f"{len(candidates)} kits could be meant ({either(candidates)}); say which under “links:”, for example {example}"
    if link.every:
        return f"this link stands for every kit of the kind {wanted} by itself; delete the line"
    if said == owner.id:
        return f"{quoted(said)} is this kit itself; name another, of the kind {wanted}"
    if said not in by_id:
        return f"there is no kit with the id {quoted(said)}{nearest(said, candidates)}; name one of the kind {wanted}"
    if by_id[said].kind not in link.kinds:
        found = kinds[by_id[said].kind].title if by_id[said].kind in kinds else by_id[said].kind
        return f"{quoted(said)} is of the kind “{found}”, but this link needs one of the kind {wanted}; name that or delete the line"
    return ""


def resolve_links(kit: Sequence[Kit], kinds: Kinds) -> Links:
    """Which kit fills each link: what the sheet says, else the only candidate; for an ``every`` link all candidates.

    A link that nothing fills is a gap, not an error. Raises SheetError where several could be meant or the sheet names a wrong
    one; a sheet that ``read_sheet`` returned has no such fault.
    """
    faults = [f"kit.{owner.id}.links.{link}: {sentence}." for owner, link, sentence in _link_faults(kit, kinds)]
    if faults:
        raise SheetError(faults)
    filled: dict[str, Mapping[str, tuple[str, ...]]] = {}
    gaps: list[LinkGap] = []
    for owner in kit:
        links = kinds[owner.kind].links if owner.kind in kinds else {}
        found = {
            name: (owner.links[name],) if name in owner.links else _candidates(kit, owner, link)
            for name, link in links.items()
        }
        filled[owner.id] = MappingProxyType(found)
        gaps += [LinkGap(owner.id, name, links[name].kinds, links[name].need) for name, ids in found.items() if not ids]
    return Links(MappingProxyType(filled), tuple(gaps))
