"""Car and load sheets as forms: their fields come from the sheets' own description, and what is typed goes back into a sheet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from firstpitch.desk.pages.van.asking import PREFIX, Ask
from firstpitch.outfit.forms import CAR_SHEET
from firstpitch.sheet import SheetError
from firstpitch.sheet.faults import Faults
from firstpitch.sheet.form import Section, Value
from firstpitch.sheet.source import Entry, ListNode, MapNode, Node, Scalar, tree

_BARE = re.compile(r"[-+−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)")
_PLACE = re.compile(r"^the sheet, (?:line \d+(?:, )?)?(?:([\w.-]+))?: ")
_LONGEST = 400
# Places where many go; any other two letters are taken as well (ISO 3166).
COUNTRIES: Mapping[str, str] = MappingProxyType(
    {
        "GB": "Great Britain",
        "IE": "Ireland",
        "FR": "France",
        "BE": "Belgium",
        "NL": "Netherlands",
        "DE": "Germany",
        "ES": "Spain",
        "IT": "Italy",
        "AT": "Austria",
        "CH": "Switzerland",
        "DK": "Denmark",
        "NO": "Norway",
        "SE": "Sweden",
    }
)
_LISTED = {"journey.country": tuple(COUNTRIES), "driver.issued_in": ("GB", "EU", *COUNTRIES)}
_HINTS = {
    "car.aboard": "Everybody and everything that the kerb mass does not count.",
    "car.kerb_includes": "For example “driver of 75 kg, tank 90 % full”.",
    "car.laden_mass": "Stands before kerb mass and load.",
    "front_axle.load": "With people and luggage, without the caravan.",
    "rear_axle.load": "With people and luggage, without the caravan.",
    "journey.ball_raise": "Below it: with a minus sign.",
    "car.towing_limit": "Of a braked trailer, from the plate or the handbook.",
    "towbar.d_value": "Stamped on the towbar's plate, in kN.",
}
OWN_WORDS = {
    "car.name": "Name of the car",
    "car.kerb_mass": "Kerb mass",
    "car.kerb_includes": "What the kerb mass includes",
    "car.aboard": "People and luggage besides",
    "car.laden_mass": "Weighed as it will travel",
    "car.gross_vehicle_mass": "Gross vehicle mass",
    "car.gross_train_mass": "Gross train mass",
    "car.towing_limit": "Towing limit",
    "car.noseweight_limit": "Noseweight limit of the car",
    "car.wheelbase": "Wheelbase",
    "car.overhang": "Rear axle to towball",
    "car.rear_allowance": "Handbook's allowance on the rear axle",
    "car.anti_lock": "Anti-lock brakes",
    "towbar.noseweight_limit": "Noseweight limit (S value)",
    "towbar.d_value": "Pulling strength (D value)",
    **{
        f"{axle}.{name}": words
        for axle in ("front_axle", "rear_axle")
        for name, words in (
            ("load", "Load on it"),
            ("limit", "Its plated limit"),
            ("load_index", "Load index of its tyres"),
        )
    },
    "journey.stabiliser": "Stabiliser fitted",
    "journey.dampers": "Dampers on the caravan's axles",
    "journey.ball_raise": "Coupled ball above level",
    "journey.axle_stiffness": "Springs of one axle",
}


@dataclass(frozen=True)
class Field:
    """One field of a form; ``listed`` are words to choose from that may be overwritten; ``may``: no verdict waits for it."""

    ask: Ask
    listed: tuple[str, ...] = ()
    wide: bool = False
    may: bool = False


@dataclass(frozen=True)
class Group:
    """Fields that belong together."""

    id: str
    title: str
    fields: tuple[Field, ...]


def car_groups(text: str, typed: Mapping[str, str] | None, faults: Mapping[str, str]) -> tuple[Group, ...]:
    """The car form: with what was typed, else with what is kept."""
    kept = {} if typed is not None else flat(tree_of(text))
    values = typed if typed is not None else kept
    return tuple(
        Group(part.name, part.what, tuple(_field(part.name, value, values, faults) for value in _values(part)))
        for part in CAR_SHEET.parts
        if isinstance(part, Section)
    )


def _values(section: Section) -> Iterable[Value]:
    return (part for part in section.parts if isinstance(part, Value))


def _field(section: str, value: Value, values: Mapping[str, str], faults: Mapping[str, str]) -> Field:
    at, spec = f"{section}.{value.name}", value.spec
    words = OWN_WORDS.get(at, f"{spec.what[:1].upper()}{spec.what[1:]}")
    typed = values.get(at, "")
    asked = Ask(
        field=at,
        name=PREFIX + at,
        id="v-" + at.replace(".", "-"),
        words=words,
        type=spec.type,
        unit=spec.unit if spec.type == "quantity" else "",
        choices=spec.choices,
        hint=_HINTS.get(at, ""),
        waits=spec.need == "must" and not value.required,
        typed=plain_figure(typed, spec.unit) if spec.type == "quantity" and at not in faults else typed,
        fault=faults.get(at, ""),
    )
    return Field(
        asked,
        _LISTED.get(at, ()),
        wide=spec.type == "text" and not value.pattern,
        may=spec.need == "may" and not value.required,
    )


def plain_figure(text: str, unit: str) -> str:
    """A figure as it stands in a field that has its unit beside it; one in another unit keeps its own.

    >>> plain_figure("90 kg", "kg"), plain_figure("39 psi", "bar")
    ('90', '39 psi')
    """
    return text.removesuffix(unit).strip() if unit and text.endswith(f" {unit}") else text


def with_unit(text: str, unit: str) -> str:
    """What was typed, with the unit that stands beside the field where it has none.

    >>> with_unit(" 90 ", "kg"), with_unit("0.09 t", "kg"), with_unit("", "kg")
    ('90 kg', '0.09 t', '')
    """
    plain = " ".join(text.split())
    return f"{plain} {unit}" if unit and _BARE.fullmatch(plain) else plain


def typed_of(sent: Mapping[str, str]) -> dict[str, str]:
    """What a form sent, by dotted field."""
    found = {name.removeprefix(PREFIX): text for name, text in sent.items() if name.startswith(PREFIX)}
    return {field: text.strip()[:_LONGEST] for field, text in found.items()}


def car_tree(typed: Mapping[str, str]) -> MapNode:
    """The car sheet that was typed; an empty field is left out, and so unknown."""
    parts: dict[str, Node] = {"firstpitch": scalar("1")}
    for part in CAR_SHEET.parts:
        if isinstance(part, Section):
            said = {value.name: _said(f"{part.name}.{value.name}", value, typed) for value in _values(part)}
            inner = {name: scalar(text) for name, text in said.items() if text}
            if inner:
                parts[part.name] = mapping(inner)
    return mapping(parts)


def _said(at: str, value: Value, typed: Mapping[str, str]) -> str:
    spec = value.spec
    text = typed.get(at, "")
    if at in _LISTED:
        return text.upper()
    return with_unit(text, spec.unit) if spec.type == "quantity" else text


def scalar(text: str) -> Scalar:
    """A value as text."""
    return Scalar(text, 0, plain=False)


def mapping(inner: Mapping[str, Node]) -> MapNode:
    """Keys with their values."""
    return MapNode(MappingProxyType({key: Entry(node, 0) for key, node in inner.items()}), 0)


def listing(items: Iterable[Node]) -> ListNode:
    """A list."""
    return ListNode(tuple(items), 0)


def tree_of(text: str) -> MapNode:
    """The tree of a sheet that is kept; an empty one where there is none, or where it is no sheet at all."""
    try:
        return tree(text, Faults("the sheet")) if text else mapping({})
    except SheetError:
        return mapping({})


def flat(node: MapNode) -> dict[str, str]:
    """The texts of a tree's sections by dotted field."""
    found: dict[str, str] = {}
    for key, entry in node.entries.items():
        if isinstance(entry.node, MapNode):
            texts = {name: inner.node for name, inner in entry.node.entries.items()}
            found |= {f"{key}.{name}": held.text for name, held in texts.items() if isinstance(held, Scalar)}
    return found


def beside(wrong: SheetError) -> tuple[dict[str, str], tuple[str, ...]]:
    """The faults of a sheet that a form wrote: by dotted field, and those of none. Lines of a sheet nobody saw are left out."""
    fields: dict[str, str] = {}
    rest: list[str] = []
    for sentence in wrong.faults:
        place = _PLACE.match(sentence)
        words = sentence[place.end() :] if place else sentence
        words = words[:1].upper() + words[1:]
        if place and place[1]:
            fields[place[1]] = f"{fields.get(place[1], '')} {words}".strip()
        else:
            rest.append(words)
    return fields, tuple(rest)
