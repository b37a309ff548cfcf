"""The figure that is meant, and kit that is not fitted, in lines as anybody may say them. Every line here is invented for the test."""

from __future__ import annotations

from functools import cache

import pytest

from firstpitch.film.check import Prepared, check_prepared, prepared
from firstpitch.film.types import Coverage
from firstpitch.media.sentences import remembered
from tests.film.labelled import RECORDINGS, van_brief
from tests.unit.film.vans import small_van, spoken


@cache
def large_van() -> Prepared:
    """A large van with most sorts of kit."""
    return prepared(van_brief(RECORDINGS / "b02" / "van.yaml"), remembered())


def heard(van: Prepared, *lines: str) -> Coverage:
    """What is found in lines ten seconds apart."""
    return check_prepared(van, spoken(*((10.0 * n, text) for n, text in enumerate(lines))), remembered())


def figures(*lines: str) -> list[str]:
    """The figures of the large van, each with its state."""
    return [f"{f.figure}:{f.state.split()[0]}" for f in heard(large_van(), *lines).figures]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        (
            "She weighs thirteen forty-five empty and you may go to sixteen hundred all up.",
            ["van=miro:agrees", "van=mtplm:agrees"],
        ),
        ("On the plate it says fifteen fifty kilos, that's your maximum laden.", ["van=mtplm:differs"]),
        ("She left the factory at thirteen ninety-five kilos with nothing in her.", ["van=miro:differs"]),
        ("So that leaves you two fifty-five kilos for your own gear.", ["van=payload:agrees"]),
        ("You've got two hundred and thirty kilos of payload to play with.", ["van=payload:differs"]),
        ("Nose weight, a hundred and ten kilos and no more.", ["van=noseweight_limit:agrees"]),
        ("Never more than ninety kilos on the nose.", ["van=noseweight_limit:differs"]),
        ("Tyres want sixty-two pounds in them, cold.", ["van=tyre_pressure:agrees"]),
        ("Tyres, 3.8 bar all round when they're cold.", ["van=tyre_pressure:differs"]),
        ("Wheel nuts are done up to a hundred and thirty newton metres.", ["van=wheel_torque:agrees"]),
        ("The wheel bolts go to a hundred and ten newton metres with a torque wrench.", ["van=wheel_torque:differs"]),
        ("It's a proper four berth.", ["van=berths:agrees"]),
        ("She sleeps five at a push.", ["van=berths:differs"]),
        (
            "The fixed bed is one eighty-six by a metre thirty-two.",
            ["fixed-bed=length:agrees", "fixed-bed=width:agrees"],
        ),
        ("The empty bottle is fourteen kilos on its own.", ["propane=empty_mass:not"]),
        ("Keep it at least two metres from anything that burns.", [":not"]),
        ("Tyres sixty-two, nuts a hundred and thirty.", ["van=tyre_pressure:agrees", "van=wheel_torque:agrees"]),
        ("This one sleeps up to four.", ["van=berths:agrees"]),
        ("The leisure battery's a ninety-five amp.", ["battery=capacity:agrees"]),
        ("The fridge on gas burns nineteen grams an hour.", ["fridge=gas_rate:agrees"]),
        (
            "The water boiler's a one kilowatt element, and sixty-five degrees.",
            ["boiler-water=mains_power:agrees", "boiler-water=hot_water:agrees"],
        ),
        ("The bottle's a thirteen kilo propane.", ["propane=size:agrees"]),
        ("That propane bottle holds eleven kilos.", ["propane=size:differs"]),
        ("The regulator puts out thirty millibar.", ["gas-regulator=pressure:agrees"]),
        ("The gas hose is dated December twenty-five.", ["gas-regulator=hose_date:agrees"]),
        ("The leisure battery is a hundred and ten amp hours.", ["battery=capacity:differs"]),
        ("Hook-up lead, twenty-five metres of it.", ["mains-inlet=lead_length:agrees"]),
        ("The mains lead is fifteen metres long.", ["mains-inlet=lead_length:differs"]),
        ("Your water container holds forty leaders.", ["water-inlet=container_volume:agrees"]),
        ("The waste container takes thirty litres.", ["waste-outlet=container_volume:differs"]),
        ("The toilet cassette takes eighteen litres.", ["cassette-locker=volume:agrees"]),
        ("The step's rated at a hundred and fifty kilos.", ["entry-step=limit:agrees"]),
        ("There's your solar panel, a hundred watts.", ["solar-panel=peak_power:agrees"]),
        ("The RCD trips at thirty milliamps.", ["mains-unit=rcd_rating:agrees"]),
        ("The battery charger gives eighteen amps.", ["charger=output_current:agrees"]),
        ("Fridge is a hundred and thirty-three litres.", ["fridge=volume:agrees"]),
        ("The fridge, a hundred and fifteen litres.", ["fridge=volume:differs"]),
        ("On mains the fridge takes a hundred and ninety watts.", ["fridge=mains_power:agrees"]),
        ("The hob's got four burners.", ["cooker-top=burners:agrees"]),
        ("It's a three burner hob.", ["cooker-top=burners:differs"]),
        ("Flush on the toilet uses half a litre a go.", ["toilet=flush_volume:agrees"]),
        ("The carbon monoxide alarm is good until March thirty-three.", ["co-alarm=replace_by:agrees"]),
        ("The smoke alarm wants replacing in March 2035.", ["smoke-alarm=replace_by:differs"]),
        ("The fire extinguisher, it's a kilo of powder.", ["extinguisher=mass:agrees"]),
        ("The extinguisher needs looking at by May twenty twenty-seven.", ["extinguisher=check_by:agrees"]),
        ("Awning size is nine hundred and sixty.", ["awning-rail=awning_size:agrees"]),
        ("The awning rail is nine metres sixty round.", ["awning-rail=awning_size:agrees"]),
        ("The frost valve lets go at about three degrees.", ["frost-valve=opens_at:agrees"]),
        # not of this sheet
        ("The fridge on the old van was a hundred and ninety litres.", []),
        ("You'll get two hundred and thirty volts at the post.", [":not"]),
        ("Check them again after thirty miles.", [":not"]),
        ("Wait five or six minutes before you try again.", [":not"]),
    ],
)
def test_the_figure_meant(line: str, found: list[str]) -> None:
    """By its unit, the kit named, the words next to it and how close it is, the right figure is held against the sheet."""
    assert figures(line) == found


@pytest.mark.parametrize(
    "line",
    [
        "There are three things to remember about the hob.",
        "It's the second door on the left.",
        "I've done four of these today.",
        "Lift the two catches and push.",
        "One of you hold the torch.",
        "It won't save you if you're doing seventy.",
        "Page forty of the handbook has the lot.",
        "We had two lads hurt that way.",
        "That's thirty quid in the shop.",
        "The round of the Marrowby Four, then.",
        "I've been selling these for twenty years.",
        "My brother's old van had a hundred and ten amp hours.",
    ],
)
def test_no_figure(line: str) -> None:
    """Counts of what is told, names, prices, speeds, ages and other vans' figures are not told as figures."""
    assert figures(line) == []


def test_one_figure_is_not_two_values() -> None:
    """The greatest mass said and the mass as built are two figures, also when one is wrong."""
    assert figures("She's sixteen hundred kilos at the very most, and left the works at thirteen eighty.") == [
        "van=mtplm:agrees",
        "van=miro:differs",
    ]


def test_both_kits_at_once() -> None:
    """“both” gives one date to two kits that have it."""
    van = prepared(van_brief(RECORDINGS / "b04" / "van.yaml"), remembered())
    found = heard(
        van, "The smoke alarm and the carbon monoxide alarm, they both want replacing in June twenty thirty-six."
    ).figures
    assert sorted((f.figure, f.state) for f in found) == [
        ("co-alarm=replace_by", "agrees"),
        ("smoke-alarm=replace_by", "agrees"),
    ]


def not_fitted(*lines: str) -> list[str]:
    """What is spoken of as fitted that the small van lacks."""
    return [one.kind for one in heard(small_van(), *lines).not_fitted]


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("And here's your microwave, up above the fridge.", "microwave"),
        ("You've also got a motor mover on this one.", "motor_mover"),
        ("This one's got air conditioning, up on the roof.", "air_conditioner"),
        ("There's a solar panel on the roof.", "solar_panel"),
        ("Up there is the TV aerial, wind it up and turn it.", "tv_aerial"),
        ("theres an outside shower round the back", "external_shower"),
        ("Now your smoke alarm, press the button every trip.", "smoke_alarm"),
        ("The microwave's in this cupboard.", "microwave"),
        ("She comes with a spare wheel underneath.", "spare_wheel"),
        ("Is there a solar panel? Yes, there is.", "solar_panel"),
        ("Water heater's under the seat here.", "water_heater"),
        ("and here a motor mover which you work from this hand set", "motor_mover"),
        ("We've fitted you a wheel clamp.", "wheel_lock"),
        ("Your awning light is by the door.", "awning_light"),
        ("You have a kitchen tap here.", "tap"),
    ],
)
def test_spoken_of_as_there(line: str, kind: str) -> None:
    """What is presented, pointed at or described as this van's, and is not on the sheet, is told."""
    assert kind in not_fitted(line)


@pytest.mark.parametrize(
    "line",
    [
        "There's no microwave on this one.",
        "You haven't got a motor mover.",
        "If you ever fit a motor mover, tell us.",
        "If you've got a mover at home, don't use it.",
        "Some vans have air conditioning.",
        "Most people want a solar panel in the end.",
        "You could add a solar panel later.",
        "It's wired for a solar panel.",
        "There's room for a microwave up there.",
        "We can fit a motor mover for you.",
        "The bigger one has a microwave.",
        "The microwave in your kitchen at home is no different. My brother's old van had a mover.",
        "A mover's an optional extra.",
        "Has it got a TV aerial? No.",
        "I wish you had a solar panel.",
        "It doesn't come with a spare wheel.",
        "Unlike a motor mover this needs no battery.",
        "Here's your microwave, no, I tell a lie, there's no microwave on this one.",
        "Open the window when you cook.",
        "Keep the spare key in the house.",
        "The screen comes on when you press it.",
        "It gets boiling hot.",
    ],
)
def test_not_spoken_of_as_there(line: str) -> None:
    """What is absent, wished for, optional, another van's, or only sounds like a kit's name is not told."""
    assert not_fitted(line) == []
