"""Units as people say them and recognisers write them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from types import MappingProxyType

from firstpitch.film.words import sound
from firstpitch.sheet import units

# Spoken form (words run together) -> units it can stand for, as the sheet writes them; a blank unit is one no sheet figure has.
_SAID: dict[str, tuple[str, ...]] = {}
for _unit, _forms in {
    "kg": "kilo kilos kg kgs kilogram kilograms kilogramme kilogrammes keelo",
    "g": "gram grams gramme grammes",
    "l": "litre litres liter liters l ltr ltrs leader leaders",
    "ml": "ml millilitre millilitres",
    "l/min": "litreaminute litresaminute litreperminute litresperminute lpm litresminute l/min",
    "g/h": "gramanhour gramsanhour gramperhour gramsperhour grammesanhour grammesperhour gramshour",
    "V": "volt volts v vault vaults",
    "A": "amp amps a ampere amperes",
    "mA": "milliamp milliamps ma milliampere milliamperes millyamps",
    "Ah": "amphour amphours ah amperehour amperehours ampshour ampshours amphr",
    "W": "watt watts w wat wats",
    "kW": "kilowatt kilowatts kw",
    "bar": "bar bars",
    "mbar": "millibar millibars mbar millybar millybars",
    "psi": "psi poundspersquareinch poundpersquareinch",
    "N m": "newtonmetre newtonmetres newtonmeter newtonmeters nm newtonsmetre neutonmetres",
    "lbf ft": "footpound footpounds poundfoot poundfeet poundsfoot",
    "kN": "kilonewton kilonewtons kn",
    "N": "newton newtons",
    "degC": "degree degrees ° degreesc degreec degreescelsius degreescentigrade celsius °c centigrade",
    "m": "metre metres meter meters m",
    "cm": "centimetre centimetres cm cms centimeter centimeters",
    "mm": "millimetre millimetres mm millimeter millimeters",
    "mm2": "mm2 mm² squaremillimetre squaremillimetres millimetresquared millimetressquared squaremil squaremill milsquared "
    "millsquared mmsquared",
    "in": "inch inches",
    "ft": "foot feet ft",
    "mile": "mile miles",
    "km": "km kilometre kilometres kilometer kilometers k",
    "mph": "mph milesanhour milesperhour",
    "km/h": "kmh kilometresanhour kilometresperhour",
    "s": "second seconds sec secs",
    "min": "minute minutes min mins",
    "h": "hour hours hr hrs",
    "day": "day days night nights",
    "week": "week weeks",
    "month": "month months",
    "year": "year years",
    "%": "percent %",
    "": "turn turns pence pounds £ quid",
}.items():
    for _form in _forms.split():
        _SAID[_form] = (*_SAID.get(_form, ()), _unit)
_SAID |= {
    "mil": ("mm", "mm2", "ml"),
    "mill": ("mm", "mm2", "ml"),
    "mils": ("mm", "mm2", "ml"),
    "mills": ("mm", "mm2", "ml"),
}
_SAID |= {
    "pound": ("lb", "psi"),
    "pounds": ("lb", "psi"),
    "lbs": ("lb", "psi"),
    "lb": ("lb", "psi"),
    "milli": ("mA", "mbar"),
}
SAID = MappingProxyType(_SAID)
_SOUND = {sound(form): form for form in reversed(list(SAID)) if len(form) >= 7 and form.isalpha()}
LONGEST = 5
TIMES = frozenset({"s", "min", "h", "day", "week", "month", "year"})
_JOINING = frozenset(["a", "an", "and", "the", "of", "is", "at", "in", "to", "for", "on", "it", "or", "with"])


def unit_at(texts: Sequence[str], at: int) -> tuple[tuple[str, ...], int]:
    """The units that the tokens from ``at`` can stand for, longest form first, and the token after; no units when there is none.

    >>> unit_at("newton metres with a torque wrench".split(), 0)
    (('N m',), 2)
    >>> unit_at("milly bars".split(), 0), unit_at("p s i".split(), 0)
    ((('mbar',), 2), (('psi',), 3))
    """
    for many in range(min(LONGEST, len(texts) - at), 0, -1):
        form = "".join(texts[at : at + many])
        if form in SAID and not (many == 1 and form == "a"):
            return SAID[form], at + many
        if (
            many > 1
            and texts[at + many - 1] not in _JOINING
            and len(form) >= 7
            and form.isalpha()
            and sound(form) in _SOUND
        ):
            alike = _SOUND[sound(form)]
            if alike[0] == form[0]:
                return SAID[alike], at + many
    return (), at


@cache
def si_of(value: float, unit: str) -> float:
    """``value`` in SI.

    >>> si_of(60.0, "degC"), si_of(30.0, "mbar")
    (333.15, 3000.0)
    """
    name = units.SORTS[units.sort_of(unit)][unit]
    held = units.registry().Quantity(value, units.registry().Unit(name)).to_base_units()
    return float(f"{held.magnitude:.12g}")
