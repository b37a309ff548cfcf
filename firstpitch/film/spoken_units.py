"""Units as people say them and recognisers write them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from types import MappingProxyType

from rapidfuzz.distance import JaroWinkler

from firstpitch.film.alike import EVERYDAY
from firstpitch.film.words import sound
from firstpitch.sheet import units

# Spoken form (words run together) -> units it can stand for, as the sheet writes them; a blank unit is one no sheet figure has.
# Misheard forms stand beside the right ones.
_SAID: dict[str, tuple[str, ...]] = {}
for _unit, _forms in {
    "kg": "kilo kilos kg kgs kilogram kilograms kilogramme kilogrammes keelo keelos "
    "killow killows killowes kilowes killos kilograme killograms",
    "g": "gram grams gramme grammes",
    "t": "tonne tonnes ton tons",
    "l": "litre litres liter liters l ltr ltrs leader leaders leeter leeters leter leters letters leetre",
    "ml": "ml millilitre millilitres",
    "l/min": "litreaminute litresaminute litreperminute litresperminute litersaminute litersperminute lpm litresminute lmin lsaminute "
    "leadersaminute",
    "g/h": "gramanhour gramsanhour gramperhour gramsperhour grammesanhour grammesperhour gramshour gh",
    "V": "volt volts v vault vaults",
    "A": "amp amps a ampere amperes ampère",
    "mA": "milliamp milliamps ma milliampere milliamperes millyamp millyamps millieamp millieamps milleamp milleamps millamp millamps "
    "milamp milamps",
    "Ah": "amphour amphours ah amperehour amperehours ampshour ampshours amphr ampereshours amppower amppowers ampour ampours ampower "
    "ampowers ampsour ampsours ampsanhour",
    "W": "watt watts w wat wats whats what's wot's wots",
    "kW": "kilowatt kilowatts kw killerwatt killerwatts killawatt killawatts kilowat kilowats killwatts killwatt "
    "kilowhats kilowhat's kilowots",
    "bar": "bar bars",
    "mbar": "millibar millibars mbar millybar millybars milliebar milliebars millebar millebars milibar milibars millbar millbars "
    "milbar milbars",
    "psi": "psi poundspersquareinch poundpersquareinch poundsasquareinch poundsquareinch peasi peeessi",
    "N m": "newtonmetre newtonmetres newtonmeter newtonmeters nm newtonsmetre newtonsmetres newtonsmeters neutonmetres newtonmetter "
    "newtonmetters newtonsmeter",
    "lbf ft": "footpound footpounds poundfoot poundfeet poundsfoot",
    "kN": "kilonewton kilonewtons kn",
    "N": "newton newtons",
    "degC": "degree degrees ° degreesc degreec °c degreescelsius degreecelsius degreescentigrade degreecentigrade celsius centigrade "
    "degrease",
    "m": "metre metres meter meters m mtr mtrs",
    "cm": "centimetre centimetres cm cms centimeter centimeters centi centis",
    "mm": "millimetre millimetres mm millimeter millimeters",
    "mm2": "mm2 mm² squaremillimetre squaremillimetres millimetresquared millimetressquared squaremil squaremill milsquared "
    "millsquared mmsquared squaremm squaremillimeters squaremils",
    "in": "inch inches",
    "ft": "foot feet ft",
    "mile": "mile miles",
    "km": "km kilometre kilometres kilometer kilometers k kms",
    "mph": "mph milesanhour milesperhour mileanhour",
    "km/h": "kmh kilometresanhour kilometresperhour",
    "s": "second seconds sec secs",
    "min": "minute minutes min mins",
    "h": "hour hours hr hrs",
    "day": "day days night nights",
    "week": "week weeks",
    "month": "month months",
    "year": "year years",
    "%": "percent %",
    "": "turn turns gallon gallons pint pints",
}.items():
    for _form in _forms.split():
        _SAID[_form] = (*_SAID.get(_form, ()), _unit)
_SAID |= dict.fromkeys(("mil", "mill", "mils", "mills"), ("mm", "mm2", "ml"))
_SAID |= dict.fromkeys(("pound", "pounds", "lbs", "lb"), ("lb", "psi"))
_SAID |= {"milli": ("mA", "mbar")}
SAID = MappingProxyType(_SAID)
MONEY = frozenset({"quid", "£", "$", "€", "pence", "pee", "euro", "euros", "grand", "dollars", "fiver", "tenner"})
_SOUND = {sound(form): form for form in reversed(list(SAID)) if len(form) >= 7 and form.isalpha()}
LONGEST = 5
ALIKE = 0.8  # Jaro-Winkler likeness from which run-together words that sound like a unit pass for it
TIMES = frozenset({"s", "min", "h", "day", "week", "month", "year"})
_JOINING = frozenset(["a", "an", "and", "the", "of", "is", "at", "in", "to", "for", "on", "it", "or", "with"])


def unit_at(texts: Sequence[str], at: int) -> tuple[tuple[str, ...], int]:
    """The units that the tokens from ``at`` can stand for, longest form first, and the token after; no units when there is none.

    >>> unit_at("newton metres with a torque wrench".split(), 0)
    (('N m',), 2)
    >>> unit_at("milly bars".split(), 0), unit_at("p s i".split(), 0), unit_at("kilo this".split(), 0)
    ((('mbar',), 2), (('psi',), 3), (('kg',), 1))
    """
    for many in range(min(LONGEST, len(texts) - at), 0, -1):
        form = "".join(texts[at : at + many])
        form = form if form in SAID else form.replace("'s", "s")
        if form in SAID and not (many == 1 and form == "a"):
            return SAID[form], at + many
        if (
            many > 1
            and len(form) >= 7
            and form.isalpha()
            and texts[at] not in SAID
            and _may_be_one(texts[at : at + many])
        ):
            alike = _SOUND.get(sound(form))
            if alike and alike[0] == form[0] and JaroWinkler.similarity(form, alike) >= ALIKE:
                return SAID[alike], at + many
    return (), at


def _may_be_one(words: Sequence[str]) -> bool:
    """Whether run-together words may be one unit misheard: none after the first is a word of everyday talk."""
    return not any(word in _JOINING or word in EVERYDAY for word in words[1:])


@cache
def si_of(value: float, unit: str) -> float:
    """``value`` in SI.

    >>> si_of(60.0, "degC"), si_of(30.0, "mbar")
    (333.15, 3000.0)
    """
    name = units.SORTS[units.sort_of(unit)][unit]
    held = units.registry().Quantity(value, units.registry().Unit(name)).to_base_units()
    return float(f"{held.magnitude:.12g}")
