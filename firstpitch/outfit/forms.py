"""What car, load and stow sheets look like: sections, keys, units and bounds.

The bounds catch slips of the pen. They are common practice without a source and no legal limits.
"""

from __future__ import annotations

from firstpitch.sheet.form import ID, Listing, Row, Section, Value, choice, count, identifier, quantity, simple, text
from firstpitch.sheet.types import FactSpec

VERSION = 1
MOST_ITEMS = 500
MOST_PIECES = 2000
LICENCES = ("B", "B96", "BE", "other")
SIZE_CLASSES = {
    "small": (0.25, 0.20, 0.15),
    "medium": (0.40, 0.30, 0.25),
    "large": (0.60, 0.40, 0.35),
    "long": (1.20, 0.25, 0.25),
    "flat": (0.90, 0.60, 0.10),
}
"""Size classes of things nobody has measured, as long, wide, high [m]: our choice, common practice without a source."""

IDS = f"{ID}(?:, *{ID})*"
IDS_WORDS = "locker ids with commas between, such as “gas-locker, front-chest”"

FORMAT = count("firstpitch", "number of this file format", VERSION, VERSION, required=True)
TOWBAR = Section(
    "towbar",
    "towball and bar",
    (
        quantity("noseweight_limit", "S value stamped on the towbar", "kg", 10, 500),
        quantity("d_value", "D value stamped on the towbar", "kN", 1, 200),
    ),
)


def _axle(name: str, what: str) -> Section:
    return Section(
        name,
        what,
        (
            quantity("load", f"load on the {what} as it will travel, without the caravan", "kg", 200, 5000),
            quantity("limit", f"plated limit of the {what}", "kg", 200, 5000),
            count("load_index", f"load index of the tyres on the {what}", 40, 150),
        ),
    )


CAR = Section(
    "car",
    "towing car",
    (
        text("name", "name of the car", required=True),
        quantity("kerb_mass", "kerb mass from the car's papers", "kg", 400, 5000),
        text("kerb_includes", "what the kerb mass includes"),
        quantity("aboard", "people and luggage that the kerb mass does not include", "kg", 0, 2000),
        quantity(
            "laden_mass", "mass on a weighbridge as it will travel, without the caravan", "kg", 400, 7500, need="may"
        ),
        quantity("gross_vehicle_mass", "gross vehicle mass on the plate", "kg", 500, 7500),
        quantity("gross_train_mass", "gross train mass on the plate", "kg", 500, 15000),
        quantity("towing_limit", "greatest braked trailer mass", "kg", 100, 7500),
        quantity("noseweight_limit", "noseweight limit of the car", "kg", 10, 500),
        quantity("wheelbase", "wheelbase", "m", 1.5, 5),
        quantity("overhang", "distance from the rear axle to the towball", "m", 0.3, 3),
        quantity(
            "rear_allowance", "how far the handbook lets the rear axle go over when towing", "kg", 0, 300, need="may"
        ),
        simple("anti_lock", "whether the car has anti-lock brakes", "yes-no", need="may"),
    ),
    required=True,
)
DRIVER = Section(
    "driver",
    "driving licence",
    (
        choice("licence", "class of the driving licence", LICENCES),
        text("issued_in", "where the licence was issued", "[A-Z]{2}", "GB, EU or another two-letter code", need="must"),
        Value(FactSpec("test_passed", "day the car test was passed", "date", "", "must", (), None, 0)),
    ),
)
JOURNEY = Section(
    "journey",
    "where and when, and what is coupled",
    (
        text("country", "country of the journey", "[A-Z]{2}", "two capital letters, such as “GB” or “DE”", need="must"),
        simple("date", "day of the journey", "date"),
        simple("stabiliser", "whether a stabiliser is fitted", "yes-no", need="may"),
        simple("dampers", "whether the caravan's axles have dampers", "yes-no", need="may"),
        quantity(
            "ball_raise",
            "height of the coupled ball above the height at which the caravan is level",
            "m",
            -0.5,
            0.5,
            need="may",
        ),
        quantity("axle_stiffness", "stiffness of one axle's springs together", "kN/m", 5, 1000, need="may"),
    ),
)
CAR_SHEET = Section(
    "car sheet",
    "one car, its driver and the journey",
    (FORMAT, CAR, TOWBAR, _axle("front_axle", "front axle"), _axle("rear_axle", "rear axle"), DRIVER, JOURNEY),
)
ITEM = Section(
    "item",
    "one sort of thing that goes along",
    (
        identifier("id of this thing"),
        text("name", "name of this thing", required=True),
        quantity("mass", "mass of one of them", "kg", 0.01, 500, required=True),
        count("number", "how many of them", 1, 500),
        Row("size", "size of one of them", "m", ("long", "wide", "high"), bounds=(0.005, 6)),
        choice("size_class", "size class, where nobody has measured it", tuple(SIZE_CLASSES), need="may"),
        choice("reach", "from where it must be got at", ("outside", "inside", "any"), need="may"),
        simple("upright", "whether it must stay upright", "yes-no", need="may"),
        simple("needed", "whether it is among the last things to leave at home", "yes-no", need="may"),
        text("only_in", "the only lockers it may be in", IDS, IDS_WORDS),
        text("never_in", "lockers it must never be in", IDS, IDS_WORDS),
        text("fixed", "the locker it has its fixed place in", ID, "one locker id, such as “gas-locker”"),
    ),
)
WATER = Section(
    "water",
    "one tank or cassette",
    (
        text("kit", "id of the kit that holds it", ID, "the id of kit on the build sheet", required=True),
        quantity("volume", "how much is in it on the road", "l", 0, 500, required=True),
    ),
)
READINGS = Section(
    "readings",
    "what was measured with this load aboard, stowed as the stow says",
    (
        quantity("mass", "mass of the caravan on a weighbridge", "kg", 200, 6000, need="may"),
        quantity("noseweight", "noseweight as measured", "kg", 0, 1000, need="may"),
        Row("axles", "load of each axle, front to rear", "kg", ("axle",), most=3, bounds=(50, 6000)),
        quantity("brake_force", "parking-brake force at the wheels together", "N", 0, 50000, need="may"),
    ),
)
STOWED = Section(
    "stowed",
    "where things are",
    (
        text("item", "id of a thing on the load sheet", ID, "the id of an item", required=True),
        text("locker", "id of a locker on the build sheet", ID, "the id of a locker", required=True),
        count("number", "how many of them are there", 1, 500),
    ),
)
LOAD_SHEET = Section(
    "load sheet",
    "what the owner takes along",
    (
        FORMAT,
        Section("load", "name of this load", (text("name", "name of this load", required=True),), required=True),
        Listing("items", "things that go along", ITEM, required=True, most=MOST_ITEMS),
        Listing("water", "water in the van's tanks on the road", WATER, most=50),
        READINGS,
    ),
)
STOW_SHEET = Section(
    "stow sheet",
    "where everything is",
    (FORMAT, Listing("stow", "where everything is", STOWED, required=True, most=5000)),
)
