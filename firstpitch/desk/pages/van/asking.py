"""A field for a figure that nobody has yet, or one to correct."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from firstpitch.desk.inputs import OpenVan
from firstpitch.sheet import Unknown
from firstpitch.sheet.form import Value
from firstpitch.sheet.unknown import value_of

PREFIX = "value:"


@dataclass(frozen=True)
class Ask:
    """One field. ``name`` is what the browser sends, ``id`` its mark on the page; ``waits``: results wait for it."""

    field: str
    name: str
    id: str
    words: str
    type: str
    unit: str
    choices: tuple[str, ...]
    hint: str
    waits: bool
    typed: str = ""
    fault: str = ""


def ask(opened: OpenVan, field: str, words: str = "", *, waits: bool = False, typed: str = "", fault: str = "") -> Ask:
    """The field for one figure; ``words`` as it is asked for, else as the sheet's form calls it."""
    value = value_of(field, opened.sheet, opened.catalogue.kinds)
    spec = value.spec
    text = words or spec.what
    return Ask(
        field=field,
        name=PREFIX + field,
        id="v-" + field.replace(".", "-"),
        words=text[:1].upper() + text[1:],
        type=spec.type,
        unit=spec.unit if spec.type == "quantity" else "",
        choices=spec.choices,
        hint=_hint(value),
        waits=waits,
        typed=typed,
        fault=fault,
    )


def _hint(value: Value) -> str:
    """How to write it, where that is not plain from the unit or the choices."""
    return f"{value.allowed[:1].upper()}{value.allowed[1:]}." if value.allowed else ""


def asks(
    opened: OpenVan,
    unknown: Iterable[Unknown],
    typed: Mapping[str, str],
    faults: Mapping[str, str],
    *,
    inside: bool = False,
) -> tuple[Ask, ...]:
    """The fields for these unknown figures; ``inside`` a panel of one kit its name is left out."""
    return tuple(
        ask(
            opened,
            u.field,
            "" if inside else u.words,
            waits=u.need == "must",
            typed=typed.get(u.field, ""),
            fault=faults.get(u.field, ""),
        )
        for u in unknown
    )


def typed_of(sent: Mapping[str, str]) -> dict[str, str]:
    """The figures that a form sent, by dotted field."""
    return {name.removeprefix(PREFIX): text[:400] for name, text in sent.items() if name.startswith(PREFIX)}
