"""Proof that every name in a kind file names something."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from firstpitch.catalogue.allowed import WITHOUT_SOURCE
from firstpitch.catalogue.lines import VAN, Kinds, all_lines, held_by, owners
from firstpitch.catalogue.literals import write
from firstpitch.catalogue.types import Kind, Ref, SupplyRef
from firstpitch.catalogue.wording import listed, said
from firstpitch.sheet.faults import nearest


def reference_faults(kinds: Kinds, kind: Kind) -> Iterator[str]:
    """One sentence for each name in ``kind`` that names nothing, and each thing that is named nowhere."""
    yield from _links(kinds, kind)
    yield from _lines(kinds, kind)
    yield from _places(kind)
    yield from _waits(kind)
    yield from _texts(kind)


def _links(kinds: Kinds, kind: Kind) -> Iterator[str]:
    for name, link in kind.links.items():
        for key in link.kinds:
            if key == VAN:
                yield said(kind.file, f"links.{name}.kinds", "the van is no kit to link to; write “van” as the owner")
            elif key not in kinds:
                wrong = f"there is no kind “{key}” in the catalogue{nearest(key, kinds)}"
                yield said(kind.file, f"links.{name}.kinds", wrong)
    used = {line.owner for _, line in all_lines(kind) if isinstance(line, Ref)}
    used |= {step.at for step in kind.steps}
    used |= {term.partition(".")[0] for wait in kind.waits.values() for term in map(str, wait.duration.terms.values())}
    for name in kind.links:
        if name not in used:
            wrong = "no line, place or duration of this kind uses this link; use it or leave it out"
            yield said(kind.file, f"links.{name}", wrong)


def _lines(kinds: Kinds, kind: Kind) -> Iterator[str]:
    for key, line in all_lines(kind):
        if isinstance(line, SupplyRef):
            yield from _supply(kinds, kind, key, line)
        elif not owners(kind, line.owner):
            known = ("self", "van", *kind.links)
            wrong = f"“{line.owner}” in “{write(line)}” is no owner here; the owners are {listed(known)}"
            yield said(kind.file, key, wrong + nearest(line.owner, known))
        else:
            yield from _condition(kinds, kind, key, line)


def _supply(kinds: Kinds, kind: Kind, key: str, line: SupplyRef) -> Iterator[str]:
    roles = {supply.role for other in kinds.values() for supply in other.supplies if supply.name == line.supply}
    if line.supply not in WITHOUT_SOURCE and "source" not in roles:
        yield said(kind.file, key, f"“{write(line)}” can never be there, because no kind is a source of {line.supply}")


def _condition(kinds: Kinds, kind: Kind, key: str, line: Ref) -> Iterator[str]:
    for owner, name in held_by(kind, line):
        if owner not in kinds:
            if owner == VAN:
                yield said(kind.file, key, f"“{write(line)}” needs the kind “van”, and the catalogue has none")
            continue
        condition = kinds[owner].conditions.get(name)
        if condition is None:
            known = listed(kinds[owner].conditions, "no conditions at all")
            wrong = f"“{write(line)}” asks for a condition that {kinds[owner].file} does not declare; it has {known}"
            yield said(kind.file, key, wrong + nearest(name, kinds[owner].conditions))
            continue
        for value in line.values:
            if value not in condition.values:
                wrong = f"“{value}” is not a value of {owner}.{name}; its values are {listed(condition.values)}"
                yield said(kind.file, key, wrong + nearest(value, condition.values))


def _places(kind: Kind) -> Iterator[str]:
    for step in kind.steps:
        key, known = f"steps.{step.id}.at", ("self", "door", *kind.links)
        if step.at not in known:
            yield said(kind.file, key, f"found “{step.at}”; allowed are {listed(known)}{nearest(step.at, known)}")
        elif step.at in kind.links and kind.links[step.at].every:
            yield said(kind.file, key, f"link “{step.at}” stands for every such kit, which is not one place to stand")


def _waits(kind: Kind) -> Iterator[str]:
    for step in kind.steps:
        for part, named in (("starts", step.starts), ("awaits", step.awaits)):
            for wait in named:
                if wait not in kind.waits:
                    known = f"there is no wait “{wait}” in this kind; its waits are {listed(kind.waits)}"
                    yield said(kind.file, f"steps.{step.id}.{part}", known + nearest(wait, kind.waits))
    started = {wait for step in kind.steps for wait in step.starts}
    awaited = {wait for step in kind.steps for wait in step.awaits}
    for name, spec in kind.waits.items():
        if name not in started:
            yield said(kind.file, f"waits.{name}", "no step starts this wait; name it in the starts of a step")
        if not spec.sets and name not in awaited:
            yield said(kind.file, f"waits.{name}", "this wait sets nothing and no step awaits it, so it has no use")


def _texts(kind: Kind) -> Iterator[str]:
    steps = [step.id for step in kind.steps]
    named = [
        (f"cautions.{place}.steps", step) for place, caution in enumerate(kind.cautions, 1) for step in caution.steps
    ]
    named += [(f"film.words.{step}", step) for step in kind.film.words]
    named += [(f"film.ways.{step}", step) for step in kind.film.ways]
    named += [(f"film.doing.{step}", step) for step in kind.film.doing]
    for card in ("arriving", "leaving", "towing", "winter"):
        lines = getattr(kind.card, card)
        named += [(f"card.{card}.{place}.step", line.step) for place, line in enumerate(lines, 1) if line.step]
    for key, step in named:
        if step not in steps:
            yield said(kind.file, key, f"there is no step “{step}” in this kind{nearest(step, steps)}")
    for spec in kind.steps:
        found, wanted = len(kind.film.ways.get(spec.id, spec.points)), len(spec.points)
        if found != wanted:
            yield said(
                kind.file,
                f"film.ways.{spec.id}",
                f"found {found} texts, but the step has {wanted} points; write one for each",
            )


def catalogue_faults(kinds: Kinds) -> Iterator[str]:
    """One sentence for each fault of the kinds taken together: no van, a supply without a source, two sources of one rank."""
    if VAN not in kinds:
        yield said("van.toml", "kind", "the catalogue has no kind “van”, which every van has without listing it")
    ranks: Counter[tuple[str, int]] = Counter()
    for kind in kinds.values():
        for place, supply in enumerate(kind.supplies, 1):
            if supply.role == "source":
                ranks[supply.name, supply.rank] += 1
                if ranks[supply.name, supply.rank] > 1:
                    wrong = (
                        f"another kind is a source of {supply.name} with rank {supply.rank}, so which is used is chance"
                    )
                    yield said(kind.file, f"supplies.{place}.rank", wrong)
            else:
                yield from _gate(kinds, kind, f"supplies.{place}.name", supply.name)


def _gate(kinds: Kinds, kind: Kind, key: str, name: str) -> Iterator[str]:
    sourced = any(s.name == name and s.role == "source" for other in kinds.values() for s in other.supplies)
    if name not in WITHOUT_SOURCE and not sourced:
        yield said(kind.file, key, f"this is a gate on {name}, but no kind is a source of {name}")
