"""JSON Schema 2020-12 of a sheet, from the same form the reader works from."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from firstpitch.sheet.form import ID, Listing, Part, Row, Section, Value
from firstpitch.sheet.kit import RESERVED, KindLike, Kinds, fitted_kinds
from firstpitch.sheet.layout import BUILD_SHEET, VERSION
from firstpitch.sheet.types import FactSpec, LinkSpec
from firstpitch.sheet.units import DIGITS, SIGN, spellings
from firstpitch.sheet.values import LONGEST_TEXT, NO, UNKNOWN, YES, example, least_of, span

DIALECT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]
_LEFT_OPEN: Schema = {"enum": [None, "", UNKNOWN]}


def build_schema(kinds: Kinds) -> Schema:
    """The schema of a build sheet for the kinds of a catalogue: facts and links of each kit by its kind.

    It holds the shape of a sheet: keys, sorts of values, units, signs, choices. Bounds of quantities and what must be true
    across figures (a locker inside the body) are beyond it; the reader checks those too.
    """
    kinds = fitted_kinds(kinds)
    schema = schema_of(BUILD_SHEET, f"urn:firstpitch:build-sheet:{VERSION}")
    kit = schema["properties"]["kit"]
    kit["items"]["properties"]["kind"] = {
        **_head("kind", "kind of this kit, from the catalogue"),
        "enum": sorted(kinds),
    }
    kit["items"]["properties"]["id"]["not"] = {"enum": list(RESERVED)}
    kit["items"]["allOf"] = [_of_kind(key) for key in sorted(kinds)]
    limits = [_at_most(key, kind.max) for key, kind in sorted(kinds.items()) if kind.max is not None]
    if limits:
        kit["allOf"] = limits
    schema["$defs"] = {
        f"{part}-{key}": made for key, kind in sorted(kinds.items()) for part, made in _defs(kind).items()
    }
    return schema


def schema_of(form: Section, identifier: str) -> Schema:
    """The schema of any sheet's form. ``identifier`` is its ``$id``, a URI."""
    return {"$schema": DIALECT, "$id": identifier, **_section(form, form.name.capitalize())}


def _head(name: str, what: str) -> Schema:
    return {"title": name.replace("_", " ").capitalize(), "description": f"{what[0].upper()}{what[1:]}."}


def _section(form: Section, title: str = "") -> Schema:
    schema: Schema = {
        **_head(title or form.name, form.what),
        "type": "object",
        "properties": {part.name: _part(part) for part in form.parts},
        "additionalProperties": False,
    }
    required = [part.name for part in form.parts if part.required]
    if required:
        schema["required"] = required
    return schema


def _part(part: Part) -> Schema:
    if isinstance(part, Value):
        return _value(part.spec, part.required, part.pattern, part.allowed)
    if isinstance(part, Row):
        schema = _row(part)
    elif isinstance(part, Section):
        schema = _section(part)
    elif isinstance(part, Listing):
        schema = _listing(part)
    else:
        schema = {**_head(part.name, part.what), "type": "object"}
    return schema if part.required else _or_nothing(schema)


def _or_nothing(schema: Schema) -> Schema:
    kind = schema.pop("type")
    return {**schema, "type": [kind, "null"]}


def _listing(part: Listing) -> Schema:
    each = _row(part.each) if isinstance(part.each, Row) else _section(part.each)
    return {
        **_head(part.name, part.what),
        "type": "array",
        "items": each,
        "minItems": part.least,
        "maxItems": part.most,
    }


def _row(part: Row) -> Schema:
    low, _ = part.bounds
    words = ", ".join(part.parts)
    return {
        **_head(part.name or part.what, f"{part.what}: {words}, each with its unit"),
        "type": "array",
        "items": {"type": "string", "pattern": quantity_pattern(part.unit, signed=low < 0)},
        "minItems": len(part.parts),
        "maxItems": part.longest,
    }


def quantity_pattern(unit: str, *, signed: bool) -> str:
    """A regular expression for a quantity in any spelling of the sort of ``unit``; ``signed`` lets it be negative.

    >>> bool(re.search(quantity_pattern("kg", signed=False), "1,250 kg"))
    True
    """
    units = "|".join(
        re.escape(written).replace(r"\ ", " ") for written in sorted(spellings(unit), key=len, reverse=True)
    )
    sign = SIGN if signed else r"\+?"
    return rf"^\s*{sign}(?:{DIGITS})\s*(?:{units})\s*$"


def _value(spec: FactSpec, required: bool, pattern: str = "", allowed: str = "") -> Schema:
    head = _head(spec.name, _what(spec, allowed))
    core = _CORES[spec.type](spec, pattern)
    if spec.type != "text":
        head["examples"] = [example(spec) if spec.type != "count" else int(example(spec))]
    if required:
        return {**head, **core}
    if spec.type == "text":
        return {**head, "anyOf": [core, {"enum": [None, ""]}]}
    return {**head, "anyOf": [core, _LEFT_OPEN]}


def _what(spec: FactSpec, allowed: str) -> str:
    bounded = spec.type in ("quantity", "count") and (spec.most is not None or spec.least is not None)
    return "; ".join(part for part in (spec.what, span(spec) if bounded else "", allowed) if part)


def _quantity(spec: FactSpec, _: str) -> Schema:
    least = least_of(spec)
    return {"type": "string", "pattern": quantity_pattern(spec.unit, signed=least is None or least < 0)}


def _count(spec: FactSpec, _: str) -> Schema:
    schema: Schema = {"type": "integer"}
    if spec.least is not None:
        schema["minimum"] = spec.least
    if spec.most is not None:
        schema["maximum"] = spec.most
    return schema


def _choice(spec: FactSpec, _: str) -> Schema:
    return {"enum": [form for choice in spec.choices for form in _forms(choice)]}


def _forms(choice: str) -> Sequence[object]:
    """A choice as a text, and as what a general YAML reader makes of it."""
    if choice in ("true", "false"):
        return (choice, choice == "true")
    return (choice, int(choice)) if re.fullmatch("[1-9][0-9]*|0", choice) else (choice,)


def _date(_: FactSpec, __: str) -> Schema:
    return {"type": "string", "format": "date", "pattern": "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"}


def _yes_no(_: FactSpec, __: str) -> Schema:
    return {"enum": [*YES, *NO, True, False]}


def _text(_: FactSpec, pattern: str) -> Schema:
    if pattern:
        # A general YAML reader makes a number of digits without quotation marks.
        digits = any(re.fullmatch(pattern, "1" * length) for length in range(1, 20))
        return {"type": ["string", "integer"] if digits else "string", "pattern": f"^(?:{pattern})$"}
    return {"type": ["string", "number", "boolean"], "pattern": r"\S", "maxLength": LONGEST_TEXT}


_CORES = {
    "quantity": _quantity,
    "count": _count,
    "choice": _choice,
    "date": _date,
    "yes-no": _yes_no,
    "text": _text,
}


def _of_kind(key: str) -> Schema:
    return {
        "if": {"properties": {"kind": {"const": key}}, "required": ["kind"]},
        "then": {
            "properties": {"facts": {"$ref": f"#/$defs/facts-{key}"}, "links": {"$ref": f"#/$defs/links-{key}"}},
        },
    }


def _at_most(key: str, most: int | None) -> Schema:
    return {
        "contains": {"properties": {"kind": {"const": key}}, "required": ["kind"]},
        "minContains": 0,
        "maxContains": most,
    }


def _defs(kind: KindLike) -> Mapping[str, Schema]:
    facts = {name: _value(spec, required=False) for name, spec in kind.facts.items()}
    links = {name: _link(link) for name, link in kind.links.items() if not link.every}
    return {
        "facts": {
            "description": f"Figures and details of the kind “{kind.title}”.",
            "type": ["object", "null"],
            "properties": facts,
            "additionalProperties": False,
        },
        "links": {
            "description": f"Other kit that the kind “{kind.title}” belongs with.",
            "type": ["object", "null"],
            "properties": links,
            "additionalProperties": False,
        },
    }


def _link(link: LinkSpec) -> Schema:
    return {
        "description": f"Id of a kit of the kind {' or '.join(link.kinds)}.",
        "type": ["string", "null"],
        "pattern": f"^(?:{ID})$",
    }
