"""From kinds and a sheet to the conditions of one van: which kit each line of the catalogue speaks of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from firstpitch.catalogue.types import Catalogue, Kind, Needed, Ref, SupplyRef
from firstpitch.rounds.types import Literally
from firstpitch.sheet.types import BuildSheet, Kit

VAN = "van"
Links = Mapping[str, Mapping[str, tuple[str, ...]]]


@dataclass(frozen=True)
class Van:
    """A sheet and a catalogue put together: kit (with the implicit ``van`` first), kinds and resolved links by kit id."""

    sheet: BuildSheet
    catalogue: Catalogue
    kit: Mapping[str, Kit]
    links: Links

    def kind(self, kit: Kit) -> Kind:
        """The kind of ``kit``."""
        return self.catalogue.kinds[kit.kind]


@dataclass(frozen=True)
class Grounded:
    """Conditions that must hold, and sentences for what the van lacks to make them hold."""

    literals: tuple[Literally, ...]
    lacks: tuple[str, ...]


def van_kit(sheet: BuildSheet) -> Kit:
    """The kit every van has without listing it; it stands at the door."""
    side = 1.0 if sheet.plan.door.side == "nearside" else -1.0
    return Kit(VAN, VAN, sheet.identity.name, sheet.plan.door.at, side * sheet.body.width / 2, None, {}, {})


def put_together(sheet: BuildSheet, catalogue: Catalogue, links: Links) -> Van:
    """Join a sheet to a catalogue; ``links`` are the sheet's links, resolved."""
    own = van_kit(sheet)
    kits = {own.id: own, **{k.id: k for k in sheet.kit}}
    spread = {
        name: tuple(k.id for k in sheet.by_kind(*spec.kinds)) for name, spec in catalogue.kinds[VAN].links.items()
    }
    firsts = {name: ids if catalogue.kinds[VAN].links[name].every else ids[:1] for name, ids in spread.items() if ids}
    return Van(sheet, catalogue, kits, {VAN: firsts, **links})


def owners(van: Van, kit: Kit, owner: str) -> tuple[Kit, ...]:
    """The kit that ``owner`` (self, van or a link) stands for; none when nothing fills the link."""
    if owner == "self":
        return (kit,)
    if owner == VAN:
        return (van.kit[VAN],)
    return tuple(van.kit[i] for i in van.links.get(kit.id, {}).get(owner, ()))


def _titles(van: Van, kinds: Iterable[str]) -> str:
    return " or ".join(van.catalogue.kinds[k].title.lower() for k in kinds)


def ground_ref(van: Van, kit: Kit, ref: Ref) -> Grounded:
    """One line about a condition, for every kit its owner stands for."""
    held = owners(van, kit, ref.owner)
    if held:
        return Grounded(tuple(Literally(f"{k.id}.{ref.name}", frozenset(ref.values)) for k in held), ())
    spec = van.kind(kit).links[ref.owner]
    if spec.need == "may":
        return Grounded((), ())
    return Grounded((), (lacking_link(van, kit, ref.owner),))


def lacking_link(van: Van, kit: Kit, link: str) -> str:
    """A sentence for the user: nothing on the sheet fills this link."""
    return f"The sheet has no {_titles(van, van.kind(kit).links[link].kinds)}, which “{kit.name}” needs."


def ground_supply(van: Van, kit: Kit, supply: str) -> Grounded:
    """Everything that must hold for a supply on this van: the source of lowest rank and every gate."""
    parts = [(k, s) for k in van.kit.values() for s in van.kind(k).supplies if s.name == supply]
    sources = sorted((s.rank, n, k, s) for n, (k, s) in enumerate(parts) if s.role == "source")
    makers = [
        k.key for k in van.catalogue.kinds.values() if any(s.role == "source" and s.name == supply for s in k.supplies)
    ]
    if makers and not sources:
        lack = f"“{kit.name}” needs {supply_words(supply)}, but the sheet has no {_titles(van, makers)}."
        return Grounded((), (lack,))
    chosen = [(k, s) for _, _, k, s in sources[:1]] + [(k, s) for k, s in parts if s.role == "gate"]
    return join(ground_ref(van, k, ref) for k, s in chosen for ref in s.when)


def supply_words(supply: str) -> str:
    """A supply as it reads in a sentence."""
    return {"mains": "mains electricity", "12v": "12 V power", "inside": "a way inside"}.get(supply, supply)


def join(parts: Iterable[Grounded]) -> Grounded:
    """All of several, each literal and sentence once, in order."""
    literals: dict[Literally, None] = {}
    lacks: dict[str, None] = {}
    for part in parts:
        literals.update(dict.fromkeys(part.literals))
        lacks.update(dict.fromkeys(part.lacks))
    return Grounded(tuple(literals), tuple(lacks))


def ground_all(van: Van, kit: Kit, needed: Sequence[Needed]) -> Grounded:
    """All lines of a ``requires``, ``sustains`` or ``finish``."""
    return join(
        ground_supply(van, kit, n.supply) if isinstance(n, SupplyRef) else ground_ref(van, kit, n) for n in needed
    )


def ground_never(van: Van, kit: Kit, never: Sequence[Ref]) -> list[tuple[Literally, ...]]:
    """The guards one ``never`` gives on this van: one per combination of kit its links stand for, none where it falls away.

    Lines with the same owner speak of the same kit.
    """
    held: dict[str, tuple[Kit, ...]] = {ref.owner: owners(van, kit, ref.owner) for ref in never}
    if any(not held[ref.owner] and not ref.optional for ref in never):
        return []
    lines = [ref for ref in never if held[ref.owner]]
    names = list(dict.fromkeys(ref.owner for ref in lines))
    found: list[tuple[Literally, ...]] = []
    for kits in product(*(held[name] for name in names)) if lines else ():
        chosen = dict(zip(names, kits, strict=True))
        found.append(tuple(Literally(f"{chosen[r.owner].id}.{r.name}", frozenset(r.values)) for r in lines))
    return found
