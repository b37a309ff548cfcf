"""One written text as a value: a quantity, a count, a choice, a date, a yes or no, or a text."""

from __future__ import annotations

import re
from datetime import date, timedelta

from firstpitch.sheet.errors import quoted
from firstpitch.sheet.faults import either, nearest
from firstpitch.sheet.source import Scalar
from firstpitch.sheet.types import FactSpec, FactValue, Quantity
from firstpitch.sheet.units import UnitError, parse, sort_of, to

LONGEST_TEXT = 2000
EARLIEST = date(1950, 1, 1)
YES = ("yes", "Yes", "YES", "true", "True", "TRUE")
NO = ("no", "No", "NO", "false", "False", "FALSE")
UNKNOWN = "unknown"
_USUAL = 12  # the figure in examples, where it lies within the bounds
_COUNT = re.compile(r"[-+]?[0-9]{1,15}")
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")


class ValueFault(ValueError):
    """A text is not the value wanted; the message says what was found and what to write."""


def is_unknown(node: Scalar, spec: FactSpec) -> bool:
    """Whether the sheet says that it does not know: left open, or the word ``unknown`` where that is not a text or a choice."""
    if node.empty or not node.text.strip():
        return True
    return node.text == UNKNOWN and spec.type != "text" and UNKNOWN not in spec.choices


def least_of(spec: FactSpec) -> float | None:
    """The lower bound in the unit of ``spec``: the stated one, or 0 for a quantity that is no temperature."""
    if spec.least is None and spec.type == "quantity" and sort_of(spec.unit) != "temperature":
        return 0.0
    return spec.least


def read_value(node: Scalar, spec: FactSpec, today: date) -> FactValue:
    """The value of ``node`` as ``spec`` wants it; ValueFault when it is not one, or is out of bounds.

    >>> read_value(Scalar("10 l", 1), FactSpec("capacity", "water it holds", "quantity", "l"), date(2026, 5, 1)).si
    0.01
    """
    text = node.text.strip()
    if spec.type == "quantity":
        return _quantity(text, spec)
    if spec.type == "count":
        return _count(text, spec)
    if spec.type == "choice":
        return _choice(text, spec)
    if spec.type == "date":
        return _date(text, spec, today)
    if spec.type == "yes-no":
        return _yes_no(text)
    if len(text) > LONGEST_TEXT:
        raise ValueFault(f"the text has {len(text):,} letters; shorten it to at most {LONGEST_TEXT:,}")
    return text


def _quantity(text: str, spec: FactSpec) -> Quantity:
    try:
        found = parse(text, spec.unit)
    except UnitError as fault:
        raise ValueFault(str(fault)) from None
    check_bounds(text, to(found.si, spec.unit), spec)
    return found


def check_bounds(text: str, found: float, spec: FactSpec) -> None:
    """ValueFault when ``found`` [the unit of ``spec``] lies outside its bounds; a rounding error does not count."""
    least, most = least_of(spec), spec.most
    low = least is not None and found < least - 1e-9 * abs(least)
    high = most is not None and found > most + 1e-9 * abs(most)
    if low or high:
        raise ValueFault(f"{quoted(text)} is too {'low' if low else 'high'}; {span(spec)}")


def span(spec: FactSpec) -> str:
    """What ``spec`` allows, in words.

    >>> span(FactSpec("capacity", "water it holds", "quantity", "l", least=2, most=60))
    'it must be from 2 l to 60 l'
    """
    least, most = least_of(spec), spec.most
    unit = f" {spec.unit}" if spec.unit else ""
    if least is not None and least == most:
        return f"it must be {least:g}{unit}"
    if least is not None and most is not None:
        return f"it must be from {least:g}{unit} to {most:g}{unit}"
    return f"it must be at least {least:g}{unit}" if least is not None else f"it must be at most {most:g}{unit}"


def _count(text: str, spec: FactSpec) -> int:
    if not _COUNT.fullmatch(text):
        raise ValueFault(
            f"{quoted(text)} is not a whole number; write it in digits without a unit, for example “{example(spec)}”"
        )
    check_bounds(text, int(text), spec)
    return int(text)


def _choice(text: str, spec: FactSpec) -> str:
    if text not in spec.choices:
        raise ValueFault(
            f"{quoted(text)} is none of the choices{nearest(text, spec.choices)}; write {either(spec.choices)}"
        )
    return text


def _date(text: str, spec: FactSpec, today: date) -> date:
    found = _DATE.fullmatch(text)
    if not found:
        raise ValueFault(f"{quoted(text)} is not a date; write year-month-day, for example “2026-04-30”")
    try:
        day = date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        raise ValueFault(f"{quoted(text)} is not a day in the calendar; write year-month-day") from None
    if day < EARLIEST:
        raise ValueFault(f"{quoted(text)} is before {EARLIEST.year}; check the year")
    if spec.most is not None and day > today + timedelta(days=spec.most):
        until = "today" if spec.most == 0 else f"{spec.most:g} days from today"
        raise ValueFault(f"{quoted(text)} is in the future; it must not be after {until} ({today.isoformat()})")
    if spec.least is not None and day < today + timedelta(days=spec.least):
        raise ValueFault(f"{quoted(text)} is too early; it must not be before {today + timedelta(days=spec.least)}")
    return day


def _yes_no(text: str) -> bool:
    if text in YES:
        return True
    if text in NO:
        return False
    raise ValueFault(f"{quoted(text)} is neither yes nor no; write “yes” or “no”")


def example(spec: FactSpec) -> str:
    """How a value of this sort may be written, for a message or the schema."""
    if spec.type == "quantity":
        least, most = least_of(spec), spec.most
        low = (most is not None and most < _USUAL) or (least is not None and least > _USUAL)
        middle = (least if least is not None else 0.0) / 2 + (most if most is not None else 2 * (least or 1.0)) / 2
        return f"{middle if low else _USUAL:.4g} {spec.unit}"
    if spec.type == "choice":
        return spec.choices[0]
    if spec.type == "count":
        return f"{spec.least:g}" if spec.least is not None else "2"
    plain = {"date": "2026-04-30", "yes-no": "yes", "text": "some words"}
    return plain[spec.type]
