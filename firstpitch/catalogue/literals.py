"""The short lines of a kind file: ``self.element = off|on`` and ``supply mains``."""

from __future__ import annotations

import re

from firstpitch.catalogue.types import Needed, Ref, SupplyRef

NAME = re.compile(r"[a-z][a-z0-9]*(?:_[a-z0-9]+)*")
VALUE = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_REF = re.compile(r"\s*([^\s.?=]+)(\?)?\.([^\s.?=]+)\s*=([^=]*)")
_SUPPLY = re.compile(r"\s*supply\s+(\S+)\s*")


class LiteralFault(ValueError):
    """A text is not such a line; the message says what was found and what is allowed."""


def parse_ref(text: str) -> Ref:
    """Read ``owner.condition = value`` or ``= value|other value``; ``owner?.condition`` makes the line optional.

    Raises LiteralFault when it is not of that shape or a value stands twice.

    >>> parse_ref("panel.pump = off")
    Ref(owner='panel', name='pump', values=('off',), optional=False)
    """
    found = _REF.fullmatch(text)
    if not found:
        raise LiteralFault(f"“{text}” does not read “owner.condition = value” or “= value|other value”")
    owner, mark, name, written = found.groups()
    for part in (owner, name):
        if not NAME.fullmatch(part):
            raise LiteralFault(f"“{part}” in “{text}” is not a name; names are lower-case letters, digits and “_”")
    values = tuple(value.strip() for value in written.split("|"))
    for value in values:
        if not VALUE.fullmatch(value):
            raise LiteralFault(f"“{value}” in “{text}” is not a value; values are lower-case words joined by “-”")
    if len(set(values)) < len(values):
        raise LiteralFault(f"“{text}” names a value twice; name each once")
    if mark and owner in ("self", "van"):
        raise LiteralFault(f"“{text}” marks “{owner}” with “?”, but only a link can be missing from a van")
    return Ref(owner, name, values, bool(mark))


def parse_needed(text: str) -> Needed:
    """Read what a step or a wait needs: a condition line or ``supply NAME``.

    >>> parse_needed("supply 12v")
    SupplyRef(supply='12v')
    """
    found = _SUPPLY.fullmatch(text)
    return SupplyRef(found[1]) if found else parse_ref(text)


def write(needed: Needed) -> str:
    """The line as a kind file has it.

    >>> write(parse_needed("mover?.rollers=off"))
    'mover?.rollers = off'
    """
    if isinstance(needed, SupplyRef):
        return f"supply {needed.supply}"
    return f"{needed.owner}{'?' if needed.optional else ''}.{needed.name} = {'|'.join(needed.values)}"
